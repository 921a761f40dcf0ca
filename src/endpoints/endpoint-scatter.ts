import type { Estimate, Reason } from "../math/estimate.js";
import { type CoverageTable, withCoverage } from "../math/interval-coverage.js";
import { meanAbsEstimate } from "../math/mean-abs-estimate.js";
import { meanAndSd } from "../math/mean-and-sd.js";
import { medianInPlace } from "../math/median.js";
import { medianEstimate } from "../math/median-estimate.js";
import { requireLevel } from "../math/require.js";
import { rmsEstimate } from "../math/rms-estimate.js";
import { studentQuantile } from "../math/student-quantile.js";
import type { Uncertain } from "../math/welch.js";
import { type AxisErrors, axisErrors } from "./axis-errors.js";
import { distancesFrom } from "./inference/distances.js";
import { jackknifeLogSd } from "./inference/jackknife-log-sd.js";
import { bivariateSd, type Moments, moments } from "./inference/moments.js";
import { requireEndpoints } from "./inference/require-endpoints.js";
import { isUnlikeNormal } from "./normal/unlike-normal.js";
import { finite } from "./scatter/finite.js";
import { meanLengthEstimate } from "./scatter/mean-length-estimate.js";
import { type RobustFigures, robustFigures } from "./scatter/robust-figures.js";
import { type ScatterEllipse, scatterEllipse } from "./scatter/scatter-ellipse.js";
import type { Endpoints } from "./types.js";

/** Options of `endpointScatter`. */
export interface EndpointScatterOptions {
  /** Label of the length unit, default "px". */
  readonly unit?: string;
  /** Confidence level of the intervals, and share of normal endpoints in the ellipse, above 0 and below 1, default 0.95. Raised, both grow. */
  readonly level?: number;
}

/** Distances of endpoints from the target's centre and from their own mean, length unit. `total` squared is `centroid` squared plus `bivariateVariable` squared, exactly. */
export interface RadialScatter {
  /** Mean and median distance from the target's centre. */
  readonly mean: Estimate;
  readonly median: Estimate;
  /** Root of the mean squared distance from the target's centre. */
  readonly total: Estimate;
  /** Distance of the mean endpoint from the target's centre: the bias. Even without bias it is above 0. */
  readonly centroid: Estimate;
  /** Root of the mean squared distance from the mean endpoint (1/n): the spread; also called DRMS. The interval, of the true spread, is shrunk like the value. */
  readonly bivariateVariable: Estimate;
  /** Mean and median distance from the mean endpoint; both are a little small in few endpoints, which draw their mean towards themselves. */
  readonly aboutMean: { readonly mean: number; readonly median: number };
}

/** Bias and spread of a set of endpoints. */
export type EndpointScatter =
  | {
      readonly ok: true;
      readonly n: number;
      readonly unit: string;
      readonly level: number;
      /** Errors along x and along y. */
      readonly x: AxisErrors;
      readonly y: AxisErrors;
      readonly radial: RadialScatter;
      /** Standard deviations with n - 1, the estimates for endpoints to come; `bivariate` is the root of the summed variances. */
      readonly sd: { readonly x: Estimate; readonly y: Estimate; readonly bivariate: Estimate };
      readonly mean: readonly [number, number];
      /** With n - 1, unit squared. */
      readonly covariance: readonly [readonly [number, number], readonly [number, number]];
      /** Sum of both variances, unit squared. */
      readonly totalVariance: number;
      /** Determinant of the covariance, unit to the fourth power. */
      readonly generalisedVariance: number;
      /** In -1..1; `null` when there is no spread along one axis. */
      readonly correlation: number | null;
      readonly ellipse: ScatterEllipse;
      /** What few far endpoints cannot drag along. */
      readonly robust: RobustFigures;
      /**
       * `few`: under 20 endpoints, too few for a spread that can be compared; `notNormal`: they are skewed or lie further out than normal ones,
       * so that the intervals of spread and total error hold the true figure less often than `level` says (70 to 90 % instead of 95 %).
       */
      readonly warnings: readonly ("few" | "notNormal")[];
    }
  /** `tooFew`: under two endpoints. */
  | { readonly ok: false; readonly why: Reason; readonly unit: string; readonly n: number };

const ENOUGH = 20;

/** Of the bivariate SD, simulated, 2000 sets each. */
const COVERAGE: CoverageTable = [
  [10, 0.935, 0.879, 0.803],
  [20, 0.944, 0.888, 0.779],
  [50, 0.948, 0.905, 0.751],
];

