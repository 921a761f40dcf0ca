import { existsSync, realpathSync, statSync } from "node:fs";
import type { Input } from "./find-inputs.js";
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

/** Refuses to write over what is read. */
export function requireOtherFile(path: string, inputs: readonly Input[]): void {
  if (!existsSync(path)) return;
  if (statSync(path).isDirectory()) throw new UsageError(`--out must name a file for this form, got the folder ${path}`);
  const real = realpathSync(path);
  if (inputs.some(({ kind, path: input }) => kind !== "stdin" && realpathSync(input) === real)) {
    throw new UsageError(`--out must not be a file that is read, got ${path}`);
  }
}
