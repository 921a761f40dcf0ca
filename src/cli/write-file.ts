import { randomUUID } from "node:crypto";
import {
  closeSync,
  existsSync,
  fsyncSync,
  lstatSync,
  mkdirSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from "node:fs";
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
  ensureFolder(dirname(path));
  // a link stays a link: the file it leads to is the one that is written anew
  const target = isLink(path) ? realpathSync(path) : path;
  // by chance, since the number of a process comes again: what an ended one left is in nobody's way
  const part = `${target}.${randomUUID().slice(0, 8)}.part`;
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

/** Makes a folder and those above it. Node's own way never returns where a system refuses below a folder that is there, such as /proc. */
function ensureFolder(path: string): void {
  if (existsSync(path)) return;
  if (dirname(path) !== path) ensureFolder(dirname(path));
  try {
    mkdirSync(path);
  } catch (error) {
    // another run may have made it at the same time
    if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error;
  }
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
