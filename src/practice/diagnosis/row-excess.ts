import type { Part } from "../types.js";
import type { PlainRow } from "./plain-row.js";
import type { ReferenceLaws } from "./reference-laws.js";

/** The parts in the order of a movement. */
export const PARTS: readonly Part[] = ["nextTarget", "primary", "correction", "stopAndPress"];

/** Seconds beyond the reference: in the part's own time, and in what its errors cost the parts after it. */
export interface Excess {
  readonly own: number;
  readonly passedOn: number;
}

/**
 * Excess of one acquisition by part. Each part is charged with its own time beyond what the reference takes given what the part received, and with what the
 * reference would pay later for the error it leaves, less what it pays at this difficulty. The charges cancel down the line: they add up to the time of the
 * acquisition less the reference's time at the same distance and size.
 */
export function rowExcess(row: PlainRow, laws: ReferenceLaws): Readonly<Record<Part, Excess>> {
  const correctionDue = laws.correctionOfError(row);
  const stopDue = laws.stopOfStopError(row);
  const stopAfterPrimary = laws.stopOfPrimaryError(row);
  return {
    nextTarget: { own: row.nextTarget - laws.latency(row), passedOn: 0 },
    primary: {
      own: row.primary - laws.primary(row),
      passedOn: correctionDue - laws.correction(row) + stopAfterPrimary - laws.stop(row),
    },
    correction: { own: row.correction - correctionDue, passedOn: stopDue - stopAfterPrimary },
    stopAndPress: { own: row.stopAndPress - stopDue, passedOn: 0 },
  };
}
