import { halvePoints } from "../../math/halve-points.js";

/** A tree over points that answers who is nearest, and from which points can be taken out. */
export interface PointTree {
  /** Takes a point out. */
  remove(point: number): void;
  /** The nearest point still in the tree, other than `point`; -1 when there is none. Of equally near ones the lowest number. */
  nearest(point: number): number;
  /** Writes the `k` nearest points, nearest first, to `out` from `offset` on. */
  neighbours(point: number, k: number, out: Int32Array, offset: number): void;
}

/**
 * Points halved by x and by y in turn. The node of a range [low, high) is the point in its middle, so that the tree is one permutation.
 * Unlike a grid it does not slow down when points crowd together.
 */
export function createPointTree(x: Float64Array, y: Float64Array): PointTree {
  const n = x.length;
  const at = Int32Array.from(x.keys());
  halvePoints(at, x, y, 1);
  const place = new Int32Array(n);
  for (let i = 0; i < n; i++) place[at[i]!] = i;
  const left = new Int32Array(n);
  count(left, 0, n);

  // what the running search knows: where it asks from, and the nearest found so far, nearest first
  let self = -1;
  let px = 0;
  let py = 0;
  let wanted = 1;
  let found = 0;
  const points: number[] = [];
  const squares: number[] = [];

  function search(low: number, high: number, byX: boolean): void {
    const middle = (low + high) >> 1;
    if (low >= high || left[middle] === 0) return;
    const point = at[middle]!;
    const dx = x[point]! - px;
    const dy = y[point]! - py;
    // a node whose point was taken out counts no more than its halves do
    if (point !== self && left[middle]! > lefts(low, middle) + lefts(middle + 1, high)) offer(point, dx * dx + dy * dy);
    const across = byX ? dx : dy;
    if (across > 0) search(low, middle, !byX);
    else search(middle + 1, high, !byX);
    if (found === wanted && across * across > squares[found - 1]!) return;
    if (across > 0) search(middle + 1, high, !byX);
    else search(low, middle, !byX);
  }

  function lefts(low: number, high: number): number {
    return low < high ? left[(low + high) >> 1]! : 0;
  }

  function offer(point: number, square: number): void {
    if (found < wanted) found++;
    else if (!nearer(point, square, found - 1)) return;
    let i = found - 1;
    while (i > 0 && nearer(point, square, i - 1)) {
      squares[i] = squares[i - 1]!;
      points[i] = points[i - 1]!;
      i--;
    }
    squares[i] = square;
    points[i] = point;
  }

  function nearer(point: number, square: number, than: number): boolean {
    return square < squares[than]! || (square === squares[than]! && point < points[than]!);
  }

  function ask(point: number, k: number): void {
    self = point;
    px = x[point]!;
    py = y[point]!;
    wanted = k;
    found = 0;
    search(0, n, true);
  }

  return {
    remove(point) {
      const target = place[point]!;
      let low = 0;
      let high = n;
      for (;;) {
        const middle = (low + high) >> 1;
        left[middle]!--;
        if (middle === target) return;
        if (target < middle) high = middle;
        else low = middle + 1;
      }
    },
    nearest(point) {
      ask(point, 1);
      return found === 0 ? -1 : points[0]!;
    },
    neighbours(point, k, out, offset) {
      ask(point, k);
      for (let i = 0; i < found; i++) out[offset + i] = points[i]!;
    },
  };
}

/** Fills in how many points each node holds. */
function count(left: Int32Array, low: number, high: number): void {
  if (low >= high) return;
  const middle = (low + high) >> 1;
  left[middle] = high - low;
  count(left, low, middle);
  count(left, middle + 1, high);
}
