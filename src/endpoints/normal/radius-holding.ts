import { chiSquareQuantile } from "../../math/chi-square-quantile.js";
import { normalQuantile } from "../../math/normal-quantile.js";
import { positiveQuantile } from "../../math/positive-quantile.js";
import { insideCircle } from "./inside-circle.js";
import { inUnit, type PrincipalNormal } from "./principal-normal.js";
import { radiusMoments } from "./radius-moments.js";

/** Radius about the target's centre that holds the share `p` of a normal scatter: the distance of the mean when there is no spread. */
export function radiusHolding(normal: PrincipalNormal, p: number): number {
  const { scale } = radiusMoments(normal);
  if (normal.long === 0) return scale === 0 ? 0 : scale * Math.hypot(normal.along / scale, normal.across / scale);
  // the search has room for some powers of ten only
  const unit = inUnit(normal, 1 / scale);
  const start = wilsonHilfertyRadius(unit, p) || unit.long * Math.sqrt(p);
  return scale * positiveQuantile((radius) => insideCircle(unit, radius), p, 1 - p, start);
}

/**
 * The same, from the mean m and the variance v of the squared distance alone, as if it were a multiple of a chi-squared variable with
 * 2 m^2/v degrees of freedom (Grubbs 1964 after Patnaik, recalled).
 */
export function grubbsPatnaikRadius(normal: PrincipalNormal, p: number): number {
  const { scale, mean, variance } = radiusMoments(normal);
  if (variance === 0) return scale * Math.sqrt(mean);
  return scale * Math.sqrt((variance / (2 * mean)) * chiSquareQuantile(p, (2 * mean * mean) / variance));
}

/** The same with the cube root of that chi-squared variable taken for normal (Wilson and Hilferty 1931, recalled): no search, 0 where the cube is negative. */
export function wilsonHilfertyRadius(normal: PrincipalNormal, p: number): number {
  const { scale, mean, variance } = radiusMoments(normal);
  if (mean === 0) return 0;
  const spread = variance / (9 * mean * mean);
  const root = 1 - spread + normalQuantile(p) * Math.sqrt(spread);
  return scale * Math.sqrt(mean * Math.max(0, root) ** 3);
}
