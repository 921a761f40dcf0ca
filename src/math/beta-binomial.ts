import { logGamma } from "./gamma.js";

/**
 * Probability of at least `k` successes in `n` trials whose common probability is itself a beta variable with shapes `a` and `b` above 0: a
 * binomial with an uncertain share. As `a` and `b` grow it becomes the binomial with a/(a + b). Cost O(n).
 */
export function betaBinomialUpper(k: number, n: number, a: number, b: number): number {
  if (k <= 0) return 1;
  const last = logGamma(a + n) - logGamma(a) + logGamma(a + b) - logGamma(a + b + n);
  // from n downward: each term is the one above it times j (b + n - j)/((n - j + 1)(a + j - 1))
  let logTerm = last;
  let sum = Math.exp(logTerm);
  for (let j = n; j > k; j--) {
    logTerm += Math.log((j * (b + n - j)) / ((n - j + 1) * (a + j - 1)));
    sum += Math.exp(logTerm);
  }
  return Math.min(1, sum);
}
