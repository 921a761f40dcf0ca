import { statSync } from "node:fs";
import { tableFiles } from "./analyse-session.js";
import type { Input } from "./find-inputs.js";

/** What tells whether a file is the one it was: its size and when it was last written. */
interface FileState {
  readonly path: string;
  readonly bytes: number;
  readonly written: string;
}

/** The files of an input, as they are now; nothing for a stream, which comes only once. */
export interface Fingerprint {
  readonly path: string;
  readonly files: readonly FileState[] | null;
}

/** What tells whether an input is the one it was. */
export function fingerprint({ kind, path }: Input): Fingerprint {
  if (kind === "stdin" || (kind !== "tables" && !statSync(path).isFile())) return { path, files: null };
  return { path, files: (kind === "tables" ? tableFiles(path) : [path]).map(stateOf) };
}

/** Bytes of all inputs that have a size. */
export function bytesOf(inputs: readonly Fingerprint[]): number {
  return inputs.reduce((sum, { files }) => sum + (files ?? []).reduce((all, { bytes }) => all + bytes, 0), 0);
}

/** Whether everything can be read again. */
export function isLasting(inputs: readonly Fingerprint[]): boolean {
  return inputs.every(({ files }) => files !== null);
}

/** In what the inputs of two runs differ, in words; nothing if they do not. */
export function differenceOf(before: readonly Fingerprint[], now: readonly Fingerprint[]): string | undefined {
  for (const [i, { path, files }] of now.entries()) {
    const then = before[i];
    if (then?.path !== path) return `it read ${then?.path ?? "nothing"} where this one reads ${path}`;
    const [had, have] = [wordsOf(then.files), wordsOf(files)];
    if (had !== have) return `${path} has changed: it had ${had}, it has ${have}`;
  }
  const more = before[now.length];
  return more && `it read ${more.path}, which this one does not`;
}

function wordsOf(files: Fingerprint["files"]): string {
  if (files === null) return "no size";
  return files.map(({ path, bytes, written }) => `${files.length > 1 ? `${path} ` : ""}${bytes} bytes written ${written}`).join(", ");
}

function stateOf(path: string): FileState {
  const { size, mtimeMs, mtime } = statSync(path);
  const fraction = (mtimeMs % 1).toFixed(4).slice(1);
  return { path, bytes: size, written: mtime.toISOString().replace("Z", `${fraction.slice(1)}Z`) };
}
