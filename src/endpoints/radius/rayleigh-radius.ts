import { chiSquareQuantile } from "../../math/chi-square-quantile.js";
import type { Estimate } from "../../math/estimate.js";
import { stirlingError } from "../../math/gamma.js";
import type { Moments } from "../inference/moments.js";
import type { PrincipalNormal } from "../normal/principal-normal.js";
import { radiusMoments } from "../normal/radius-moments.js";

/**
 * Radius that holds the share `p` of round normal scatter about a centre that is known (`about` target, no bias) or estimated (about the mean):
 * sigma sqrt(-2 ln(1 - p)) with sigma^2 = sum r^2/(2 q), q = n or n - 1, times the factor that makes sigma right on average. The interval
 * is exact: sum r^2/sigma^2 is chi-squared with 2 q degrees of freedom.
 */
export function rayleighRadius(
  { n, mean, scale, xx, yy }: Moments,
  p: number,
  about: "target" | "mean",
  unit: string,
  level: number,
): Estimate {
  const q = about === "target" ? n : n - 1;
  if (q < 1) return { ok: false, why: "tooFew", unit, n };
  const spread = Math.sqrt((n - 1) * (xx + yy)) * scale;
  const length = about === "target" ? Math.hypot(spread, Math.sqrt(n) * mean[0], Math.sqrt(n) * mean[1]) : spread;
  if (length === 0) return { ok: false, why: "noSpread", unit, n };
  const factor = length * Math.sqrt(-2 * Math.log1p(-p));
  const value = (factor * rayleighCorrection(q)) / Math.sqrt(2 * q);
  const low = factor / Math.sqrt(chiSquareQuantile((1 + level) / 2, 2 * q));
  const high = factor / Math.sqrt(chiSquareQuantile((1 - level) / 2, 2 * q));
  if (!Number.isFinite(high)) return { ok: true, value, unit, n };
  return { ok: true, value, unit, n, interval: [low, high], level };
}

/** sqrt(q) gamma(q)/gamma(q + 1/2), above 1: the root of an average square is too small on average. */
export function rayleighCorrection(q: number): number {
  return Math.exp(stirlingError(q) - stirlingError(q + 0.5) + 0.5 - q * Math.log1p(0.5 / q));
}

/** The same for a stated scatter: as if it were round, with its mean variance (and squared bias) per axis. */
export function radiusOfRound(normal: PrincipalNormal, p: number): number {
  const { scale, mean } = radiusMoments(normal);
  return scale * Math.sqrt(mean / 2) * Math.sqrt(-2 * Math.log1p(-p));
}
