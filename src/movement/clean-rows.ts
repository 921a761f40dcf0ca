import type { Acquisition, Flag } from "./types.js";

/** Rows with these flags hold no whole aimed movement with a speed of its own. */
const SPOILT: readonly Flag[] = [
  "missingData",
  "belowResolution",
  "noAxis",
  "noMovement",
  "shortPrimary",
  "clutch",
  "movingTarget",
  "edge",
  "hidden",
  "gainChanged",
];

/** Whether a row holds one clean movement to a standing target. */
export function isClean(row: Acquisition): boolean {
  return !row.flags.some((flag) => SPOILT.includes(flag));
}
