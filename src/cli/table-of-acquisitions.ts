import { toTable } from "../movement/to-table.js";
import type { Acquisition } from "../movement/types.js";
import type { SessionSummary } from "../report/types.js";

/** What one cell holds. */
export type Cell = string | number | boolean | null;

/** The acquisitions of a session as rows of cells; person, session, file and unit stand first. */
export function acquisitionCells(file: string, summary: SessionSummary): Cell[][] {
  const whose = Object.values(whoseRows(file, summary));
  return toTable(summary.rows).map((row) => [...whose, ...Object.values<Cell>(row as unknown as Record<string, Cell>)]);
}

/** The same as flat records. Five times the cost of cells: records of so many fields are slow to make. */
export function acquisitionRecords(file: string, summary: SessionSummary): Readonly<Record<string, Cell>>[] {
  const whose = whoseRows(file, summary);
  return toTable(summary.rows).map((row) => ({ ...whose, ...row }));
}

function whoseRows(file: string, { person, startedAt, space }: SessionSummary): Readonly<Record<string, string>> {
  return { person, session: startedAt, file, unit: space.unit };
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

/** The columns that hold text; `pressedInMotion` is true or false, and all others are numbers. */
export const textColumns: ReadonlySet<string> = new Set([
  "person",
  "session",
  "file",
  "unit",
  "trial",
  "target",
  "block",
  "outcome",
  "flags",
]);

/** Lines of CSV (RFC 4180), one per row. */
export function csvLines(rows: readonly (readonly Cell[])[]): string {
  return rows.map(csvLine).join("");
}

function csvLine(cells: readonly Cell[]): string {
  return `${cells.map(csvCell).join(",")}\r\n`;
}

/**
 * One cell. A text that a spreadsheet would take for a formula gets an apostrophe before it, so that no name from a file can run anything; numbers stay
 * numbers, also negative ones.
 */
function csvCell(value: Cell): string {
  if (value === null) return "";
  if (typeof value !== "string") return String(value);
  const harmless = /^[\s"']*[=+\-@\t\r|%\uff1d\uff0b\uff0d\uff20]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}
