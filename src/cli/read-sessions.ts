import { createReadStream } from "node:fs";
import { type Outcome, requireSize, type SessionTask, tablesSize } from "./analyse-session.js";
import type { Input } from "./find-inputs.js";
import type { Settings } from "./parse-arguments.js";
import { lookAhead, readTallies } from "./read-tallies.js";
import { splitSessions } from "./split-sessions.js";
import { messageOf, type Streams } from "./streams.js";

/** Bytes that are read at a time. */
const READ_SIZE = 2 ** 18;
const FORMS: Readonly<Partial<Record<Input["kind"], "jsonl" | "csv">>> = { lines: "jsonl", samples: "csv" };

/** A session that was found, or what stands in its place: a file that cannot be read, or is empty. */
export type FoundSession = { readonly task: SessionTask; readonly bytes?: number } | { readonly outcome: Outcome };

/** How to read. */
export interface Reading {
  readonly repair: boolean;
  /** What is to be written. */
  readonly form: Settings["form"];
  /** Bytes of one session that are read. */
  readonly mostBytes: number;
  /** Hears of every piece that is read. */
  readonly onBytes: (bytes: number) => Promise<void>;
}

/** The sessions of an input, one after the other, but for the first few that an earlier run has done with. The text of one has to be read before the next. */
export async function* readSessions(
  input: Input,
  stdin: Streams["stdin"],
  reading: Reading,
  done: number,
): AsyncGenerator<FoundSession, void> {
  if (input.kind === "tables") {
    if (done === 0) yield await foundTables(input.path, reading);
    return;
  }
  const source = input.kind === "stdin" ? stdin : createReadStream(input.path, { highWaterMark: READ_SIZE });
  const file = input.kind === "stdin" ? "standard input" : input.path;
  let found = 0;
  try {
    const { hasTallies, stream } = await lookAhead(counted(source, reading.onBytes));
    for await (const one of hasTallies ? foundTallies(stream, file, reading) : foundTexts(stream, file, FORMS[input.kind], reading)) {
      if (found++ >= done) yield one;
    }
  } catch (error) {
    if (found >= done) yield failed(`${file}: cannot be read: ${messageOf(error)}`);
    return;
  }
  if (found === 0 && done === 0) yield failed(`${file}: is empty`);
}

async function foundTables(folder: string, { repair, mostBytes, onBytes }: Reading): Promise<FoundSession> {
  const bytes = sizeOf(folder);
  await onBytes(bytes);
  return { task: { place: { file: folder, line: 1, name: folder }, repair, mostBytes }, bytes };
}

/** Whoever reads the tables says what is wrong with them. */
function sizeOf(folder: string): number {
  try {
    return tablesSize(folder);
  } catch {
    return 0;
  }
}

function failed(message: string): FoundSession {
  return { outcome: { ok: false, message } };
}

async function* foundTexts(
  stream: AsyncIterable<Uint8Array | string>,
  file: string,
  form: "jsonl" | "csv" | undefined,
  { repair, mostBytes }: Reading,
): AsyncGenerator<FoundSession> {
  let found = 0;
  for await (const { line, pieces } of splitSessions(stream)) {
    const place = { file, line, name: ++found === 1 ? file : `${file}:${line}` };
    yield { task: { place, repair, mostBytes, ...(form && { form }), pieces: atMost(pieces, mostBytes) } };
  }
}

async function* foundTallies(
  stream: AsyncIterable<Uint8Array | string>,
  file: string,
  { form, mostBytes }: Reading,
): AsyncGenerator<FoundSession> {
  if (form === "tally") for await (const outcome of readTallies(stream, file, mostBytes)) yield { outcome };
  else yield failed(`${file}: holds tallies, which --form tally alone can read, got --form ${form}`);
}

async function* counted(
  source: AsyncIterable<Uint8Array | string>,
  onBytes: (bytes: number) => Promise<void>,
): AsyncGenerator<Uint8Array | string> {
  for await (const piece of source) {
    await onBytes(piece.length);
    yield piece;
  }
}

async function* atMost(pieces: AsyncIterable<Uint8Array>, mostBytes: number): AsyncGenerator<Uint8Array> {
  let bytes = 0;
  for await (const piece of pieces) {
    bytes += piece.length;
    requireSize(bytes, mostBytes);
    yield piece;
  }
}
