import type { Estimate } from "./estimate.js";
import { sdEstimate } from "./sd-estimate.js";

/**
 * Variable error: the standard deviation about the values' own mean in its 1/n form, the one for which
 * constant error^2 + variable error^2 = mean squared error. The sample standard deviation and its interval times
 * sqrt((n - 1)/n): the interval is thus for the true standard deviation, shrunk like the value.
 * Fewer than two values: `tooFew`; all values equal: `noSpread`.
 */
export function variableErrorEstimate(values: ArrayLike<number>, unit: string, level = 0.95): Estimate {
  const sample = sdEstimate(values, unit, level);
  if (!sample.ok || sample.interval === undefined) return sample;
  const shrink = Math.sqrt((sample.n - 1) / sample.n);
  const [low, high] = sample.interval;
  return { ...sample, value: sample.value * shrink, interval: [low * shrink, high * shrink] };
}
