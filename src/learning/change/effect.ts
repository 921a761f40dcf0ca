import { autocorrelatedMean } from "../../math/autocorrelated-mean.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import { studentQuantile } from "../../math/student-quantile.js";
import { studentTail } from "../../math/student-tail.js";
import { type Uncertain, welch } from "../../math/welch.js";

/** The change between two periods on the scale of the work, and how sure it is. */
export interface Effect {
  readonly value: number;
  /** Interval at this level; `undefined` where none can be given. */
  readonly interval: (level: number) => readonly [number, number] | undefined;
  /** Chance that the true change lies below a mark. */
  readonly below: (mark: number) => number;
}

/** Session values of the two periods, or the differences of the same sessions, on the scale of the work. */
export type Sessions = { readonly before: Float64Array; readonly after: Float64Array } | { readonly differences: Float64Array };

/** Change of the mean: Welch for two periods, Student for paired differences, each mean allowing for the autocorrelation `r`. `undefined` without any spread. */
export function meanEffect(sessions: Sessions, r: number): Effect | undefined {
  const parts: readonly [Uncertain, Uncertain] =
    "differences" in sessions
      ? [{ value: 0, variance: 0, df: 1 }, autocorrelatedUncertain(sessions.differences, r)]
      : [autocorrelatedUncertain(sessions.before, r), autocorrelatedUncertain(sessions.after, r)];
  const test = welch(parts[0], parts[1], 0.95);
  if (test === undefined) return undefined;
  const { difference: value, df } = test;
  const error = Math.sqrt(parts[0].variance + parts[1].variance);
  return {
    value,
    interval: (level) => {
      const half = -studentQuantile((1 - level) / 2, df) * error;
      return [value - half, value + half];
    },
    below: (mark) => {
      const t = (mark - value) / error;
      const tail = studentTail(t, df) / 2;
      return t < 0 ? tail : 1 - tail;
    },
  };
}

/** The mean of at least two values in order of time whose correlation falls as r^lag, with its variance and the degrees of freedom behind it. */
export function autocorrelatedUncertain(values: Float64Array, r: number): Uncertain {
  const n = values.length;
  const { mean, sd } = meanAndSd(values);
  const { variance, squares, df } = autocorrelatedMean(n, r);
  return { value: mean, variance: (variance * sd * sd * (n - 1)) / squares, df };
}
