import { meanAndSd } from "./mean-and-sd.js";
import { studentQuantile } from "./student-quantile.js";
import { studentTail } from "./student-tail.js";

/** A difference of two independent estimates. */
export interface WelchTest {
  readonly difference: number;
  readonly interval: readonly [number, number];
  readonly t: number;
  readonly df: number;
  /** Two-sided. */
  readonly p: number;
}

/** An estimate, the variance of its sampling error, and the degrees of freedom that this variance rests on. */
export interface Uncertain {
  readonly value: number;
  readonly variance: number;
  readonly df: number;
}

/**
 * Difference `after` minus `before` of two independent estimates whose variances need not be alike, with the degrees of freedom of Welch and
 * Satterthwaite (recalled): (va + vb)^2/(va^2/dfa + vb^2/dfb). `undefined` when neither has any variance.
 */
export function welch(before: Uncertain, after: Uncertain, level: number): WelchTest | undefined {
  const variance = before.variance + after.variance;
  if (!(variance > 0 && Number.isFinite(variance))) return undefined;
  // shares of the variance, so that squares of tiny variances do not vanish
  const b = before.variance / variance;
  const a = after.variance / variance;
  const df = 1 / ((b * b) / before.df + (a * a) / after.df);
  const difference = after.value - before.value;
  const error = Math.sqrt(variance);
  const half = -studentQuantile((1 - level) / 2, df) * error;
  const t = difference / error;
  return { difference, interval: [difference - half, difference + half], t, df, p: studentTail(t, df) };
}

/** The mean of at least two values, for `welch`. */
export function uncertainMean(values: ArrayLike<number>): Uncertain {
  const { mean, sd } = meanAndSd(values);
  return { value: mean, variance: (sd * sd) / values.length, df: values.length - 1 };
}
