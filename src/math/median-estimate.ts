import { quickselect } from "simple-statistics";
import { regularizedBeta } from "./beta.js";
import type { Estimate } from "./estimate.js";
import { medianInPlace } from "./median.js";

/**
 * Median of independent values with the interval between two of the values themselves, the r-th from below and the r-th from above. It
 * assumes nothing about the distribution: the number of values below the true median is binomial with share 1/2. `r` is the largest that
 * covers with at least `level`; the `level` returned is the one attained, 1 - 2 P(binomial(n, 1/2) < r), often well above the one asked for
 * at small n.
 * Too few values for any r (below 6 at 0.95): the value without interval. No values: `tooFew`.
 */
export function medianEstimate(values: ArrayLike<number>, unit: string, level = 0.95): Estimate {
  const n = values.length;
  if (n === 0) return { ok: false, why: "tooFew", unit, n };
  const column = Float64Array.from(values);
  const value = medianInPlace(column) + 0; // a negative zero would not survive JSON
  const rank = medianRank(n, level);
  if (rank === 0) return { ok: true, value, unit, n };
  return { ok: true, value, unit, n, interval: [nth(column, rank - 1) + 0, nth(column, n - rank) + 0], level: coverage(n, rank) };
}

/** The entry with `index` smaller ones; the order of the others is lost. */
function nth(column: Float64Array, index: number): number {
  quickselect(column as unknown as number[], index);
  return column[index]!;
}

// the largest rank that still covers with `level`, 0 when none does; the coverage falls with the rank
function medianRank(n: number, level: number): number {
  let low = 0;
  let high = (n >> 1) + 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (coverage(n, middle) >= level) low = middle;
    else high = middle;
  }
  return low;
}

// P(r <= binomial(n, 1/2) <= n - r); the lower tail is an incomplete beta function
function coverage(n: number, rank: number): number {
  return 1 - 2 * regularizedBeta(n - rank + 1, rank, 0.5);
}
