// Reads one damaged file every way there is and says what came of it, or what the reader did wrong.
import { isDeepStrictEqual } from "node:util";
import type { Random } from "../../src/math/random.js";
import type { CsvTables } from "../../src/trace/form/csv-tables.js";
import type { ReadReport } from "../../src/trace/form/read-report.js";
import { formatRecording } from "../../src/trace/format-recording.js";
import { type ParsedRecording, type ParseRecordingOptions, parseRecording } from "../../src/trace/parse-recording.js";
import { LONGEST, pieces } from "./mutations.js";
import { linesOf, naiveJsonLines, naiveTables, plain } from "./naive-reader.js";

export interface Input {
  readonly form: "jsonl" | "lone" | "tables";
  /** Bytes where the damage is not in whole characters. */
  readonly source: string | Uint8Array | CsvTables;
  readonly missing?: number;
}

export type Outcome = "read in full" | "refused, with its place" | "repaired and reported" | "cut, and reported" | "read, oddity reported";
export const OUTCOMES: readonly Outcome[] = [
  "read in full",
  "cut, and reported",
  "read, oddity reported",
  "repaired and reported",
  "refused, with its place",
];

/** What the reader did wrong. */
export class Fault extends Error {}

type Result = { readonly read: ParsedRecording } | { readonly error: Error };

/** Beyond repair, by design: without these there is no session to speak of, or there are two. */
const BEYOND_REPAIR =
  /must have a (line with content|whole session line|whole recording line|row for each recording|row with key schema|header row)|schema must be 1|header must name|(person|startedAt|equipment\S*|session\S*) must|recording \d+ must be begun once, got .* and then|table must|field must (have its closing quote|end at its closing|begin with a quote)/s;

/** Outcome without and with repair. `original` is what the undamaged file says, where the damage must not matter. */
export async function judge(
  input: Input,
  original: unknown,
  random: Random,
): Promise<{ strict: Outcome; repaired: Outcome; slowest: number }> {
  const options = { file: "fuzz", maxLineLength: LONGEST, ...(input.missing === undefined ? {} : { missing: input.missing }) };
  let slowest = 0;
  const read = async (repair: boolean): Promise<Result> => {
    const begun = performance.now();
    const result = await attempt(input, { ...options, repair });
    slowest = Math.max(slowest, performance.now() - begun);
    return result;
  };
  const strict = await read(false);
  const repaired = await read(true);
  const outcome = (result: Result, repair: boolean): Outcome => {
    if ("error" in result) return judgeError(result.error, input, repair);
    judgeResult(result.read, input);
    const { notes, sorted, incomplete, unterminated, ignored, reasons } = result.read.report;
    if (original !== undefined && !isDeepStrictEqual(plain(result.read.session), original))
      throw new Fault("reads other than the original");
    const damage = notes.some(({ reason }) => reason !== "cut") || sorted > 0;
    if (
      !repair &&
      (sorted > 0 ||
        Object.keys(reasons).some((reason) => reason !== "cut" && reason !== "unknownName" && !(reason === "badValue" && incomplete)))
    ) {
      throw new Fault("repairs without being asked");
    }
    if (damage) return "repaired and reported";
    if (incomplete) return "cut, and reported";
    return unterminated || ignored.length > 0 ? "read, oddity reported" : "read in full";
  };
  const outcomes = { strict: outcome(strict, false), repaired: outcome(repaired, true) };
  if (original !== undefined && outcomes.strict !== "read in full") throw new Fault(`does not read in full: ${outcomes.strict}`);
  if ("read" in strict) sameResult(strict, repaired, "repair changes what was in order");
  else if ("read" in repaired && outcomes.repaired !== "repaired and reported") throw new Fault("repairs in silence");
  for (const repair of [false, true]) await judgePieces(input, { ...options, repair }, repair ? repaired : strict, random);
  return { ...outcomes, slowest };
}

async function attempt({ source }: Input, options: ParseRecordingOptions): Promise<Result> {
  try {
    return { read: source instanceof Uint8Array ? await parseRecording(once(source), options) : parseRecording(source, options) };
  } catch (error) {
    return { error: error as Error };
  }
}

async function* once<T>(piece: T): AsyncGenerator<T> {
  yield piece;
}

