import type { Estimate } from "../../math/estimate.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { pooledSdEstimate } from "../../math/pooled-sd-estimate.js";
import { studentQuantile } from "../../math/student-quantile.js";

/** Differences within this many standard deviations of their mean: 95 % of normal ones, rounded as Bland and Altman do. */
const LIMIT = 1.96;

/** Two neighbouring sessions of the same people: later minus earlier. */
export interface SessionPair {
  /** Places of the two sessions, from 0. */
  readonly sessions: readonly [number, number];
  /** Mean change, the bias of the later session. */
  readonly change: Estimate;
  /** Standard deviation of the changes. */
  readonly sdOfChange: Estimate;
  /** The standard deviation of the changes over the root of 2: what one person's score wanders by. */
  readonly typicalError: Estimate;
  /** The same from logarithms, in percent; `null` where a score is not above 0. */
  readonly typicalErrorPercent: Estimate | null;
  /** Limits of agreement, mean change -+ 1.96 SD: about 95 % of people change by an amount between them. Each with the interval of the limit. */
  readonly limits: { readonly low: Estimate; readonly high: Estimate };
}

export function sessionPair(earlier: Float64Array, later: Float64Array, at: number, unit: string, level: number): SessionPair {
  const n = earlier.length;
  const changes = later.map((value, i) => value - earlier[i]!);
  const { mean, sd } = meanAndSd(changes);
  const spread = (over: number): Estimate => pooledSdEstimate(sd / over, n - 1, n, unit, level);
  return {
    sessions: [at, at + 1],
    change: meanEstimate(changes, unit, level),
    sdOfChange: spread(1),
    typicalError: spread(Math.SQRT2),
    typicalErrorPercent: percentError(earlier, later, level),
    limits: { low: limit(mean, -sd, n, unit, level), high: limit(mean, sd, n, unit, level) },
  };
}

function percentError(earlier: Float64Array, later: Float64Array, level: number): Estimate | null {
  if (!earlier.every((value) => value > 0) || !later.every((value) => value > 0)) return null;
  const n = earlier.length;
  const { sd } = meanAndSd(later.map((value, i) => Math.log(value) - Math.log(earlier[i]!)));
  return asPercent(pooledSdEstimate(sd / Math.SQRT2, n - 1, n, "%", level));
}

/** A standard deviation of logarithms as the percent by which a typical value differs. */
export function asPercent(estimate: Estimate): Estimate {
  if (!estimate.ok || estimate.interval === undefined) return estimate;
  const percent = (sd: number): number => 100 * Math.expm1(sd);
  return { ...estimate, value: percent(estimate.value), interval: [percent(estimate.interval[0]), percent(estimate.interval[1])] };
}

/** Standard error sqrt(1/n + 1.96^2/(2 (n - 1))) SD (recalled; Bland and Altman's root of 3/n is the same for long lists), with Student's t. */
function limit(mean: number, sd: number, n: number, unit: string, level: number): Estimate {
  if (n < 2) return { ok: false, why: "tooFew", unit, n };
  if (sd === 0) return { ok: false, why: "noSpread", unit, n };
  const value = mean + LIMIT * sd;
  const error = Math.abs(sd) * Math.sqrt(1 / n + LIMIT ** 2 / (2 * (n - 1)));
  const half = -studentQuantile((1 - level) / 2, n - 1) * error;
  return { ok: true, value: value + 0, unit, n, interval: [value - half, value + half], level };
}
