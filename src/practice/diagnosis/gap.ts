import type { Estimate } from "../../math/estimate.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import { studentQuantile } from "../../math/student-quantile.js";

/** Something taken off a difference: the variance of its error, and how far it may be off either way beside that, by a bound and not by chance. */
export interface Known {
  readonly value: number;
  readonly variance: number;
  readonly slack: number;
}

/** Session values of the person and values of the reference's units, and what else bears on their difference. */
export interface GapInput {
  readonly now: readonly number[];
  readonly reference: readonly number[];
  /** The reference's units are people, who differ among themselves. */
  readonly people: boolean;
  readonly known?: Known;
}

/** The person's mean less the reference's. */
export interface Gap {
  readonly value: number;
  /** Standard error, sessions (or people) being the units, and the degrees of freedom behind it. */
  readonly error: number;
  readonly df: number;
  /** Standard deviation of a new person of the group about its mean, and its degrees of freedom; 0 where the reference is the person's own. */
  readonly ordinary: number;
  readonly ordinaryDf: number;
  /** How far the value may be off beside chance. */
  readonly slack: number;
  readonly n: number;
}

/** Welch's comparison of two means; `undefined` with fewer than two units on either side. Cost O(units). */
export function gapOf({ now, reference, people, known = { value: 0, variance: 0, slack: 0 } }: GapInput): Gap | undefined {
  if (now.length < 2 || reference.length < 2) return undefined;
  const [one, other] = [meanAndSd(now), meanAndSd(reference)];
  const [a, b] = [one.sd ** 2 / now.length, other.sd ** 2 / reference.length];
  const df = a + b > 0 ? (a + b) ** 2 / (a ** 2 / (now.length - 1) + b ** 2 / (reference.length - 1)) : now.length + reference.length - 2;
  return {
    value: one.mean - other.mean - known.value,
    error: Math.sqrt(a + b + known.variance),
    df,
    ordinary: people ? Math.sqrt(other.sd ** 2 * (1 + 1 / reference.length) + known.variance) : 0,
    ordinaryDf: reference.length - 1,
    slack: known.slack,
    n: now.length,
  };
}

/** The difference with its interval at `level`. */
export function gapEstimate(gap: Gap | undefined, unit: string, level: number, n: number): Estimate {
  if (gap === undefined) return { ok: false, why: "tooFew", unit, n };
  const half = reach(gap.error, gap.df, (1 - level) / 2) + gap.slack;
  return { ok: true, value: gap.value, unit, n: gap.n, interval: [gap.value - half, gap.value + half], level };
}

/** Largest difference that chance, the ordinary differences between people, and what is only known by a bound would show in the share `tail` of cases on one side. */
export function detectableGap(gap: Gap, tail: number): number {
  return Math.max(reach(gap.error, gap.df, tail) + gap.slack, ordinaryGap(gap, tail));
}

/** Largest difference from the group's mean that its members ordinarily show; 0 where the reference is the person's own. */
export function ordinaryGap(gap: Gap, tail: number): number {
  return gap.ordinary === 0 ? 0 : reach(gap.ordinary, gap.ordinaryDf, tail) + gap.slack;
}

function reach(sd: number, df: number, tail: number): number {
  return sd === 0 ? 0 : -studentQuantile(tail, df) * sd;
}
