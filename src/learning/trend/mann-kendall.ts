import { normalCdf } from "../../math/normal.js";
import { kendallVariance } from "./kendall-variance.js";
import { mergeOrder } from "./merge-order.js";
import { sortWithinTies } from "./sort-within-ties.js";
import { tieSums } from "./tie-sums.js";

/** Whether later values tend to be higher than earlier ones. */
export interface MannKendall {
  /** Pairs of values at different x that rise, minus pairs that fall. */
  readonly s: number;
  /** Of `s`, were the values independent and without trend. */
  readonly variance: number;
  /** `s`, one nearer to 0, over its standard deviation. */
  readonly z: number;
  /** Two-sided. */
  readonly p: number;
  /** Kendall's rank correlation with ties in both lists allowed for, -1 to 1. */
  readonly tau: number;
}

/**
 * Test of Mann and Kendall for a trend of either sign and any shape, `x` never falling. It takes the values as independent: where
 * neighbours are alike, p is too small. No trend can be seen, z 0, p 1 and tau 0, when all values or all x are equal. Cost O(n log n).
 */
export function mannKendall(x: Float64Array, y: Float64Array): MannKendall {
  const n = y.length;
  // with each group of equal x in ascending order, the pairs out of order are those that fall from one x to a later one
  const values = sortWithinTies(x, y);
  const inBoth = tieSums(x, values);
  const falling = mergeOrder(Int32Array.from(values.keys()), values);
  const inX = tieSums(x);
  const inY = tieSums(values.sort());
  const variance = kendallVariance(n, inX, inY);
  if (variance === 0) return { s: 0, variance, z: 0, p: 1, tau: 0 };
  const all = (n * (n - 1)) / 2;
  const s = all - inX.pairs - inY.pairs + inBoth.pairs - 2 * falling;
  const z = s === 0 ? 0 : (s - Math.sign(s)) / Math.sqrt(variance);
  return { s, variance, z, p: 2 * normalCdf(-Math.abs(z)), tau: s / Math.sqrt((all - inX.pairs) * (all - inY.pairs)) };
}
