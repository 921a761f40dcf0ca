import type { Acquisition, Flag } from "./types.js";

/** Rows with these flags have no trustworthy boundaries. */
const NO_BOUNDARIES: readonly Flag[] = ["missingData", "belowResolution"];
/** Rows with these flags have a primary endpoint that is not the end of an aimed movement. */
const NO_PRIMARY: readonly Flag[] = [...NO_BOUNDARIES, "shortPrimary", "edge", "hidden", "gainChanged"];

/** Whether the boundaries of a row were found, so that its parts mean what they say. */
export function hasBoundaries(row: Acquisition): boolean {
  return !hasAny(row, NO_BOUNDARIES);
}

/** Whether the boundaries of a row were found and the pointer moved: there is a movement to measure. */
export function hasMovement(row: Acquisition): boolean {
  return hasBoundaries(row) && row.times.onset !== undefined;
}

/** Whether the primary submovement of a row ended where it was aimed to end. */
export function hasPrimaryEnd(row: Acquisition): boolean {
  return !hasAny(row, NO_PRIMARY);
}

function hasAny(row: Acquisition, flags: readonly Flag[]): boolean {
  return row.flags.some((flag) => flags.includes(flag));
}
