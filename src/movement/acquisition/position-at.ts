import { firstAfter } from "../../math/first-after.js";
import type { Trace } from "../../trace/types.js";

/**
 * Recorded position at `t`: on the straight line between the samples about it, or, across more than `maxGap` seconds, where the sample before
 * left it (a silent device rests). `undefined` before the first sample.
 */
export function positionAt(trace: Trace, t: number, maxGap: number): { x: number; y: number } | undefined {
  const after = firstAfter(trace.t, t);
  if (after === 0) return undefined;
  const before = after - 1;
  const from = trace.t[before]!;
  const x = trace.x[before]!;
  const y = trace.y[before]!;
  if (after === trace.t.length || trace.t[after]! - from > maxGap) return { x, y };
  const share = (t - from) / (trace.t[after]! - from);
  return { x: x + share * (trace.x[after]! - x), y: y + share * (trace.y[after]! - y) };
}
