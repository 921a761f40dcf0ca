import { type PointColumns, requirePoints } from "../fitts/path/require-points.js";
import { exactOrder } from "../math/exact-order.js";
import { requireNumber, requireOneOf } from "../math/require.js";
import { distinctPoints } from "./tour/distinct-points.js";
import { nearOrder } from "./tour/near-order.js";
import { nearestNeighbourOrder } from "./tour/nearest-neighbour-order.js";
import { distanceOf, normalOrder, orderLength, type TourKind } from "./tour/visiting-order.js";

/** Options of `shortestTour`. */
export interface ShortestTourOptions {
  /** `"fromFirst"` (default): begins at point 0 and ends anywhere, as a person does whose pointer is somewhere already. `"open"`: begins and ends anywhere. `"closed"`: returns to its start. */
  readonly tour?: TourKind;
}

/** The shortest way through a set of points, beside two others. Lengths in the unit of the points. */
export interface ShortestTour {
  /** Numbers of the points in the order of the visit; of two directions or equally short orders, the given one if it is among them. */
  readonly order: readonly number[];
  readonly length: number;
  /** Whether no order can be shorter; otherwise the order is a good one. */
  readonly exact: boolean;
  /** Length in the order in which the points were given, closed when `length` is. */
  readonly given: number;
  /** Length when starting at point 0 and always taking the nearest next, closed when `length` is. */
  readonly nearestNeighbour: number;
  /** `length` over `given`, 0 to 1, higher is better; `null` when there is no way to go. */
  readonly efficiency: number | null;
}

const WHERE = "shortestTour";
/** Most places that are ordered exactly. */
const MOST_EXACT = 13;

/**
 * The shortest order in which to visit a set of points, and how much shorter it is than the order given.
 *
 * Up to 13 places it is found for certain, by dynamic programming (time n^2 2^n, a few milliseconds). Beyond that the way of the nearest next
 * is improved by local search (2-opt and Or-opt) and ten disturbances per point, 30 000 at most; the same points give the same order. How far
 * from the shortest, points spread evenly: none of 40 fields of 20 and 50 points, 0.04 % on average (at most 0.3 %) at 100, 0.4 % (at most
 * 1.2 %) at 200; 2.5 % above 0.7124 sqrt(n area) at 10 000 and 3.6 % at 100 000, of which the border of the field is a part.
 * Points on one place follow each other. Sizes, times and values of targets are left out: a longer order can be the better one.
 *
 * @param points - positions, one length unit; give them in the order visited to learn the efficiency of that order, the start first
 * @param options - see `ShortestTourOptions`
 * @returns the order and its length, beside the lengths of the given order and of the nearest next, neither of which it exceeds; no points give an empty order
 * @throws TypeError if `points` are of another kind; RangeError if a column or `tour` is out of range, or distances leave the range of a double
 * @see Held and Karp 1962 (exact); Croes 1958, Or 1976 (local search); Beardwood, Halton and Hammersley 1959 with the constant of Johnson and McGeoch (all recalled)
 * @example
 * ```ts
 * const visited = { x: Float64Array.of(0, 300, 100, 200), y: Float64Array.of(0, 0, 0, 0) };
 * const tour = shortestTour(visited);
 * tour.order; // => [0, 2, 3, 1]
 * tour.length; // => 300
 * tour.efficiency; // => 0.5
 * ```
 */
export function shortestTour(points: PointColumns, options: ShortestTourOptions = {}): ShortestTour {
  const { tour = "fromFirst" } = options;
  requirePoints(WHERE, "points", points);
  requireOneOf(WHERE, "options.tour", tour, ["fromFirst", "open", "closed"]);
  const { x, y } = points;
  const closed = tour === "closed";
  const asGiven = Array.from(x.keys());
  const given = orderLength(x, y, asGiven, closed);
  // no distance between two points is longer than this way
  requireNumber(WHERE, "square of the length in the given order", given * given);

  const places = distinctPoints(x, y);
  const greedy = nearestNeighbourOrder(places.x, places.y);
  const exact = greedy.length <= MOST_EXACT;
  const found = exact ? exactOrder(greedy.length, distanceOf(places.x, places.y), tour) : nearOrder(places.x, places.y, greedy, tour);
  const visits = (order: readonly number[]): number[] => normalOrder(order, tour).flatMap((place) => places.members[place]!);
  const nearest = visits(greedy);
  const nearestNeighbour = orderLength(x, y, nearest, closed);

  let order = asGiven;
  let length = given;
  for (const other of [visits(found), nearest]) {
    const otherLength = orderLength(x, y, other, closed);
    if (otherLength >= length) continue;
    order = other;
    length = otherLength;
  }
  return { order, length, exact, given, nearestNeighbour, efficiency: given === 0 ? null : length / given };
}
