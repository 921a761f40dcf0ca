import type { Trace } from "../types.js";
import { lastAt } from "./fill-linear.js";
import type { Break } from "./gaps.js";

/** Samples to lay a curve through: times strictly increasing, in seconds after the grid's start. */
export interface Knots {
  readonly t: Float64Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** The samples `from`..`to` (both included), the last of each time, with one more knot where each hold ends. */
export function placeKnots(
  trace: Trace,
  from: number,
  to: number,
  holds: readonly Break[],
  leaveTimes: readonly number[],
  start: number,
): Knots {
  const most = to - from + 1 + holds.length;
  const t = new Float64Array(most);
  const x = new Float64Array(most);
  const y = new Float64Array(most);
  let n = 0;
  let hold = 0;
  for (let i = lastAt(trace.t, from, to); i <= to; i = lastAt(trace.t, i + 1, to)) {
    t[n] = trace.t[i]! - start;
    x[n] = trace.x[i]!;
    y[n++] = trace.y[i]!;
    if (holds[hold]?.before === i) {
      t[n] = leaveTimes[hold++]! - start;
      x[n] = trace.x[i]!;
      y[n++] = trace.y[i]!;
    }
  }
  return { t: t.subarray(0, n), x: x.subarray(0, n), y: y.subarray(0, n) };
}
