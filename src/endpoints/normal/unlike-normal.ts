import { isDegenerate, type Moments } from "../inference/moments.js";
import type { Endpoints } from "../types.js";

/** Quantile of the chi-squared distribution with 4 degrees of freedom at 0.99 (SciPy 1.17.1 chi2.ppf, computed). */
const SKEWED_FROM = 13.276704135987622;
/** Standard errors of the kurtosis; its distribution leans to the right, so that normal endpoints come out above this about once in a hundred sets. */
const HEAVY_FROM = 2.6;

/**
 * Whether endpoints are skewed, or lie further out, more than normal ones ever do: Mardia's two measures (1970, recalled) of the endpoints z in
 * units of their scatter. Skewness: n/6 times the sum of all squared means of three components of z, chi-squared with 4 degrees of freedom
 * (with the correction for few endpoints). Kurtosis: the mean of |z|^4, expected 8 (n - 1)/(n + 1) with a standard error of 8/sqrt n.
 * Normal sets are called unlike in about one of fifty cases; from 50 endpoints on gross departures seldom escape. Cost O(n).
 */
export function isUnlikeNormal({ x, y }: Endpoints, set: Moments): boolean {
  const { n, mean, scale, xx, xy, yy } = set;
  if (n < 4 || isDegenerate(set)) return false;
  // Cholesky factor of the covariance with n, of which the expectations speak
  const l11 = Math.sqrt(((n - 1) / n) * xx);
  const l21 = (((n - 1) / n) * xy) / l11;
  const l22 = Math.sqrt(((n - 1) / n) * yy - l21 * l21);
  let m30 = 0;
  let m21 = 0;
  let m12 = 0;
  let m03 = 0;
  let fourth = 0;
  for (let i = 0; i < n; i++) {
    const a = (x[i]! - mean[0]) / scale / l11;
    const b = ((y[i]! - mean[1]) / scale - l21 * a) / l22;
    m30 += a * a * a;
    m21 += a * a * b;
    m12 += a * b * b;
    m03 += b * b * b;
    fourth += (a * a + b * b) ** 2;
  }
  const skewness = (m30 * m30 + 3 * m21 * m21 + 3 * m12 * m12 + m03 * m03) / (n * n);
  const correction = (3 * (n + 1) * (n + 3)) / (n * (3 * (n + 1) - 6));
  if ((n / 6) * correction * skewness > SKEWED_FROM) return true;
  return fourth / n - (8 * (n - 1)) / (n + 1) > (HEAVY_FROM * 8) / Math.sqrt(n);
}
