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
import { atStop } from "./at-stop.js";

/** A file in the making: whole under its own name at the end, or not there. */
export interface FileWriter {
  readonly write: (content: string | Uint8Array) => void;
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
  const forget = atStop(() => void rmSync(part, { force: true }));
  let isOpen = true;
  const close = (): void => {
    if (isOpen) closeSync(handle);
    isOpen = false;
  };
  const abandon = (): void => {
    close();
    rmSync(part, { force: true });
    forget();
  };
  const finish = (): void => {
    try {
      fsyncSync(handle);
      close();
      renameSync(part, target);
      forget();
    } catch (error) {
      abandon();
      throw error;
    }
  };
  return { write: (content) => writeAll(handle, content), finish, abandon };
}

/** Makes a folder and those above it. Node's own way never returns where a system refuses below a folder that is there, such as /proc. */
export function ensureFolder(path: string): void {
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
  return { write: (content) => writeAll(handle, content), finish: close, abandon: close };
}

/** Writes all of it: one call may take less. */
export function writeAll(handle: number, content: string | Uint8Array, at: number | null = null): void {
  let place = at;
  for (let bytes = typeof content === "string" ? Buffer.from(content) : content; bytes.length > 0; ) {
    const written = writeSync(handle, bytes, 0, bytes.length, place);
    if (place !== null) place += written;
    bytes = bytes.subarray(written);
  }
}

/** Whether what is there is no file, and so is written to as it is. */
export function isDevice(path: string): boolean {
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
