import type { Estimate } from "./estimate.js";
import { quantileEstimate } from "./quantile-estimate.js";

/**
 * Median of independent values with the interval between two of the values themselves, the r-th from below and the r-th from above; see
 * `quantileEstimate`. The level attained is often well above the one asked for at small n; below 6 values at 0.95 there is no interval.
 */
export function medianEstimate(values: ArrayLike<number>, unit: string, level = 0.95): Estimate {
  return quantileEstimate(values, 0.5, unit, level);
}
