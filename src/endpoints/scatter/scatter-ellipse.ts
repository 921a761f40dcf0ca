import { hotellingCritical } from "../../math/hotelling.js";
import type { Moments } from "../inference/moments.js";
import { principalAxes } from "../inference/principal-axes.js";
import type { Endpoints } from "../types.js";
import { finite } from "./finite.js";

/** Axes of the scatter about its mean, larger one first. */
export interface ScatterEllipse {
  /** Variances along the axes (n - 1): eigenvalues of the covariance, unit squared. */
  readonly variances: readonly [number, number];
  /** Standard deviations along the axes. */
  readonly axisSd: readonly [number, number];
  /** Direction of the longer axis, degrees from +x toward +y in (-90, 90]; `null` when the scatter is round or a point. */
  readonly angle: number | null;
  /** Shorter over longer axis: 1 round, 0 a line; `null` for a point. */
  readonly aspect: number | null;
  /** sqrt(1 - aspect^2): 0 round, 1 a line; `null` for a point. */
  readonly eccentricity: number | null;
  /** Semi-axes of the ellipse that holds the share `level` of normal endpoints with this very mean and covariance. */
  readonly semiAxes: readonly [number, number];
  /** Area of that ellipse, and of the one with the standard deviations as semi-axes (39 % of normal endpoints), unit squared. */
  readonly area: number;
  readonly area1Sd: number;
  /**
   * Axis SDs times these are semi-axes of: `known`, the ellipse above; `mean`, the region that holds the true mean at `level`; `next`, the region
   * that holds one new endpoint at `level`, wider than `known` since mean and covariance are estimated. `null` below three endpoints.
   */
  readonly factors: { readonly known: number; readonly mean: number | null; readonly next: number | null };
}

/** Endpoints that spread less than this share of their length across it lie on a line. */
const LINE = 1e-13;

/** Ellipse of at least two endpoints. */
export function scatterEllipse(endpoints: Endpoints, moments: Moments, level: number): ScatterEllipse {
  const { n, mean, scale, xx, xy, yy } = moments;
  const axes = principalAxes(xx, xy, yy);
  const long = scale * Math.sqrt(axes.major);
  const across = axes.angle === null ? scale * Math.sqrt(axes.minor) : Math.min(long, shortSd(endpoints, moments, axes.angle));
  // coordinates far from zero are rounded more coarsely, and endpoints on a line with them
  const rounding = 2 * Number.EPSILON * Math.max(Math.abs(mean[0]), Math.abs(mean[1]));
  const short = across <= LINE * long + rounding ? 0 : across;
  const known = Math.sqrt(-2 * Math.log1p(-level));
  const aspect = long > 0 ? short / long : null;
  return {
    variances: [finite(long * long), finite(short * short)],
    axisSd: [long, short],
    angle: axes.angle,
    aspect,
    eccentricity: aspect === null ? null : Math.sqrt((1 - aspect) * (1 + aspect)),
    semiAxes: [finite(known * long), finite(known * short)],
    area: finite(Math.PI * (known * long) * (known * short)),
    area1Sd: finite(Math.PI * long * short),
    factors: { known, ...(n < 3 ? { mean: null, next: null } : fFactors(n, level)) },
  };
}

/** SD across the longer axis, from the endpoints: an eigenvalue of the covariance would hold half the digits where the scatter is narrow. */
function shortSd({ x, y }: Endpoints, { n, mean, scale }: Moments, angle: number): number {
  const sin = Math.sin((angle * Math.PI) / 180);
  const cos = Math.cos((angle * Math.PI) / 180);
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const across = ((y[i]! - mean[1]) / scale) * cos - ((x[i]! - mean[0]) / scale) * sin;
    squares += across * across;
  }
  return scale * Math.sqrt(squares / (n - 1));
}

/** Hotelling's T2 in place of chi-squared: the mean and the covariance are estimated from the same endpoints. */
function fFactors(n: number, level: number): { mean: number; next: number } {
  const t2 = hotellingCritical(level, 2, n);
  return { mean: Math.sqrt(t2 / n), next: Math.sqrt((t2 * (n + 1)) / n) };
}
