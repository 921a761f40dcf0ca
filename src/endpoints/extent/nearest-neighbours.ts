import { halvePoints } from "../../math/halve-points.js";

/** With this few points, looking at all of them beats dividing them. */
const LEAF = 8;

/**
 * Distance of each point to the nearest other one, by a tree of medians: points are divided along x and y in turn, and a part that begins
 * farther away than the nearest one found is not looked at. At least two points, none beyond about 1e150. Cost O(n log n), for clusters and ties alike.
 */
export function nearestNeighbours(x: Float64Array, y: Float64Array): Float64Array {
  const n = x.length;
  const order = Int32Array.from({ length: n }, (_, i) => i);
  halvePoints(order, x, y, LEAF);
  // in the order of the tree, so that neighbours lie side by side in memory, too
  const px = new Float64Array(n);
  const py = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    px[k] = x[order[k]!]!;
    py[k] = y[order[k]!]!;
  }
  const distances = new Float64Array(n);
  for (let k = 0; k < n; k++) distances[order[k]!] = Math.sqrt(search(px, py, k, 0, n, true, Number.POSITIVE_INFINITY));
  return distances;
}

/** Squared distance from point `k` to the nearest other one between `low` and `high`, if that is below `least`. */
function search(px: Float64Array, py: Float64Array, k: number, low: number, high: number, alongX: boolean, least: number): number {
  let best = least;
  if (high - low <= LEAF) {
    for (let i = low; i < high; i++) {
      const dx = px[i]! - px[k]!;
      const dy = py[i]! - py[k]!;
      const square = dx * dx + dy * dy;
      if (square < best && i !== k) best = square;
    }
    return best;
  }
  const middle = (low + high) >> 1;
  const dx = px[k]! - px[middle]!;
  const dy = py[k]! - py[middle]!;
  const square = dx * dx + dy * dy;
  if (square < best && middle !== k) best = square;
  const ahead = alongX ? dx : dy;
  // among ties the point itself may lie on either side, so that its own side is known by its place
  const firstLower = ahead === 0 ? k < middle : ahead < 0;
  best = firstLower ? search(px, py, k, low, middle, !alongX, best) : search(px, py, k, middle + 1, high, !alongX, best);
  if (ahead * ahead >= best) return best;
  return firstLower ? search(px, py, k, middle + 1, high, !alongX, best) : search(px, py, k, low, middle, !alongX, best);
}
