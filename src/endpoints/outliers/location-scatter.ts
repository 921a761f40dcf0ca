/** A place and the variances about it: what a distance is measured by. */
export interface LocationScatter {
  readonly mx: number;
  readonly my: number;
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
  readonly det: number;
}

/** A determinant below this share of the product of the variances is left over by rounding: the points lie on a line. */
const NO_SHARE = 1e-13;

/** Mean and covariance of the first `count` of the points listed, divided by `divisor`; `undefined` when they lie on a line or a point. */
export function locationScatter(
  x: Float64Array,
  y: Float64Array,
  indices: Int32Array,
  count: number,
  divisor: number,
): LocationScatter | undefined {
  let mx = 0;
  let my = 0;
  for (let k = 0; k < count; k++) {
    mx += x[indices[k]!]!;
    my += y[indices[k]!]!;
  }
  mx /= count;
  my /= count;
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (let k = 0; k < count; k++) {
    const dx = x[indices[k]!]! - mx;
    const dy = y[indices[k]!]! - my;
    xx += dx * dx;
    xy += dx * dy;
    yy += dy * dy;
  }
  xx /= divisor;
  xy /= divisor;
  yy /= divisor;
  const det = xx * yy - xy * xy;
  return det > NO_SHARE * xx * yy ? { mx, my, xx, xy, yy, det } : undefined;
}

/** Squared Mahalanobis distance of each point, into `out`. */
export function squaredDistances(x: Float64Array, y: Float64Array, { mx, my, xx, xy, yy, det }: LocationScatter, out: Float64Array): void {
  const a = yy / det;
  const b = (-2 * xy) / det;
  const c = xx / det;
  for (let i = 0; i < x.length; i++) {
    const dx = x[i]! - mx;
    const dy = y[i]! - my;
    out[i] = a * dx * dx + b * dx * dy + c * dy * dy;
  }
}
