/** A correlation of 1 leaves nothing to tell values apart by. */
const LARGEST = 0.99;

/**
 * Autocorrelation of neighbours of the errors, from that of `n` residuals (`lagOne`) after `coefficients` fitted numbers: 1 for a mean, 2
 * for a line. Residuals come out less alike than the errors were: on average r = rho - (p + (p + 3) rho)/n for p coefficients (Marriott and
 * Pope 1954 for the mean, Orcutt and Winokur 1969 for the line, recalled; next order n^-2), which is solved for rho. Noisier than r, its SD
 * about 1/sqrt n. Within +-0.99; 0 when n <= p + 3.
 */
export function unbiasedLagOne(r: number, n: number, coefficients: number): number {
  const spare = n - coefficients - 3;
  if (spare <= 0) return 0;
  return Math.max(-LARGEST, Math.min(LARGEST, (n * r + coefficients) / spare));
}
