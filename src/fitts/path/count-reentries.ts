import { isInside } from "../../trace/shape/target-shape.js";
import type { Shape } from "../../trace/types.js";
import type { PointColumns } from "./require-points.js";

/** Entries into a target about `to` after the first, edge included; leaving takes more than `deadBand` beyond the edge. O(n). */
export function countReentries(
  { x, y }: PointColumns,
  to: { readonly x: number; readonly y: number },
  shape: Shape,
  deadBand: number,
): number {
  const edge = 2 * deadBand;
  const wider: Shape =
    shape.kind === "circle"
      ? { ...shape, diameter: shape.diameter + edge }
      : { ...shape, width: shape.width + edge, height: shape.height + edge };
  let inside = false;
  let entries = 0;
  for (let i = 0; i < x.length; i++) {
    const now = isInside(inside ? wider : shape, x[i]! - to.x, y[i]! - to.y, 1);
    if (now && !inside) entries++;
    inside = now;
  }
  return Math.max(0, entries - 1);
}
