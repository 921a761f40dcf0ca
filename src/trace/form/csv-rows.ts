import { type CsvHeader, readHeader } from "./csv-header.js";
import { type CsvRecord, readRecord } from "./csv-record.js";
import { TABLES, type TableName } from "./csv-tables.js";
import { readDecimal } from "./number-text.js";
import { type Problem, problem } from "./problem.js";
import { dropLine, placed, type Reading, type Row } from "./reading.js";

export const EMPTY_TABLE = "table must have a header row, got none";

/** One row of a table of texts. */
export interface TableRow extends Row {
  /** The text of a field; `undefined` where nothing stands (an empty text stands as `""`) or the table has no such column. */
  text(column: string): string | undefined;
  /** The number of a field; the text itself where it is none, for the message; `undefined` as for `text`. */
  number(column: string): number | string | undefined;
  has(column: string): boolean;
}

/** Reads a table row by row. `take` answers with what is wrong with a row, or whether it was kept where it refuses for itself. */
export function readRows(reading: Reading, name: TableName, text: string, take: (row: TableRow) => Problem | boolean): void {
  const { lines, maxLineLength } = reading;
  const file = `${reading.file}/${name}`;
  let header: CsvHeader | undefined;
  // the row in hand
  let record: CsvRecord;
  let begin = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  let line = 1;
  let isLong = false;

  const indexOf = (column: unknown): number => header!.places.get(column as string) ?? -1;
  const textOf = (column: string): string | undefined => {
    const i = indexOf(column);
    return i < 0 || (record.fields[i] === "" && !record.quoted[i]) ? undefined : record.fields[i];
  };
  const row: TableRow = {
    file,
    unit: "row",
    get line() {
      return line;
    },
    get mayBeCut() {
      // a row without end is no row cut short
      return !record.whole && !isLong;
    },
    column: (path) => {
      const named = path.filter((step) => indexOf(step) >= 0).at(-1);
      return 1 + (record.wrong?.at ?? record.at[indexOf(named)] ?? begin) - begin;
    },
    has: (column) => indexOf(column) >= 0,
    text: textOf,
    number: (column) => {
      const found = textOf(column);
      const value = found === undefined ? 0 : readDecimal(found, 0, found.length);
      return found === undefined || Number.isNaN(value) ? found : value;
    },
  };
  const takeRow = (): Problem | boolean => {
    const { wrong, fields, end } = record;
    if (wrong) return problem("quotes", [], wrong.must, "", { name: "field", got: wrong.got });
    if (isLong) return problem("tooLong", [], `have at most ${maxLineLength} characters`, end - begin);
    return wrongWidth(header!.width, fields.length) ?? take(row);
  };

  while (begin < text.length) {
    record = readRecord(text, begin);
    isLong = record.end - begin > maxLineLength;
    if (!isLong && isEmpty(record)) {
      // nothing stands here
    } else if (!header) header = readHeader(reading, file, name, TABLES[name], line, record);
    else {
      lines.found++;
      const bad = takeRow();
      if (bad === true) {
        lines.kept++;
        reading.unterminated ||= !record.whole;
      } else if (bad === false) lines.dropped++;
      else dropLine(reading, row, bad);
    }
    line += linesBetween(text, begin, record.next);
    begin = record.next;
  }
  if (!header) throw new RangeError(placed({ file, line: 1 }, 1, EMPTY_TABLE));
}

function isEmpty({ fields, quoted, wrong }: CsvRecord): boolean {
  return !wrong && fields.length === 1 && !quoted[0] && /^[ \t]*$/.test(fields[0]!);
}

export function wrongWidth(width: number, got: number): Problem | undefined {
  if (got === width) return undefined;
  return problem("fieldCount", [], `have ${width} fields like the header`, got);
}

function linesBetween(text: string, from: number, to: number): number {
  let count = 0;
  for (let at = text.indexOf("\n", from); at >= 0 && at < to; at = text.indexOf("\n", at + 1)) count++;
  return count;
}
