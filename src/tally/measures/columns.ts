import type { TableRow } from "../../movement/to-table.js";
import type { Acquisition } from "../../movement/types.js";
import { hasBoundaries, hasMovement, hasPrimaryEnd } from "../../movement/unsound-rows.js";

/** A column of `toTable` that holds numbers. */
export type NumericColumn = { [K in keyof TableRow]: TableRow[K] extends number | null ? K : never }[keyof TableRow];

/** What the table does not say of a column. */
export interface Column {
  /** Power of the length unit in its unit, and of the second. */
  readonly length: 0 | 1;
  readonly time: 1 | 0 | -1 | -2;
  /** Rows in which the column means what it says, as `summarize` takes them; in others it counts as missing. */
  readonly counts: (row: Acquisition) => boolean;
}

const always = (): boolean => true;
const column = (length: Column["length"], time: Column["time"], counts: Column["counts"] = hasMovement): Column => ({
  length,
  time,
  counts,
});
const seconds: Column = column(0, 1);
const lengths: Column = column(1, 0);
const plain: Column = column(0, 0);

/** Every column of the table that holds numbers. */
export const COLUMNS: Readonly<Record<NumericColumn, Column>> = {
  go: column(0, 1, always),
  onset: column(0, 1, hasBoundaries),
  peak: column(0, 1, hasBoundaries),
  primaryEnd: column(0, 1, hasBoundaries),
  stop: column(0, 1, hasBoundaries),
  press: column(0, 1, always),
  up: column(0, 1, always),
  end: column(0, 1, always),
  latency: seconds,
  primary: seconds,
  correction: seconds,
  clutch: seconds,
  verification: seconds,
  recovery: seconds,
  amplitude: column(1, 0, always),
  width: column(1, 0, always),
  peakSpeed: column(1, -1),
  corrections: plain,
  primaryAlong: column(1, 0, hasPrimaryEnd),
  primaryAcross: column(1, 0, hasPrimaryEnd),
  primaryRadial: column(1, 0, hasPrimaryEnd),
  stopAlong: column(1, 0, hasBoundaries),
  stopAcross: column(1, 0, hasBoundaries),
  stopRadial: column(1, 0, hasBoundaries),
  pressAlong: column(1, 0, always),
  pressAcross: column(1, 0, always),
  pressRadial: column(1, 0, always),
  correctionLatency: seconds,
  correctionFromPeak: seconds,
  correctionGain: plain,
  correctionPause: seconds,
  correctionEfficiency: plain,
  decelerationShare: plain,
  speedSkew: plain,
  peakDeceleration: column(1, -2),
  stoppingTime: seconds,
  overshoot: lengths,
  settlingTime: seconds,
  pressAfterStop: seconds,
  pressSpeed: column(1, -1),
  pressDuration: seconds,
  slipAlong: lengths,
  slipAcross: lengths,
  slipLength: lengths,
  disturbance: lengths,
  departure: seconds,
  pathLength: lengths,
  pathEfficiency: plain,
  excessPrimary: lengths,
  excessCorrection: lengths,
  excessVerification: lengths,
  excessRecovery: lengths,
  reversals: plain,
  entries: plain,
  spectralArcLength: plain,
  logDimensionlessJerk: plain,
};

/** The unit of a column whose lengths are in `unit`: "s", "px", "px/s", "px/s^2" or "1". */
export function unitOfColumn({ length, time }: Column, unit: string): string {
  const above = [...(length === 1 ? [unit] : []), ...(time === 1 ? ["s"] : [])].join(" ") || "1";
  return time < 0 ? `${above}/s${time === -2 ? "^2" : ""}` : above;
}
