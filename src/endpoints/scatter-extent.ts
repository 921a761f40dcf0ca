import type { Reason } from "../math/estimate.js";
import { meanAndSd } from "../math/mean-and-sd.js";
import { convexHull, turn } from "./extent/convex-hull.js";
import { farthestPair } from "./extent/farthest-pair.js";
import { nearestNeighbours } from "./extent/nearest-neighbours.js";
import { requireEndpoints } from "./inference/require-endpoints.js";
import { finite } from "./scatter/finite.js";
import type { Endpoints } from "./types.js";

/** Options of `scatterExtent`. */
export interface ScatterExtentOptions {
  /** Label of the length unit, default "px". */
  readonly unit?: string;
}

/** Figures that rest on the outermost endpoints and on neighbours. All but the Clark-Evans ratio change with `n` alone: compare them at equal `n` only. */
export type ScatterExtent =
  | {
      readonly ok: true;
      readonly n: number;
      readonly unit: string;
      /** Largest distance between two endpoints, and which two, by index. It grows with `n`. */
      readonly extremeSpread: { readonly value: number; readonly between: readonly [number, number] };
      /** Smallest convex outline around all endpoints. It grows with `n`. */
      readonly hull: {
        /** Unit squared; 0 for endpoints on a line. */
        readonly area: number;
        /** All the way round: for a line there and back. */
        readonly perimeter: number;
        /** Corners by index, from +x toward +y, beginning at the smallest x. */
        readonly vertices: readonly number[];
      };
      /** Distances of each endpoint to the nearest other one. They shrink as `n` grows. */
      readonly nearestNeighbour: {
        readonly mean: number;
        /** Mean for as many points spread evenly at random over an area as large as the hull; `null` without area. */
        readonly expected: number | null;
        /** Mean over expected: below 1 clustered, above 1 regular. Points at random in their own hull come out above 1, too: the hull is too small an area for them. */
        readonly clarkEvans: number | null;
      };
    }
  /** `tooFew`: under two endpoints. */
  | { readonly ok: false; readonly why: Reason; readonly unit: string; readonly n: number };

/**
 * How far the outermost endpoints reach, and how closely neighbours lie.
 *
 * Extreme spread: the largest distance between two endpoints. Convex hull: area and perimeter. Nearest neighbours: mean distance d, and the ratio of
 * Clark and Evans, d/(sqrt(A/n)/2) with A the hull's area. Easy to picture, but each rests on a few endpoints: to compare people or days, use the
 * figures of `endpointScatter`, which use all of them and do not grow with their number. Cost O(n log n).
 *
 * @param endpoints - at least two, in one frame; where zero lies does not matter
 * @param options - see `ScatterExtentOptions`
 * @returns extreme spread, hull and nearest neighbours; not ok with fewer than two endpoints
 * @throws TypeError or RangeError if a column is not as described
 * @see Clark and Evans 1954 (recalled); hull and calipers: textbook
 * @example
 * ```ts
 * const extent = scatterExtent({ x: Float64Array.of(0, 4, 0), y: Float64Array.of(0, 0, 3) });
 * extent.ok && extent.extremeSpread; // => { value: 5, between: [1, 2] }
 * ```
 */
export function scatterExtent(endpoints: Endpoints, options: ScatterExtentOptions = {}): ScatterExtent {
  const { unit = "px" } = options;
  requireEndpoints("scatterExtent", "endpoints", endpoints);
  const n = endpoints.x.length;
  if (n < 2) return { ok: false, why: "tooFew", unit, n };
  const scale = powerOfTwo(endpoints);
  const x = endpoints.x.map((value) => value / scale);
  const y = endpoints.y.map((value) => value / scale);
  const vertices = convexHull(x, y);
  const between = vertices.length < 2 ? ([0, 1] as const) : farthestPair(x, y, vertices);
  const area = hullArea(x, y, vertices);
  const mean = meanAndSd(nearestNeighbours(x, y)).mean;
  const expected = area > 0 ? Math.sqrt(area / n) / 2 : null;
  return {
    ok: true,
    n,
    unit,
    extremeSpread: { value: finite(scale * distance(x, y, between[0], between[1])), between },
    hull: {
      area: finite(area * scale * scale),
      perimeter: finite(scale * vertices.reduce((sum, i, k) => sum + distance(x, y, i, vertices[(k + 1) % vertices.length]!), 0)),
      vertices,
    },
    nearestNeighbour: {
      mean: finite(scale * mean),
      expected: expected === null ? null : finite(scale * expected),
      clarkEvans: expected === null ? null : mean / expected,
    },
  };
}

/** A power of two about as large as the largest coordinate: dividing by it loses no digit, and squares can no longer overflow. */
function powerOfTwo({ x, y }: Endpoints): number {
  let largest = 0;
  for (let i = 0; i < x.length; i++) largest = Math.max(largest, Math.abs(x[i]!), Math.abs(y[i]!));
  return largest === 0 ? 1 : 2 ** Math.max(-1000, Math.floor(Math.log2(largest)));
}

/** By triangles from the first corner. */
function hullArea(x: Float64Array, y: Float64Array, vertices: readonly number[]): number {
  let area = 0;
  for (let k = 2; k < vertices.length; k++) area += turn(x, y, vertices[0]!, vertices[k - 1]!, vertices[k]!) / 2;
  return area;
}

function distance(x: Float64Array, y: Float64Array, i: number, j: number): number {
  return Math.sqrt((x[i]! - x[j]!) ** 2 + (y[i]! - y[j]!) ** 2);
}
