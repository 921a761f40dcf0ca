import type { Reason } from "../math/estimate.js";
import { meanAndSd } from "../math/mean-and-sd.js";
import { medianDeviation, medianInPlace } from "../math/median.js";
import { requireLevel, requireOneOf, requireSeed } from "../math/require.js";
import { isDegenerate, moments } from "./inference/moments.js";
import { requireEndpoints } from "./inference/require-endpoints.js";
import { type LocationScatter, squaredDistances } from "./outliers/location-scatter.js";
import { type CovarianceFactors, type RobustScatter, robustCutoff, robustScatter } from "./outliers/robust-scatter.js";
import { finite } from "./scatter/finite.js";
import type { Endpoints } from "./types.js";

/** Options of `scatterOutliers`. */
export interface ScatterOutliersOptions {
  /** Label of the length unit, default "px". */
  readonly unit?: string;
  /** `robust` (default): distances by the scatter of the inner half, which outliers cannot widen. `classical`: by the scatter of all. */
  readonly method?: "robust" | "classical";
  /** Share of normal endpoints to lie within the cutoff, above 0 and below 1, default 0.975. Raised, fewer are reported. */
  readonly level?: number;
  /** `sample` (default): the cutoff made for this many endpoints. `chiSquare`: the one for a known scatter, far too near in robust distances of few. */
  readonly cutoff?: "sample" | "chiSquare";
  /** Seed of the random starts of the robust search, a 32-bit integer, default 1. */
  readonly seed?: number;
}

/** A place, and the covariance about it (n - 1), unit squared. */
export interface CentreCovariance {
  readonly location: readonly [number, number];
  readonly covariance: readonly [readonly [number, number], readonly [number, number]];
}

/** Endpoints that lie far outside the scatter of the rest. */
export type ScatterOutliers =
  | (CentreCovariance & {
      readonly ok: true;
      readonly n: number;
      readonly unit: string;
      readonly level: number;
      /** Indices of the endpoints beyond the cutoff, ascending. Nothing is removed. */
      readonly outliers: readonly number[];
      /** Squared distance of each endpoint from `location`, in units of `covariance` (Mahalanobis). */
      readonly distances: readonly number[];
      /** Squared distance beyond which an endpoint is reported; `null` when no cutoff can be made, with three endpoints. */
      readonly cutoff: number | null;
      readonly cutoffRule: "sample" | "chiSquare";
      /** What the robust search found; absent for `classical`. */
      readonly search?: RobustSearch;
      /** `few`: in under 20 endpoints only gross outliers are told from chance; `manyOutliers`: over a quarter, more likely two groups than outliers. */
      readonly warnings: readonly ("few" | "manyOutliers")[];
    })
  /** `tooFew`: under ten endpoints, or three for `classical`; `noSpread`: half of them, or for `classical` all, lie on a line or a point. */
  | { readonly ok: false; readonly why: Reason; readonly unit: string; readonly n: number };

/** The steps of the robust estimate. */
export interface RobustSearch {
  readonly seed: number;
  /** Endpoints in the inner part. */
  readonly h: number;
  /** Their indices, ascending. */
  readonly support: readonly number[];
  /** From the inner part alone. */
  readonly raw: CentreCovariance;
  /** Endpoints that went into `location` and `covariance`: those within the 97.5 % distance by `raw`. */
  readonly kept: number;
  /** What each covariance was multiplied by. */
  readonly factors: Readonly<Record<"estimate" | "raw", CovarianceFactors>>;
}

const LEAST = { robust: 10, classical: 3 } as const;
const ENOUGH = 20;
const MANY = 0.25;
/** Farther out than this many median deviations, an endpoint counts as that far. */
const FARTHEST = 1e70;

/**
 * Which endpoints lie far outside the scatter of the rest? It reports them, and leaves the decision to a rule that was named before.
 *
 * Squared Mahalanobis distances d^2 = (e - m)' S^-1 (e - m). Robust: m and S from the h = floor((n + 3)/2) endpoints with the smallest determinant
 * of their covariance (searched from seeded starts), then once more from all within 97.5 %; up to nearly half of the endpoints may be outliers.
 * Classical: mean and covariance of all; several outliers hide each other. The cutoff of a sample is the beta quantile
 * (n - 1)^2/n B(1, (n - 3)/2), exact for normal endpoints, or for robust distances one fitted to simulations. Cost O(n).
 *
 * @param endpoints - offsets from the target's centre, at least ten (classical: three), of one condition
 * @param options - see `ScatterOutliersOptions`
 * @returns indices, distances, cutoff and the scatter they rest on; not ok with too few endpoints or with half of them on a line
 * @throws TypeError or RangeError if a column or an option is not as described
 * @see Rousseeuw and Van Driessen 1999; Gnanadesikan and Kettenring 1972 (beta distribution); both recalled
 * @example
 * ```ts
 * const x = Float64Array.of(3, 5, -1, 6, 2, 4, 7, 1, 3, 2, 5, 60);
 * const y = Float64Array.of(1, -2, 0, 2, -1, 3, -3, 1, 2, -2, 0, 40);
 * const found = scatterOutliers({ x, y });
 * found.ok && found.outliers; // => [11]
 * ```
 */