async function* each<T>(all: Iterable<T>): AsyncGenerator<T> {
  yield* all;
}

/** The same in pieces, of text and of bytes. */
async function judgePieces({ source }: Input, options: ParseRecordingOptions, whole: Result, random: Random): Promise<void> {
  if (typeof source !== "string" && !(source instanceof Uint8Array)) return;
  const streams: AsyncIterable<string | Uint8Array>[] = [each(pieces(source, random))];
  // half a pair of characters has no bytes
  if (typeof source === "string" && !/\p{Surrogate}/u.test(source)) streams.push(each(pieces(new TextEncoder().encode(source), random)));
  for (const stream of streams) {
    let result: Result;
    try {
      result = { read: await parseRecording(stream, options) };
    } catch (error) {
      result = { error: error as Error };
    }
    sameResult(whole, result, "pieces read other than the whole");
  }
}

function sameResult(a: Result, b: Result, what: string): void {
  const same = "read" in a ? "read" in b && isDeepStrictEqual(a.read, b.read) : "error" in b && a.error.message === b.error.message;
  if (!same) throw new Fault(`${what}: ${describe(a)} against ${describe(b)}`);
}

function describe(result: Result): string {
  return "error" in result ? result.error.message.slice(0, 300) : JSON.stringify(result.read).slice(0, 600);
}

function judgeError(error: Error, input: Input, repair: boolean): Outcome {
  const { message } = error;
  const place = /^parseRecording: fuzz(?:\/(\w+))?:(\d+):(\d+): .+ must .+, got .+$/s.exec(message);
  if (!(error instanceof RangeError) || !place)
    throw new Fault(`throws without a place: ${error.name}: ${message.slice(0, 400)} ${error.stack?.slice(0, 800)}`);
  if (/[\n\r]/.test(message) || message.length > 1000) throw new Fault(`message is not one short line: ${message.slice(0, 300)}`);
  const text = textOf(input, place[1]);
  const lines = text.split("\n");
  const [line, column] = [Number(place[2]), Number(place[3])];
  // a row of several lines counts its columns through
  if (line < 1 || line > lines.length || column < 1 || column > text.length + 1) throw new Fault(`place lies outside the file: ${message}`);
  if (repair && !BEYOND_REPAIR.test(message)) throw new Fault(`repair gives up: ${message.slice(0, 400)}`);
  return "refused, with its place";
}

function textOf({ source }: Input, table: string | undefined): string {
  if (typeof source === "string") return source;
  if (source instanceof Uint8Array) return new TextDecoder().decode(source);
  return source[table as keyof CsvTables] ?? "";
}

function judgeResult({ session, report }: ParsedRecording, input: Input): void {
  for (const [name, { found, kept, dropped }] of Object.entries(report).filter(([, count]) => typeof count?.found === "number")) {
    if (found !== kept + dropped) throw new Fault(`${name}: found ${found}, kept ${kept}, dropped ${dropped}`);
  }
  for (const { trace, frames, targets } of session.recordings) {
    inOrder(trace.t, trace.x, trace.y);
    if (frames) inOrder(frames);
    for (const { at } of targets) if ("t" in at) inOrder(at.t, at.x, at.y, at.scale ?? at.t);
  }
  const samples = session.recordings.reduce((sum, { trace }) => sum + trace.t.length, 0);
  if (samples !== report.samples.kept) throw new Fault(`${samples} samples in the session, ${report.samples.kept} kept by the report`);
  const total = Object.values(report.reasons).reduce((sum, count) => sum + count, 0);
  if (report.notes.length !== Math.min(100, total)) throw new Fault(`${report.notes.length} notes of ${total}`);
  // a trial that is dropped takes its goals and conditions along, which in tables are rows of their own
  if (input.form !== "tables" && report.lines.dropped > total) throw new Fault(`${report.lines.dropped} lines dropped, ${total} notes`);
  countLines(report, input);
  judgeContent({ session, report }, input);
  // what was read is a session like any other
  const form = input.form === "jsonl" ? "jsonl" : "csv";
  // half a pair of characters can stand in a text in memory, but in no CSV file
  if (form === "csv" && Object.values(input.source).some((text) => /\p{Surrogate}/u.test(String(text)))) return;
  const written = formatRecording(session, { form: form as "csv", samplesPerLine: 5 });
  if (!isDeepStrictEqual(parseRecording(written).session, session)) throw new Fault("does not survive writing and reading");
}

