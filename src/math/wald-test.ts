import { fTail } from "./f-distribution.js";
import { backSubstitute, triangularize } from "./linear-solve.js";

/** Joint test of several coefficients of a least-squares fit against 0. */
export interface WaldTest {
  readonly f: number;
  readonly df: readonly [number, number];
  readonly p: number;
}

/**
 * F test that the `k` coefficients from `from` on are all 0: F = c' V^-1 c/k, V their covariance, on k and `df` degrees of freedom. For least
 * squares it is the usual comparison of the fits with and without them, exact for normal residuals; it does not change when the `k`
 * columns are exchanged for others that span the same.
 */
export function waldTest(
  coefficients: readonly number[],
  covariance: readonly (readonly number[])[],
  from: number,
  k: number,
  df: number,
): WaldTest {
  const v = new Float64Array(k * k);
  const b = new Float64Array(k);
  const x = new Float64Array(k);
  // in standard errors, so that columns of unlike size weigh alike
  const error = (i: number): number => Math.sqrt(covariance[from + i]![from + i]!);
  for (let i = 0; i < k; i++) {
    b[i] = coefficients[from + i]! / error(i);
    for (let j = 0; j < k; j++) v[j * k + i] = covariance[from + i]![from + j]! / error(i) / error(j);
  }
  const c = b.slice();
  triangularize(v, k, k, b);
  backSubstitute(v, k, k, b, x);
  let sum = 0;
  for (let i = 0; i < k; i++) sum += c[i]! * x[i]!;
  const f = sum / k;
  return { f, df: [k, df], p: fTail(f, k, df) };
}
