import { closeSync, fsyncSync, lstatSync, mkdirSync, openSync, realpathSync, renameSync, rmSync, statSync, writeSync } from "node:fs";
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

/** Begins a file under another name beside its own. What is no file, such as a device or a pipe, is written to as it is. */
export function beginFile(path: string): FileWriter {
  if (isDevice(path)) return beginDevice(path);
  mkdirSync(dirname(path), { recursive: true });
  // a link stays a link: the file it leads to is the one that is written anew
  const target = isLink(path) ? realpathSync(path) : path;
  const part = `${target}.${process.pid}.part`;
  const handle = openSync(part, "wx");
  unfinished.add(part);
  let isOpen = true;
  const close = (): void => {
    if (isOpen) closeSync(handle);
    isOpen = false;
  };
  const abandon = (): void => {
    close();
    rmSync(part, { force: true });
    unfinished.delete(part);
  };
  const finish = (): void => {
    try {
      fsyncSync(handle);
      close();
      renameSync(part, target);
      unfinished.delete(part);
    } catch (error) {
      abandon();
      throw error;
    }
  };
  return { write: (text) => writeAll(handle, text), finish, abandon };
}

function beginDevice(path: string): FileWriter {
  const handle = openSync(path, "w");
  let isOpen = true;
  const close = (): void => {
    if (isOpen) closeSync(handle);
    isOpen = false;
  };
  return { write: (text) => writeAll(handle, text), finish: close, abandon: close };
}

function writeAll(handle: number, text: string): void {
  // a write may take less than all of it
  for (let bytes = Buffer.from(text); bytes.length > 0; ) bytes = bytes.subarray(writeSync(handle, bytes));
}

function isDevice(path: string): boolean {
  const state = statSync(path, { throwIfNoEntry: false });
  return state !== undefined && !state.isFile() && !state.isDirectory();
}

function isLink(path: string): boolean {
  return lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() === true && statSync(path, { throwIfNoEntry: false }) !== undefined;
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
