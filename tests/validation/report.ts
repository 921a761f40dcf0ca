// Prints figures as they come, one aligned line each, or all of them at the end as JSON; stores them for the site on request, else tells when
// what is stored there has aged. Shared by validation and benchmarks.
import type { Figure, Outcome, Skipped } from "./figure.js";
import { ageOfStored, rounded, writeStored } from "./stored.js";

export interface ReportOptions {
  /** An array on standard output and nothing else there. */
  readonly json?: boolean;
  /** Store the run for the site's page. */
  readonly page?: boolean;
  /** Whether this is the smaller run, which the page then says. */
  readonly quick?: boolean;
  /** Whether only some of the modules run, so that the names cannot be compared with the stored ones. */
  readonly partial?: boolean;
  /** The command that stores a run. */
  readonly command: string;
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
  const quiet = options.json === true;
  const print = quiet ? console.error : console.log;
  const figures: Figure[] = [];
  const skipped: Skipped[] = [];
  const started = performance.now();

  const take = (outcome: Outcome, widths: Widths): void => {
    if ("skipped" in outcome) {
      skipped.push(outcome);
      print(`skipped: ${outcome.name}: ${outcome.skipped}`);
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
      const seconds = (performance.now() - started) / 1000;
      if (options.page) print(`stored: ${writeStored(title, { quick: options.quick === true, seconds, figures, skipped })}`);
      const aged = options.page || options.partial ? [] : ageOfStored(title, { figures, skipped }, options.quick === true, options.command);
      for (const complaint of aged) print(complaint);
      print(
        `${title}: ${figures.length - short.length} of ${figures.length} figures ok, ${short.length} short, ${skipped.length} skipped, ${seconds.toFixed(1)} s`,
      );
      return short.length > 0 || aged.length > 0 || figures.length === 0 ? 1 : 0;
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
  return `${ok ? "ok   " : "SHORT"}  ${name.padEnd(widths.name)}  ${String(rounded(value)).padStart(11)}  ${bar.padEnd(widths.bar)}  ${source}`;
}
