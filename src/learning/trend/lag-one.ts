import { centreColumn } from "../../math/centre-column.js";

/**
 * Autocorrelation of neighbours: the sum of d[i] d[i + 1] over the sum of d[i]^2, d the deviations from the mean (NIST's definition), -1 to
 * 1. `undefined` without spread. In short series it comes out low: see `unbiasedLagOne`.
 */
export function lagOne(values: Float64Array): number | undefined {
  const n = values.length;
  const deviations = new Float64Array(n);
  if (n > 0) centreColumn(values, deviations);
  let products = 0;
  let squares = 0;
  for (let i = 0; i < n; i++) {
    products += i > 0 ? deviations[i - 1]! * deviations[i]! : 0;
    squares += deviations[i]! * deviations[i]!;
  }
  return squares > 0 ? products / squares : undefined;
}
