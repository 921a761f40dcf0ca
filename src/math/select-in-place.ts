import { quickselect } from "simple-statistics";

/** The entry at place `k` (from 0) in increasing order; it stands there afterwards, none before it larger and none behind it smaller. Nothing is copied. */
export function selectInPlace(values: Float64Array, k: number): number {
  // the routine only reads and swaps entries, which a column allows as well as an array
  quickselect(values as unknown as number[], k);
  return values[k]!;
}
