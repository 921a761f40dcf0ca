import type { Estimate } from "../../math/estimate.js";
import { studentQuantile } from "../../math/student-quantile.js";
import type { EffectScale } from "./describe-effect.js";
import type { SessionShape } from "./fit-session-shape.js";

/**
 * Fitted level on the last of `length` trials over the best of them, with an interval by the delta method on the scale of the fit. It cannot
 * lie on the better side of 1, and has no interval when the last trial is the best.
 */
export function endToBest(
  { size, rate, slope }: SessionShape,
  covariance: readonly (readonly number[])[],
  length: number,
  n: number,
  better: "lower" | "higher",
  { errors, typical, level }: EffectScale,
): Estimate {
  const sign = better === "lower" ? 1 : -1;
  const middle = (slope * (length - 1)) / 2;
  const at = (k: number): number => size * Math.exp(-rate * k) + slope * k - middle;
  const last = length - 1;
  let best = last;
  for (let k = 0; k < last; k++) if (sign * at(k) < sign * at(best)) best = k;
  const unit = "1";
  const ratio = (difference: number): number => (errors === "lognormal" ? Math.exp(difference) : 1 + difference / (typical + at(best)));
  if (errors === "normal" && !(typical + at(best) > 0)) return { ok: false, why: "notIdentified", unit, n };
  const difference = at(last) - at(best);
  if (best === last) return { ok: true, value: 1, unit, n };
  const gradient = [
    Math.exp(-rate * last) - Math.exp(-rate * best),
    last - best,
    rate * (best * Math.exp(-rate * best) - last * Math.exp(-rate * last)),
  ];
  const variance = gradient.reduce((sum, a, i) => gradient.reduce((part, b, j) => part + a * b * covariance[i]![j]!, sum), 0);
  const half = -studentQuantile((1 - level) / 2, n - 1) * Math.sqrt(Math.max(0, variance));
  const ends = [ratio(difference - half), ratio(difference + half)] as const;
  const interval: [number, number] = better === "lower" ? [Math.max(1, ends[0]), ends[1]] : [ends[0], Math.min(1, ends[1])];
  return { ok: true, value: ratio(difference), unit, n, interval, level };
}