/**
 * Where endpoints lie about the target's centre: how far off on average (bias), and how widely scattered about that (spread).
 *
 * Per axis: constant error m, variable error VE = sqrt(sum (e - m)^2/n), absolute error, total error E, with E^2 = m^2 + VE^2. In the plane: mean
 * radial error, centroid radial error |m|, bivariate variable error BVE, root mean square, with r_ms^2 = |m|^2 + BVE^2; both need the 1/n form,
 * while `sd`, `covariance` and `ellipse` take n - 1. Smaller is more accurate. Cost O(n log n).
 *
 * @param endpoints - offsets from the target's centre of one person and condition, all in one frame
 * @param options - see `EndpointScatterOptions`
 * @returns estimates with intervals, covariance, ellipse and robust figures; not ok with fewer than two endpoints
 * @throws TypeError or RangeError if a column or an option is not as described
 * @see Hancock, Butler and Fischman 1995 (radial errors; recalled); ellipse, Hotelling's T2 and median: textbook
 * @example
 * ```ts
 * const x = Float64Array.of(3, 5, -1, 6, 2, 4, 7, 1);
 * const y = Float64Array.of(1, -2, 0, 2, -1, 3, -3, 1);
 * const scatter = endpointScatter({ x, y });
 * scatter.ok && scatter.mean; // => [3.375, 0.125]
 * ```
 */
export function endpointScatter(endpoints: Endpoints, options: EndpointScatterOptions = {}): EndpointScatter {
  const { unit = "px", level = 0.95 } = options;
  requireEndpoints("endpointScatter", "endpoints", endpoints);
  requireLevel("endpointScatter", level);
  const { x, y } = endpoints;
  const n = x.length;
  if (n < 2) return { ok: false, why: "tooFew", unit, n };
  const m = moments(endpoints);
  const { mean, scale, xx, xy, yy } = m;
  const ellipse = scatterEllipse(endpoints, m, level);
  const covariance = finite(xy * scale * scale);
  const product = xx * yy;
  const alongX = axisErrors(x, unit, level);
  const alongY = axisErrors(y, unit, level);
  const log = n < 3 || scale === 0 ? undefined : jackknifeLogSd(endpoints, m);
  const bivariate = bivariateEstimate(m, log, unit, level);
  // from n - 1 to n, so that the squares of bias and spread add up to the mean square
  const shrink = Math.sqrt((n - 1) / n);
  return {
    ok: true,
    n,
    unit,
    level,
    x: alongX,
    y: alongY,
    radial: radialScatter(endpoints, m, times(bivariate, shrink), level),
    sd: { x: times(alongX.variable, 1 / shrink), y: times(alongY.variable, 1 / shrink), bivariate },
    mean,
    covariance: [
      [finite(xx * scale * scale), covariance],
      [covariance, finite(yy * scale * scale)],
    ],
    totalVariance: finite((xx + yy) * scale * scale),
    generalisedVariance: finite(ellipse.variances[0] * ellipse.variances[1]),
    correlation: product > 0 ? Math.max(-1, Math.min(1, xy / Math.sqrt(product))) : null,
    ellipse,
    robust: robustFigures(endpoints, scale, ellipse),
    warnings: warningsFor(endpoints, m),
  };
}

function warningsFor(endpoints: Endpoints, m: Moments): ("few" | "notNormal")[] {
  const warnings: ("few" | "notNormal")[] = m.n < ENOUGH ? ["few"] : [];
  if (isUnlikeNormal(endpoints, m)) warnings.push("notNormal");
  return warnings;
}

function radialScatter(endpoints: Endpoints, m: Moments, bivariateVariable: Estimate, level: number): RadialScatter {
  const { unit } = bivariateVariable;
  const aboutTarget = distancesFrom(endpoints, [0, 0]);
  const aboutMean = distancesFrom(endpoints, m.mean);
  return {
    mean: meanAbsEstimate(aboutTarget, unit, level),
    median: medianEstimate(aboutTarget, unit, level),
    total: rmsEstimate(aboutTarget, unit, level),
    centroid: meanLengthEstimate(m, unit, level),
    bivariateVariable,
    aboutMean: { mean: meanAndSd(aboutMean).mean, median: medianInPlace(aboutMean) },
  };
}

/** The estimate of a spread in its 1/n or n - 1 form; the interval goes along with the value. */
function times(spread: Estimate, factor: number): Estimate {
  if (!spread.ok) return spread;
  const value = spread.value * factor;
  if (spread.interval === undefined) return { ...spread, value };
  return { ...spread, value, interval: [spread.interval[0] * factor, spread.interval[1] * factor] };
}

/** Root of the summed variances (n - 1), its interval by the jackknife of the logarithm, which takes the tails as they are. */
function bivariateEstimate(m: Moments, log: Uncertain | undefined, unit: string, level: number): Estimate {
  const { n } = m;
  const value = bivariateSd(m);
  if (value === 0) return { ok: false, why: "noSpread", unit, n };
  if (log === undefined) return { ok: true, value, unit, n };
  const stretch = Math.exp(-studentQuantile((1 - level) / 2, log.df) * Math.sqrt(log.variance));
  if (!Number.isFinite(value * stretch)) return { ok: true, value, unit, n };
  return withCoverage({ ok: true, value, unit, n, interval: [value / stretch, value * stretch], level }, COVERAGE);
}