export function scatterOutliers(endpoints: Endpoints, options: ScatterOutliersOptions = {}): ScatterOutliers {
  const { unit = "px", method = "robust", level = 0.975, cutoff: rule = "sample", seed = 1 } = options;
  requireEndpoints("scatterOutliers", "endpoints", endpoints);
  requireOneOf("scatterOutliers", "options.method", method, ["robust", "classical"]);
  requireLevel("scatterOutliers", level);
  requireOneOf("scatterOutliers", "options.cutoff", rule, ["sample", "chiSquare"]);
  requireSeed("scatterOutliers", seed);
  const n = endpoints.x.length;
  if (n < LEAST[method]) return { ok: false, why: "tooFew", unit, n };
  const degenerate: ScatterOutliers = { ok: false, why: "noSpread", unit, n };
  const m = moments(endpoints);
  const frame = method === "robust" ? robustFrame(endpoints) : { cx: m.mean[0], cy: m.mean[1], sx: m.scale, sy: m.scale };
  if (method === "classical" ? isDegenerate(m) : frame.sx === 0 || frame.sy === 0) return degenerate;
  const x = endpoints.x.map((value) => within((value - frame.cx) / frame.sx));
  const y = endpoints.y.map((value) => within((value - frame.cy) / frame.sy));
  const search = method === "robust" ? robustScatter(x, y, seed) : undefined;
  if (method === "robust" && search === undefined) return degenerate;
  const estimate = search?.estimate ?? { mx: 0, my: 0, xx: m.xx, xy: m.xy, yy: m.yy, det: m.xx * m.yy - m.xy * m.xy };
  const distances = new Float64Array(n);
  squaredDistances(x, y, estimate, distances);
  const cutoff = rule === "chiSquare" ? -2 * Math.log1p(-level) : method === "robust" ? robustCutoff(n, level) : betaCutoff(n, level);
  const outliers: number[] = [];
  if (cutoff !== null) for (let i = 0; i < n; i++) if (distances[i]! > cutoff) outliers.push(i);
  const warnings: ("few" | "manyOutliers")[] = n < ENOUGH ? ["few"] : [];
  if (outliers.length > MANY * n) warnings.push("manyOutliers");
  return {
    ok: true,
    n,
    unit,
    level,
    ...inUnits(estimate, frame),
    outliers,
    distances: Array.from(distances, finite),
    cutoff: cutoff === null ? null : finite(cutoff),
    cutoffRule: rule,
    ...(search === undefined ? {} : { search: describeSearch(search, frame, seed) }),
    warnings,
  };
}

/** Where the search counts its lengths from, and in what: neither far coordinates nor huge units may cost digits. */
interface Frame {
  readonly cx: number;
  readonly cy: number;
  readonly sx: number;
  readonly sy: number;
}

/** Median and median deviation per axis, which no outlier moves; the SD where over half of the deviations are 0. */
function robustFrame({ x, y }: Endpoints): Frame {
  const [cx, cy] = [medianInPlace(x.slice()), medianInPlace(y.slice())];
  const sx = medianDeviation(x, cx) || meanAndSd(x).sd;
  const sy = medianDeviation(y, cy) || meanAndSd(y).sd;
  return { cx, cy, sx, sy };
}

/** Fourth powers of lengths must not overflow. */
function within(value: number): number {
  return Math.max(-FARTHEST, Math.min(FARTHEST, value));
}

/** Distances from the endpoints' own mean cannot exceed (n - 1)^2/n, and follow a beta distribution below; three endpoints are always that far. */
function betaCutoff(n: number, level: number): number | null {
  return n === 3 ? null : -((n - 1) ** 2 / n) * Math.expm1((2 / (n - 3)) * Math.log1p(-level));
}

function inUnits({ mx, my, xx, xy, yy }: LocationScatter, { cx, cy, sx, sy }: Frame): CentreCovariance {
  const covariance = finite(xy * sx * sy);
  return {
    location: [cx + mx * sx, cy + my * sy],
    covariance: [
      [finite(xx * sx * sx), covariance],
      [covariance, finite(yy * sy * sy)],
    ],
  };
}

function describeSearch({ raw, h, support, kept, factors }: RobustScatter, frame: Frame, seed: number): RobustSearch {
  return { seed, h, support: Array.from(support), raw: inUnits(raw, frame), kept, factors };
}
