import { sortPositive } from "../../math/sort-positive.js";
import { LONGEST_STEP } from "../condition/nominal-rate.js";
import type { Trace } from "../types.js";

/** The steps from sample to sample, counted and sorted into those in motion and the rest. */
export interface SamplingSteps {
  /** Time of each step, seconds; step `i` leads to sample `i + 1`. */
  readonly dt: Float64Array;
  /** Distance of each step, in the space's unit. */
  readonly distance: Float64Array;
  /** Times of the steps in motion (the position changes within 1 s), in increasing order. */
  readonly moving: Float64Array;
  /** Distances of the steps in motion, in no order. */
  readonly movingDistance: Float64Array;
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
  let inMotion = 0;
  let withMovement = 0;
  let samePosition = 0;
  for (let i = 0; i < n; i++) {
    // no negative zero, which would sort as a negative step
    const step = t[i + 1]! - t[i]! + 0;
    const dx = x[i + 1]! - x[i]!;
    const dy = y[i + 1]! - y[i]!;
    const length = Math.sqrt(dx * dx + dy * dy);
    dt[i] = step;
    distance[i] = length;
    if (step === 0 && length > 0) withMovement++;
    if (step === 0 && length === 0) samePosition++;
    if (step >= LONGEST_STEP) continue;
    if (length > 0) inMotion++;
  }
  return {
    dt,
    distance,
    moving: sortPositive(inMotionOf(dt, dt, distance, inMotion)),
    movingDistance: inMotionOf(distance, dt, distance, inMotion),
    withMovement,
    samePosition,
  };
}

/** The `count` entries of a column that belong to steps in motion. */
function inMotionOf(column: Float64Array, dt: Float64Array, distance: Float64Array, count: number): Float64Array<ArrayBuffer> {
  const chosen = new Float64Array(count);
  for (let i = 0, k = 0; k < count; i++) if (distance[i]! > 0 && dt[i]! < LONGEST_STEP) chosen[k++] = column[i]!;
  return chosen;
}
