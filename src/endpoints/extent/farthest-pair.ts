import { turn } from "./convex-hull.js";

/** Indices of the two corners of a hull that lie farthest apart, by calipers that turn round it (Shamos 1978, recalled); the smaller index first. */
export function farthestPair(x: Float64Array, y: Float64Array, hull: readonly number[]): readonly [number, number] {
  const m = hull.length;
  let best: readonly [number, number] = [hull[0]!, hull[m - 1]!];
  let farthest = 0;
  const consider = (i: number, j: number): void => {
    const dx = x[i]! - x[j]!;
    const dy = y[i]! - y[j]!;
    const square = dx * dx + dy * dy;
    if (square > farthest) {
      farthest = square;
      best = [i, j];
    }
  };
  const corner = (k: number): number => hull[k % m]!;
  let across = 1;
  for (let side = 0; side < m; side++) {
    const [from, to] = [corner(side), corner(side + 1)];
    // on to the corner farthest from this side; both ends of both, so that parallel sides need no case of their own
    while (turn(x, y, from, to, corner(across + 1)) > turn(x, y, from, to, corner(across))) across++;
    for (const end of [from, to]) for (const other of [corner(across), corner(across + 1)]) consider(end, other);
  }
  return best[0] < best[1] ? best : [best[1], best[0]];
}
