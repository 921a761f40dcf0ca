import { autocorrelatedMean } from "./autocorrelated-mean.js";
import { centreColumn } from "./centre-column.js";
import { normalCdf } from "./normal.js";

/** Beyond this a short series cannot tell autocorrelation from a drift. */
const MOST = 0.95;
const HALVINGS = 50;

/** Correlation of neighbouring values, several series pooled. */
export interface LagOneAutocorrelation {
  /** Corrected for the bias that the series' own means bring, within -0.95 and 0.95. */
  readonly r: number;
  /** One-sided: how often independent values would show as much. */
  readonly p: number;
}

/**
 * Lag-one autocorrelation of series in order of time, each about its own mean, pooled over those of at least three values: the sum of the products of
 * neighbours over the sum of squares. That ratio lies below the truth in short series (at -1/n on average where there is none); `r` is the
 * correlation for which the expected sums have the ratio found. `p` by the mean and variance of the ratio for independent normal values (Moran 1948,
 * recalled). `undefined` when no series is long enough or none has any spread.
 */
export function lagOneAutocorrelation(series: readonly ArrayLike<number>[]): LagOneAutocorrelation | undefined {
  let products = 0;
  let squares = 0;
  const lengths: number[] = [];
  for (const values of series) {
    const n = values.length;
    if (n < 3) continue;
    const rest = new Float64Array(n);
    centreColumn(values, rest);
    for (let i = 0; i < n; i++) {
      squares += rest[i]! * rest[i]!;
      if (i > 0) products += rest[i - 1]! * rest[i]!;
    }
    lengths.push(n);
  }
  if (!(squares > 0)) return undefined;
  const found = products / squares;
  const weight = lengths.reduce((sum, n) => sum + n - 1, 0);
  const variance = lengths.reduce((sum, n) => sum + ((n - 1) / weight) ** 2 * ((n - 2) ** 2 / (n * n * (n - 1))), 0);
  const z = (found - expected(lengths, 0)) / Math.sqrt(variance);
  return { r: inverse(lengths, found), p: normalCdf(-z) };
}

/** Ratio of the expected sums at the correlation `r`; it rises with `r`. */
function expected(lengths: readonly number[], r: number): number {
  let products = 0;
  let squares = 0;
  for (const n of lengths) {
    const mean = autocorrelatedMean(n, r);
    products += mean.products;
    squares += mean.squares;
  }
  return products / squares;
}

function inverse(lengths: readonly number[], found: number): number {
  let low = -MOST;
  let high = MOST;
  if (found <= expected(lengths, low)) return low;
  if (found >= expected(lengths, high)) return high;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (expected(lengths, middle) < found) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
