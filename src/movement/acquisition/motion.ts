import type { SpeedSegment } from "../../trace/condition/speed-segment.js";
import type { UniformSegment } from "../../trace/uniform.js";
import { valueAt } from "../bell/find-submovements.js";
import type { Axis, Point } from "./local-frame.js";

/** An instant that lies on a sample but for rounding belongs to it, in samples. */
const TIE = 1e-6;

/** The samples of a profile within `[from, to]`, `[start, end)`. */
export function samplesWithin(
  { t0, sampleRateHz, x }: SpeedSegment,
  from: number,
  to: number,
): { readonly start: number; readonly end: number } {
  const start = Math.min(Math.max(Math.ceil((from - t0) * sampleRateHz - TIE), 0), x.length);
  return { start, end: Math.max(start, Math.min(x.length, Math.floor((to - t0) * sampleRateHz + TIE) + 1)) };
}

/** The profile that covers `[from, to]`, `undefined` where samples are missing in between. */
export function profileOver(segments: readonly SpeedSegment[], from: number, to: number): SpeedSegment | undefined {
  return segments.find(({ x, t0, sampleRateHz }) => t0 <= from && to <= t0 + (x.length - 1) / sampleRateHz);
}

/** Position at `t`, held at the ends of the segment. */
export function pointAt(segment: UniformSegment, t: number): Point {
  const index = indexAt(segment, t);
  return { x: valueAt(segment.x, index), y: valueAt(segment.y, index) };
}

/** Mean speed over `[from, to]`: the samples within it, or the nearest one. */
export function meanSpeedOver(profile: SpeedSegment, from: number, to: number): number {
  const { speed } = profile;
  const { start, end } = samplesWithin(profile, from, to);
  if (end === start) return speed[Math.round(indexAt(profile, to))]!;
  let sum = 0;
  for (let i = start; i < end; i++) sum += speed[i]!;
  return sum / (end - start);
}

/** The fractional sample at `t`, from the first to the last. */
function indexAt({ x, t0, sampleRateHz }: UniformSegment, t: number): number {
  return Math.min(Math.max((t - t0) * sampleRateHz, 0), x.length - 1);
}

/** Positions along an axis over `[start, end)`. */
export function alongColumn({ x, y }: SpeedSegment, { start, end }: { start: number; end: number }, { ux, uy }: Axis): Float64Array {
  const along = new Float64Array(end - start);
  for (let i = 0; i < along.length; i++) along[i] = x[start + i]! * ux + y[start + i]! * uy;
  return along;
}
