import { betaTails } from "./beta.js";

/** Both tails of the binomial distribution at `k` successes of `n` trials, `k` included in either: P(at most k) and P(at least k). Cost O(sqrt n). */
export function binomialTails(k: number, n: number, p: number): { atMost: number; atLeast: number } {
  const atMost = k === n ? 1 : betaTails(k + 1, n - k, p, 1 - p).upper;
  const atLeast = k === 0 ? 1 : betaTails(k, n - k + 1, p, 1 - p).lower;
  return { atMost, atLeast };
}

/** Exact two-sided test of `k` successes among `n` trials against the probability `p`: twice the smaller tail, at most 1. */
export function binomialTest(k: number, n: number, p: number): number {
  const { atMost, atLeast } = binomialTails(k, n, p);
  return Math.min(1, 2 * Math.min(atMost, atLeast));
}
