import { shrinkAt } from "../../movement/acquisition/local-frame.js";
import { targetAt } from "../../movement/acquisition/target-position.js";
import type { Space, Target, Track } from "../../trace/types.js";

/** A sudden change of the target's velocity at `t`, seconds; velocities in unit/s, in a view in the tangent plane. */
export interface TargetChange {
  readonly t: number;
  readonly before: Velocity;
  readonly after: Velocity;
}

interface Velocity {
  readonly x: number;
  readonly y: number;
}

/** Velocities before and after are taken over this long, seconds. */
const SPAN = 0.06;
/** A corner lies this near to the sample of the track where it is looked for, at the most, seconds. */
const NEAR = 0.035;
/** A change counts when it is this share of the target's RMS speed or more. */
const LARGE = 0.5;
/** Within the time before, and within that after, the velocity differs by less than this share of the change: else it is a curve. */
const STEADY = 0.25;

/** The corners of a track: from a straight stretch of at least 0.06 s into another. Cost O(n log n) in the samples of the track. */
export function targetChanges(space: Space, target: Target & { readonly at: Track }): TargetChange[] {
  const { t } = target.at;
  const n = t.length;
  if (n < 3) return [];
  const velocity = (from: number, to: number): Velocity => {
    const a = targetAt(target, from);
    const b = targetAt(target, to);
    return { x: ((b.x - a.x) * shrinkAt(space, (a.y + b.y) / 2)) / (to - from), y: (b.y - a.y) / (to - from) };
  };
  const least = LARGE * rmsSpeed(t, velocity);
  const changes: (TargetChange & { size: number })[] = [];
  for (let k = 1; k < n - 1; k++) {
    const gap = Math.min(NEAR, t[k + 1]! - t[k]!, t[k]! - t[k - 1]!);
    const [early, late] = [t[k]! - gap - SPAN, t[k]! + gap + SPAN];
    if (early < t[0]! || late > t[n - 1]!) continue;
    const before = velocity(early, t[k]! - gap);
    const after = velocity(t[k]! + gap, late);
    const size = distance(before, after);
    if (!(size > least) || !(size > 0)) continue;
    const middle = { before: early + SPAN / 2, after: late - SPAN / 2 };
    const bent = Math.max(
      distance(velocity(early, middle.before), velocity(middle.before, t[k]! - gap)),
      distance(velocity(t[k]! + gap, middle.after), velocity(middle.after, late)),
    );
    if (bent > STEADY * size) continue;
    const at = meeting(space, target, t[k]! - gap, before, t[k]! + gap, after);
    const last = changes.at(-1);
    if (last === undefined || at - last.t > SPAN) changes.push({ t: at, before, after, size });
    // neighbouring samples see the same corner: the clearest view of it counts
    else if (size > last.size) changes[changes.length - 1] = { t: at, before, after, size };
  }
  return changes.map(({ t: time, before, after }) => ({ t: time, before, after }));
}

/** When the line that arrives at `from` and the one that leaves at `to` come nearest along the change of velocity. */
function meeting(space: Space, target: Target, from: number, before: Velocity, to: number, after: Velocity): number {
  const a = targetAt(target, from);
  const b = targetAt(target, to);
  const dx = (b.x - a.x) * shrinkAt(space, (a.y + b.y) / 2);
  const dy = b.y - a.y;
  const wx = after.x - before.x;
  const wy = after.y - before.y;
  // before (s - from) + after (to - s) = d, along w
  const step = to - from;
  const along = (dx - before.x * step) * wx + (dy - before.y * step) * wy;
  const rest = along / (wx * wx + wy * wy);
  return Math.min(to, Math.max(from, to - rest));
}

function rmsSpeed(t: Float64Array, velocity: (from: number, to: number) => Velocity): number {
  let sum = 0;
  let time = 0;
  for (let k = 1; k < t.length; k++) {
    const dt = t[k]! - t[k - 1]!;
    if (!(dt > 0)) continue;
    const { x, y } = velocity(t[k - 1]!, t[k]!);
    sum += (x * x + y * y) * dt;
    time += dt;
  }
  return time > 0 ? Math.sqrt(sum / time) : 0;
}

function distance(a: Velocity, b: Velocity): number {
  return Math.sqrt((a.x - b.x) ** 2 + (a.y - b.y) ** 2);
}
