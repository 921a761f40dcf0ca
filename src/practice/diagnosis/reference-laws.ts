import { type Law, lawWithin } from "./law-within.js";
import { type PlainRow, primaryErrorShare } from "./plain-row.js";

/** What the reference takes for each part: at a distance and size, and given what the part receives. */
export interface ReferenceLaws {
  readonly latency: Law;
  readonly primary: Law;
  /** Correction time given the error that the primary left, and given only the difficulty. */
  readonly correctionOfError: Law;
  readonly correction: Law;
  /** Time from stop to deciding press given the error at the stop; given the error the primary left; given only the difficulty. */
  readonly stopOfStopError: Law;
  readonly stopOfPrimaryError: Law;
  readonly stop: Law;
  /** Error of the primary as a share of the distance, and hits, given the difficulty. */
  readonly primaryError: Law;
  readonly hit: Law;
}

/** Fits every law on the units of the reference. */
export function referenceLaws(units: readonly (readonly PlainRow[])[]): ReferenceLaws {
  const law = (of: (row: PlainRow) => number, ...by: ((row: PlainRow) => number)[]): Law => lawWithin(units, of, by);
  const difficulty = (row: PlainRow): number => row.difficulty;
  const primaryError = [(row: PlainRow) => row.primaryBits, (row: PlainRow) => row.primaryOff];
  const stopError = [(row: PlainRow) => row.stopBits, (row: PlainRow) => row.stopOff];
  const correction = (row: PlainRow): number => row.correction;
  const stop = (row: PlainRow): number => row.stopAndPress;
  return {
    latency: law(
      (row) => row.nextTarget,
      (row) => row.follows,
    ),
    primary: law((row) => row.primary, difficulty),
    correctionOfError: law(correction, ...primaryError, difficulty),
    correction: law(correction, difficulty),
    stopOfStopError: law(stop, ...stopError, difficulty),
    stopOfPrimaryError: law(stop, ...primaryError, difficulty),
    stop: law(stop, difficulty),
    primaryError: law(primaryErrorShare, difficulty),
    hit: law((row) => row.hit, difficulty),
  };
}

/** Time per acquisition that the reference takes at the distances and sizes of these rows, seconds. */
export function expectedTime(laws: ReferenceLaws, row: PlainRow): number {
  return laws.latency(row) + laws.primary(row) + laws.correction(row) + laws.stop(row);
}
