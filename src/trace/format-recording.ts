import { requireInteger, requireOneOf } from "../math/require.js";
import type { CsvTables } from "./form/csv-tables.js";
import { formatTables } from "./form/format-tables.js";
import { chunkLines, recordingLine, sessionLine } from "./form/json-lines.js";
import { requireSession } from "./form/require-session.js";
import type { Session } from "./types.js";

export interface FormatRecordingOptions {
  /** `"jsonl"` (default): one text of JSON Lines, for programs and for appending. `"csv"`: tables, for a spreadsheet or R. */
  readonly form?: "jsonl" | "csv";
  /** Samples on one line of JSON Lines, 1 to 100000, default 1000. Lowered: less is lost with a damaged line; raised: a smaller file. */
  readonly samplesPerLine?: number;
}

/**
 * Writes a session as text in one of our own file forms, described on the page "File formats". `parseRecording` gives back the same session
 * to the last bit: numbers have the fewest digits that name their double, a negative zero keeps its sign, texts may hold quotes, commas and
 * line breaks. Lines end in \n. Cost O(n).
 * @param session - at least one recording; what the reader would refuse is refused here too, so that no file is written that cannot be read
 * @param options - form, and how long lines may grow
 * @returns a text of JSON Lines, or with form `"csv"` the tables by name, those without rows left out
 * @throws RangeError for a value that a session cannot hold, a field that no file has a place for, an id given twice, a credit or an ended
 *   trial's goal that names no target, an option out of range; TypeError for a value of the wrong kind
 * @see RFC 4180 section 2 (CSV), jsonlines.org (one JSON value a line)
 * @example
 * ```ts
 * const { session } = parseRecording("t,x,y\n0,10,5\n0.008,12,5\n");
 * formatRecording(session).split("\n")[2] // => '{"kind":"samples","recording":1,"t":[0,0.008],"x":[10,12],"y":[5,5]}'
 * formatRecording(session, { form: "csv" }).samples // => "recording,t,x,y\n1,0,10,5\n1,0.008,12,5\n"
 * ```
 */
export function formatRecording(session: Session, options?: FormatRecordingOptions & { readonly form?: "jsonl" }): string;
export function formatRecording(session: Session, options: FormatRecordingOptions & { readonly form: "csv" }): CsvTables;
export function formatRecording(session: Session, options: FormatRecordingOptions = {}): string | CsvTables {
  const { form = "jsonl", samplesPerLine = 1000 } = options;
  requireOneOf("formatRecording", "options.form", form, ["jsonl", "csv"]);
  requireInteger("formatRecording", "options.samplesPerLine", samplesPerLine, 1, 100_000);
  requireSession("formatRecording", session, form === "jsonl");
  if (form === "jsonl") return [...sessionLines(session, samplesPerLine), ""].join("\n");
  const tables = formatTables(session);
  for (const [name, text] of Object.entries(tables)) {
    // JSON has an escape for it; in CSV it would not survive the file
    const half = text.match(/\p{Surrogate}/u)?.index;
    if (half !== undefined) throw new RangeError(`formatRecording: session must have whole characters in table ${name}, got half a pair`);
  }
  return tables;
}

function* sessionLines(session: Session, samplesPerLine: number): Generator<string> {
  yield sessionLine(session);
  for (const [i, recording] of session.recordings.entries()) {
    yield recordingLine(recording, i + 1);
    yield* chunkLines(recording, i + 1, samplesPerLine);
  }
}
