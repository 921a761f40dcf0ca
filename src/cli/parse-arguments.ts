import { availableParallelism } from "node:os";
import { parseArgs } from "node:util";

/** What one run is to do. */
export interface Settings {
  readonly paths: readonly string[];
  readonly form: "text" | "html" | "csv" | "parquet" | "json" | "tally";
  readonly out?: string;
  /** Empty means everybody. */
  readonly people: readonly string[];
  readonly minutes: number;
  readonly wanted: number;
  readonly among: boolean;
  readonly repair: boolean;
  readonly seed: number;
  readonly quiet: boolean;
  /** Sessions that are analysed at a time. */
  readonly workers: number;
  /** Go on where an earlier run stopped. */
  readonly resume: boolean;
  readonly show?: "help" | "version";
}

/** A wrong use of the command: the message is for the person who typed it. */
export class UsageError extends Error {}

const FORMS = ["text", "html", "csv", "parquet", "json", "tally"] as const;
/** More threads than these are taken only when asked for: each takes some 50 MB. */
const USUAL_WORKERS = 8;

/** Reads the command line. */
export function parseArguments(argv: readonly string[]): Settings {
  const { values, positionals } = read(argv);
  const form = values.form ?? "text";
  if (!FORMS.includes(form as Settings["form"]))
    throw new UsageError(`--form must be one of ${FORMS.join(", ")}, got ${JSON.stringify(form)}`);
  if (values.resume && values.out === undefined) throw new UsageError("--resume goes on with the file of --out, got none");
  if (values.out === "") throw new UsageError("--out must name a file or folder, got nothing");
  return {
    paths: positionals,
    form: form as Settings["form"],
    ...(values.out !== undefined && { out: values.out }),
    people: values.person ?? [],
    minutes: numberOf("--minutes", values.minutes ?? "60", 10, 240),
    wanted: numberOf("--wanted", values.wanted ?? "0.95", 0.5, 0.99),
    among: values.among === true,
    repair: values.repair === true,
    seed: wholeOf("--seed", values.seed ?? "1", -(2 ** 31), 2 ** 32 - 1),
    quiet: values.quiet === true,
    workers: values.workers === undefined ? Math.min(availableParallelism(), USUAL_WORKERS) : wholeOf("--workers", values.workers, 1, 256),
    resume: values.resume === true,
    ...(values.help ? { show: "help" as const } : values.version ? { show: "version" as const } : {}),
  };
}

function read(argv: readonly string[]) {
  try {
    return parseArgs({
      args: [...argv],
      allowPositionals: true,
      options: {
        form: { type: "string" },
        out: { type: "string" },
        person: { type: "string", multiple: true },
        minutes: { type: "string" },
        wanted: { type: "string" },
        among: { type: "boolean" },
        repair: { type: "boolean" },
        seed: { type: "string" },
        quiet: { type: "boolean" },
        workers: { type: "string" },
        resume: { type: "boolean" },
        help: { type: "boolean" },
        version: { type: "boolean" },
      },
    });
  } catch (error) {
    // Node's own words name the option; the advice after the first sentence is about quoting
    throw new UsageError((error as Error).message.split(". ")[0]!);
  }
}

function numberOf(name: string, text: string, low: number, high: number): number {
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (!(value >= low && value <= high))
    throw new UsageError(`${name} must be a number from ${low} to ${high}, got ${JSON.stringify(text)}`);
  return value;
}

function wholeOf(name: string, text: string, low: number, high: number): number {
  const value = numberOf(name, text, low, high);
  if (!Number.isInteger(value)) throw new UsageError(`${name} must be a whole number, got ${JSON.stringify(text)}`);
  return value;
}
