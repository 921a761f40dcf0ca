import { realpathSync } from "node:fs";
import { resolve } from "node:path";
import { VERSION } from "../math/version.js";
import { atStop } from "./at-stop.js";
import type { Input } from "./find-inputs.js";
import { differenceOf, type Fingerprint, isLasting } from "./fingerprint.js";
import { beginJournal, type Journal, type JournalHead, openJournal, readHead } from "./journal.js";
import { lockOutput } from "./lock-output.js";
import { isRead } from "./output.js";
import { type Settings, UsageError } from "./parse-arguments.js";
import { isDevice } from "./write-file.js";

/** The journal of one run, and the lock on what it writes. */
export interface Keeping {
  readonly journal: Journal;
  /** The end: nothing is left to go on with. */
  readonly finish: () => void;
  /** A stop before the end: gives the words about what can be gone on with, if there is any. */
  readonly stop: () => string | undefined;
}

/** Begins the journal of a run that writes a file or a folder, or goes on with that of an earlier run; `undefined` where there is none to keep. */
export function keepJournal(
  settings: Settings,
  mostBytes: number,
  inputs: readonly Input[],
  prints: readonly Fingerprint[],
): Keeping | undefined {
  const { out, resume } = settings;
  if (out === undefined || isDevice(out)) return undefined;
  const target = realPath(out);
  const path = `${target}.journal`;
  if (isRead(path, inputs)) throw new UsageError(`--out ${out}: ${path} is a file that is read, and a journal has to have that name`);
  if (resume && !isLasting(prints)) throw new UsageError("--resume needs files: standard input and pipes cannot be read again");
  const unlock = lockOutput(target);
  try {
    const head: JournalHead = {
      kind: "journal",
      program: "aimed-movement",
      version: VERSION,
      options: optionsOf(settings, mostBytes),
      inputs: prints,
    };
    const journal = chosenJournal(path, head, out, resume);
    const stop = (): string | undefined => {
      forget();
      const isWorthIt = journal.count() > 0 && isLasting(prints);
      if (isWorthIt) journal.close();
      else journal.remove();
      unlock();
      return isWorthIt ? `${journal.count()} sessions are done; go on with --resume, or remove ${path}` : undefined;
    };
    const forget = atStop(stop);
    return {
      journal,
      finish: () => {
        forget();
        journal.remove();
        unlock();
      },
      stop,
    };
  } catch (error) {
    unlock();
    throw error;
  }
}

function chosenJournal(path: string, head: JournalHead, out: string, resume: boolean): Journal {
  const before = readHead(path);
  if (before === undefined) return beginJournal(path, head);
  if (before === "other") throw new UsageError(`--out ${out}: ${path} is no journal of this program, and a journal has to have that name`);
  if (resume) {
    const difference = differentOptions(before, head) ?? differenceOf(before.inputs, head.inputs);
    if (difference !== undefined) throw new UsageError(`--resume: the run that was stopped was another one: ${difference}`);
    return openJournal(path);
  }
  if (isLasting(before.inputs)) {
    const journal = openJournal(path);
    journal.close();
    if (journal.count() > 0)
      throw new UsageError(
        `--out ${out}: an earlier run was stopped after ${journal.count()} sessions; go on with --resume, or remove ${path}`,
      );
  }
  return beginJournal(path, head);
}

/** What changes a result. */
function optionsOf({ form, people, minutes, wanted, among, repair, seed }: Settings, mostBytes: number): JournalHead["options"] {
  return { form, person: people, minutes, wanted, among, repair, seed, mostBytes };
}

function differentOptions(before: JournalHead, now: JournalHead): string | undefined {
  if (before.version !== now.version) return `it was of version ${before.version}, this is ${now.version}`;
  for (const [name, value] of Object.entries(now.options)) {
    const [had, has] = [JSON.stringify(before.options[name]), JSON.stringify(value)];
    if (had !== has) return `--${name} was ${had}, and is ${has}`;
  }
  return undefined;
}

/** One name for a target, whichever link leads to it. */
function realPath(out: string): string {
  try {
    return realpathSync(out);
  } catch {
    return resolve(out);
  }
}
