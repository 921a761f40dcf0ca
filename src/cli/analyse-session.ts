import { readdirSync, readFileSync, statSync } from "node:fs";
import { basename, join } from "node:path";
import { summarizeSession } from "../report/summarize-session.js";
import type { SessionSummary } from "../report/types.js";
import type { Tally } from "../tally/types.js";
import type { CsvTables } from "../trace/form/csv-tables.js";
import type { ReadReport } from "../trace/form/read-report.js";
import { type ParsedRecording, parseRecording } from "../trace/parse-recording.js";
import { isTable } from "./find-inputs.js";
import { messageOf } from "./streams.js";

/** Where a session stands: its file, the line it begins on, and both in one word. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly name: string;
}

/** A session to be analysed, whoever does it: this process or a worker. */
export interface SessionTask {
  readonly place: Place;
  readonly repair: boolean;
  /** Bytes of one session that are read. */
  readonly mostBytes: number;
  /** Told from the first character where it is not known. */
  readonly form?: "jsonl" | "csv";
  /** The text; without it the session is the tables of a folder. */
  readonly pieces?: AsyncIterable<Uint8Array>;
}

/** What came of one session. Plain data: it passes between threads and through a file. */
export type Outcome =
  | {
      readonly ok: true;
      readonly name: string;
      readonly summary: SessionSummary;
      /** Whether the file says when it was; else the date is a stand-in. */
      readonly isDated: boolean;
      readonly notes: readonly string[];
    }
  /** A session that an earlier run has tallied. */
  | { readonly ok: true; readonly name: string; readonly tally: Tally }
  | { readonly ok: false; readonly message: string };

/** Reads one session and keeps its summary; throws nothing. */
export async function analyseSession(task: SessionTask): Promise<Outcome> {
  const { place } = task;
  try {
    const { session, report } = task.pieces === undefined ? readTables(task) : await readText(task, task.pieces);
    const isDated = !report.assumed.includes("startedAt");
    return { ok: true, name: place.name, summary: summarizeSession(session), isDated, notes: notesOf(place, report) };
  } catch (error) {
    return { ok: false, message: placed(place, messageOf(error)) };
  }
}

function readText({ place, repair, form }: SessionTask, pieces: AsyncIterable<Uint8Array>): Promise<ParsedRecording> {
  return parseRecording(pieces, { file: place.file, repair, ...(form && { form }) });
}

function readTables({ place, repair, mostBytes }: SessionTask): ParsedRecording {
  const { file: folder } = place;
  requireSize(tablesSize(folder), mostBytes);
  const tables = Object.fromEntries(tableFiles(folder).map((file) => [basename(file, ".csv"), textOf(file)]));
  return parseRecording(tables as unknown as CsvTables, { file: folder, repair });
}

/** The tables in a folder. */
export function tableFiles(folder: string): string[] {
  return readdirSync(folder)
    .filter(isTable)
    .map((name) => join(folder, name));
}

/** Bytes of the tables in a folder. */
export function tablesSize(folder: string): number {
  return tableFiles(folder).reduce((sum, file) => sum + statSync(file).size, 0);
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

/** Refuses a session that is too large to hold. */
export function requireSize(bytes: number, mostBytes: number): void {
  if (bytes <= mostBytes) return;
  throw new RangeError(`one session must have at most ${mostBytes / 2 ** 20} MiB, got more; record it in several sessions`);
}

/** A message with its place in front, whichever function found the fault; lines are those of the file, not of the session in it. */
function placed({ file, line, name }: Place, message: string): string {
  const text = message.replace(/^[a-z]\w*: (?=\S)/i, "");
  if (!text.startsWith(`${messageOf(file)}:`) && !text.startsWith(`${messageOf(file)}/`)) return `${name}: ${text}`;
  const rest = text.slice(messageOf(file).length);
  return messageOf(file) + rest.replace(/^:(\d+)/, (_, own: string) => `:${Number(own) + line - 1}`);
}

/** What reading left out or assumed. */
function notesOf(place: Place, report: ReadReport): string[] {
  const { name } = place;
  const { lines, samples, incomplete, unterminated, assumed, ignored, sorted } = report;
  const dropped = lines.dropped - (incomplete ? 1 : 0);
  return [
    ...(incomplete ? [`${name}: the last line was cut short and left out`] : []),
    ...(dropped > 0
      ? [`${name}: ${dropped} of ${lines.found} lines left out; first: ${placed(place, report.notes[0]?.why ?? "not known")}`]
      : []),
    ...(samples.dropped > 0 ? [`${name}: ${samples.dropped} of ${samples.found} samples left out`] : []),
    ...(sorted > 0 ? [`${name}: ${sorted} entries put into the order of time`] : []),
    ...(unterminated && !incomplete ? [`${name}: the last line has no line end, and may have been cut`] : []),
    ...(assumed.length > 0 ? [`${name}: not stated, filled with stand-ins: ${assumed.join(", ")}`] : []),
    ...(ignored.length > 0 ? [`${name}: columns not read: ${ignored.join(", ")}`] : []),
  ];
}
