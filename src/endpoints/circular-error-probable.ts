import type { Estimate } from "../math/estimate.js";
import { withCoverage } from "../math/interval-coverage.js";
import { quantileEstimate } from "../math/quantile-estimate.js";
import { requireInteger, requireLevel, requireOneOf, requireSeed } from "../math/require.js";
import { distancesFrom } from "./inference/distances.js";
import { radiusCoverage } from "./normal/model-coverage.js";
import { modelEstimates } from "./normal/model-estimate.js";
import { type NormalWarning, normalWarnings } from "./normal/normal-warnings.js";
import { type PrincipalNormal, withoutBias } from "./normal/principal-normal.js";
import { grubbsPatnaikRadius, radiusHolding, wilsonHilfertyRadius } from "./normal/radius-holding.js";
import { readScatter, type ScatterRead } from "./normal/read-scatter.js";
import { requireShare } from "./normal/require-share.js";
import { radiusOfRound, rayleighRadius } from "./radius/rayleigh-radius.js";
import { robustRadius } from "./radius/robust-radius.js";
import type { Endpoints, NormalScatter } from "./types.js";

/**
 * How the radius comes about. `exact`: integral of the normal distribution with the mean and covariance seen. `rayleigh`: round normal scatter.
 * `grubbsPatnaik`, `wilsonHilferty`: approximations of `exact`. `empirical`: quantile of the distances. `robust`: median distance, and from there
 * the shape of a robust normal distribution.
 */
export type RadiusEstimator = "exact" | "rayleigh" | "grubbsPatnaik" | "wilsonHilferty" | "empirical" | "robust";

/** Options of `circularErrorProbable`. */
export interface CircularErrorProbableOptions {
  /** Share of endpoints to hold, above 0 and below 1, default 0.5; 0.9 and 0.95 give R90 and R95. Raised, the radius grows and rests more on the tails. */
  readonly share?: number;
  /** How to estimate, default "exact"; see `RadiusEstimator`. A stated scatter allows neither "empirical" nor "robust". */
  readonly estimator?: RadiusEstimator;
  /** Centre of the circle: the target's ("target", default; bias counts) or that of the scatter ("mean"; spread alone). */
  readonly about?: "target" | "mean";
  /** Label of the length unit, default "px". */
  readonly unit?: string;
  /** Confidence level, above 0 and below 1, default 0.95. Raised, the interval grows. */
  readonly level?: number;
  /** Start of the random numbers behind the interval, a 32-bit integer, default 1. */
  readonly seed?: number;
  /** Scatters drawn, or resamples of "robust", for the interval, 99 to 100000, default 999. More steady its ends and take longer. */
  readonly draws?: number;
}

/** Radius of the circle that holds a share of the endpoints. */
export interface CircularErrorProbable {
  /** Without interval and with n = 0 for a stated scatter. `tooFew`: under 3 endpoints (`robust` 4, `rayleigh` 1 or 2, `empirical` 1); `noSpread`: they coincide. */
  readonly radius: Estimate;
  readonly share: number;
  readonly estimator: RadiusEstimator;
  readonly about: "target" | "mean";
  readonly n: number;
  readonly unit: string;
  readonly level: number;
  /** `null` when no random numbers were used. */
  readonly seed: number | null;
  /** What value and interval rest on, beside independent endpoints: `normal` scatter, `round` scatter, `noBias`, a `normalShape` beyond the median; `approximation` of a normal one. */
  readonly assumes: readonly ("normal" | "round" | "noBias" | "normalShape" | "approximation")[];
  /**
   * `few`: under 20 endpoints. For an estimator that assumes a normal shape, `shapeUnknown` (under 50, too few to see it: the interval may hold the
   * truth 30 times in 100 only) and `notNormal` (they are skewed or lie too far out: take "empirical"). `noInterval`: too few for one at this share.
   */
  readonly warnings: readonly (NormalWarning | "noInterval")[];
}

const ESTIMATORS = ["exact", "rayleigh", "grubbsPatnaik", "wilsonHilferty", "empirical", "robust"] as const;
const STATED = ["exact", "rayleigh", "grubbsPatnaik", "wilsonHilferty"] as const;

