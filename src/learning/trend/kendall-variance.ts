import type { TieSums } from "./tie-sums.js";

/**
 * Variance of Kendall's S over all orders of `n` independent values, with ties in either list taken into account (Kendall's book,
 * recalled): [n(n - 1)(2n + 5) - sum t(t - 1)(2t + 5) - sum u(u - 1)(2u + 5)]/18 + sum t(t - 1) sum u(u - 1)/(2n(n - 1)) + sum t(t - 1)(t -
 * 2) sum u(u - 1)(u - 2)/(9n(n - 1)(n - 2)). 0 when all values of a list are equal.
 */
export function kendallVariance(n: number, x: TieSums, y: TieSums): number {
  const all = (n * (n - 1)) / 2;
  if (x.pairs >= all || y.pairs >= all) return 0;
  const untied = (n * (n - 1) * (2 * n + 5) - x.weighted - y.weighted) / 18;
  const both = (x.pairs * y.pairs) / all;
  return untied + both + (n > 2 ? (x.triples * y.triples) / (9 * n * (n - 1) * (n - 2)) : 0);
}
