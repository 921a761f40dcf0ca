import { type SpeedSegment, speedOf } from "../../trace/condition/speed-segment.js";
import { lowpass } from "../../trace/lowpass.js";
import type { Target } from "../../trace/types.js";
import { type LocalFrame, localTarget } from "./local-frame.js";

/**
 * The profile relative to a moving target. The target runs through the same filter and differences as the pointer:
 * filtering only one of them would make a lag of its own.
 */
export function relativeTo(segment: SpeedSegment, target: Target, frame: LocalFrame, cutoffHz: number): SpeedSegment {
  const { t0, sampleRateHz } = segment;
  const n = segment.x.length;
  const targetX = new Float64Array(n);
  const targetY = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const at = localTarget(frame, target, t0 + i / sampleRateHz);
    targetX[i] = at.x;
    targetY[i] = at.y;
  }
  const x = minus(segment.x, lowpass(targetX, { sampleRateHz, cutoffHz }));
  const y = minus(segment.y, lowpass(targetY, { sampleRateHz, cutoffHz }));
  return { t0, sampleRateHz, x, y, speed: speedOf(x, y, sampleRateHz) };
}

function minus(a: Float64Array, b: Float64Array): Float64Array {
  const difference = new Float64Array(a.length);
  for (let i = 0; i < a.length; i++) difference[i] = a[i]! - b[i]!;
  return difference;
}
