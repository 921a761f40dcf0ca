import type { Estimate } from "../../math/estimate.js";
import { firstAfter } from "../../math/first-after.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import { medianDeviation } from "../../math/median.js";
import { quantile } from "../../math/quantile.js";
import { SD_PER_MAD } from "../../math/sd-per-mad.js";
import { GAP_INTERVALS, SHORTEST_GAP } from "../condition/gaps.js";
import type { IntervalSpread } from "./sampling-report.js";
import type { SamplingSteps } from "./sampling-steps.js";

/** Quantiles and spread of the intervals in motion, and the time spent in them. */
export function intervalFigures(
  steps: SamplingSteps,
  rate: number | undefined,
): { interval?: IntervalSpread; jitter: Estimate; jitterSd: Estimate; timeInMotion: number } {
  const { moving } = steps;
  const n = moving.length;
  const longest = rate === undefined ? SHORTEST_GAP : Math.max(SHORTEST_GAP, GAP_INTERVALS / rate);
  const steady = moving.subarray(0, firstAfter(moving, longest));
  const few = steady.length < 2;
  const jitter = few ? undefined : SD_PER_MAD * medianDeviation(steady, quantile(steady, 0.5));
  const jitterSd = few ? undefined : meanAndSd(steady).sd;
  const estimate = (value: number | undefined): Estimate => {
    const unit = "s";
    return value === undefined ? { ok: false, why: "tooFew", unit, n: steady.length } : { ok: true, value, unit, n: steady.length };
  };
  const timeInMotion = steady.reduce((total, dt) => total + dt, 0);
  const spreads = { jitter: estimate(jitter), jitterSd: estimate(jitterSd), timeInMotion };
  if (n === 0) return spreads;
  const [q05, middle, q95] = [0.05, 0.5, 0.95].map((share) => quantile(moving, share)) as [number, number, number];
  return { interval: { n, min: moving[0]!, q05, median: middle, q95, max: moving[n - 1]! }, ...spreads };
}
