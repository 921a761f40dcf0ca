import type { Trace } from "../types.js";

/** Longer steps are pauses whatever the device, seconds. */
const LONGEST_STEP = 1;

/** The steps from sample to sample, counted and sorted into those in motion and the rest. */
export interface SamplingSteps {
  /** Time of each step, seconds; step `i` leads to sample `i + 1`. */
  readonly dt: Float64Array;
  /** Distance of each step, in the space's unit. */
  readonly distance: Float64Array;
  /** Times of the steps in motion (the position changes within 1 s), in increasing order. */
  readonly moving: readonly number[];
  /** Distances of the steps in motion, in increasing order. */
  readonly movingDistance: readonly number[];
  /** Steps of no time that change the position, and that do not. */
  readonly withMovement: number;
  readonly samePosition: number;
}

/** Time and distance of every step of a trace. */
export function samplingSteps(trace: Trace): SamplingSteps {
  const { t, x, y } = trace;
  const n = Math.max(0, t.length - 1);
  const dt = new Float64Array(n);
  const distance = new Float64Array(n);
  const moving = new Float64Array(n);
  const movingDistance = new Float64Array(n);
  let count = 0;
  let withMovement = 0;
  let samePosition = 0;
  for (let i = 0; i < n; i++) {
    const step = t[i + 1]! - t[i]!;
    const dx = x[i + 1]! - x[i]!;
    const dy = y[i + 1]! - y[i]!;
    const length = Math.sqrt(dx * dx + dy * dy);
    dt[i] = step;
    distance[i] = length;
    if (step === 0 && length > 0) withMovement++;
    if (step === 0 && length === 0) samePosition++;
    if (length > 0 && step < LONGEST_STEP) {
      moving[count] = step;
      movingDistance[count++] = length;
    }
  }
  const sorted = (column: Float64Array): number[] => Array.from(column.slice(0, count).sort());
  return { dt, distance, moving: sorted(moving), movingDistance: sorted(movingDistance), withMovement, samePosition };
}
