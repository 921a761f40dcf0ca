import { requireNumber, requireOneOf, show } from "../../math/require.js";
import type { Shape } from "../types.js";

/** Throws unless `shape` is a circle or a rectangle of a size above 0. */
export function requireShape(where: string, name: string, shape: Shape): void {
  if (shape === null || typeof shape !== "object") throw new TypeError(`${where}: ${name} must be a shape, got ${show(shape)}`);
  requireOneOf(where, `${name}.kind`, shape.kind, ["circle", "rect"]);
  const size = (side: string, value: number): void => requireNumber(where, `${name}.${side}`, value, 0, Number.POSITIVE_INFINITY, true);
  if (shape.kind === "circle") {
    size("diameter", shape.diameter);
    return;
  }
  size("width", shape.width);
  size("height", shape.height);
  if (shape.angle !== undefined) requireNumber(where, `${name}.angle`, shape.angle);
}
