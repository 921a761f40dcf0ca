import { logGamma } from "./gamma.js";

/**
 * By what factor the sample standard deviation (n - 1) of `n` independent normal values, at least two, falls short of the true one on average:
 * sqrt(2/(n - 1)) gamma(n/2)/gamma((n - 1)/2), called c4 on control charts. 0.798 at 2, 0.940 at 5, 0.973 at 10.
 */
export function c4(n: number): number {
  return Math.sqrt(2 / (n - 1)) * Math.exp(logGamma(n / 2) - logGamma((n - 1) / 2));
}
