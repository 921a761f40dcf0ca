/**
 * How many independent values would fix a mean as well as `n` of which neighbours correlate with `r`: n(1 - r)/(1 + r), at least 1. Never
 * above `n`: a correlation below 0 promises more, which few values cannot prove.
 */
export function effectiveCount(n: number, r: number): number {
  return r > 0 ? Math.max(Math.min(n, 1), (n * (1 - r)) / (1 + r)) : n;
}
