import type { Estimate } from "../../math/estimate.js";

/** The estimate with `by` added to its value and interval. */
export function moveEstimate(estimate: Estimate, by: number): Estimate {
  if (!estimate.ok || by === 0) return estimate;
  const { interval, ...rest } = estimate;
  const value = estimate.value + by;
  return interval === undefined ? { ...rest, value } : { ...rest, value, interval: [interval[0] + by, interval[1] + by] };
}
