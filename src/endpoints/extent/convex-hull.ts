/** Indices of the corners of the convex hull, from +x toward +y all round, beginning at the smallest x; one index when all points coincide, two for a line. */
export function convexHull(x: Float64Array, y: Float64Array): number[] {
  const order = outerPoints(x, y).sort((i, j) => x[i]! - x[j]! || y[i]! - y[j]! || i - j);
  const lower = chain(x, y, order);
  const upper = chain(x, y, order.reverse());
  // each chain ends where the other begins
  return lower.length === 1 ? lower : [...lower.slice(0, -1), ...upper.slice(0, -1)];
}

/** Twice the signed area of the triangle of three points: above 0 when it turns from +x toward +y. */
export function turn(x: Float64Array, y: Float64Array, i: number, j: number, k: number): number {
  return (x[j]! - x[i]!) * (y[k]! - y[i]!) - (y[j]! - y[i]!) * (x[k]! - x[i]!);
}

/** Andrew's monotone chain (recalled): one side of the hull of points in order. */
function chain(x: Float64Array, y: Float64Array, order: readonly number[]): number[] {
  const corners: number[] = [];
  for (const k of order) {
    const last = corners[corners.length - 1];
    // of coinciding points the first one stands for all
    if (last !== undefined && x[last] === x[k] && y[last] === y[k]) {
      corners[corners.length - 1] = Math.min(last, k);
      continue;
    }
    while (corners.length > 1 && turn(x, y, corners[corners.length - 2]!, corners[corners.length - 1]!, k) <= 0) corners.pop();
    corners.push(k);
  }
  return corners;
}

/** Directions whose outermost points span a polygon that most points lie within. */
const DIRECTIONS = [
  [-1, 0],
  [-1, -1],
  [0, -1],
  [1, -1],
  [1, 0],
  [1, 1],
  [0, 1],
  [-1, 1],
] as const;

/** All points but those that surely lie inside: what is left to be sorted is few of a cloud of many. */
function outerPoints(x: Float64Array, y: Float64Array): number[] {
  const extremes = DIRECTIONS.map(([a, b]) => {
    let farthest = 0;
    for (let i = 1; i < x.length; i++) if (a * x[i]! + b * y[i]! > a * x[farthest]! + b * y[farthest]!) farthest = i;
    return farthest;
  });
  const corners = extremes.filter((i, k) => {
    const before = extremes[(k + 7) % 8]!;
    return x[i] !== x[before] || y[i] !== y[before];
  });
  const found: number[] = [];
  for (let k = 0; k < x.length; k++) {
    let inside = corners.length > 2;
    for (let c = 0; inside && c < corners.length; c++) inside = turn(x, y, corners[c]!, corners[(c + 1) % corners.length]!, k) > 0;
    if (!inside) found.push(k);
  }
  return found;
}
