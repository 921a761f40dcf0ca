import { readdirSync, realpathSync, statSync } from "node:fs";
import { extname, join } from "node:path";
import { messageOf } from "./streams.js";

/** Something to read: standard input, a file, or a folder of one session's tables. */
export interface Input {
  readonly kind: "stdin" | "lines" | "samples" | "tables";
  readonly path: string;
}

/** What a look at the paths found. */
export interface Found {
  readonly inputs: readonly Input[];
  /** Files that are no recordings by their names. */
  readonly skipped: readonly string[];
  readonly errors: readonly string[];
}

/** The table that makes a folder one session. */
const SAMPLES = "samples.csv";

/** Everything to read below the paths, in the order given and by name within folders. A folder is entered once, however many links lead to it. */
export function findInputs(paths: readonly string[]): Found {
  const inputs: Input[] = [];
  const skipped: string[] = [];
  const errors: string[] = [];
  const seen = new Set<string>();
  const look = (path: string, named: boolean): void => {
    if (path === "-") {
      inputs.push({ kind: "stdin", path });
      return;
    }
    try {
      const real = realpathSync(path);
      if (seen.has(real)) return;
      seen.add(real);
      const state = statSync(real);
      if (state.isDirectory()) {
        enter(path);
        return;
      }
      const kind = KINDS[extname(path).toLowerCase()];
      // a file that somebody names is read, whatever it is called
      if (state.isFile() && (kind !== undefined || named)) inputs.push({ kind: kind ?? "lines", path });
      else skipped.push(path);
    } catch (error) {
      errors.push(`${path}: cannot be read: ${messageOf(error)}`);
    }
  };
  const enter = (folder: string): void => {
    const names = readdirSync(folder).sort();
    if (names.includes(SAMPLES)) inputs.push({ kind: "tables", path: folder });
    else for (const name of names) look(join(folder, name), false);
  };
  for (const path of paths) look(path, true);
  return { inputs, skipped, errors };
}

const KINDS: Readonly<Record<string, Input["kind"]>> = { ".jsonl": "lines", ".ndjson": "lines", ".csv": "samples" };
