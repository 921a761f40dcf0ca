/** A cross product below this share of the products that make it is rounding. */
const NO_SHARE = 1e-12;

/** How many of all points lie on the line through the first `count` of `indices`, which do, or at their place when they coincide. */
export function countOnLine(x: Float64Array, y: Float64Array, indices: ArrayLike<number>, count: number): number {
  // seen from far out, all others would look like one point: the line begins at the one nearest to the middle
  const base = pick(indices, count, (i) => -Math.abs(x[i]!) - Math.abs(y[i]!));
  const other = pick(indices, count, (i) => Math.abs(x[i]! - x[base]!) + Math.abs(y[i]! - y[base]!));
  const ux = x[other]! - x[base]!;
  const uy = y[other]! - y[base]!;
  let found = 0;
  for (let p = 0; p < x.length; p++) {
    const vx = x[p]! - x[base]!;
    const vy = y[p]! - y[base]!;
    const apart = ux === 0 && uy === 0 ? Math.abs(vx) + Math.abs(vy) : Math.abs(ux * vy - uy * vx);
    if (apart <= NO_SHARE * (Math.abs(ux * vy) + Math.abs(uy * vx))) found++;
  }
  return found;
}

/** The index with the largest `size`. */
function pick(indices: ArrayLike<number>, count: number, size: (index: number) => number): number {
  let best = indices[0]!;
  for (let k = 1; k < count; k++) if (size(indices[k]!) > size(best)) best = indices[k]!;
  return best;
}
