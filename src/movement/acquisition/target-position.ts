import { firstAfter } from "../../math/first-after.js";
import type { Target, Track } from "../../trace/types.js";

/** Centre and size factor of a target at one instant. */
export interface TargetPosition {
  readonly x: number;
  readonly y: number;
  readonly scale: number;
}

/** Where a target is at time `t`: between the samples of its track it moves in a straight line, before and after them it stands. */
export function targetAt(target: Target, t: number): TargetPosition {
  if (!isTrack(target.at)) return { x: target.at.x, y: target.at.y, scale: 1 };
  const { x, y, scale } = target.at;
  const times = target.at.t;
  const after = firstAfter(times, t);
  if (after === 0) return { x: x[0]!, y: y[0]!, scale: scale?.[0] ?? 1 };
  if (after === times.length) return { x: x[after - 1]!, y: y[after - 1]!, scale: scale?.[after - 1] ?? 1 };
  const share = (t - times[after - 1]!) / (times[after]! - times[after - 1]!);
  const between = (column: Float64Array): number => column[after - 1]! + share * (column[after]! - column[after - 1]!);
  return { x: between(x), y: between(y), scale: scale === undefined ? 1 : between(scale) };
}

/** Whether the target moves. */
export function isTrack(at: Target["at"]): at is Track {
  return "t" in at;
}
