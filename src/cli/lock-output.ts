import { randomUUID } from "node:crypto";
import { closeSync, fsyncSync, openSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { hostname } from "node:os";
import { basename, dirname, join } from "node:path";
import { atStop } from "./at-stop.js";
import { UsageError } from "./parse-arguments.js";
import { ensureFolder } from "./write-file.js";

/** Who writes an output. */
interface Owner {
  readonly process: number;
  readonly host: string;
  readonly since: string;
  readonly token: string;
}

/** Keeps other runs off an output until it is released; the lock of a run that was killed is taken over, on the same machine. */
export function lockOutput(target: string): () => void {
  const path = `${target}.lock`;
  const owner: Owner = { process: process.pid, host: hostname(), since: new Date().toISOString(), token: randomUUID() };
  ensureFolder(dirname(path));
  if (!create(path, owner)) {
    takeAway(path, target);
    if (!create(path, owner)) throw inUse(path, target, readOwner(path));
    removeParts(target);
  }
  const forget = atStop(() => void rmSync(path, { force: true }));
  return () => {
    forget();
    rmSync(path, { force: true });
  };
}

function create(path: string, owner: Owner): boolean {
  try {
    const handle = openSync(path, "wx");
    writeFileSync(handle, JSON.stringify(owner));
    fsyncSync(handle);
    closeSync(handle);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw error;
  }
}

/** Takes the lock of an ended run away. It is looked at again once it is aside, since another run may have taken it over in between. */
function takeAway(path: string, target: string): void {
  const owner = readOwner(path);
  if (owner === undefined || isAlive(owner)) throw inUse(path, target, owner);
  const aside = `${path}.${owner.token}`;
  renameSync(path, aside);
  const moved = readOwner(aside);
  if (moved?.token !== owner.token) {
    renameSync(aside, path);
    throw inUse(path, target, moved);
  }
  rmSync(aside);
}

function readOwner(path: string): Owner | undefined {
  try {
    return JSON.parse(readFileSync(path, "utf8")) as Owner;
  } catch {
    return undefined;
  }
}

function isAlive({ process: id, host }: Owner): boolean {
  // of another machine nothing is known: what is there may be in use
  if (host !== hostname()) return true;
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

function inUse(path: string, target: string, owner: Owner | undefined): UsageError {
  const who = owner === undefined ? "" : ` (process ${owner.process} on ${owner.host} since ${owner.since})`;
  return new UsageError(`--out ${target}: another run is writing it${who}; if that has ended, remove ${path}`);
}

/** What a killed run left of files in the making. */
function removeParts(target: string): void {
  for (const folder of [dirname(target), target]) {
    const names = readNames(folder).filter((name) => /\.[0-9a-f]{8}\.part$/.test(name));
    for (const name of names) if (folder === target || name.startsWith(`${basename(target)}.`)) rmSync(join(folder, name), { force: true });
  }
}

function readNames(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}
