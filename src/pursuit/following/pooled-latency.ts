import type { Estimate } from "../../math/estimate.js";
import { createRandom } from "../../math/random.js";
import { type Answer, breakBefore, LEAST_POOLED, riseTime } from "./change-latency.js";
import { type DrawSettings, drawCounts, drawnInterval } from "./drawn-interval.js";

/** Share of resamples that must give a latency. */
const MOST = 0.9;

/** By so much a line through a rise with a time constant of up to 50 ms begins before it; simulated 4 to 5 ms, seconds. */
const SHAPE = 0.005;

/**
 * Break in the velocities of all answers together: their single differences lie at different fractions of a sample after the change and so fill each other's gaps.
 * The interval comes from answers drawn again with replacement, and is wider by a sample or `SHAPE` on both sides: more answers make the break
 * steadier, but a sudden answer is spread over a sample all the same, and a gradual one does not begin as the line does.
 */
export function pooledLatency(answers: readonly Answer[], rate: number, { level, seed, resamples }: DrawSettings): Estimate {
  const n = answers.length;
  const window = answers[0]!.course.length;
  const { times, steps, events } = inOrder(answers);
  const mean = new Float64Array(window);
  const weights = new Float64Array(times.length);
  const latency = (counts: Float64Array): number | null => {
    mean.fill(0);
    for (let e = 0; e < n; e++) {
      const share = counts[e]! / n;
      if (share === 0) continue;
      const { course } = answers[e]!;
      for (let k = 0; k < window; k++) mean[k]! += share * course[k]!;
    }
    const until = riseTime(mean, rate, LEAST_POOLED);
    if (until === undefined) return null;
    for (let k = 0; k < times.length && times[k]! <= until; k++) weights[k] = counts[events[k]!]!;
    return breakBefore(times, steps, until, weights);
  };
  const value = latency(new Float64Array(n).fill(1));
  if (value === null) return { ok: false, why: "notIdentified", unit: "s", n };
  const random = createRandom(seed, 1);
  const counts = new Float64Array(n);
  const draws: number[] = [];
  for (let b = 0; b < resamples; b++) {
    drawCounts(counts, random);
    const drawn = latency(counts);
    if (drawn !== null) draws.push(drawn);
  }
  if (draws.length < MOST * resamples) return { ok: true, value, unit: "s", n };
  const [low, high] = drawnInterval(draws, value, n, level);
  const slack = Math.max(1 / rate, SHAPE);
  return { ok: true, value, unit: "s", n, interval: [low - slack, high + slack], level };
}

/** The single differences of all answers in order of time, with the answer that each belongs to. */
function inOrder(answers: readonly Answer[]): { times: Float64Array; steps: Float64Array; events: Int32Array } {
  const all = answers.flatMap(({ times, steps }, event) => Array.from(times, (time, k) => ({ time, step: steps[k]!, event })));
  all.sort((a, b) => a.time - b.time);
  return {
    times: Float64Array.from(all, ({ time }) => time),
    steps: Float64Array.from(all, ({ step }) => step),
    events: Int32Array.from(all, ({ event }) => event),
  };
}
