import { quickselect } from "simple-statistics";
import { type LocationScatter, locationScatter, squaredDistances } from "./location-scatter.js";

/** Columns that a concentration step writes into, as long as the points. */
export interface Workspace {
  readonly distances: Float64Array;
  readonly sorted: Float64Array;
  readonly indices: Int32Array;
}

export function workspace(n: number): Workspace {
  return { distances: new Float64Array(n), sorted: new Float64Array(n), indices: new Int32Array(n) };
}

/** A change of the determinant below this share is rounding. */
const SETTLED = 1e-12;

/**
 * Concentration steps (Rousseeuw and Van Driessen 1999, recalled): the h points nearest by the present location and covariance give the next
 * ones, whose determinant is never larger. At most `steps` of them, ended early once it stays. `undefined` when the h points come to lie on a line.
 * The `h` points are left in `work.indices`, among equally near ones the first.
 */
export function concentrate(
  x: Float64Array,
  y: Float64Array,
  h: number,
  start: LocationScatter,
  steps: number,
  work: Workspace,
): LocationScatter | undefined {
  let at = start;
  let before = Number.POSITIVE_INFINITY;
  for (let step = 0; step < steps; step++) {
    squaredDistances(x, y, at, work.distances);
    takeNearest(h, work);
    const next = locationScatter(x, y, work.indices, h, h);
    if (next === undefined) return undefined;
    at = next;
    if (!(at.det < before * (1 - SETTLED))) break;
    before = at.det;
  }
  return at;
}

function takeNearest(h: number, { distances, sorted, indices }: Workspace): void {
  sorted.set(distances);
  // the routine only reads and swaps entries, which a column allows as well as an array
  quickselect(sorted as unknown as number[], h - 1);
  const limit = sorted[h - 1]!;
  let count = 0;
  for (let i = 0; i < distances.length; i++) if (distances[i]! < limit) indices[count++] = i;
  for (let i = 0; count < h; i++) if (distances[i]! === limit) indices[count++] = i;
}
