import { createHash } from "node:crypto";
import { closeSync, fdatasync, ftruncateSync, openSync, readSync, rmSync } from "node:fs";
import type { Done } from "./analyse-in-order.js";
import type { Outcome } from "./analyse-session.js";
import type { Fingerprint } from "./fingerprint.js";
import { writeAll, writeWhole } from "./write-file.js";

/** Milliseconds between two times that what was written is brought to the disk: what a power failure may cost. A killed program loses none of it. */
const SYNC_PAUSE = 1000;
const SUM_DIGITS = 16;
const READ_SIZE = 2 ** 20;
const LINE_END = 10;

/** What a run was to do, told in the first line of its journal. */
export interface JournalHead {
  readonly kind: "journal";
  readonly program: "aimed-movement";
  readonly version: string;
  readonly options: Readonly<Record<string, unknown>>;
  readonly inputs: readonly Fingerprint[];
}

/** What came of a session, and where it stands in the journal. */
export interface Entry extends Omit<Done, "text"> {
  readonly recall: () => Outcome;
}

/** What a run has done with so far, one session a line: a run that was stopped goes on from it, and reports read it again. */
export interface Journal {
  readonly append: (done: Done) => Entry;
  /** What stood in it when it was opened. */
  readonly entries: () => Generator<Entry>;
  readonly count: () => number;
  readonly close: () => void;
  readonly remove: () => void;
}

/** Begins a journal. Its first line is there whole or not at all. */
export function beginJournal(path: string, head: JournalHead): Journal {
  writeWhole(path, `${JSON.stringify(head)}\n`);
  return openJournal(path);
}

/** The first line of a journal; `undefined` where there is none, `"other"` where the file is something else. */
export function readHead(path: string): JournalHead | "other" | undefined {
  let handle: number;
  try {
    handle = openSync(path, "r");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return undefined;
    throw error;
  }
  try {
    const first = linesOf(handle).next();
    const head: JournalHead | undefined = first.done ? undefined : JSON.parse(first.value.bytes.toString());
    return head?.kind === "journal" && head.program === "aimed-movement" ? head : "other";
  } catch {
    return "other";
  } finally {
    closeSync(handle);
  }
}

/** Opens a journal to go on with it. What a stop tore at its end is cut off: the session is analysed again. */
export function openJournal(path: string): Journal {
  const handle = openSync(path, "r+");
  const places: Line[] = [];
  let end = 0;
  for (const { at, bytes } of linesOf(handle)) {
    if (at > 0 && !isSound(bytes)) break;
    if (at > 0) places.push({ at, length: bytes.length });
    end = at + bytes.length + 1;
  }
  ftruncateSync(handle, end);
  const sync = createSync(handle);
  let count = places.length;
  let isOpen = true;
  const close = (): void => {
    if (isOpen) closeSync(handle);
    isOpen = false;
  };
  const outcomeAt = (line: Line): { input: number; outcome: Outcome } => JSON.parse(textAt(handle, line)).entry;
  return {
    append: ({ input, outcome, text }) => {
      const entry = `{"input":${input},"outcome":${text ?? JSON.stringify(outcome)}}`;
      const line = Buffer.from(`{"sum":"${sumOf(entry)}","entry":${entry}}`);
      const place = { at: end, length: line.length };
      writeAll(handle, Buffer.concat([line, Buffer.of(LINE_END)]), end);
      end += line.length + 1;
      count++;
      sync();
      return { input, outcome, recall: () => outcomeAt(place).outcome };
    },
    entries: function* () {
      for (const place of places) yield { ...outcomeAt(place), recall: () => outcomeAt(place).outcome };
    },
    count: () => count,
    close,
    remove: () => {
      close();
      rmSync(path, { force: true });
    },
  };
}

/** Where a line stands. */
interface Line {
  readonly at: number;
  readonly length: number;
}

/** The whole lines of a file, without their ends. */
function* linesOf(handle: number): Generator<{ readonly at: number; readonly bytes: Buffer }, void> {
  const block = Buffer.alloc(READ_SIZE);
  let held: Buffer[] = [];
  let at = 0;
  const readAt = (from: number): number => readSync(handle, block, 0, READ_SIZE, from);
  for (let from = 0, read = readAt(0); read > 0; from += read, read = readAt(from)) {
    let start = 0;
    for (let end = block.indexOf(LINE_END); end !== -1 && end < read; end = block.indexOf(LINE_END, start)) {
      const bytes = Buffer.concat([...held, block.subarray(start, end)]);
      yield { at, bytes };
      at += bytes.length + 1;
      held = [];
      start = end + 1;
    }
    held.push(Buffer.from(block.subarray(start, read)));
  }
}

function isSound(line: Buffer): boolean {
  const text = line.toString();
  const sum = /^\{"sum":"([0-9a-f]+)","entry":/.exec(text);
  return sum !== null && text.endsWith("}") && sumOf(text.slice(sum[0].length, -1)) === sum[1];
}

function sumOf(text: string): string {
  return createHash("sha256").update(text).digest("hex").slice(0, SUM_DIGITS);
}

function textAt(handle: number, { at, length }: Line): string {
  const bytes = Buffer.alloc(length);
  for (let done = 0; done < length; ) {
    const read = readSync(handle, bytes, done, length - done, at + done);
    if (read === 0) throw new Error("the journal has become shorter");
    done += read;
  }
  return bytes.toString();
}

/** Brings what was written to the disk now and then, beside the work. */
function createSync(handle: number): () => void {
  let last = Date.now();
  let isBusy = false;
  return () => {
    if (isBusy || Date.now() - last < SYNC_PAUSE) return;
    isBusy = true;
    fdatasync(handle, () => {
      last = Date.now();
      isBusy = false;
    });
  };
}
