import { type CsvHeader, readHeader } from "./csv-header.js";
import { readRecord } from "./csv-record.js";
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
  const file = `${reading.file}/${name}`;
  const { lines, maxLineLength } = reading;
  let header: CsvHeader | undefined;
  let line = 1;
  for (let pos = text.charCodeAt(0) === 0xfeff ? 1 : 0; pos < text.length; ) {
    const record = readRecord(text, pos);
    const { fields, whole, end, next, wrong } = record;
    const [begin, number] = [pos, line];
    const isLong = end - begin > maxLineLength;
    line += linesBetween(text, pos, next);
    pos = next;
    if (!wrong && !isLong && fields.length === 1 && !record.quoted[0] && /^[ \t]*$/.test(fields[0]!)) continue;
    if (!header) {
      header = readHeader(reading, file, name, TABLES[name], number, record);
      continue;
    }
    lines.found++;
    const { places, width } = header;
    const indexOf = (column: unknown): number => places.get(`${column}`) ?? -1;
    const textOf = (column: string): string | undefined => {
      const i = indexOf(column);
      return i < 0 || (fields[i] === "" && !record.quoted[i]) ? undefined : fields[i];
    };
    const row: TableRow = {
      // a row without end is no row cut short
      ...{ file, line: number, unit: "row", mayBeCut: !whole && !isLong, text: textOf },
      has: (column) => indexOf(column) >= 0,
      number: (column) => {
        const found = textOf(column);
        const value = found === undefined ? 0 : readDecimal(found, 0, found.length);
        return found === undefined || Number.isNaN(value) ? found : value;
      },
      column: (path) => 1 + (record.at[indexOf(path.filter((step) => indexOf(step) >= 0).at(-1))] ?? begin) - begin,
    };
    if (wrong) {
      const bad = problem("quotes", [], wrong.must, "", { name: "field", got: wrong.got });
      dropLine(reading, { ...row, column: () => 1 + wrong.at - begin }, bad);
      continue;
    }
    const bad = isLong
      ? problem("tooLong", [], `have at most ${maxLineLength} characters`, end - begin)
      : (wrongWidth(width, fields.length) ?? take(row));
    if (bad === true) {
      lines.kept++;
      reading.unterminated ||= !whole;
    } else if (bad === false) lines.dropped++;
    else dropLine(reading, row, bad);
  }
  if (!header) throw new RangeError(placed({ file, line: 1 }, 1, EMPTY_TABLE));
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
