// The gamma function and the gamma distribution, written so that large arguments lose no digits: every power is expressed through its
// distance from the peak of the density, and never as the difference of two large logarithms.
import type { TailsAt } from "./positive-quantile.js";

/** log(2 pi)/2, as a number: a bundler keeps what calls Math even where nothing needs it. */
const HALF_LOG_TWO_PI = 0.9189385332046727;

/** From here on six terms of Stirling's series leave less than 1e-16. */
const SERIES_FROM = 12;
/** Stirling's series for the logarithm of the gamma function, B(2k)/(2k (2k - 1)): closed form from the Bernoulli numbers. */
const STIRLING = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360360];

/** Smallest factor that a continued fraction may meet, in place of 0. */
const TINY = 1e-300;
/** A series or a continued fraction ends when it changes by less than this share. */
export const SETTLED = 1e-16;

/** Natural logarithm of the gamma function for `x` above 0; about 1e-15 absolute near its zeros at 1 and 2, 1e-15 relative elsewhere. */
export function logGamma(x: number): number {
  return stirlingError(x) + (x - 0.5) * Math.log(x) - x + HALF_LOG_TWO_PI;
}

/** What Stirling's formula leaves out: log gamma(x) - ((x - 1/2) log x - x + log sqrt(2 pi)), for `x` above 0. */
export function stirlingError(x: number): number {
  let error = 0;
  let at = x;
  for (; at < SERIES_FROM; at++) error += (at + 0.5) * Math.log1p(1 / at) - 1;
  const inverse = 1 / at;
  let sum = 0;
  for (let k = STIRLING.length - 1; k >= 0; k--) sum = sum * inverse * inverse + STIRLING[k]!;
  return error + sum * inverse;
}

/** a log(a/m) + m - a without cancellation near m = a: how far `m` is from `a` on the scale of a log likelihood. */
export function deviance(a: number, m: number): number {
  const d = (m - a) / a;
  if (!(Math.abs(d) < 0.2)) return a * Math.log(a / m) + m - a;
  // d - log(1 + d) with log(1 + d) = 2 artanh(v), v = d/(2 + d), and d - 2v = d v
  const v = d / (2 + d);
  const square = v * v;
  let power = 2 * v * square;
  let sum = d * v;
  for (let odd = 3; Math.abs(power) > SETTLED * Math.abs(sum); odd += 2) {
    sum -= power / odd;
    power *= square;
  }
  return a * sum;
}

/** x^a exp(-x)/gamma(a), the density of the gamma distribution times `x`. */
export function gammaKernel(a: number, x: number): number {
  return x === 0 ? 0 : Math.sqrt(a / (2 * Math.PI)) * Math.exp(-stirlingError(a) - deviance(a, x));
}

/**
 * incomplete gamma function P) and above (`upper`, Q), with the `kernel` that they rest on. Each tail keeps about 1e-13 relative where it is the smaller one. Cost O(sqrt a).
 * incomplete gamma function P) and above (`upper`, Q). Each keeps about 1e-13 relative where it is the smaller one. Cost O(sqrt a).
 */
export function gammaTails(a: number, x: number): TailsAt {
  if (x <= 0) return { lower: 0, upper: 1, kernel: 0 };
  const kernel = gammaKernel(a, x);
  if (x < a + 1) {
    // power series with positive terms: P = kernel (1/a + x/(a (a + 1)) + ...)
    let term = 1 / a;
    let sum = term;
    for (let k = 1; term > SETTLED * sum; k++) {
      term *= x / (a + k);
      sum += term;
    }
    const lower = Math.min(1, kernel * sum);
    return { lower, upper: 1 - lower, kernel };
  }
  // Legendre's continued fraction Q = kernel/(x + 1 - a - 1 (1 - a)/(x + 3 - a - ...)), by the recursion of Lentz (recalled)
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let fraction = d;
  for (let k = 1; k < 1e6; k++) {
    const numerator = -k * (k - a);
    b += 2;
    d = 1 / nonZero(b + numerator * d);
    c = nonZero(b + numerator / c);
    const factor = c * d;
    fraction *= factor;
    if (Math.abs(factor - 1) <= 2 * SETTLED) break;
  }
  const upper = Math.min(1, kernel * fraction);
  return { lower: 1 - upper, upper, kernel };
}

/** Regularised lower incomplete gamma function P(a, x): the probability that a gamma variable with shape `a` lies below `x`. */
export function regularizedGammaP(a: number, x: number): number {
  return gammaTails(a, x).lower;
}

/** `value`, or the smallest stand-in when it is 0. */
export function nonZero(value: number): number {
  return Math.abs(value) < TINY ? TINY : value;
}
