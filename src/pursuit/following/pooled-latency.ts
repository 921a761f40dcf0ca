import type { Estimate } from "../../math/estimate.js";
import { quantile } from "../../math/quantile.js";
import { createRandom } from "../../math/random.js";
import { type Answer, breakBefore, LEAST_POOLED, riseTime } from "./change-latency.js";

/** Share of resamples that must give a latency. */
const MOST = 0.9;

/** How intervals are made. */
export interface DrawSettings {
  readonly level: number;
  readonly seed: number;
  readonly resamples: number;
}

/**
 * Break in the velocities of all answers together: their single differences lie at different fractions of a sample after the change and so fill each other's gaps.
 * The interval comes from answers drawn again with replacement (percentiles).
 */
export function pooledLatency(answers: readonly Answer[], rate: number, { level, seed, resamples }: DrawSettings): Estimate {
  const n = answers.length;
  const window = answers[0]!.course.length;
  const all = answers.flatMap(({ times, steps }, event) => Array.from(times, (time, k) => ({ time, step: steps[k]!, event })));
  all.sort((a, b) => a.time - b.time);
  const times = Float64Array.from(all, ({ time }) => time);
  const steps = Float64Array.from(all, ({ step }) => step);
  const latency = (counts: Float64Array): number | null => {
    const mean = new Float64Array(window);
    for (let e = 0; e < n; e++) {
      if (counts[e] === 0) continue;
      const { course } = answers[e]!;
      for (let k = 0; k < window; k++) mean[k]! += (counts[e]! * course[k]!) / n;
    }
    const until = riseTime(mean, rate, LEAST_POOLED);
    if (until === undefined) return null;
    const weights = Float64Array.from(all, ({ event }) => counts[event]!);
    return breakBefore(times, steps, until, weights);
  };
  const value = latency(new Float64Array(n).fill(1));
  if (value === null) return { ok: false, why: "notIdentified", unit: "s", n };
  const random = createRandom(seed, 1);
  const counts = new Float64Array(n);
  const draws: number[] = [];
  for (let b = 0; b < resamples; b++) {
    counts.fill(0);
    for (let e = 0; e < n; e++) counts[Math.floor(random.uniform(0, n))]! += 1;
    const drawn = latency(counts);
    if (drawn !== null) draws.push(drawn);
  }
  if (draws.length < MOST * resamples) return { ok: true, value, unit: "s", n };
  const sorted = Float64Array.from(draws).sort();
  const low = quantile(sorted, (1 - level) / 2);
  const high = quantile(sorted, (1 + level) / 2);
  return { ok: true, value, unit: "s", n, interval: [Math.min(low, value), Math.max(high, value)], level };
}