function inOrder(t: Float64Array, ...others: Float64Array[]): void {
  for (const column of [t, ...others]) {
    if (column.length !== t.length) throw new Fault("unequal columns");
    if (!column.every(Number.isFinite)) throw new Fault("not finite");
  }
  if (t.some((time, i) => i > 0 && time < t[i - 1]!)) throw new Fault("time runs backward");
}

/** Rows in the text are rows read and rows reported. */
function countLines({ lines }: ReadReport, input: Input): void {
  if (input.form !== "tables") {
    const found = linesOf(textOf(input, undefined)).length - (input.form === "lone" ? 1 : 0);
    if (found !== lines.found) throw new Fault(`${found} lines in the text, ${lines.found} in the report`);
    return;
  }
  const tables = Object.values(input.source as CsvTables) as string[];
  // in quotes a row may go on beyond its line, so the number of lines is only the most there can be
  const most = tables.reduce((sum, text) => sum + linesOf(text).length - 1, 0);
  const inQuotes = tables.some((text) => text.includes('"'));
  if (inQuotes ? lines.found > most : lines.found !== most) throw new Fault(`${most} rows in the tables, ${lines.found} in the report`);
}

/** Nothing comes that was not there; nothing goes without a note. */
function judgeContent({ session, report }: ParsedRecording, input: Input): void {
  const { notes, sorted, reasons } = report;
  const onlyCut = notes.every(({ reason }) => reason === "cut") && sorted === 0;
  if (!onlyCut) {
    const dropped = report.samples.dropped;
    const reasonsTotal = Object.values(reasons).reduce((sum, count) => sum + count, 0);
    if (dropped > 0 && reasonsTotal === 0) throw new Fault("samples dropped without a note");
    judgeSamples({ session, report }, input);
    return;
  }
  const cutTables = new Set(notes.map(({ file }) => file));
  const text = textOf(input, undefined);
  const naive =
    input.form === "jsonl"
      ? naiveJsonLines(text, report.incomplete)
      : input.form === "lone"
        ? naiveTables({ samples: text }, () => report.incomplete)
        : naiveTables(input.source as CsvTables, (name) => cutTables.has(`fuzz/${name}`));
  if (!isDeepStrictEqual(plain(session), naive)) {
    throw new Fault(
      `reads other than what stands there: ${JSON.stringify(plain(session)).slice(0, 900)} against ${JSON.stringify(naive).slice(0, 900)}`,
    );
  }
}

/** Every sample kept stands in the text, as often as it was kept. */
function judgeSamples({ session, report }: ParsedRecording, input: Input): void {
  if (input.form !== "jsonl" || report.reasons.notUtf8) return;
  const there = new Map<string, number>();
  let found = 0;
  for (const line of linesOf(textOf(input, undefined))) {
    let entry: { kind?: unknown; t?: unknown[]; x?: unknown[]; y?: unknown[] } | null;
    try {
      entry = JSON.parse(line);
    } catch {
      continue;
    }
    if (entry?.kind !== "samples") continue;
    const { t, x, y } = entry;
    const length = Math.max(...[t, x, y].map((list) => (Array.isArray(list) ? list.length : 0)));
    found += length;
    for (let i = 0; i < length; i++) {
      const key = [t, x, y].map((list) => (typeof list?.[i] === "number" ? list[i] : "no number")).join(" ");
      there.set(key, (there.get(key) ?? 0) + 1);
    }
  }
  // a line with a field twice, or too long, is refused before its samples are looked for
  const hidden = (report.reasons.twice ?? 0) + (report.reasons.tooLong ?? 0) > 0;
  if (!hidden && found !== report.samples.found) throw new Fault(`${found} samples in the text, ${report.samples.found} in the report`);
  for (const { trace } of session.recordings) {
    for (let i = 0; i < trace.t.length; i++) {
      const key = `${trace.t[i]} ${trace.x[i]} ${trace.y[i]}`;
      const left = there.get(key) ?? 0;
      if (left === 0) throw new Fault(`keeps a sample that is not there: ${key}`);
      there.set(key, left - 1);
    }
  }
}
