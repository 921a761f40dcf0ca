import type { UniformSegment } from "../../trace/uniform.js";
import type { Point } from "../acquisition/local-frame.js";

/**
 * Seconds from `since` until the pointer stayed within `band` of `final`: the last time its distance was larger, over the samples `[start, end)`, less `since`;
 * 0 when it never was after `since`. Between samples the path is straight, so that the crossing is exact for it. A pointer still outside at the last sample has
 * not settled: the time up to that sample.
 */
export function settlingTime(
  { x, y, t0, sampleRateHz }: UniformSegment,
  start: number,
  end: number,
  final: Point,
  band: number,
  since: number,
): number {
  for (let i = end - 1; i >= start; i--) {
    const dx = x[i]! - final.x;
    const dy = y[i]! - final.y;
    if (!(dx * dx + dy * dy > band * band)) continue;
    const further = i + 1 < end ? leavingShare(dx, dy, x[i + 1]! - final.x, y[i + 1]! - final.y, band) : 0;
    return Math.max(0, t0 - since + (i + further) / sampleRateHz);
  }
  return 0;
}

/** Where the straight line from outside a circle about the origin to inside meets it, as a share of the line. */
function leavingShare(ax: number, ay: number, bx: number, by: number, radius: number): number {
  const vx = bx - ax;
  const vy = by - ay;
  const along = -(ax * vx + ay * vy);
  const excess = ax * ax + ay * ay - radius * radius;
  // the smaller root of v^2 s^2 - 2 along s + excess = 0, in the form that does not cancel
  return excess / (along + Math.sqrt(Math.max(0, along * along - (vx * vx + vy * vy) * excess)));
}
