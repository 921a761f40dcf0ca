import { closeSync, mkdirSync, openSync, renameSync, rmSync, writeSync } from "node:fs";
import { dirname } from "node:path";

// Files begun and not finished: what an interrupt has to clear away. The one thing that a program which is stopped must know of itself.
const unfinished = new Set<string>();

/** A file in the making: whole under its own name at the end, or not there. */
export interface FileWriter {
  readonly write: (text: string) => void;
  /** Gives the file its name. */
  readonly finish: () => void;
  /** Leaves no trace of it. */
  readonly abandon: () => void;
}

/** Begins a file under another name beside its own. */
export function beginFile(path: string): FileWriter {
  mkdirSync(dirname(path), { recursive: true });
  const part = `${path}.${process.pid}.part`;
  const handle = openSync(part, "w");
  unfinished.add(part);
  const close = (): void => {
    closeSync(handle);
    unfinished.delete(part);
  };
  return {
    write: (text) => {
      // a write may take less than all of it
      for (let bytes = Buffer.from(text); bytes.length > 0; ) bytes = bytes.subarray(writeSync(handle, bytes));
    },
    finish: () => {
      close();
      renameSync(part, path);
    },
    abandon: () => {
      close();
      rmSync(part, { force: true });
    },
  };
}

/** Writes a whole file or none. */
export function writeWhole(path: string, text: string): void {
  const file = beginFile(path);
  try {
    file.write(text);
  } catch (error) {
    file.abandon();
    throw error;
  }
  file.finish();
}

/** Clears away what was begun. */
export function removeUnfinished(): void {
  for (const part of unfinished) rmSync(part, { force: true });
}
