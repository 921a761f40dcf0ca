import { type CsvHeader, readHeader } from "./csv-header.js";
import { readRecord } from "./csv-record.js";
import { wrongWidth } from "./csv-rows.js";
import { TABLES } from "./csv-tables.js";
import type { LineSink } from "./line-splitter.js";
import { readDecimal } from "./number-text.js";
import { type Path, type Problem, problem } from "./problem.js";
import { dropLine, type Reading, type Row } from "./reading.js";
import type { RecordingBuilder } from "./session-builder.js";
import { type PointStream, takePoint } from "./take-point.js";

const QUOTE = 34;
const COMMA = 44;
/** Fields of a row in the order in which they are handed on. */
const WANTED = ["t", "x", "y", "recording"] as const;

/**
 * Reads the samples table line by line: the one table that may be too long to hold. Its fields cannot span lines.
 * `recordingOf` gives the recording of a number (`undefined`: the only one), or what is wrong with the number.
 */
export function createSamplesReader(
  reading: Reading,
  file: string,
  recordingOf: (number: unknown) => RecordingBuilder | Problem,
): LineSink["line"] {
  const { lines, samples } = reading;
  let header: CsvHeader | undefined;
  // for each field of a row, its place in WANTED, or -1
  let roles: readonly number[] = [];
  const values = new Float64Array(WANTED.length);
  let numbered = false;
  // the row in hand
  let text = "";
  let start = 0;
  let end = 0;
  let line = 0;
  let mayBeCut = false;

  const row: Row = {
    file,
    unit: "row",
    get line() {
      return line;
    },
    get mayBeCut() {
      return mayBeCut;
    },
    column: (path: Path) => {
      const { at, wrong } = readRecord(text.slice(start, end), 0);
      return 1 + (wrong?.at ?? at[header?.places.get(`${path.at(-1)}`) ?? 0] ?? 0);
    },
  };
  const streams = new Map<unknown, PointStream>();
  let latest: PointStream | undefined;
  let latestNumber: unknown = null;

  const streamOf = (number: unknown): PointStream | Problem => {
    if (number === latestNumber) return latest!;
    const recording = recordingOf(number);
    if ("reason" in recording) return recording;
    latestNumber = number;
    latest = streams.get(number) ?? { columns: recording.samples, tally: samples, row, prefix: [], coded: true };
    streams.set(number, latest);
    return latest;
  };

  /** Reads the fields into `values`; false for anything but plain numbers. */
  const readPlain = (): boolean => {
    let pos = start;
    for (let i = 0; i < roles.length; i++) {
      let stop = pos;
      for (; stop < end; stop++) {
        const code = text.charCodeAt(stop);
        if (code === COMMA) break;
        if (code === QUOTE) return false;
      }
      // the last field, and only that, ends with the row
      if ((stop === end) !== (i === roles.length - 1)) return false;
      const role = roles[i]!;
      if (role >= 0) {
        const value = readDecimal(text, pos, stop);
        // a difference with itself is 0 only for finite numbers
        if (value - value !== 0) return false;
        values[role] = value;
      }
      pos = stop + 1;
    }
    return true;
  };

  const take = (number: unknown, t: unknown, x: unknown, y: unknown): void => {
    const stream = streamOf(number);
    if ("reason" in stream) {
      drop(stream);
    } else if (takePoint(reading, stream, -1, t, x, y, 1)) {
      lines.kept++;
      reading.unterminated ||= mayBeCut;
    } else lines.dropped++;
  };

  const drop = (wrong: Problem): void => {
    dropLine(reading, row, wrong);
    samples.found++;
    samples.dropped++;
  };

  /** The way of RFC 4180, for rows with quotes or mistakes. */
  const takeFields = (): void => {
    const { fields, wrong } = readRecord(text.slice(start, end), 0);
    const bad = wrong ? problem("quotes", [], wrong.must, "", { name: "field", got: wrong.got }) : wrongWidth(roles.length, fields.length);
    if (bad) {
      drop(bad);
      return;
    }
    const value = (name: string): unknown => {
      const field = fields[header!.places.get(name)!]!;
      const number = readDecimal(field, 0, field.length);
      return Number.isNaN(number) ? field : number;
    };
    take(numbered ? value("recording") : undefined, value("t"), value("x"), value("y"));
  };

  return (block, from, to, number, whole) => {
    [text, start, end, line, mayBeCut] = [block, from, to, number, !whole];
    if (!header) {
      header = readHeader(reading, file, "samples", TABLES.samples, line, readRecord(text.slice(start, end), 0));
      const { places, width } = header;
      roles = Array.from({ length: width }, (_, i) => WANTED.findIndex((name) => places.get(name) === i));
      numbered = places.has("recording");
      return;
    }
    lines.found++;
    if (readPlain()) take(numbered ? values[3] : undefined, values[0], values[1], values[2]);
    else takeFields();
  };
}
