import type { SpeedSegment } from "../../trace/condition/speed-segment.js";
import { pointAt } from "./motion.js";

/** Filtered position at `t`, `undefined` where no profile has it. */
export function placeIn(segments: readonly SpeedSegment[], t: number): { x: number; y: number } | undefined {
  for (const segment of segments) {
    const index = (t - segment.t0) * segment.sampleRateHz;
    if (index >= 0 && index <= segment.x.length - 1) return pointAt(segment, t);
  }
  return undefined;
}
