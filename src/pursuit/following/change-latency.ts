import type { Stretch } from "./stretch.js";
import type { TargetChange } from "./target-changes.js";
import { twoLineBreak } from "./two-line-break.js";

/** Window about a change, seconds. */
const BEFORE = 0.1;
const AFTER = 0.5;
/** The end of the window shows where the answer leads, seconds. */
const SETTLED = 0.15;
/** The second line is fitted up to this share of the answer: the rest bends into the new velocity. */
const RISE = 0.6;
/** An answer below this share of the target's change is none: in an average, and in a single event, which noise disturbs more. */
export const LEAST_POOLED = 0.2;
const LEAST_SINGLE = 0.4;
/** An answer to an unannounced change cannot come sooner, seconds. */
const SOONEST = 0.05;
/** Where the answer leads is read from differences over this long to either side, seconds, or one sample. */
const REACH = 0.004;

/** The pointer's velocity along the target's change about one such change: 0 = as the target before it, 1 = as the target after it. */
export interface Answer {
  /** From 0.1 s before to 0.5 s after, a value per sample period, over a few samples each. */
  readonly course: Float64Array;
  /** Single differences of neighbouring samples: seconds from the change to their middles, and velocities. */
  readonly times: Float64Array;
  readonly steps: Float64Array;
}

/** The answer to one change, from unfiltered positions: the filter would spread a quick answer to before its beginning. */
export function answerTo({ t0, rate, raw }: Stretch, { t, before, after }: TargetChange): Answer {
  const { px, py } = raw;
  const wx = after.x - before.x;
  const wy = after.y - before.y;
  const square = wx * wx + wy * wy;
  const base = before.x * wx + before.y * wy;
  const at = (t - t0) * rate;
  const shareOf = (from: number, to: number): number => {
    const way = (px[to]! - px[from]!) * wx + (py[to]! - py[from]!) * wy;
    return ((way * rate) / (to - from) - base) / square;
  };
  const reach = Math.max(1, Math.round(REACH * rate));
  const inside = (k: number): number => Math.min(Math.max(k, 0), px.length - 1);
  const near = Math.round(at);
  const first = -Math.round(BEFORE * rate);
  const count = Math.round(AFTER * rate) - first + 1;
  const start = Math.ceil(at - BEFORE * rate - 0.5);
  return {
    course: Float64Array.from({ length: count }, (_, k) => shareOf(inside(near + first + k - reach), inside(near + first + k + reach))),
    times: Float64Array.from({ length: count }, (_, k) => (start + k + 0.5 - at) / rate),
    steps: Float64Array.from({ length: count }, (_, k) => shareOf(inside(start + k), Math.max(1, inside(start + k + 1)))),
  };
}

/** Time after the change by which the answer has come to 0.6 of where it leads, seconds; `undefined` when it leads to less than `least`. */
export function riseTime(course: ArrayLike<number>, rate: number, least: number): number | undefined {
  const before = Math.round(BEFORE * rate);
  const n = course.length;
  const from = n - Math.round(SETTLED * rate);
  let late = 0;
  for (let k = from; k < n; k++) late += course[k]! / (n - from);
  let early = 0;
  for (let k = 0; k < before; k++) early += course[k]! / before;
  if (!(late - early > least)) return undefined;
  const level = early + RISE * (late - early);
  // the first of two in a row above the level, after the change
  let end = before;
  while (end + 1 < n && !(course[end]! >= level && course[end + 1]! >= level)) end++;
  return (end - before) / rate;
}

/** Break of the single differences in `[0.1 s before, until]`, seconds after the change; times ascending. `null` without one. */
export function breakBefore(times: Float64Array, steps: Float64Array, until: number, weights?: Float64Array): number | null {
  let count = 0;
  while (count < times.length && times[count]! <= until) count++;
  const found = twoLineBreak(times.subarray(0, count), steps.subarray(0, count), weights?.subarray(0, count));
  return found !== undefined && found.slope > 0 && found.time >= SOONEST ? found.time : null;
}

/** Latency of one answer, seconds. */
export function singleLatency({ course, times, steps }: Answer, rate: number): number | null {
  const until = riseTime(course, rate, LEAST_SINGLE);
  return until === undefined ? null : breakBefore(times, steps, until);
}
