import { toTable } from "../../movement/to-table.js";
import type { Acquisition } from "../../movement/types.js";
import { SESSION_MEASURES } from "../../report/measures/session-measures.js";
import { COLUMNS, type NumericColumn, unitOfColumn } from "./columns.js";

/** A measure of a session that is the mean of its rows. */
export type SessionMean =
  | "acquisitionTime"
  | "hitShare"
  | "primaryTime"
  | "primaryError"
  | "correctionTime"
  | "verificationTime"
  | "latency";

/** What can be tallied: the measures that sessions are compared by, and the columns of the table. */
export type TallyMeasure = SessionMean | NumericColumn;

/** The measures by which sessions are compared. */
export const DEFAULT_MEASURES: readonly TallyMeasure[] = [
  "acquisitionTime",
  "hitShare",
  "primaryTime",
  "primaryError",
  "correctionTime",
  "verificationTime",
  "pressAfterStop",
  "latency",
];
/** Of each part of an acquisition. */
export const DEFAULT_COVARIANCES: readonly TallyMeasure[] = [
  "primaryTime",
  "primaryError",
  "correctionTime",
  "verificationTime",
  "latency",
];

/** Every name there is, in the order in which results name them: one set of measures has one order. */
export const MEASURE_NAMES: readonly TallyMeasure[] = [...new Set([...DEFAULT_MEASURES, ...(Object.keys(COLUMNS) as NumericColumn[])])];

const sessionMean = (name: TallyMeasure) => SESSION_MEASURES.find((measure) => measure.name === name && measure.by === "mean");
const columnNamed = (name: TallyMeasure) => COLUMNS[name as NumericColumn];

/** The unit of a measure of rows whose lengths are in `unit`. */
export function unitOf(name: TallyMeasure, unit: string): string {
  return sessionMean(name)?.unit ?? unitOfColumn(columnNamed(name), unit);
}

/** A function that reads the values of the measures in a row, in order; `undefined` where the row has none. */
export function createReader(names: readonly TallyMeasure[]): (row: Acquisition) => (number | undefined)[] {
  const means = names.map((name) => sessionMean(name));
  const tabled = means.includes(undefined);
  return (row) => {
    const record = tabled ? toTable([row])[0] : undefined;
    return names.map((name, i) => {
      const mean = means[i];
      if (mean !== undefined) return mean.of(row);
      return columnNamed(name).counts(row) ? (record?.[name as NumericColumn] ?? undefined) : undefined;
    });
  };
}
