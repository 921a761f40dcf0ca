import { existsSync, realpathSync, statSync } from "node:fs";
import { tableFiles } from "./analyse-session.js";
import type { Input } from "./find-inputs.js";
import { UsageError } from "./parse-arguments.js";
import { type Sink, send } from "./streams.js";
import { beginFile } from "./write-file.js";

/** Where one stream of text or bytes goes. */
export interface Output {
  readonly send: (content: string | Uint8Array) => Promise<void>;
  readonly finish: () => void;
  readonly abandon: () => void;
}

/** The file at `path`, or standard output. */
export function openOutput(path: string | undefined, stdout: Sink): Output {
  if (path === undefined) return { send: (content) => send(stdout, content), finish: () => {}, abandon: () => {} };
  const file = beginFile(path);
  return { send: async (content) => file.write(content), finish: file.finish, abandon: file.abandon };
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
    const files = kind === "tables" ? tableFiles(input) : [input];
    return files.some((file) => existsSync(file) && realpathSync(file) === real);
  });
}
