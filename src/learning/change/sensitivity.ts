import { autocorrelatedMean } from "../../math/autocorrelated-mean.js";
import type { Estimate } from "../../math/estimate.js";
import { normalQuantile } from "../../math/normal-quantile.js";
import { shiftForPower, studentPower } from "../../math/student-power.js";
import { studentQuantile } from "../../math/student-quantile.js";

/** The chance of finding a true change that a plan is usually made for. */
const POWER = 0.8;
/** The standard error of a median of normal values is this many times that of their mean (in long lists; a little less in short ones). */
const MEDIAN_ERROR = Math.sqrt(Math.PI / 2);
/** A lifetime of daily sessions: beyond it there is no point in counting. */
const MOST_SESSIONS = 30000;

/** What two periods can show: everything that follows from their lengths and the session SD, and nothing from the change itself. */
export interface Sensitivity {
  /** Smallest change that leaves no change outside its interval, on the scale of the work. */
  readonly minimalDetectable: number;
  /** True change found in four of five repetitions of these periods. */
  readonly detectable: number;
  /** Sessions per period (paired: of both conditions) to find the true change `worthwhile` in four of five. */
  readonly sessionsNeeded: Estimate;
}

/** `sd` is the session SD as `sessionSd` gives it, `worthwhile` a size on the scale of the work. */
export function sensitivityOf(
  sd: Estimate & { readonly ok: true },
  lengths: readonly [number, number],
  worthwhile: number,
  options: { readonly paired: boolean; readonly centre: "mean" | "median"; readonly level: number; readonly r: number },
): Sensitivity {
  const { paired, centre, level, r } = options;
  const alpha = 1 - level;
  const { variance, df, shortfall } = designOf(lengths, paired, r);
  // of one session, without what the periods' own means take off
  const spread = (sd.value / shortfall) * (centre === "median" ? MEDIAN_ERROR : 1);
  const error = spread * Math.sqrt(variance);
  const needed = (times: number): number => sessionsFor(worthwhile / (spread * times), { paired, alpha, r });
  return {
    minimalDetectable: -studentQuantile(alpha / 2, df) * error,
    detectable: shiftForPower(POWER, df, alpha) * error,
    sessionsNeeded: describeNeeded(sd, needed),
  };
}

/** Variance of the change in variances of a session; degrees of freedom of the pooled session SD; and the share of the true SD that it shows. */
function designOf(
  [before, after]: readonly [number, number],
  paired: boolean,
  r: number,
): { variance: number; df: number; shortfall: number } {
  const one = autocorrelatedMean(before, r);
  // half the variance of a difference of two conditions is one session's
  if (paired) return { variance: 2 * one.variance, df: one.df, shortfall: Math.sqrt(one.squares / (before - 1)) };
  const other = autocorrelatedMean(after, r);
  const squares = one.squares + other.squares;
  // sums of squares of both add; so do their variances, each in proportion to squares^2/df
  const df = squares ** 2 / (one.squares ** 2 / (one.df || 1) + other.squares ** 2 / (other.df || 1));
  return { variance: one.variance + other.variance, df, shortfall: Math.sqrt(squares / (before + after - 2)) };
}

/** The smallest number of sessions with the power asked for, for a change of `size` session SDs; Infinity beyond the most. */
function sessionsFor(size: number, { paired, alpha, r }: { readonly paired: boolean; readonly alpha: number; readonly r: number }): number {
  const enough = (k: number): boolean => {
    const one = autocorrelatedMean(k, r);
    const shift = size / Math.sqrt(2 * one.variance);
    return studentPower(shift, paired ? one.df : 2 * one.df, alpha) >= POWER;
  };
  // normal theory lands within a session or two; independent sessions can only need fewer
  const z = normalQuantile(POWER) - normalQuantile(alpha / 2);
  let k = Math.max(2, Math.round((2 * z * z * (1 + r)) / (1 - r) / (size * size)));
  if (!(k <= MOST_SESSIONS)) return Number.POSITIVE_INFINITY;
  while (k > 2 && enough(k - 1)) k--;
  while (!enough(k)) k++;
  return k;
}

function describeNeeded(sd: Estimate & { readonly ok: true }, needed: (times: number) => number): Estimate {
  const { n, interval, level } = sd;
  const value = needed(1);
  if (!Number.isFinite(value)) return { ok: false, why: "notIdentified", unit: "session", n };
  const ends = interval?.map((end) => needed(end / sd.value));
  if (ends === undefined || level === undefined || !ends.every(Number.isFinite)) return { ok: true, value, unit: "session", n };
  return { ok: true, value, unit: "session", n, interval: [ends[0]!, ends[1]!], level };
}
