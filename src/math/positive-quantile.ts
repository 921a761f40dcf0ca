/** A distribution of positive values, seen at one value. */
export interface TailsAt {
  /** Probability below. */
  readonly lower: number;
  /** Probability above. */
  readonly upper: number;
  /** Density times the value, that is the slope of `lower` against the logarithm of the value. */
  readonly kernel: number;
}

/** Largest logarithm searched: its square still fits into a double. */
const FARTHEST = 350;

/**
 * The value of a positive variable that has probability `lower` below and `upper` above it (their sum is 1; both are given so that the
 * smaller one keeps its digits). Newton steps on the logarithm of the smaller tail against the logarithm of the value: for gamma,
 * chi-squared and |Student| variables that curve bends one way only, so the steps cannot swing. A bracket, halved when a step leaves it,
 * guards the rest.
 * Values outside exp(-350)..exp(350) come out at the nearer end.
 */
export function positiveQuantile(tailsAt: (value: number) => TailsAt, lower: number, upper: number, start: number): number {
  if (!(lower >= 0 && upper >= 0)) return Number.NaN;
  if (lower === 0) return 0;
  if (upper === 0) return Number.POSITIVE_INFINITY;
  const below = lower <= upper;
  let low = -FARTHEST;
  let high = FARTHEST;
  let at = Math.min(Math.max(Math.log(start), low), high) || 0;
  for (let i = 0; i < 200; i++) {
    const tails = tailsAt(Math.exp(at));
    const tail = below ? tails.lower : tails.upper;
    // how far the tail is too large, as a logarithm, turned so that it grows with the value
    const excess = below ? Math.log(tail / lower) : Math.log(upper / tail);
    if (excess === 0) break;
    if (excess < 0) low = at;
    else high = at;
    const step = (excess * tail) / tails.kernel;
    // each step squares the error, so that after one this small nothing but rounding is left
    if (Math.abs(step) <= 1e-10) return Math.exp(at - step);
    const next = at - step;
    at = next > low && next < high ? next : (low + high) / 2;
  }
  return Math.exp(at);
}
