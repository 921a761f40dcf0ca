import type { SimulationSettings } from "./options.js";
import type { Vector } from "./truth.js";

/** A rectangle in the recording's space. */
export interface Limits {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** How the flat field of simulated units lies in the recording's space. */
export interface Frame {
  /** The space's units in one simulated unit. */
  readonly scale: number;
  /** The field's middle. */
  readonly middle: Vector;
  /** How much farther x turns than the tangent plane at height `y` shows: 1 in a plane, 1/cos(elevation) in a view. */
  readonly stretch: (y: number) => number;
  /** Border that holds the recorded pointer. */
  readonly limits: Limits | undefined;
}

/** The frame of the settings: a plane whose field has its corner at (0, 0), or a view whose field is centred at azimuth 0. */
export function frameOf({ space, targets, recorder }: SimulationSettings): Frame {
  if (space.kind === "view") {
    const stretch = (y: number): number => 1 / Math.cos((y * Math.PI) / 180);
    return { scale: space.degreesPerUnit, middle: { x: 0, y: space.elevation }, stretch, limits: undefined };
  }
  const middle = { x: targets.bounds.width / 2, y: targets.bounds.height / 2 };
  const { edges } = recorder;
  const limits =
    edges === null
      ? undefined
      : {
          left: middle.x - edges.width / 2,
          right: middle.x + edges.width / 2,
          top: middle.y - edges.height / 2,
          bottom: middle.y + edges.height / 2,
        };
  return { scale: 1, middle, stretch: () => 1, limits };
}

/** From `centre` to `point` in the tangent plane at `centre`. */
export function offsetFrom(frame: Frame, centre: Vector, point: Vector): Vector {
  return { x: (point.x - centre.x) / frame.stretch(centre.y), y: point.y - centre.y };
}

/** `point` held within the frame's limits. */
export function heldWithin({ limits }: Frame, point: Vector): Vector {
  if (limits === undefined) return point;
  return { x: clamp(point.x, limits.left, limits.right), y: clamp(point.y, limits.top, limits.bottom) };
}

/** `value` held within `[low, high]`. */
export function clamp(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high);
}
