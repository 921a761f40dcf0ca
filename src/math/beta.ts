import { deviance, nonZero, SETTLED, stirlingError } from "./gamma.js";
import type { TailsAt } from "./positive-quantile.js";

/** x^a y^b/B(a, b), the density of the beta distribution times x y; `y` is 1 - x, given apart so that it may be tiny. */
export function betaKernel(a: number, b: number, x: number, y: number): number {
  if (x <= 0 || y <= 0) return 0;
  const n = a + b;
  const correction = stirlingError(n) - stirlingError(a) - stirlingError(b);
  return Math.sqrt((a / (2 * Math.PI)) * (b / n)) * Math.exp(correction - deviance(a, n * x) - deviance(b, n * y));
}

/**
 * Both tails of the beta distribution with shapes `a` and `b` above 0 at `x` in 0..1: the probability below (`lower`, the regularised
 * incomplete beta function) and above (`upper`), with the `kernel` that they rest on (`betaKernel`). `y` is 1 - x, for a caller that knows it
 * more exactly. Each tail keeps about 1e-13 relative where it is the smaller one. Cost O(sqrt max(a, b)).
 */
export function betaTails(a: number, b: number, x: number, y: number = 1 - x): TailsAt {
  const kernel = betaKernel(a, b, x, y);
  // the fraction settles fast below the mean of the distribution; above it the other tail is the same problem mirrored
  if (x < (a + 1) / (a + b + 2)) {
    const lower = Math.min(1, kernel / continuedFraction(a, b, x, y));
    return { lower, upper: 1 - lower, kernel };
  }
  const upper = Math.min(1, kernel / continuedFraction(b, a, y, x));
  return { lower: 1 - upper, upper, kernel };
}

/** Regularised incomplete beta function: the probability that a beta variable with shapes `a` and `b` lies below `x`. */
export function regularizedBeta(a: number, b: number, x: number): number {
  return betaTails(a, b, x).lower;
}

// b0 + a1/(b1 + a2/(b2 + ...)) of Didonato and Morris 1992 (recalled), by the recursion of Lentz. Its terms take `x` and `y` apart, where
// the classical fraction takes 1 - x (a + b)/(a + 1) and loses six digits for a Student variable with a million degrees of freedom.
function continuedFraction(a: number, b: number, x: number, y: number): number {
  const first = a * y - b * x + 1;
  let fraction = nonZero((a * first) / (a + 1));
  let c = fraction;
  let d = 0;
  for (let m = 1; m < 1e6; m++) {
    const odd = a + 2 * m - 1;
    const numerator = ((((a + m - 1) * x) / odd) * ((a + b + m - 1) * x) * m * (b - m)) / odd;
    const denominator = m + (m * (b - m) * x) / odd + ((a + m) * (first + m * (1 + y))) / (odd + 2);
    c = nonZero(denominator + numerator / c);
    d = 1 / nonZero(denominator + numerator * d);
    const factor = c * d;
    fraction *= factor;
    if (Math.abs(factor - 1) <= 2 * SETTLED) break;
  }
  return fraction;
}
