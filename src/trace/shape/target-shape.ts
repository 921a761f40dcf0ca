import type { Shape } from "../types.js";

/** Whether a point at (dx, dy) from the target's centre lies on it, at least `margin` from its edge; `scale` multiplies its size. */
export function isInside(shape: Shape, dx: number, dy: number, scale: number, margin = 0): boolean {
  if (shape.kind === "circle") {
    const radius = (shape.diameter * scale) / 2 - margin;
    return radius >= 0 && dx * dx + dy * dy <= radius * radius;
  }
  const [x, y] = turnBack(shape.angle ?? 0, dx, dy);
  return 2 * (Math.abs(x) + margin) <= shape.width * scale && 2 * (Math.abs(y) + margin) <= shape.height * scale;
}

/** Diameter of a circle, shorter side of a rectangle. */
export function shorterSide(shape: Shape): number {
  return shape.kind === "circle" ? shape.diameter : Math.min(shape.width, shape.height);
}

/** Length of the chord through the centre in the direction (ux, uy): the width that an approach along it has to hit. */
export function widthAlong(shape: Shape, ux: number, uy: number, scale: number): number {
  if (shape.kind === "circle") return shape.diameter * scale;
  const [x, y] = turnBack(shape.angle ?? 0, ux, uy);
  return scale * Math.min(shape.width / Math.abs(x), shape.height / Math.abs(y));
}

/** (x, y) in the frame of a rectangle turned by `angle` degrees, clockwise on a y-down screen. */
function turnBack(angle: number, x: number, y: number): [number, number] {
  const a = (angle * Math.PI) / 180;
  return [x * Math.cos(a) + y * Math.sin(a), y * Math.cos(a) - x * Math.sin(a)];
}
