import type { Random } from "../../math/random.js";
import { countOnLine } from "./count-on-line.js";
import { type LocationScatter, locationScatter } from "./location-scatter.js";

/**
 * Location and covariance of three points, to begin a search with; more points are added at random while they lie on a line. `"onLine"` when at
 * least `h` points lie on that line: there is no covariance to be found. `undefined` when a point so far out is among them that all others look
 * like one from there.
 */
export function elementalStart(
  x: Float64Array,
  y: Float64Array,
  triple: readonly [number, number, number],
  h: number,
  random: Random,
): LocationScatter | "onLine" | undefined {
  const n = x.length;
  const indices = new Int32Array(n);
  indices.set(triple);
  const start = locationScatter(x, y, indices, 3, 3);
  if (start !== undefined) return start;
  if (countOnLine(x, y, triple, 3) >= h) return "onLine";
  // the rest in random order, as far as it is needed
  for (let i = 0, k = 3; i < n; i++) if (!triple.includes(i)) indices[k++] = i;
  for (let k = 3; k < n; k++) {
    const other = k + Math.floor(random.uniform(0, n - k));
    const index = indices[other]!;
    indices[other] = indices[k]!;
    indices[k] = index;
    const longer = locationScatter(x, y, indices, k + 1, k + 1);
    if (longer !== undefined) return longer;
  }
  return undefined;
}
