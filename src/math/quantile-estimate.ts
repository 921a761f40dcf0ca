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
  const index = Math.floor((n - 1) * p);
  const ends = quantileRanks(n, p, level);
  // the value takes two neighbours of the sorted column, the interval two more: only these need to be in their places
  placeRanks(column, [ends?.low ?? index, index, Math.min(index + 1, n - 1), ends?.high ?? index]);
  const value = quantile(column, p) + 0; // a negative zero would not survive JSON
  if (ends === undefined) return { ok: true, value, unit, n };
  return { ok: true, value, unit, n, interval: [column[ends.low]! + 0, column[ends.high]! + 0], level: ends.level };
}

/** Puts the entries of the given ranks into their places, from the side on which more others lie, so that each search leaves the next one less. */
function placeRanks(column: Float64Array, ranks: readonly number[]): void {
  const ascending = [...ranks].sort((a, b) => a - b);
  let [left, right] = [0, column.length - 1];
  const fromBelow = ascending[0]! + ascending.at(-1)! >= right;
  for (const rank of fromBelow ? ascending : ascending.reverse()) {
    // a rank that comes twice is in its place
    if (rank < left || rank > right) continue;
    // the routine only reads and swaps entries, which a column allows as well as an array
    quickselect(column as unknown as number[], rank, left, right);
    if (fromBelow) left = rank + 1;
    else right = rank - 1;
  }
}
