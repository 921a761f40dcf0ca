import { quickselect } from "simple-statistics";
import type { Estimate } from "./estimate.js";
import { quantile } from "./quantile.js";
import { quantileRanks } from "./quantile-ranks.js";

/**
 * Quantile `p` (above 0 and below 1) of independent values with an interval between two of the values themselves. It assumes nothing about the
 * distribution: the number of values below the true quantile is binomial with share `p`. Either end leaves out at most (1 - level)/2; the
 * `level` returned is the one attained. Too few values for either end (a small `p` needs many below it, a large one many above): the value
 * without interval. No values: `tooFew`.
 */
export function quantileEstimate(values: ArrayLike<number>, p: number, unit: string, level = 0.95): Estimate {
  const n = values.length;
  if (n === 0) return { ok: false, why: "tooFew", unit, n };
  const column = Float64Array.from(values);
  // the value takes two neighbours of the sorted column: only these need to be in their places
  const index = Math.floor((n - 1) * p);
  nth(column, index);
  if (index + 1 < n) nth(column, index + 1, index + 1);
  const value = quantile(column, p) + 0; // a negative zero would not survive JSON
  const ends = quantileRanks(n, p, level);
  if (ends === undefined) return { ok: true, value, unit, n };
  return { ok: true, value, unit, n, interval: [nth(column, ends.low) + 0, nth(column, ends.high) + 0], level: ends.level };
}

/** The entry with `index` smaller ones, put into its place; of the others smaller ones come before and larger ones after it. What lies before `from` is in place and stays. */
function nth(column: Float64Array, index: number, from = 0): number {
  // the routine only reads and swaps entries, which a column allows as well as an array
  quickselect(column as unknown as number[], index, from, column.length - 1);
  return column[index]!;
}
