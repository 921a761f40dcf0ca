import { show } from "../../math/require.js";
import type { CsvRecord } from "./csv-record.js";
import type { TableForm } from "./csv-tables.js";
import { placed, type Reading } from "./reading.js";

/** Where each known column stands in a row. */
export interface CsvHeader {
  /** Fields in a row. */
  readonly width: number;
  readonly places: ReadonlyMap<string, number>;
}

/** Reads a header row. Without a whole one nothing below it can be read, so its mistakes are thrown even where repair is asked for. */
export function readHeader(reading: Reading, file: string, table: string, form: TableForm, line: number, record: CsvRecord): CsvHeader {
  const names = record.fields.map((name) => name.trim());
  const begin = record.at[0]!;
  const fail = (at: number, text: string): never => {
    throw new RangeError(placed({ file, line }, at - begin + 1, text));
  };
  if (record.wrong) fail(record.wrong.at, `field must ${record.wrong.must}, got ${record.wrong.got}`);
  const places = new Map<string, number>();
  for (const [i, name] of names.entries()) {
    if (!form.columns.includes(name)) reading.ignored.add(`${table}.${name}`);
    else if (places.has(name)) fail(record.at[i]!, `header must name column ${name} once, got it twice`);
    else places.set(name, i);
  }
  const absent = form.needed.filter((name) => !places.has(name));
  if (absent.length > 0) {
    fail(begin, `header must name the columns ${form.needed.join(", ")} between commas, got ${show(record.fields.join(","))}`);
  }
  return { width: names.length, places };
}
