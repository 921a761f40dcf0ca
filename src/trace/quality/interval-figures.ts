import { quantileSorted, sampleStandardDeviation } from "simple-statistics";
import type { Estimate } from "../../math/estimate.js";
import { GAP_INTERVALS, SHORTEST_GAP } from "../condition/gaps.js";
import type { IntervalSpread } from "./sampling-report.js";
import type { SamplingSteps } from "./sampling-steps.js";

/** Turns a median absolute deviation into a standard deviation: 1 / (the 75 % point of the standard normal distribution). */
const SD_PER_MAD = 1.4826;

/** Quantiles and spread of the intervals in motion, and the time spent in them. */
export function intervalFigures(
  steps: SamplingSteps,
  rate: number | undefined,
): { interval?: IntervalSpread; jitter: Estimate; jitterSd: Estimate; timeInMotion: number } {
  const { moving } = steps;
  const n = moving.length;
  const longest = rate === undefined ? SHORTEST_GAP : Math.max(SHORTEST_GAP, GAP_INTERVALS / rate);
  // in increasing order like the column it comes from
  const steady = moving.filter((dt) => dt <= longest);
  const few = steady.length < 2;
  const jitter = few ? undefined : SD_PER_MAD * medianDeviation(steady);
  const jitterSd = few ? undefined : sampleStandardDeviation(steady);
  const estimate = (value: number | undefined): Estimate => {
    const unit = "s";
    return value === undefined ? { ok: false, why: "tooFew", unit, n: steady.length } : { ok: true, value, unit, n: steady.length };
  };
  const timeInMotion = steady.reduce((total, dt) => total + dt, 0);
  const spreads = { jitter: estimate(jitter), jitterSd: estimate(jitterSd), timeInMotion };
  if (n === 0) return spreads;
  const [q05, middle, q95] = [0.05, 0.5, 0.95].map((share) => quantileSorted(moving, share)) as [number, number, number];
  return { interval: { n, min: moving[0]!, q05, median: middle, q95, max: moving[n - 1]! }, ...spreads };
}

/** Median distance from the median. */
function medianDeviation(sorted: readonly number[]): number {
  const median = quantileSorted(sorted, 0.5);
  const deviations = Float64Array.from(sorted, (value) => Math.abs(value - median)).sort();
  return quantileSorted(Array.from(deviations), 0.5);
}
