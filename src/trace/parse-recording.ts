import { requireInteger, requireNumber, requireOneOf, show } from "../math/require.js";
import type { CsvTables } from "./form/csv-tables.js";
import { createLineSplitter, endLines, type LineSink, pushPiece } from "./form/line-splitter.js";
import { problem } from "./form/problem.js";
import { readCsvTables, readLoneSamples, requireTables, settleAssumed } from "./form/read-csv-tables.js";
import { readJsonLine } from "./form/read-json-lines.js";
import type { ReadReport } from "./form/read-report.js";
import { createReading, dropLine, finishReport, placed, type Reading } from "./form/reading.js";
import { createSessionBuilder, finishSession, type SessionBuilder } from "./form/session-builder.js";
import type { MissingCode } from "./quality/missing-code.js";
import type { Session } from "./types.js";

/** 16 Mi: far beyond the lines of our writer (at most 8 MB), far below what a program can hold. */
const LONGEST_LINE = 2 ** 24;

export interface ParseRecordingOptions {
  /** Name of the file for messages and the report. Default `"input"`. A table's name is added after a slash. */
  readonly file?: string;
  /** Default: told from the first character, for JSON Lines begin with `{`. `"csv"` for one text is a samples table that stands alone. */
  readonly form?: "jsonl" | "csv";
  /** Drop what is bad and sort what runs backward, and report both, instead of refusing. Default `false`. */
  readonly repair?: boolean;
  /**
   * The device's code for a missing position, in the space's unit; a number: a sample is missing where x or y equals it; a pair: where both
   * do. Such a sample is refused, or dropped with `repair`; a press keeps its time and loses its position. Default: no code.
   */
  readonly missing?: MissingCode;
  /** Longest line or row, UTF-16 units, default 16777216. Lowered: less memory against a file without line ends; raised: longer lines pass. */
  readonly maxLineLength?: number;
}

export interface ParsedRecording {
  readonly session: Session;
  readonly report: ReadReport;
}

/**
 * Reads a session from our own file forms: JSON Lines, CSV tables, or a samples table alone (columns t in seconds, x, y). Both forms are
 * described on the page "File formats". Nothing wrong passes in silence: without `repair` the first mistake is thrown, with it bad lines, rows
 * and samples are dropped, samples sorted, and all of it counted in the report. A last line that a crash cut short is left out and reported
 * in either case. Lines may end in \n or \r\n; a byte order mark and empty lines are skipped. Cost O(n).
 * @param source - the text, the tables, or pieces of text or UTF-8 bytes as they come (JSON Lines or a samples table; cut anywhere; never held whole)
 * @param options - name for messages, form, repair, missing-value code, longest line
 * @returns the session, its columns equally long, finite and in time order, and the report; a promise of them where the source is asynchronous
 * @throws RangeError `parseRecording: FILE:LINE:COLUMN: what must be, got ...` for what the file does wrong; with `repair` only for what no
 *   repair can help: no session or recording, another schema, a header without its columns, two sessions or two spaces in one place
 * @throws TypeError for a source or options of the wrong kind
 * @see RFC 4180 section 2 (fields and quotes of CSV), jsonlines.org (one JSON value a line)
 * @example
 * ```ts
 * const { session, report } = parseRecording("t,x,y\n0,10,5\n0.008,12,5\n", { file: "reach.csv" });
 * session.recordings[0].trace.x // => [10, 12]
 * report.assumed // => ["person", "startedAt", "equipment.id", "space", "device"]
 * ```
 */
export function parseRecording(source: string | CsvTables, options?: ParseRecordingOptions): ParsedRecording;
export function parseRecording(source: AsyncIterable<string | Uint8Array>, options?: ParseRecordingOptions): Promise<ParsedRecording>;
export function parseRecording(
  source: string | CsvTables | AsyncIterable<string | Uint8Array>,
  options: ParseRecordingOptions = {},
): ParsedRecording | Promise<ParsedRecording> {
  if (typeof source === "string") return parseWhole(source, options);
  if (source === null || typeof source !== "object" || source instanceof Uint8Array) {
    throw new TypeError(`parseRecording: source must be a text, tables of text or an async iterable of pieces, got ${show(source)}`);
  }
  return Symbol.asyncIterator in source ? parsePieces(source, options) : parseTables(source, options);
}

