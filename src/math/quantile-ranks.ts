import { betaTails } from "./beta.js";

/**
 * The ends of an interval for quantile `p` of `n` independent values, as positions in their ascending list from 0, and the level attained: either end leaves out
 * at most (1 - level)/2. `undefined` where too few values lie on either side.
 */
export function quantileRanks(n: number, p: number, level: number): { low: number; high: number; level: number } | undefined {
  const tail = (1 - level) / 2;
  // ranks from below and from above, by the same search
  const low = rank(n, p, tail);
  const high = rank(n, 1 - p, tail);
  if (low === 0 || high === 0) return undefined;
  return { low: low - 1, high: n - high, level: 1 - fewer(n, p, low) - fewer(n, 1 - p, high) };
}

/** The largest rank that lies beyond the quantile with probability at most `tail`; 0 when none does. */
function rank(n: number, p: number, tail: number): number {
  let low = 0;
  let high = n + 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (fewer(n, p, middle) <= tail) low = middle;
    else high = middle;
  }
  return low;
}

/** P(binomial(n, p) < rank), an incomplete beta function. */
function fewer(n: number, p: number, rank: number): number {
  return betaTails(rank, n - rank + 1, p, 1 - p).upper;
}
