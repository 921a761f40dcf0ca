/** What autocorrelation does to the mean and the sample variance of a short series. */
export interface AutocorrelatedMean {
  /** Variance of the mean of the series, in variances of one value: 1/n without autocorrelation. */
  readonly variance: number;
  /** Expected sum of squares about that mean, in variances of one value: n - 1 without autocorrelation. */
  readonly squares: number;
  /** Degrees of freedom that the sum of squares is worth (Satterthwaite, recalled): n - 1 without autocorrelation. */
  readonly df: number;
  /** Expected sum of the products of neighbouring deviations from that mean, in variances of one value: -(n - 1)/n without autocorrelation. */
  readonly products: number;
}

/**
 * The mean of `n` values whose correlation falls as r^lag (an autoregression of the first order), |r| below 1. Exact sums, not the formula for
 * long series in which n values are worth n (1 - r)/(1 + r). Cost O(1).
 */
export function autocorrelatedMean(n: number, r: number): AutocorrelatedMean {
  const sum = total(n, r);
  const variance = sum / (n * n);
  const end = series(n, r) / (r === 0 ? 1 : r);
  const products = (n - 1) * r - (2 * sum - 2 * (r === 0 ? 1 : end)) / n + (n - 1) * variance;
  const squares = n - n * variance;
  // trace of (A R A R), A the centring and R the correlations: tr(RR) - 2 1'RR1/n + (1'R1/n)^2
  const g1 = series(n, r);
  const g2 = series(n, r * r);
  const rows = (n * (1 + r) ** 2 - 4 * (1 + r) * g1 + 2 * g2 + 2 * n * r ** (n + 1)) / (1 - r) ** 2;
  const trace = total(n, r * r) - (2 * rows) / n + (sum / n) ** 2;
  return { variance, squares, df: n > 1 ? (squares * squares) / trace : 0, products };
}

/** Sum of r^|i - j| over an n by n table. */
function total(n: number, r: number): number {
  return (n * (1 + r)) / (1 - r) - (2 * r * (1 - r ** n)) / (1 - r) ** 2;
}

/** r + r^2 + ... + r^n. */
function series(n: number, r: number): number {
  return (r * (1 - r ** n)) / (1 - r);
}
