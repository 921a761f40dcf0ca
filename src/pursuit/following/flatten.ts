import { shrinkAt } from "../../movement/acquisition/local-frame.js";
import type { Space } from "../../trace/types.js";

/** Target and pointer as columns of one flat plane. */
export interface FlatPair {
  readonly qx: Float64Array;
  readonly qy: Float64Array;
  readonly px: Float64Array;
  readonly py: Float64Array;
}

/**
 * Columns of a plane stay as they are. In a view the target's way is rolled out, each step of azimuth shortened by the cosine of the elevation, and the pointer
 * lies beside it as it does in the tangent plane at the target.
 */
export function flatten(space: Space, { qx, qy, px, py }: FlatPair): FlatPair {
  if (space.kind === "plane") return { qx, qy, px, py };
  const n = qx.length;
  const flat = emptyPair(n);
  let way = 0;
  for (let i = 0; i < n; i++) {
    if (i > 0) way += (qx[i]! - qx[i - 1]!) * shrinkAt(space, (qy[i]! + qy[i - 1]!) / 2);
    flat.qx[i] = way;
    flat.qy[i] = qy[i]!;
    flat.px[i] = way + (px[i]! - qx[i]!) * shrinkAt(space, qy[i]!);
    flat.py[i] = py[i]!;
  }
  return flat;
}

/** Room for `n` samples. */
export function emptyPair(n: number): FlatPair {
  return { qx: new Float64Array(n), qy: new Float64Array(n), px: new Float64Array(n), py: new Float64Array(n) };
}

/** Applies `change` to each column. */
export function mapPair(pair: FlatPair, change: (column: Float64Array) => Float64Array): FlatPair {
  return { qx: change(pair.qx), qy: change(pair.qy), px: change(pair.px), py: change(pair.py) };
}

/** Copies `from` into `to`, beginning at sample `at`. */
export function setPair(to: FlatPair, from: FlatPair, at: number): void {
  to.qx.set(from.qx, at);
  to.qy.set(from.qy, at);
  to.px.set(from.px, at);
  to.py.set(from.py, at);
}
