import { toTable } from "../movement/to-table.js";
import type { NamedSession } from "./group-people.js";

/** One acquisition with whose it is and where it came from, flat. */
export type AcquisitionRecord = Readonly<Record<string, string | number | boolean | null>>;

/** The acquisitions of a session as flat records; person, session and file stand first. */
export function acquisitionRecords({ name, summary }: NamedSession): AcquisitionRecord[] {
  const whose = { person: summary.person, session: summary.startedAt, file: name, unit: summary.space.unit };
  return toTable(summary.rows).map((row) => ({ ...whose, ...row }));
}

/** Lines of CSV (RFC 4180) for records of one shape; the header only where `withHeader` says so. */
export function csvLines(records: readonly AcquisitionRecord[], withHeader: boolean): string {
  if (records.length === 0) return "";
  const names = Object.keys(records[0]!);
  const lines = records.map((record) => names.map((name) => csvCell(record[name] ?? null)).join(","));
  return `${[...(withHeader ? [names.join(",")] : []), ...lines].join("\r\n")}\r\n`;
}

/**
 * One cell. A text that a spreadsheet would take for a formula gets an apostrophe before it, so that no name from a file can run anything; numbers stay
 * numbers, also negative ones.
 */
function csvCell(value: string | number | boolean | null): string {
  if (value === null) return "";
  if (typeof value !== "string") return String(value);
  const harmless = /^[\s"']*[=+\-@\t\r|%]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}
