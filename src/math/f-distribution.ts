// Fisher's F distribution, through the beta distribution: with r = f df1/df2, the share r/(1 + r) is a beta variable with shapes df1/2 and df2/2.
import { betaTails } from "./beta.js";
import { positiveQuantile, type TailsAt } from "./positive-quantile.js";

/**
 * Probability that an F variable with `df1` and `df2` degrees of freedom (above 0, not necessarily whole) exceeds `f`: the p-value of an
 * F test. 1 at 0 and below, 0 at Infinity. About 1e-13 relative where it is the smaller tail.
 */
export function fTail(f: number, df1: number, df2: number): number {
  return f > 0 ? tailsAt(f, df1, df2).upper : 1;
}

/**
 * The value that an F variable with `df1` and `df2` degrees of freedom stays below with probability `p`; 0 at 0 and Infinity at 1.
 * About 1e-12 relative within exp(-350)..exp(350).
 */
export function fQuantile(p: number, df1: number, df2: number): number {
  // both the mean and the median of F lie near 1 unless the degrees of freedom are very few
  return positiveQuantile((f) => tailsAt(f, df1, df2), p, 1 - p, 1);
}

function tailsAt(f: number, df1: number, df2: number): TailsAt {
  const ratio = (f * df1) / df2;
  const x = 1 / (1 + 1 / ratio);
  const y = 1 / (1 + ratio);
  return betaTails(df1 / 2, df2 / 2, x, y);
}
