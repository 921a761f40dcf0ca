import { medianInPlace } from "../../math/median.js";
import type { Trace } from "../types.js";

/** Longer steps than this are pauses or breaks whatever the device, seconds. */
export const LONGEST_STEP = 1;
/** Steps of unbroken motion that are judged together: by their net distance, in which the jitter of single stamps cancels. */
const RUN = 4;
/** Squares of distances that differ by less than this share are equal. */
const TIED = 1e-9;
/** Fewer runs than this say less than all steps together do. */
const LEAST_RUNS = 8;

/**
 * The rate at which the device reports while it moves, Hz: one over the median time step among steps that change the position. Pointing
 * devices are silent at rest and skip reports while they move slowly, so that only the faster half of the motion counts: of runs of 4 steps in unbroken motion
 * those that cover the most ground. With fewer than 8 runs all steps count. Samples at one time count as one. `undefined` with fewer than two steps.
 */
export function nominalRate(trace: Trace): number | undefined {
  const { t, x, y } = trace;
  const most = Math.floor(changesOf(trace) / RUN);
  // four steps of each run after the other, and the net distance of each run
  const steps = new Float64Array(RUN * most + RUN);
  const distances = new Float64Array(most);
  let runs = 0;
  let length = 0;
  let begin = 0;
  let before = 0;
  for (let i = 1; i < t.length; i++) {
    if (i + 1 < t.length && t[i + 1] === t[i]) continue;
    const dt = t[i]! - t[before]!;
    if (dt > 0 && dt < LONGEST_STEP && (x[i] !== x[before] || y[i] !== y[before])) {
      if (length === 0) begin = before;
      steps[RUN * runs + length++] = dt;
      if (length === RUN) {
        const dx = x[i]! - x[begin]!;
        const dy = y[i]! - y[begin]!;
        distances[runs++] = dx * dx + dy * dy;
        length = 0;
      }
    } else length = 0;
    before = i;
  }
  if (runs < LEAST_RUNS) return rateOfSteps(trace);
  // whole quanta tie often, and ties must not be torn by the rounding of a unit
  const half = medianInPlace(distances.slice(0, runs)) * (1 - TIED);
  let n = 0;
  for (let k = 0; k < runs; k++) {
    if (distances[k]! < half) continue;
    for (let i = RUN * k; i < RUN * k + RUN; i++) steps[n++] = steps[i]!;
  }
  return 1 / medianInPlace(steps.subarray(0, n));
}

/** How often the position changes from sample to sample: a pointer mostly rests, and room for every sample would be five times as much. */
function changesOf({ x, y }: Trace): number {
  let changes = 0;
  for (let i = 1; i < x.length; i++) if (x[i] !== x[i - 1] || y[i] !== y[i - 1]) changes++;
  return changes;
}

/** One over the median step that changes the position. */
function rateOfSteps({ t, x, y }: Trace): number | undefined {
  const steps = new Float64Array(changesOf({ t, x, y }));
  let n = 0;
  for (let i = 1; i < t.length; i++) {
    const dt = t[i]! - t[i - 1]!;
    if (dt > 0 && dt < LONGEST_STEP && (x[i] !== x[i - 1] || y[i] !== y[i - 1])) steps[n++] = dt;
  }
  return n < 2 ? undefined : 1 / medianInPlace(steps.subarray(0, n));
}
