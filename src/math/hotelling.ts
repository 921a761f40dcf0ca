import { centreColumn, largestSize } from "./centre-column.js";
import { fQuantile, fTail } from "./f-distribution.js";
import { triangularize } from "./linear-solve.js";

/** A column whose own part, beside the columns before it, is below this share of it counts as a combination of them. */
const OWN_SHARE = 1e-13;

/** Outcome of a test of a mean against a point. */
export interface HotellingTest {
  readonly n: number;
  /** Mean of each column. */
  readonly mean: readonly number[];
  /** n e' S^-1 e, e the mean minus the point, S the covariance with n - 1. */
  readonly t2: number;
  /** (n - p)/(p (n - 1)) t2. */
  readonly f: number;
  /** Degrees of freedom of `f`: p and n - p. */
  readonly df: readonly [number, number];
  /** Probability of a larger `f` when the true mean is the point. */
  readonly p: number;
}

/**
 * One-sample test of Hotelling: does the mean of p variables (equally long columns) differ from the point `mu`? Exact for normal rows.
 * S is never formed: with the centred columns Z = Q R, S = R'R/(n - 1), so that t2 = n (n - 1) |w|^2 with R'w = e. Cost O(n p^2).
 * `undefined` with n <= p, or when a column is constant or a combination of the others to within its rounding.
 */
export function hotelling(columns: readonly Float64Array[], mu: readonly number[]): HotellingTest | undefined {
  const p = columns.length;
  const n = columns[0]!.length;
  if (n <= p) return undefined;
  const z = new Float64Array(n * p);
  const scaled = columns.map((column, k) => centre(column, z.subarray(k * n, (k + 1) * n)));
  triangularize(z, n, p, new Float64Array(n));
  const smallest = OWN_SHARE + 4 * scaled.reduce((sum, column) => sum + column.rounding, 0);
  const w = new Float64Array(p);
  let square = 0;
  for (let k = 0; k < p; k++) {
    const { mean, scale, norm } = scaled[k]!;
    const diagonal = z[k * n + k]!;
    if (!(Math.abs(diagonal) > smallest * norm)) return undefined;
    let rest = (mean - mu[k]!) / scale;
    for (let j = 0; j < k; j++) rest -= z[k * n + j]! * w[j]!;
    w[k] = rest / diagonal;
    square += w[k]! * w[k]!;
  }
  const t2 = n * (n - 1) * square;
  const f = ((n - p) / (p * (n - 1))) * t2;
  return { n, mean: scaled.map((column) => column.mean), t2, f, df: [p, n - p], p: fTail(f, p, n - p) };
}

/** The t2 of `p` variables and `n` rows that is exceeded with probability 1 - `level` when the true mean is the point. */
export function hotellingCritical(level: number, p: number, n: number): number {
  return ((p * (n - 1)) / (n - p)) * fQuantile(level, p, n - p);
}

/** Writes the deviations from the mean, in units of the largest, into `out`; `rounding` is what the digits of the values allow for, as a share of `norm`. */
function centre(column: Float64Array, out: Float64Array): { mean: number; scale: number; norm: number; rounding: number } {
  const n = column.length;
  const mean = centreColumn(column, out);
  const scale = largestSize(out);
  let squares = 0;
  for (let i = 0; i < n; i++) {
    if (scale > 0) out[i]! /= scale;
    squares += out[i]! * out[i]!;
  }
  const norm = Math.sqrt(squares);
  const rounding = norm === 0 ? 0 : (Number.EPSILON * Math.sqrt(n) * largestSize(column)) / (scale * norm);
  return { mean, scale, norm, rounding };
}
