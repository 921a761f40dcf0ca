import type { Estimate } from "../math/estimate.js";
import { withCoverage } from "../math/interval-coverage.js";
import { positiveQuantile } from "../math/positive-quantile.js";
import { requireInteger, requireLevel, requireOneOf, requireSeed } from "../math/require.js";
import { insideRectangle } from "./normal/inside-rectangle.js";
import { radiusCoverage } from "./normal/model-coverage.js";
import { modelEstimates } from "./normal/model-estimate.js";
import { type NormalWarning, normalWarnings } from "./normal/normal-warnings.js";
import { inUnit, type PrincipalNormal } from "./normal/principal-normal.js";
import { radiusHolding } from "./normal/radius-holding.js";
import { readScatter } from "./normal/read-scatter.js";
import { requireShare } from "./normal/require-share.js";
import type { Endpoints, NormalScatter } from "./types.js";

/** Options of `widthForHitRate`. */
export interface WidthForHitRateOptions {
  /** What the width is of: the diameter of a circle ("circle", default), the extent along x of a strip without end across it ("strip"), the side of a square along x and y ("square"). */
  readonly shape?: "circle" | "strip" | "square";
  /** Label of the length unit, default "px". */
  readonly unit?: string;
  /** Confidence level, above 0 and below 1, default 0.95. Raised, the interval grows. */
  readonly level?: number;
  /** Start of the random numbers behind the interval, a 32-bit integer, default 1. */
  readonly seed?: number;
  /** Scatters drawn for the interval, 99 to 100000, default 999. More steady its ends and take longer. */
  readonly draws?: number;
}

/** The target that a hit rate asks for. */
export interface WidthForHitRate {
  /** Without interval and with n = 0 for a stated scatter. `tooFew`: under 3 endpoints; `noSpread`: they coincide (a strip: along x). */
  readonly width: Estimate;
  readonly rate: number;
  readonly shape: "circle" | "strip" | "square";
  readonly n: number;
  readonly unit: string;
  readonly level: number;
  readonly seed: number;
  /** `few`: under 20 endpoints; `shapeUnknown`: under 50, too few to see whether they are normal; `notNormal`: they are skewed or lie too far out, so that a high rate needs more than this width. */
  readonly warnings: readonly NormalWarning[];
}

/**
 * The width of a target, centred where the endpoints were aimed, that a wanted hit rate needs.
 *
 * The w with P(endpoint within w/2) = rate under the normal distribution with the mean and the covariance (n - 1) seen; bias counts. Smaller is more
 * accurate. Round scatter s without bias: circle 2 s sqrt(-2 ln(1 - rate)), strip 2 s z((1 + rate)/2). Interval: scatters that the data allow,
 * drawn. Cost O(n), and a few hundredths of a second.
 *
 * @param scatter - offsets of the endpoints from the target's centre, of one person, condition and pace; or a normal distribution, taken as true
 * @param rate - wanted share of hits, above 0 and below 1
 * @param options - see `WidthForHitRateOptions`
 * @returns the width with its interval, and warnings
 * @throws TypeError or RangeError if the scatter, the rate or an option is not as described
 * @see textbook (normal distribution); Yang and Berger 1994 (prior of the draws; recalled)
 * @example
 * ```ts
 * const x = Float64Array.of(3, 5, -1, 6, 2, 4, 7, 1);
 * const y = Float64Array.of(1, -2, 0, 2, -1, 3, -3, 1);
 * const { width } = widthForHitRate({ x, y }, 0.9);
 * width.ok && width.value.toFixed(1); // => "14.3"
 * ```
 */
export function widthForHitRate(scatter: Endpoints | NormalScatter, rate: number, options: WidthForHitRateOptions = {}): WidthForHitRate {
  const { shape = "circle", unit = "px", level = 0.95, seed = 1, draws = 999 } = options;
  const where = "widthForHitRate";
  const read = readScatter(where, scatter);
  const { n, normal } = read;
  requireShare(where, "rate", rate);
  requireOneOf(where, "options.shape", shape, ["circle", "strip", "square"]);
  requireLevel(where, level);
  requireSeed(where, seed);
  requireInteger(where, "options.draws", draws, 99, 100000);
  // a strip sees x alone: the scatter on the line y = 0, about which a circle's diameter is the strip's width
  const seen = normal !== undefined && shape === "strip" ? alongX(normal) : normal;
  const width = shape === "square" ? sideHolding : (one: PrincipalNormal, p: number) => 2 * radiusHolding(one, p);
  const estimate = modelEstimates(seen, n, { width: (one) => width(one, rate) }, { unit, level, seed, draws }).width;
  return {
    width: withCoverage(estimate, radiusCoverage("model", rate)!),
    rate,
    shape,
    n,
    unit,
    level,
    seed,
    warnings: normalWarnings(read),
  };
}

/** The distribution of x, with y at 0 throughout. */
function alongX({ along, across, long, short, cos, sin }: PrincipalNormal): PrincipalNormal {
  return { along: along * cos - across * sin, across: 0, long: Math.hypot(long * cos, short * sin), short: 0, cos: 1, sin: 0 };
}

/** Side of the square along x and y that holds the share `p`. */
function sideHolding(normal: PrincipalNormal, p: number): number {
  if (normal.long === 0) {
    const x = normal.along * normal.cos - normal.across * normal.sin;
    const y = normal.along * normal.sin + normal.across * normal.cos;
    return 2 * Math.max(Math.abs(x), Math.abs(y));
  }
  // in units of the circle's radius; a square of the circle's area to start from
  const radius = radiusHolding(normal, p);
  const unit = inUnit(normal, 1 / radius);
  const inside = (side: number) => insideRectangle(unit, { width: side, height: side, angle: 0 });
  return radius * positiveQuantile(inside, p, 1 - p, Math.sqrt(Math.PI));
}
