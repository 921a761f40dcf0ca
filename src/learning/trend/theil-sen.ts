import { medianInPlace } from "../../math/median.js";
import { normalQuantile } from "../../math/normal-quantile.js";
import { kendallVariance } from "./kendall-variance.js";
import { slopeOfRank } from "./slope-of-rank.js";
import { sortWithinTies } from "./sort-within-ties.js";
import { tieSums } from "./tie-sums.js";

/** Up to this many pairs it is quicker to list and sort their slopes than to search for the few that are needed (measured). */
const LISTED_PAIRS = 40_000;

/** A line that half of the pairs of points would draw steeper, and half less steep. */
export interface TheilSenLine {
  /** Median of the slopes of all pairs with different x. */
  readonly slope: number;
  /** Median of y minus the slope times the median of x. */
  readonly intercept: number;
  /** Limits of the slope. */
  readonly interval: readonly [number, number];
  /** Pairs with different x. */
  readonly pairs: number;
}

/**
 * Line of Theil and Sen, `x` never falling: about 29 % of the values may be anything without carrying it away. Sen's limits at `level` are
 * the slopes whose ranks Kendall's S would reach by chance (rounded as SciPy does); they take the values as independent. `undefined`
 * without two different x. Exact for any number of values; cost O(n log n).
 */
export function theilSen(x: Float64Array, y: Float64Array, level: number): TheilSenLine | undefined {
  const n = x.length;
  const values = sortWithinTies(x, y);
  const inX = tieSums(x);
  const pairs = (n * (n - 1)) / 2 - inX.pairs;
  if (pairs === 0) return undefined;
  const spread = Math.sqrt(kendallVariance(n, inX, tieSums(values.slice().sort()))) * normalQuantile((1 + level) / 2);
  const lowest = Math.max(Math.round((pairs - spread) / 2) - 1, 0);
  const highest = Math.min(Math.round((pairs + spread) / 2), pairs - 1);
  const slopes = pairs <= LISTED_PAIRS ? allSlopes(x, values, pairs) : undefined;
  const at = (rank: number): number => (slopes?.[rank] ?? slopeOfRank(x, values, rank)) + 0; // -0 becomes 0
  const upper = at(pairs >> 1);
  const slope = pairs % 2 === 1 ? upper : (at((pairs >> 1) - 1) + upper) / 2;
  return { slope, intercept: medianInPlace(y.slice()) - slope * medianInPlace(x.slice()) + 0, interval: [at(lowest), at(highest)], pairs };
}

/** Ascending. */
function allSlopes(x: Float64Array, y: Float64Array, pairs: number): Float64Array {
  const slopes = new Float64Array(pairs);
  let count = 0;
  for (let j = 1; j < x.length; j++) {
    for (let i = 0; i < j && x[i]! < x[j]!; i++) slopes[count++] = (y[j]! - y[i]!) / (x[j]! - x[i]!);
  }
  return slopes.sort();
}
