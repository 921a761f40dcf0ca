// Prints figures as they come, one aligned line each, or all of them at the end as JSON or a table. Shared by validation and benchmarks.
import type { Figure, Outcome } from "./figure.js";

export interface ReportOptions {
  /** An array on standard output and nothing else there. */
  readonly json?: boolean;
  /** A Markdown table on standard output and nothing else there. */
  readonly markdown?: boolean;
}

export interface Report {
  /** Runs one module and takes its figures; an error is a figure that is short. */
  readonly take: (module: string, run: () => Promise<readonly Outcome[]>) => Promise<void>;
  /** Prints what is left and gives the exit code: 1 when a figure is short or there is none. */
  readonly finish: () => number;
}

interface Widths {
  readonly name: number;
  readonly bar: number;
}

const NAME = 40;
const BAR = 16;

/** A report that calls its figures `title`. */
export function createReport(title: string, options: ReportOptions): Report {
  const quiet = options.json === true || options.markdown === true;
  const figures: Figure[] = [];
  const started = performance.now();
  let skips = 0;

  const take = (outcome: Outcome, widths: Widths): void => {
    if ("skipped" in outcome) {
      skips++;
      (quiet ? console.error : console.log)(`skipped: ${outcome.name}: ${outcome.skipped}`);
      return;
    }
    const figure = sound(outcome, figures);
    figures.push(figure);
    if (!quiet) console.log(line(figure, widths));
  };

  return {
    take: async (module, run) => {
      try {
        const outcomes = await run();
        if (outcomes.length === 0) throw new Error("gave no figure");
        const widths = widthsOf(outcomes);
        for (const outcome of outcomes) take(outcome, widths);
      } catch (error) {
        if (error instanceof Error) console.error(error.stack);
        take({ name: `${title}/${module}`, value: 0, bar: "runs to its end", ok: false, source: String(error) }, widthsOf([]));
      }
    },
    finish: () => {
      const short = figures.filter((figure) => !figure.ok);
      if (options.json) console.log(JSON.stringify(figures, null, 1));
      else if (options.markdown) console.log(table(figures));
      const seconds = ((performance.now() - started) / 1000).toFixed(1);
      const summary = `${title}: ${figures.length - short.length} of ${figures.length} figures ok, ${short.length} short, ${skips} skipped, ${seconds} s`;
      (quiet ? console.error : console.log)(summary);
      return short.length > 0 || figures.length === 0 ? 1 : 0;
    },
  };
}

/** A figure that cannot be believed is short, whatever its module says. */
function sound(figure: Figure, before: readonly Figure[]): Figure {
  const { name, value, bar, ok, source } = figure;
  const faults: string[] = [];
  if (typeof value !== "number" || !Number.isFinite(value)) faults.push(`value is ${value}`);
  if (!/^[\w-]+\/\S/.test(name)) faults.push("name is not folder/what");
  if (before.some((other) => other.name === name)) faults.push("name is given twice");
  if (source.trim() === "") faults.push("names no source");
  if (faults.length === 0) return { name, value, bar, ok, source };
  return { name, value: Number.isFinite(value) ? value : 0, bar, ok: false, source: `${source} [${faults.join(", ")}]` };
}

/** The lines of one module are aligned among themselves. */
function widthsOf(outcomes: readonly Outcome[]): Widths {
  const longest = (least: number, texts: readonly string[]) => Math.max(least, ...texts.map((text) => text.length));
  const bars = outcomes.flatMap((outcome) => ("bar" in outcome ? [outcome.bar] : []));
  return {
    name: longest(
      NAME,
      outcomes.map((outcome) => outcome.name),
    ),
    bar: longest(BAR, bars),
  };
}

function line({ name, value, bar, ok, source }: Figure, widths: Widths): string {
  return `${ok ? "ok   " : "SHORT"}  ${name.padEnd(widths.name)}  ${shown(value).padStart(11)}  ${bar.padEnd(widths.bar)}  ${source}`;
}

function table(figures: readonly Figure[]): string {
  const cell = (text: string) => text.replaceAll("|", "\\|").replaceAll("<", "&lt;").replaceAll("\n", " ");
  const rows = figures.map(
    ({ name, value, bar, ok, source }) =>
      `| ${cell(name)} | ${shown(value)} | ${cell(bar)} | ${ok ? "ok" : "**short**"} | ${cell(source)} |`,
  );
  return ["| figure | value | bar | | source |", "| --- | ---: | --- | --- | --- |", ...rows].join("\n");
}

/** Five digits say all that a bar needs. */
function shown(value: number): string {
  return Number.isInteger(value) ? String(value) : String(Number(value.toPrecision(5)));
}
