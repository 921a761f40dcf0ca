import { createReadStream, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { summarizeSession } from "../report/summarize-session.js";
import type { SessionSummary } from "../report/types.js";
import type { CsvTables } from "../trace/form/csv-tables.js";
import type { ReadReport } from "../trace/form/read-report.js";
import { type ParseRecordingOptions, parseRecording } from "../trace/parse-recording.js";
import { type Input, isTable } from "./find-inputs.js";
import { splitSessions } from "./split-sessions.js";
import { messageOf, type Streams } from "./streams.js";

/** Bytes of one session that are read: more than an hour at 1000 Hz without a pause. It is held whole while it is analysed, in 13 times its bytes at most. */
export const MOST_BYTES = 2 ** 27;
/** Bytes that are read at a time. */
const READ_SIZE = 2 ** 18;
const FORMS: Readonly<Partial<Record<Input["kind"], "jsonl" | "csv">>> = { lines: "jsonl", samples: "csv" };

/** What came of one session of one file. */
export type ReadOutcome =
  | {
      readonly ok: true;
      readonly name: string;
      readonly summary: SessionSummary;
      /** Whether the file says when it was; else the date is a stand-in. */
      readonly isDated: boolean;
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly message: string };

/** How to read. */
export interface Reading {
  readonly repair: boolean;
  /** Bytes of one session that are read. */
  readonly mostBytes: number;
  /** Hears of every piece that is read. */
  readonly onBytes: (bytes: number) => Promise<void>;
}

/** Reads every session of an input, one after the other, and keeps of each its summary. */
export async function* readSessions(input: Input, stdin: Streams["stdin"], reading: Reading): AsyncGenerator<ReadOutcome> {
  const { repair, mostBytes, onBytes } = reading;
  if (input.kind === "tables") return yield tablesOutcome(input.path, repair, mostBytes);
  const source = input.kind === "stdin" ? stdin : createReadStream(input.path, { highWaterMark: READ_SIZE });
  const file = input.kind === "stdin" ? "standard input" : input.path;
  const form = FORMS[input.kind];
  let found = 0;
  try {
    for await (const { line, pieces } of splitSessions(counted(source, onBytes))) {
      found++;
      yield await partOutcome({ file, line, name: found === 1 ? file : `${file}:${line}` }, atMost(pieces, mostBytes), {
        repair,
        ...(form && { form }),
      });
    }
  } catch (error) {
    yield { ok: false, message: `${file}: cannot be read: ${messageOf(error)}` };
    return;
  }
  if (found === 0) yield { ok: false, message: `${file}: is empty` };
}

/** Where a session stands: its file, the line it begins on, and both in one word. */
interface Part {
  readonly file: string;
  readonly line: number;
  readonly name: string;
}

async function partOutcome(part: Part, pieces: AsyncIterable<Uint8Array>, options: ParseRecordingOptions): Promise<ReadOutcome> {
  try {
    const { session, report } = await parseRecording(pieces, { ...options, file: part.file });
    return { ok: true, name: part.name, summary: summarizeSession(session), ...toldOf(part, report) };
  } catch (error) {
    return { ok: false, message: placed(part, messageOf(error)) };
  }
}

function tablesOutcome(folder: string, repair: boolean, mostBytes: number): ReadOutcome {
  const part = { file: folder, line: 1, name: folder };
  try {
    const names = readdirSync(folder).filter(isTable);
    requireSize(
      names.reduce((sum, name) => sum + statSync(join(folder, name)).size, 0),
      mostBytes,
    );
    const tables = Object.fromEntries(names.map((name) => [name.slice(0, -".csv".length), textOf(join(folder, name))]));
    const { session, report } = parseRecording(tables as unknown as CsvTables, { file: folder, repair });
    return { ok: true, name: folder, summary: summarizeSession(session), ...toldOf(part, report) };
  } catch (error) {
    return { ok: false, message: placed(part, messageOf(error)) };
  }
}

/** The text of a table; bytes that are no text are not passed over. */
function textOf(path: string): string {
  const bytes = readFileSync(path);
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new RangeError(`${path}: must be UTF-8 text, got other bytes`);
  }
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

function requireSize(bytes: number, mostBytes: number): void {
  if (bytes <= mostBytes) return;
  throw new RangeError(`one session must have at most ${mostBytes / 2 ** 20} MiB, got more; record it in several sessions`);
}

/** A message with its place in front, whichever function found the fault; lines are those of the file, not of the session in it. */
function placed({ file, line, name }: Part, message: string): string {
  const text = message.replace(/^[a-z]\w*: (?=\S)/i, "");
  if (!text.startsWith(`${messageOf(file)}:`) && !text.startsWith(`${messageOf(file)}/`)) return `${name}: ${text}`;
  const rest = text.slice(messageOf(file).length);
  return messageOf(file) + rest.replace(/^:(\d+)/, (_, own: string) => `:${Number(own) + line - 1}`);
}

function toldOf(part: Part, report: ReadReport): { readonly isDated: boolean; readonly notes: readonly string[] } {
  return { isDated: !report.assumed.includes("startedAt"), notes: notesOf(part, report) };
}

/** What reading left out or assumed. */
function notesOf(part: Part, report: ReadReport): string[] {
  const { name } = part;
  const { lines, samples, incomplete, unterminated, assumed, ignored, sorted } = report;
  const dropped = lines.dropped - (incomplete ? 1 : 0);
  return [
    ...(incomplete ? [`${name}: the last line was cut short and left out`] : []),
    ...(dropped > 0
      ? [`${name}: ${dropped} of ${lines.found} lines left out; first: ${placed(part, report.notes[0]?.why ?? "not known")}`]
      : []),
    ...(samples.dropped > 0 ? [`${name}: ${samples.dropped} of ${samples.found} samples left out`] : []),
    ...(sorted > 0 ? [`${name}: ${sorted} entries put into the order of time`] : []),
    ...(unterminated && !incomplete ? [`${name}: the last line has no line end, and may have been cut`] : []),
    ...(assumed.length > 0 ? [`${name}: not stated, filled with stand-ins: ${assumed.join(", ")}`] : []),
    ...(ignored.length > 0 ? [`${name}: columns not read: ${ignored.join(", ")}`] : []),
  ];
}
