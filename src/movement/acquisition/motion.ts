import type { SpeedSegment } from "../../trace/condition/speed-segment.js";
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

/** The pointer relative to the target over one acquisition: one profile without a break. */
export interface Motion {
  readonly segment: SpeedSegment;
  /** Position at `t`, held at the ends of the profile. */
  readonly at: (t: number) => Point;
  /** Mean speed over `[from, to]`: the samples within it, or the nearest one. */
  readonly meanSpeed: (from: number, to: number) => number;
}

/** The profile that covers `[from, to]`, `undefined` where samples are missing in between. */
export function motionOver(segments: readonly SpeedSegment[], from: number, to: number): Motion | undefined {
  const segment = segments.find((s) => s.t0 <= from && to <= s.t0 + (s.x.length - 1) / s.sampleRateHz);
  if (segment === undefined) return undefined;
  const { x, y, speed, t0, sampleRateHz } = segment;
  const last = x.length - 1;
  const index = (t: number): number => Math.min(Math.max((t - t0) * sampleRateHz, 0), last);
  return {
    segment,
    at: (t) => ({ x: valueAt(x, index(t)), y: valueAt(y, index(t)) }),
    meanSpeed: (begin, end) => {
      const { start, end: after } = samplesWithin(segment, begin, end);
      if (after === start) return speed[Math.round(index(end))]!;
      let sum = 0;
      for (let i = start; i < after; i++) sum += speed[i]!;
      return sum / (after - start);
    },
  };
}

/** Positions along an axis over `[start, end)`. */
export function alongColumn({ x, y }: SpeedSegment, { start, end }: { start: number; end: number }, { ux, uy }: Axis): Float64Array {
  const along = new Float64Array(end - start);
  for (let i = 0; i < along.length; i++) along[i] = x[start + i]! * ux + y[start + i]! * uy;
  return along;
}
