import { studentQuantile } from "./student-quantile.js";
import type { Uncertain } from "./welch.js";

/** One of the independent estimates that make up both sides of a ratio, with its factor in each. */
export interface RatioTerm {
  readonly estimate: Uncertain;
  readonly numerator: number;
  readonly denominator: number;
}

/** A ratio of two uncertain sums. */
export interface FiellerRatio {
  readonly value: number;
  /** `undefined` when the denominator is not told from 0 at the level: then no bounded interval holds what its name says. */
  readonly interval: readonly [number, number] | undefined;
  readonly df: number;
}

/**
 * Ratio of two sums of independent estimates, with Fieller's interval (1940, 1954, recalled): all ratios r for which numerator - r denominator
 * is compatible with 0 by Student's test. Terms may stand in both sums. Degrees of freedom after Welch and Satterthwaite at the ratio found
 * (the choice of Tamhane and Logan 2004, as a manual page reports it). `undefined` when the denominator is 0.
 */
export function fieller(terms: readonly RatioTerm[], level: number): FiellerRatio | undefined {
  let above = 0;
  let below = 0;
  for (const { estimate, numerator, denominator } of terms) {
    above += numerator * estimate.value;
    below += denominator * estimate.value;
  }
  const value = above / below;
  if (!Number.isFinite(value)) return undefined;
  // in units of the denominator, so that nothing overflows
  let varianceAbove = 0;
  let varianceBelow = 0;
  let covariance = 0;
  let whole = 0;
  for (const { estimate, numerator, denominator } of terms) {
    const variance = estimate.variance / below / below;
    varianceAbove += numerator * numerator * variance;
    varianceBelow += denominator * denominator * variance;
    covariance += numerator * denominator * variance;
    whole += (numerator - value * denominator) ** 2 * variance;
  }
  let df = Number.POSITIVE_INFINITY;
  if (whole > 0) {
    let sum = 0;
    for (const { estimate, numerator, denominator } of terms) {
      const share = ((numerator - value * denominator) ** 2 * (estimate.variance / below / below)) / whole;
      sum += (share * share) / estimate.df;
    }
    df = 1 / sum;
  }
  const t = -studentQuantile((1 - level) / 2, Math.min(df, 1e9));
  const square = t * t;
  const free = 1 - square * varianceBelow;
  if (!(free > 0)) return { value, interval: undefined, df };
  const middle = (value - square * covariance) / free;
  // the root of the discriminant; it holds the value itself, so what is below 0 is rounding
  const spread =
    varianceAbove - 2 * value * covariance + value * value * varianceBelow - square * (varianceAbove * varianceBelow - covariance ** 2);
  const half = (t * Math.sqrt(Math.max(0, spread))) / free;
  return { value, interval: [middle - half, middle + half], df };
}