/**
 * Radius of the circle about the target's centre that holds half of the endpoints (the circular error probable), or any other share.
 *
 * Exact: the r with P(|e| <= r) = share for e normal with the mean and the covariance (n - 1) seen, tilted, narrow and biased as they are. Smaller is
 * more accurate; with the default it can be read as "half of the presses land within r". Intervals: scatters that the data allow, drawn (exact and
 * its approximations); chi-squared (rayleigh); order statistics (empirical); bootstrap (robust). Cost O(n); a few hundredths of a second for the draws.
 *
 * @param scatter - offsets of the endpoints from the target's centre, of one person and condition; or a normal distribution, taken as true
 * @param options - see `CircularErrorProbableOptions`
 * @returns the radius with its interval, what it assumes, and warnings
 * @throws TypeError or RangeError if the scatter or an option is not as described
 * @see Grubbs 1964; Wilson and Hilferty 1931; Maronna and Zamar 2002 (robust scatter); Yang and Berger 1994 (prior of the draws): all recalled
 * @example
 * ```ts
 * const x = Float64Array.of(3, 5, -1, 6, 2, 4, 7, 1);
 * const y = Float64Array.of(1, -2, 0, 2, -1, 3, -3, 1);
 * const { radius } = circularErrorProbable({ x, y });
 * radius.ok && radius.value.toFixed(2); // => "4.04"
 * ```
 */
export function circularErrorProbable(
  scatter: Endpoints | NormalScatter,
  options: CircularErrorProbableOptions = {},
): CircularErrorProbable {
  const { share = 0.5, estimator = "exact", about = "target", unit = "px", level = 0.95, seed = 1, draws = 999 } = options;
  const where = "circularErrorProbable";
  const read = readScatter(where, scatter);
  requireShare(where, "options.share", share);
  requireOneOf(where, "options.estimator", estimator, ESTIMATORS);
  if (read.endpoints === undefined) requireOneOf(where, "options.estimator of a stated scatter", estimator, STATED);
  requireOneOf(where, "options.about", about, ["target", "mean"]);
  requireLevel(where, level);
  requireSeed(where, seed);
  requireInteger(where, "options.draws", draws, 99, 100000);
  const radius = stateCoverage(radiusBy(estimator, read, { share, about, unit, level, seed, draws }), estimator, share);
  const drawn = estimator !== "rayleigh" && estimator !== "empirical";
  return {
    radius,
    share,
    estimator,
    about,
    n: read.n,
    unit,
    level,
    seed: drawn && radius.ok && radius.interval !== undefined ? seed : null,
    assumes: assumptions(estimator, share, about),
    warnings: warningsFor(estimator, share, read, radius),
  };
}

function stateCoverage(radius: Estimate, estimator: RadiusEstimator, share: number): Estimate {
  if (estimator === "empirical") return radius; // no distribution assumed
  const table = radiusCoverage(estimator === "rayleigh" ? "round" : estimator === "robust" ? "robust" : "model", share);
  return table === undefined ? radius : withCoverage(radius, table);
}

type Asked = Required<Omit<CircularErrorProbableOptions, "estimator">>;

function radiusBy(estimator: RadiusEstimator, read: ScatterRead, asked: Asked): Estimate {
  const { share, about, unit, level, seed, draws } = asked;
  const { n, endpoints, moments, normal } = read;
  if (endpoints !== undefined && moments === undefined) return { ok: false, why: "tooFew", unit, n };
  const centred = (one: PrincipalNormal): PrincipalNormal => (about === "target" ? one : withoutBias(one));
  if (estimator === "rayleigh" && moments !== undefined) return rayleighRadius(moments, share, about, unit, level);
  if (estimator === "robust" && endpoints !== undefined)
    return robustRadius(endpoints, { share, about, unit, level, seed, resamples: draws });
  if (estimator === "empirical" && endpoints !== undefined && moments !== undefined) {
    return quantileEstimate(distancesFrom(endpoints, about === "target" ? [0, 0] : moments.mean), share, unit, level);
  }
  const radius =
    estimator === "grubbsPatnaik"
      ? grubbsPatnaikRadius
      : estimator === "wilsonHilferty"
        ? wilsonHilfertyRadius
        : estimator === "rayleigh"
          ? radiusOfRound
          : radiusHolding;
  return modelEstimates(normal, n, { radius: (one) => radius(centred(one), share) }, { unit, level, seed, draws }).radius;
}

function assumptions(estimator: RadiusEstimator, share: number, about: "target" | "mean"): CircularErrorProbable["assumes"] {
  if (estimator === "empirical") return [];
  if (estimator === "robust") return share === 0.5 ? [] : ["normalShape"];
  if (estimator === "rayleigh") return about === "target" ? ["normal", "round", "noBias"] : ["normal", "round"];
  return estimator === "exact" ? ["normal"] : ["normal", "approximation"];
}

function warningsFor(estimator: RadiusEstimator, share: number, read: ScatterRead, radius: Estimate): CircularErrorProbable["warnings"] {
  if (read.endpoints === undefined || !radius.ok) return [];
  const anyShape = estimator === "empirical" || (estimator === "robust" && share === 0.5);
  const warnings: CircularErrorProbable["warnings"] = normalWarnings(read).filter((word) => word === "few" || !anyShape);
  return radius.interval === undefined ? [...warnings, "noInterval"] : warnings;
}
