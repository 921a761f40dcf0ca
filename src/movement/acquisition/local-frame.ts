import { isInside } from "../../trace/shape/target-shape.js";
import type { Shape, Space, Target, Trace } from "../../trace/types.js";
import type { Offset } from "../types.js";
import { targetAt } from "./target-position.js";

/**
 * Flat coordinates about a target: x to the right, y downward, the target's centre at `go` in the origin. In the plane that is a shift;
 * in view space the tangent plane at the target, where an azimuth counts by the cosine of the elevation.
 */
export interface LocalFrame {
  readonly x: number;
  readonly y: number;
  readonly shrink: number;
}

/** A position. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** The frame of a target at time `t`. */
export function localFrame(space: Space, target: Target, t: number): LocalFrame {
  const { x, y } = targetAt(target, t);
  return { x, y, shrink: shrinkAt(space, y) };
}

/** Factor on horizontal distances at height `y`: 1 in the plane, the cosine of the elevation in view space. */
export function shrinkAt(space: Space, y: number): number {
  return space.kind === "view" ? Math.cos((y * Math.PI) / 180) : 1;
}

/** A trace in the coordinates of a frame. */
export function toLocal(frame: LocalFrame, trace: Trace): Trace {
  const n = trace.t.length;
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    x[i] = (trace.x[i]! - frame.x) * frame.shrink;
    y[i] = trace.y[i]! - frame.y;
  }
  return { t: trace.t, x, y };
}

/** Where the target is at time `t`, in the coordinates of the frame. */
export function localTarget(frame: LocalFrame, target: Target, t: number): Point & { scale: number } {
  const { x, y, scale } = targetAt(target, t);
  return { x: (x - frame.x) * frame.shrink, y: y - frame.y, scale };
}

/** Direction from start to target centre, as a unit vector. */
export interface Axis {
  readonly ux: number;
  readonly uy: number;
}

/** A difference pointer minus target as an offset; along and across need an axis. Across is (u_y, -u_x): left of travel where y points down. */
export function toOffset(dx: number, dy: number, axis: Axis | undefined, shape: Shape, scale: number): Offset {
  const radial = Math.sqrt(dx * dx + dy * dy);
  const inside = isInside(shape, dx, dy, scale);
  if (axis === undefined) return { radial, inside };
  // plus 0: a negative zero would not survive JSON
  return { along: dx * axis.ux + dy * axis.uy + 0, across: dx * axis.uy - dy * axis.ux + 0, radial, inside };
}
