import { requireColumn, requireNumber, show } from "../../math/require.js";

/** Positions as equally long columns, in one length unit: a trace, or one position per trial. */
export interface PointColumns {
  /** To the right. */
  readonly x: Float64Array;
  /** Downward. */
  readonly y: Float64Array;
}

/** Throws unless `points` has equally long columns of finite numbers, `length` long when given. */
export function requirePoints(where: string, name: string, points: PointColumns, length?: number): void {
  if (points === null || typeof points !== "object") {
    throw new TypeError(`${where}: ${name} must be points with columns x, y, got ${show(points)}`);
  }
  requireColumn(where, `${name}.x`, points.x, length);
  requireColumn(where, `${name}.y`, points.y, points.x.length);
}

/** Throws unless `point` is one position. */
export function requirePoint(where: string, name: string, point: { readonly x: number; readonly y: number }): void {
  if (point === null || typeof point !== "object") throw new TypeError(`${where}: ${name} must be a point x, y, got ${show(point)}`);
  requireNumber(where, `${name}.x`, point.x);
  requireNumber(where, `${name}.y`, point.y);
}
