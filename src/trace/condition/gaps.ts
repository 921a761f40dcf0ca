import type { Trace } from "../types.js";
import type { Gap } from "../uniform.js";

/** A silence shorter than this is no gap whatever the rate, seconds: about the time between two samples of the slowest devices. */
export const SHORTEST_GAP = 0.025;
/** A silence must also last longer than this many nominal intervals. */
export const GAP_INTERVALS = 3;
/** Room for rounding when a jump is compared with the quantum. */
const SLACK = 1 + 1e-6;
/** Room for the rounding of times, seconds: near 1.7e9 s doubles are 2.4e-7 s apart, and a silence of just 50 ms must not depend on that. */
const TIME_SLACK = 1e-6;

/** A gap with the samples on its two sides. */
export interface Break extends Gap {
  /** Index of the last sample before. */
  readonly before: number;
  /** Index of the sample after; the last one when several carry that time. */
  readonly after: number;
}

/** The gaps of a recording in time order: holds, and stretches longer than `maxGap` over which the position jumped. */
export function findGaps(trace: Trace, nominalHz: number, maxGap: number, quantum: number): Break[] {
  const { t, x, y } = trace;
  const longest = Math.max(maxGap, GAP_INTERVALS / nominalHz) + TIME_SLACK;
  const shortest = Math.max(SHORTEST_GAP, GAP_INTERVALS / nominalHz) + TIME_SLACK;
  const least = Math.min(longest, shortest);
  const breaks: Break[] = [];
  for (let i = 1; i < t.length; i++) {
    const dt = t[i]! - t[i - 1]!;
    if (dt <= least) continue;
    const before = i - 1;
    while (i + 1 < t.length && t[i + 1] === t[i]) i++;
    const dx = Math.abs(x[i]! - x[before]!);
    const dy = Math.abs(y[i]! - y[before]!);
    const jump = Math.sqrt(dx * dx + dy * dy);
    const held = (dx <= quantum * SLACK && dy <= quantum * SLACK) || startsFromRest(trace, i, jump, 1 / nominalHz, quantum);
    if (held ? dt <= shortest : dt <= longest) continue;
    breaks.push({ from: t[before]!, to: t[i]!, kind: held ? "hold" : "missing", jump, before, after: i });
  }
  return breaks;
}

/** The gaps without the indices that only the grid needs. */
export function toGaps(breaks: readonly Break[]): Gap[] {
  return breaks.map(({ from, to, kind, jump }) => ({ from, to, kind, jump }));
}

/**
 * Whether the jump onto sample `i` is no more than the first report of a movement out of rest. A slow device covers several quanta before its
 * first report; but a movement gathers speed, so that it covers as much again or more in the next interval. Lost samples of a movement
 * under way show as a jump of several steps instead.
 */
function startsFromRest(trace: Trace, i: number, jump: number, interval: number, quantum: number): boolean {
  const { t, x, y } = trace;
  let next = i + 1;
  while (next + 1 < t.length && t[next + 1] === t[next]) next++;
  if (next >= t.length) return false;
  const dt = t[next]! - t[i]!;
  if (dt > GAP_INTERVALS * interval + TIME_SLACK) return false;
  const dx = x[next]! - x[i]!;
  const dy = y[next]! - y[i]!;
  // a report that came early covers less than an interval's way, but a jittered one must not stand for a huge speed
  const step = (Math.sqrt(dx * dx + dy * dy) * interval) / Math.max(dt, interval / 2);
  return jump <= step + quantum;
}
