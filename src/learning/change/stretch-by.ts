import { autocorrelatedMean } from "../../math/autocorrelated-mean.js";

/** How many times larger the autocorrelation `r` makes the standard error of a change between means of so many sessions, shown by their own spread. */
export function stretchBy(lengths: readonly number[], r: number): number {
  let plain = 0;
  let widened = 0;
  for (const n of lengths) {
    const { variance, squares } = autocorrelatedMean(n, r);
    plain += 1 / n;
    widened += (variance * (n - 1)) / squares;
  }
  return Math.sqrt(widened / plain);
}
