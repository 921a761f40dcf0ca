import { toTable } from "../movement/to-table.js";
import type { Acquisition } from "../movement/types.js";
import type { NamedSession } from "./group-people.js";

/** One acquisition with whose it is and where it came from, flat. */
export type AcquisitionRecord = Readonly<Record<string, string | number | boolean | null>>;

/** The acquisitions of a session as flat records; person, session and file stand first. */
export function acquisitionRecords({ name, summary }: NamedSession): AcquisitionRecord[] {
  const whose = { person: summary.person, session: summary.startedAt, file: name, unit: summary.space.unit };
  return toTable(summary.rows).map((row) => ({ ...whose, ...row }));
}

/** An acquisition without anything in it: its columns are those of every other. */
const EMPTY: Acquisition = {
  ...{ trial: "", target: "", block: "", outcome: "abandoned", pressedInMotion: false, times: { go: 0, end: 0 }, width: 0 },
  ...{ budget: { latency: 0, primary: 0, correction: 0, clutch: 0, verification: 0, recovery: 0 } },
  ...{ submovements: [], corrections: [], errors: {}, flags: [] },
};

/** The columns of the table, of which every session has the same. */
export function tableColumns(): string[] {
  const [row] = toTable([EMPTY]);
  return ["person", "session", "file", "unit", ...Object.keys(row!)];
}

/** Lines of CSV (RFC 4180): one per record, its fields in the order of the columns. */
export function csvLines(columns: readonly string[], records: readonly AcquisitionRecord[]): string {
  return records.map((record) => `${columns.map((column) => csvCell(record[column] ?? null)).join(",")}\r\n`).join("");
}

/**
 * One cell. A text that a spreadsheet would take for a formula gets an apostrophe before it, so that no name from a file can run anything; numbers stay
 * numbers, also negative ones.
 */
function csvCell(value: string | number | boolean | null): string {
  if (value === null) return "";
  if (typeof value !== "string") return String(value);
  const harmless = /^[\s"']*[=+\-@\t\r|%\uff1d\uff0b\uff0d\uff20]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}
