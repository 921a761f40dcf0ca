// What a pointing design should reach before its figures are believed, and where a fitted line is doubted.

/** Intercepts that are believable for Fitts' law, seconds (Soukoreff and MacKenzie 2004; from memory). */
export const INTERCEPT_RANGE = [-0.2, 0.4] as const;
/** Least range of the indices of difficulty, bit: a narrower one leaves the slope to chance (a design choice). */
export const LEAST_RANGE = 2;
/** Least trials of a cell: fewer make its spread come out too small (a design choice). */
export const LEAST_TRIALS = 10;

/** Largest value less the smallest; 0 for none. A loop, since a list of arguments has a limit. */
export function rangeOf(values: readonly number[]): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return values.length === 0 ? 0 : high - low;
}
