import { quickselect } from "simple-statistics";
import { betaTails } from "./beta.js";
import type { Estimate } from "./estimate.js";
import { quantile } from "./quantile.js";

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
  const tail = (1 - level) / 2;
  // ranks from below and from above, by the same search
  const low = rank(n, p, tail);
  const high = rank(n, 1 - p, tail);
  if (low === 0 || high === 0) return { ok: true, value, unit, n };
  const attained = 1 - fewer(n, p, low) - fewer(n, 1 - p, high);
  return { ok: true, value, unit, n, interval: [nth(column, low - 1) + 0, nth(column, n - high) + 0], level: attained };
}

/** The entry with `index` smaller ones, put into its place; of the others smaller ones come before and larger ones after it. What lies before `from` is in place and stays. */
function nth(column: Float64Array, index: number, from = 0): number {
  // the routine only reads and swaps entries, which a column allows as well as an array
  quickselect(column as unknown as number[], index, from, column.length - 1);
  return column[index]!;
}

/** The largest rank that lies beyond the quantile with probability at most `tail`; 0 when none does. */
function rank(n: number, p: number, tail: number): number {
  let low = 0;
  let high = n + 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (fewer(n, p, middle) <= tail) low = middle;
    else high = middle;
  }
  return low;
}

/** P(binomial(n, p) < rank), an incomplete beta function. */
function fewer(n: number, p: number, rank: number): number {
  return betaTails(rank, n - rank + 1, p, 1 - p).upper;
}
