import { shorterSide, widthAlong } from "../../trace/shape/target-shape.js";
import type { Target } from "../../trace/types.js";
import { type Axis, type Point, toOffset } from "./local-frame.js";

/** Distance, direction and width of an aim; no distance when nobody knows where it began, no axis when it began on the target. */
export interface Aim {
  readonly axis?: Axis;
  readonly amplitude?: number;
  readonly width: number;
}

/** The aim from a start to a target's centre. */
export function aimFrom(start: Point | undefined, centre: Point & { scale: number }, target: Target): Aim {
  const { shape } = target;
  const width = centre.scale * shorterSide(shape);
  if (start === undefined) return { width };
  const dx = centre.x - start.x;
  const dy = centre.y - start.y;
  const amplitude = Math.sqrt(dx * dx + dy * dy);
  if (toOffset(dx, dy, undefined, shape, centre.scale).inside) return { amplitude, width };
  const axis = { ux: dx / amplitude, uy: dy / amplitude };
  return { axis, amplitude, width: widthAlong(shape, axis.ux, axis.uy, centre.scale) };
}
