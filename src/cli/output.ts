import { existsSync, readdirSync, realpathSync, statSync } from "node:fs";
import { join } from "node:path";
import { type Input, isTable } from "./find-inputs.js";
import { UsageError } from "./parse-arguments.js";
import { type Sink, send } from "./streams.js";
import { beginFile } from "./write-file.js";

/** Where one stream of text goes. */
export interface Output {
  readonly send: (text: string) => Promise<void>;
  readonly finish: () => void;
  readonly abandon: () => void;
}

/** The file at `path`, or standard output. */
export function openOutput(path: string | undefined, stdout: Sink): Output {
  if (path === undefined) return { send: (text) => send(stdout, text), finish: () => {}, abandon: () => {} };
  const file = beginFile(path);
  return { send: async (text) => file.write(text), finish: file.finish, abandon: file.abandon };
}

/** Refuses to write one file over what is read, or where a folder is. */
export function requireOtherFile(path: string, inputs: readonly Input[]): void {
  if (statSync(path, { throwIfNoEntry: false })?.isDirectory()) {
    throw new UsageError(`--out must name a file for this form, got the folder ${path}`);
  }
  if (isRead(path, inputs)) throw new UsageError(`--out must not be a file that is read, got ${path}`);
}

/** Whether a file is one of those that are read, under whatever name; the tables in a folder are. */
export function isRead(path: string, inputs: readonly Input[]): boolean {
  if (!existsSync(path) || !statSync(path).isFile()) return false;
  const real = realpathSync(path);
  return inputs.some(({ kind, path: input }) => {
    if (kind === "stdin" || !existsSync(input)) return false;
    const files =
      kind === "tables"
        ? readdirSync(input)
            .filter(isTable)
            .map((name) => join(input, name))
        : [input];
    return files.some((file) => existsSync(file) && realpathSync(file) === real);
  });
}
