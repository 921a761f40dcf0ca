import { chartOf, recorded } from "../report-data.js";

/** One simulated sequence of targets, as the report draws it. */
export function spec(): object {
  return chartOf({ sequence: recorded({ seed: 12, movements: 6, sequence: 6, planning: { overlapShare: 0.4 } }).rows });
}
