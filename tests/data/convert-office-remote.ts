// Reads the office-remote recordings: long free use of a mouse over a remote desktop, no targets. Source of the data: Fulop, Kovacs, Kurics
// and Windhager-Pokol 2016, a public data set of mouse dynamics, offered for research with citation; kept outside.
import { readdirSync } from "node:fs";
import type { CsvTables } from "../../src/trace/form/csv-tables.js";
import type { ReadReport } from "../../src/trace/form/read-report.js";
import { parseRecording } from "../../src/trace/parse-recording.js";
import type { Recording } from "../../src/trace/types.js";
import { sharedPath } from "../shared.js";
import { readTable } from "./read-table.js";

/** The code that the recorder wrote into both coordinates where it had no position. */
export const NO_POSITION = 65535;

/** A row as published: one event of any kind, each with the position at that time. */
export interface OfficeRow {
  /** Whole milliseconds. */
  readonly ms: number;
  readonly x: number;
  readonly y: number;
  /** A `drag` is a move with a button held. */
  readonly event: "move" | "drag" | "press" | "release" | "wheelUp" | "wheelDown";
  readonly button: string;
  /** The row as it stands, for comparing whole rows. */
  readonly text: string;
}

/** Names of the recordings at hand, `"p07-a"` and so on; none when the data are absent. */
export function officeRemoteNames(): string[] {
  const folder = sharedPath("data", "office-remote", "traces");
  return folder === undefined
    ? []
    : readdirSync(folder)
        .map((file) => file.replace(".csv", ""))
        .sort();
}

/** Path of a recording. */
export function officeRemotePath(name: string): string {
  const path = sharedPath("data", "office-remote", "traces", `${name}.csv`);
  if (path === undefined) throw new Error(`office-remote: ${name} is absent`);
  return path;
}

/** The rows of a recording, none left out. */
function readOfficeRemote(name: string): OfficeRow[] {
  return readTable(officeRemotePath(name)).map((row) => ({
    ms: Number(row.t_ms),
    x: Number(row.x),
    y: Number(row.y),
    event: row.event as OfficeRow["event"],
    button: row.button!,
    text: Object.values(row).join(","),
  }));
}

/** Each press with the next release of the same button, in order of the presses. */
export function pressPairs(rows: readonly OfficeRow[]): { press: OfficeRow; release?: OfficeRow }[] {
  const pairs: { press: OfficeRow; release?: OfficeRow }[] = [];
  const held = new Map<string, number>();
  for (const row of rows) {
    if (row.event === "press") {
      held.set(row.button, pairs.length);
      pairs.push({ press: row });
    } else if (row.event === "release") {
      const at = held.get(row.button);
      if (at !== undefined) pairs[at]!.release = row;
      held.delete(row.button);
    }
  }
  return pairs;
}

/** The rows as this project's tables, faults included: every row is a sample. Turns of the wheel are samples only: they aim at nothing. */
function officeRemoteTables(rows: readonly OfficeRow[]): CsvTables {
  const seconds = (row: OfficeRow): string => (row.ms / 1000).toFixed(3);
  const presses = pressPairs(rows).map(({ press, release }) => {
    const up = release === undefined ? "" : seconds(release);
    return `${seconds(press)},${up},button,${press.button},${press.x},${press.y}`;
  });
  return {
    samples: ["t,x,y", ...rows.map((row) => `${seconds(row)},${row.x},${row.y}`), ""].join("\n"),
    presses: ["t,tUp,by,code,x,y", ...presses, ""].join("\n"),
    recordings: "recording,space,unit,device\n1,plane,px,mouse\n",
  };
}

/** A recording with the rows that carry no position dropped, read by the project's own reader. */
export function convertOfficeRemote(name: string): Recording {
  return readOffice(name).repaired;
}

/** A recording as rows, with all rows as samples, and with the rows that carry no position dropped; what was dropped stands in `report`. */
export function readOffice(name: string): {
  rows: OfficeRow[];
  tables: CsvTables;
  whole: Recording;
  repaired: Recording;
  report: ReadReport;
} {
  const rows = readOfficeRemote(name);
  const tables = officeRemoteTables(rows);
  const { session, report } = parseRecording(tables, { file: name, missing: NO_POSITION, repair: true });
  return { rows, tables, whole: parseRecording(tables).session.recordings[0]!, repaired: session.recordings[0]!, report };
}
