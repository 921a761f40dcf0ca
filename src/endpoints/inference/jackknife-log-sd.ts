import { jackknifeVariance } from "../../math/jackknife-variance.js";
import type { Uncertain } from "../../math/welch.js";
import type { Endpoints } from "../types.js";
import type { Moments } from "./moments.js";
import { withoutOne } from "./without-one.js";

/**
 * Logarithm of the bivariate SD in units of the scatter's own scale, with its jackknife variance on n - 1 degrees of freedom. The logarithm
 * makes the error of an SD nearly symmetric, and the jackknife takes the tails as they are. `undefined` when one endpoint alone makes the spread.
 */
export function jackknifeLogSd({ x, y }: Endpoints, { n, mean, scale }: Moments): Uncertain | undefined {
  const squares = new Float64Array(n);
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const dx = (x[i]! - mean[0]) / scale;
    const dy = (y[i]! - mean[1]) / scale;
    squares[i] = dx * dx + dy * dy;
    sum += squares[i]!;
  }
  const value = Math.log(sum / (n - 1)) / 2;
  const variance = jackknifeVariance(n, value, (i) => Math.log(withoutOne(sum, squares[i]!, n) / (n - 2)) / 2);
  return Number.isFinite(variance) ? { value, variance, df: n - 1 } : undefined;
}
