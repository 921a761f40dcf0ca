import type { Space } from "../types.js";
import { checkHead } from "./check-session.js";
import { readEntries } from "./csv-entries.js";
import { EMPTY_TABLE, readRows, type TableRow } from "./csv-rows.js";
import { createSamplesReader } from "./csv-samples.js";
import { readSessionTable } from "./csv-session.js";
import { type CsvTables, TABLES, type TableName } from "./csv-tables.js";
import { createColumns } from "./growing-columns.js";
import { createLineSplitter, endLines, type LineSink, pushPiece } from "./line-splitter.js";
import { type Problem, problem } from "./problem.js";
import { placed, type Reading } from "./reading.js";
import { beginRecording, type RecordingBuilder, type SessionBuilder } from "./session-builder.js";

/** What is taken for a recording that no table describes. */
const ASSUMED_SPACE: Space = { kind: "plane", unit: "px" };
const ASSUMED_DEVICE = "unknown";

/** Reads a session that comes as tables. */
export function readCsvTables(
  reading: Reading,
  builder: SessionBuilder,
  tables: CsvTables,
  sinkOf: (line: LineSink["line"]) => LineSink,
): void {
  const texts = new Map(Object.entries(tables).filter(([, text]) => text !== undefined)) as Map<TableName, string>;
  readSessionTable(reading, builder, texts.get("session"));
  const recordings = texts.get("recordings");
  if (recordings !== undefined) readRecordings(reading, builder, recordings);
  const recordingOf = recordingsOf(reading, builder, recordings !== undefined);
  const samples = texts.get("samples");
  if (samples !== undefined) readSamplesTable(reading, samples, recordingOf, sinkOf);
  readEntries(reading, texts, (row) => recordingOf(row.has("recording") ? row.number("recording") : undefined));
  if (recordings === undefined) settleAssumed(reading, builder);
}

/** A samples table that stands alone: everything else is assumed. `settleAssumed` is to be called in the end. */
export function readLoneSamples(reading: Reading, builder: SessionBuilder): LineSink["line"] {
  readSessionTable(reading, builder, undefined);
  return createSamplesReader(reading, reading.file, recordingsOf(reading, builder, false));
}

function readSamplesTable(
  reading: Reading,
  text: string,
  recordingOf: (number: unknown) => RecordingBuilder | Problem,
  sinkOf: (line: LineSink["line"]) => LineSink,
): void {
  const file = `${reading.file}/samples`;
  const read = createSamplesReader(reading, file, recordingOf);
  let isEmpty = true;
  const sink = sinkOf((...line) => {
    isEmpty = false;
    read(...line);
  });
  const splitter = createLineSplitter("parseRecording", reading.maxLineLength, sink);
  pushPiece(splitter, text);
  endLines(splitter);
  if (isEmpty) throw new RangeError(placed({ file, line: 1 }, 1, EMPTY_TABLE));
}

/** Recordings by their number. Where no table tells of them, they are made as they are named. */
function recordingsOf(reading: Reading, builder: SessionBuilder, told: boolean): (number: unknown) => RecordingBuilder | Problem {
  const { recordings } = builder;
  return (given) => {
    if (!told && given === undefined && recordings.size === 0) assumeRecording(reading, builder, 1);
    if (given === undefined && recordings.size > 1) {
      return problem("noRecording", [], `be given, as there are ${recordings.size}`, "", { name: "recording", got: "nothing" });
    }
    const number = given ?? recordings.keys().next().value;
    if (!told && Number.isSafeInteger(number) && (number as number) >= 1 && !recordings.has(number as number))
      assumeRecording(reading, builder, number as number);
    return recordings.get(number as number) ?? problem("noRecording", ["recording"], "be the number of a recording", number);
  };
}

/** Leaves out recordings that only rows named which were refused; without any row there is one recording. */
export function settleAssumed(reading: Reading, builder: SessionBuilder): void {
  for (const [number, { samples, presses, targets, trials, marks, frames }] of builder.recordings) {
    if (!frames && samples.length + presses.length + targets.size + trials.size + marks.length === 0) builder.recordings.delete(number);
  }
  if (builder.recordings.size === 0) assumeRecording(reading, builder, 1);
}

/** Begins a recording of which nothing is known. */
function assumeRecording(reading: Reading, builder: SessionBuilder, number: number): void {
  reading.assumed.add("space").add("device");
  beginRecording(builder, number, ASSUMED_SPACE, ASSUMED_DEVICE);
}

function readRecordings(reading: Reading, builder: SessionBuilder, text: string): void {
  const file = `${reading.file}/recordings`;
  readRows(reading, "recordings", text, (row) => takeRecording(reading, builder, row));
  const { recordings } = builder;
  if (recordings.size === 0) throw new RangeError(placed({ file, line: 1 }, 1, "table must have a row for each recording, got none"));
  const numbers = [...recordings.keys()].sort((a, b) => a - b);
  const gap = numbers.findIndex((number, i) => number !== i + 1);
  if (gap < 0 || reading.repair || reading.incomplete) return;
  throw new RangeError(placed({ file, line: 1 }, 1, `table must have a row for recording ${gap + 1}, got ${numbers[gap]} next`));
}

function takeRecording(reading: Reading, builder: SessionBuilder, row: TableRow): Problem | true {
  const number = row.number("recording");
  if (!Number.isSafeInteger(number) || (number as number) < 1)
    return problem("badValue", ["recording"], "be a whole number from 1", number);
  const device = row.text("device") ?? ASSUMED_DEVICE;
  const space = { kind: row.text("space"), unit: row.text("unit") };
  const frames = row.text("frames");
  const wrong = checkHead({ space, device });
  // a message about the kind of space belongs in the column of that name
  if (wrong) return wrong.path.at(-1) === "kind" ? { ...wrong, path: ["space"] } : wrong;
  if (frames !== undefined && frames !== "yes") return problem("badValue", ["frames"], 'be "yes" or nothing', frames);
  if (row.text("device") === undefined) reading.assumed.add("device");
  const twice = beginRecording(builder, number as number, space as Space, device);
  if (!twice && frames) builder.recordings.get(number as number)!.frames = createColumns(1);
  return twice ?? true;
}

/** Throws unless every table is a text of a known name. */
export function requireTables(tables: object): void {
  const names = Object.keys(TABLES);
  for (const [name, text] of Object.entries(tables)) {
    if (!names.includes(name)) throw new RangeError(`parseRecording: source must have only the tables ${names.join(", ")}, got "${name}"`);
    if (text !== undefined && typeof text !== "string")
      throw new TypeError(`parseRecording: source.${name} must be a text, got ${typeof text}`);
  }
}
