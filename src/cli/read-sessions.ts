import { createReadStream, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { summarizeSession } from "../report/summarize-session.js";
import type { SessionSummary } from "../report/types.js";
import type { CsvTables } from "../trace/form/csv-tables.js";
import type { ReadReport } from "../trace/form/read-report.js";
import { parseRecording } from "../trace/parse-recording.js";
import type { Input } from "./find-inputs.js";
import { splitSessions } from "./split-sessions.js";
import { messageOf, type Streams } from "./streams.js";

/** Bytes of one session that are read: some hours at 1000 Hz. A session has to fit into memory, and this is what bounds it. */
const MOST_BYTES = 2 ** 28;

/** What came of one session of one file. */
export type ReadOutcome =
  | { readonly ok: true; readonly name: string; readonly summary: SessionSummary; readonly notes: readonly string[] }
  | { readonly ok: false; readonly message: string };

/** Reads every session of an input, one after the other, and keeps of each its summary. */
export async function* readSessions(input: Input, repair: boolean, stdin: Streams["stdin"]): AsyncGenerator<ReadOutcome> {
  if (input.kind === "tables") return yield tablesOutcome(input.path, repair);
  const source = input.kind === "stdin" ? stdin : createReadStream(input.path);
  const file = input.kind === "stdin" ? "standard input" : input.path;
  let found = 0;
  try {
    for await (const { line, pieces } of splitSessions(source)) {
      found++;
      const name = found === 1 ? file : `${file} (session ${found}, from line ${line})`;
      yield await partOutcome(name, pieces, repair);
    }
  } catch (error) {
    yield { ok: false, message: `${file}: cannot be read: ${messageOf(error)}` };
    return;
  }
  if (found === 0) yield { ok: false, message: `${file}: is empty` };
}

async function partOutcome(name: string, pieces: AsyncIterable<Uint8Array>, repair: boolean): Promise<ReadOutcome> {
  try {
    const { session, report } = await parseRecording(atMost(name, pieces), { file: name, repair });
    return { ok: true, name, summary: summarizeSession(session), notes: notesOf(report) };
  } catch (error) {
    return { ok: false, message: plain(name, error) };
  }
}

async function tablesOutcome(folder: string, repair: boolean): Promise<ReadOutcome> {
  try {
    const names = readdirSync(folder).filter((name) => name.endsWith(".csv"));
    const tables = Object.fromEntries(names.map((name) => [name.slice(0, -".csv".length), readFileSync(join(folder, name), "utf8")]));
    const { session, report } = parseRecording(tables as unknown as CsvTables, { file: folder, repair });
    return { ok: true, name: folder, summary: summarizeSession(session), notes: notesOf(report) };
  } catch (error) {
    return { ok: false, message: plain(folder, error) };
  }
}

async function* atMost(name: string, pieces: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  let bytes = 0;
  for await (const piece of pieces) {
    bytes += piece.length;
    if (bytes > MOST_BYTES) {
      throw new RangeError(`${name}: one session must have at most ${MOST_BYTES / 2 ** 20} MiB, got more; record it in several sessions`);
    }
    yield piece;
  }
}

/** The message begins with the file, whichever function found the fault. */
function plain(name: string, error: unknown): string {
  const message = messageOf(error).replace(/^(parseRecording|summarizeSession|analyze): /, "");
  return message.startsWith(name) ? message : `${name}: ${message}`;
}

/** What reading left out or assumed. */
function notesOf(report: ReadReport): string[] {
  const { file, lines, samples, incomplete, unterminated, assumed, ignored, sorted } = report;
  const dropped = lines.dropped - (incomplete ? 1 : 0);
  return [
    ...(incomplete ? [`${file}: the last line was cut short and left out`] : []),
    ...(dropped > 0 ? [`${file}: ${dropped} of ${lines.found} lines left out; first: ${report.notes[0]?.why ?? "not known"}`] : []),
    ...(samples.dropped > 0 ? [`${file}: ${samples.dropped} of ${samples.found} samples left out`] : []),
    ...(sorted > 0 ? [`${file}: ${sorted} entries put into the order of time`] : []),
    ...(unterminated && !incomplete ? [`${file}: the last line has no line end, and may have been cut`] : []),
    ...(assumed.length > 0 ? [`${file}: not stated, filled with stand-ins: ${assumed.join(", ")}`] : []),
    ...(ignored.length > 0 ? [`${file}: columns not read: ${ignored.join(", ")}`] : []),
  ];
}