function parseWhole(text: string, options: ParseRecordingOptions): ParsedRecording {
  const parser = createParser(options);
  parser.push(text);
  return parser.end();
}

async function parsePieces(source: AsyncIterable<string | Uint8Array>, options: ParseRecordingOptions): Promise<ParsedRecording> {
  const parser = createParser(options);
  for await (const piece of source) parser.push(piece);
  return parser.end();
}

function parseTables(tables: CsvTables, options: ParseRecordingOptions): ParsedRecording {
  const reading = begin(options);
  if (options.form === "jsonl") throw new RangeError('parseRecording: options.form must be "csv" for tables, got "jsonl"');
  requireTables(tables);
  const builder = createSessionBuilder();
  readCsvTables(reading, builder, tables, (line) => sinkOf(reading, `${reading.file}/samples`, line));
  return finish(reading, builder, "csv");
}

function createParser(options: ParseRecordingOptions): { push(piece: string | Uint8Array): void; end(): ParsedRecording } {
  const reading = begin(options);
  const builder = createSessionBuilder();
  let { form } = options;
  let take: LineSink["line"] | undefined;
  const sink = sinkOf(reading, reading.file, (text, start, end, number, whole) => {
    form ??= text[start + text.slice(start, end).search(/[^ \t]/)] === "{" ? "jsonl" : "csv";
    take ??=
      form === "csv"
        ? readLoneSamples(reading, builder)
        : (block, from, to, at, isWhole) => readJsonLine(reading, builder, block.slice(from, to), at, isWhole);
    take(text, start, end, number, whole);
  });
  const splitter = createLineSplitter("parseRecording", reading.maxLineLength, sink);
  const end = (): ParsedRecording => {
    endLines(splitter);
    if (form === "csv" && builder.head) settleAssumed(reading, builder);
    return finish(reading, builder, form ?? "jsonl");
  };
  return { push: (piece) => pushPiece(splitter, piece), end };
}

/** Passes on lines with something on them, and refuses those that cannot be read. */
function sinkOf(reading: Reading, file: string, line: LineSink["line"]): LineSink {
  return {
    line: (text, start, end, number, whole) => {
      if (!isBlank(text, start, end)) line(text, start, end, number, whole);
    },
    unreadable: (number, why, whole) => {
      reading.lines.found++;
      const must = why === "tooLong" ? `have at most ${reading.maxLineLength} characters` : "be UTF-8 text";
      const row = { file, line: number, unit: "line", mayBeCut: why === "notUtf8" && !whole, column: () => 1 } as const;
      dropLine(reading, row, problem(why, [], must, "", { got: why === "tooLong" ? "more" : "other bytes" }));
    },
  };
}

function isBlank(text: string, start: number, end: number): boolean {
  for (let i = start; i < end; i++) {
    const code = text.charCodeAt(i);
    if (code !== 32 && code !== 9) return false;
  }
  return true;
}

function begin(options: ParseRecordingOptions): Reading {
  const { file = "input", form = "jsonl", repair = false, missing, maxLineLength = LONGEST_LINE } = options;
  const name = "parseRecording";
  if (typeof file !== "string") throw new TypeError(`${name}: options.file must be a text, got ${show(file)}`);
  requireOneOf(name, "options.form", form, ["jsonl", "csv"]);
  if (typeof repair !== "boolean") throw new TypeError(`${name}: options.repair must be true or false, got ${show(repair)}`);
  requireInteger(name, "options.maxLineLength", maxLineLength, 1, 2 ** 28);
  if (typeof missing === "object" && missing !== null) {
    requireNumber(name, "options.missing.x", missing.x);
    requireNumber(name, "options.missing.y", missing.y);
  } else if (missing !== undefined) requireNumber(name, "options.missing", missing);
  return createReading(file, repair, maxLineLength, missing);
}

function finish(reading: Reading, builder: SessionBuilder, form: "jsonl" | "csv"): ParsedRecording {
  const { file, lines } = reading;
  const fail = (text: string): never => {
    throw new RangeError(placed({ file, line: 1 }, 1, text));
  };
  if (!builder.head)
    fail(lines.found === 0 ? "file must have a line with content, got none" : "file must have a whole session line, got none");
  if (builder.recordings.size === 0) fail("file must have a whole recording line, got none");
  const session = finishSession(reading, builder);
  return { session, report: finishReport(reading, form) };
}
