import { quickselect } from "simple-statistics";
import { createRandom, type Random } from "../../math/random.js";
import { mergeOrder } from "./merge-order.js";

/** Slopes that are looked at one by one, per point: with fewer left than this, they are listed. */
const LISTED_PER_POINT = 8;
/**
 * Half width of the stretch in which the slope is sought next, in standard deviations of its place in a sample: outside once in two
 * thousand.
 */
const STRETCH_SD = 3.5;
/** Roundings that a sum of two products may carry. */
const ROUNDINGS = 8 * Number.EPSILON;

/**
 * The slope that stands at `rank` (from 0) among the ascending slopes of all pairs of points with different x. `x` never falls, equal x
 * have their `y` ascending. Two points on a line of slope t swap places between the orders by x and by y - t x when their own slope is
 * below t: sorting counts the slopes below any t, and draws samples of those between two. Each round leaves about
 * 7/sqrt n of the slopes in question (Dillencourt, Mount and Netanyahu 1992, recalled). Expected cost O(n log n); the answer does not
 * depend on what is drawn, up to the rounding of y - t x over the smallest distance of two x.
 */
export function slopeOfRank(x: Float64Array, y: Float64Array, rank: number): number {
  const n = x.length;
  const points = centred(x, y);
  const random = createRandom(1);
  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  for (;;) {
    const order = Int32Array.from(x.keys());
    const below = mergeOrder(order, keysAt(points, low));
    const keys = keysAt(points, high);
    const inside = mergeOrder(order.slice(), keys);
    const few = inside <= LISTED_PER_POINT * n;
    const slopes: number[] = [];
    mergeOrder(order, keys, few ? Float64Array.from({ length: inside }, (_, i) => i) : drawRanks(random, inside, n), (i, j) => {
      slopes.push((y[j]! - y[i]!) / (x[j]! - x[i]!));
    });
    const found = Float64Array.from(slopes);
    if (few) return entryOfRank(found, Math.max(0, Math.min(rank - below, inside - 1)));
    found.sort();
    const share = (rank + 0.5 - below) / inside;
    const half = STRETCH_SD * Math.sqrt(n * share * (1 - share)) + 1;
    const from = found[Math.floor(share * n - half)];
    const to = found[Math.ceil(share * n + half)];
    for (const pivot of [from, to]) {
      if (pivot === undefined) continue;
      const width = (ROUNDINGS * (points.height + Math.abs(pivot) * points.reach)) / points.gap;
      if (rank < countBelow(points, pivot - width)) high = Math.min(high, pivot - width);
      else if (rank >= countBelow(points, pivot + width)) low = Math.max(low, pivot + width);
      else return pivot;
    }
    if (!(low < high)) return low;
  }
}

interface Points {
  /** Both measured from the middle of their range, so that products stay small. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Half the range of x, and of y. */
  readonly reach: number;
  readonly height: number;
  /** Smallest distance of two different x. */
  readonly gap: number;
}

function centred(x: Float64Array, y: Float64Array): Points {
  const n = x.length;
  const middleX = x[0]! + (x[n - 1]! - x[0]!) / 2;
  let least = y[0]!;
  let most = y[0]!;
  let gap = Number.POSITIVE_INFINITY;
  for (let i = 1; i < n; i++) {
    least = Math.min(least, y[i]!);
    most = Math.max(most, y[i]!);
    if (x[i]! > x[i - 1]!) gap = Math.min(gap, x[i]! - x[i - 1]!);
  }
  const middleY = least + (most - least) / 2;
  return {
    x: x.map((value) => value - middleX),
    y: y.map((value) => value - middleY),
    reach: (x[n - 1]! - x[0]!) / 2,
    height: (most - least) / 2,
    gap,
  };
}

/** What the points are sorted by to put those pairs out of order whose slope is below `t`: none at -Infinity, all at Infinity. */
function keysAt({ x, y }: Points, t: number): Float64Array {
  if (t === Number.NEGATIVE_INFINITY) return Float64Array.from(x.keys());
  return t === Number.POSITIVE_INFINITY ? x.map((value) => -value) : x.map((value, i) => y[i]! - t * value);
}

function countBelow(points: Points, t: number): number {
  return mergeOrder(Int32Array.from(points.x.keys()), keysAt(points, t));
}

function drawRanks(random: Random, among: number, n: number): Float64Array {
  return Float64Array.from({ length: n }, () => Math.floor(random.uniform(0, among))).sort();
}

function entryOfRank(values: Float64Array, rank: number): number {
  // the routine only reads and swaps entries, which a column allows as well as an array
  quickselect(values as unknown as number[], rank);
  return values[rank]!;
}
