import { readdirSync, realpathSync, type Stats, statSync } from "node:fs";
import { extname, join } from "node:path";
import { TABLES } from "../trace/form/csv-tables.js";
import { messageOf } from "./streams.js";

/** Something to read: standard input, a file (`unknown`: its name does not tell its form), or a folder of one session's tables. */
export interface Input {
  readonly kind: "stdin" | "lines" | "samples" | "unknown" | "tables";
  readonly path: string;
}

/** What a look at the paths found. */
export interface Found {
  readonly inputs: readonly Input[];
  /** Files that are no recordings by their names. */
  readonly skipped: readonly string[];
  /** Files and folders that were met before, by this or another name. */
  readonly again: readonly string[];
  readonly errors: readonly string[];
}

/** The table that makes a folder one session. */
const SAMPLES = "samples.csv";
const KINDS: Readonly<Record<string, Input["kind"]>> = { ".jsonl": "lines", ".ndjson": "lines", ".csv": "samples" };

/** Everything to read below the paths, in the order given and by name within folders. A folder is entered once, however many links lead to it. */
export function findInputs(paths: readonly string[]): Found {
  const inputs: Input[] = [];
  const skipped: string[] = [];
  const again: string[] = [];
  const errors: string[] = [];
  const seen = new Set<string>();
  const look = (path: string, named: boolean): void => {
    if (path === "-") {
      if (inputs.some((input) => input.kind === "stdin")) again.push(path);
      else inputs.push({ kind: "stdin", path });
      return;
    }
    const kind = KINDS[extname(path).toLowerCase()];
    try {
      const state = statSync(path);
      // a file that somebody names is read, whatever it is called, and a pipe, too
      const isRead = named ? !state.isDirectory() : state.isFile() && kind !== undefined;
      if (!isRead && !state.isDirectory()) skipped.push(path);
      else if (isMetAgain(path, state)) again.push(path);
      else if (isRead) inputs.push({ kind: kind ?? "unknown", path });
      else enter(path);
    } catch (error) {
      // what is no recording by its name need not be there: some programs leave links that lead nowhere
      if (named || kind !== undefined || !isAbsent(error)) errors.push(`${path}: cannot be read: ${messageOf(error)}`);
      else skipped.push(path);
    }
  };
  const isMetAgain = (path: string, state: Stats): boolean => {
    // each pipe is read once in any case, and has no path of its own
    if (!state.isFile() && !state.isDirectory()) return false;
    const real = realpathSync(path);
    const met = seen.has(real);
    seen.add(real);
    return met;
  };
  const enter = (folder: string): void => {
    const names = readdirSync(folder).sort();
    const hasTables = names.includes(SAMPLES);
    if (hasTables) inputs.push({ kind: "tables", path: folder });
    // beside the tables other tables are no samples: an unknown one is told of, sessions of their own are read
    for (const name of names) {
      const isCsv = extname(name).toLowerCase() === ".csv";
      if (!hasTables || !isCsv) look(join(folder, name), false);
      else if (!isTable(name)) skipped.push(join(folder, name));
    }
  };
  for (const path of paths) look(path, true);
  return { inputs, skipped, again, errors };
}

/** Whether a file of this name holds one of the tables of a session. */
export function isTable(name: string): boolean {
  return name.endsWith(".csv") && Object.hasOwn(TABLES, name.slice(0, -".csv".length));
}

function isAbsent(error: unknown): boolean {
  const { code } = error as NodeJS.ErrnoException;
  return code === "ENOENT" || code === "ELOOP";
}
