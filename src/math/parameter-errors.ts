import { lengthOf, orthonormalize, takeOut } from "./orthonormal-columns.js";

/** A parameter whose column keeps less than this share of its length beside the others cannot be told from a combination of them. */
const OWN_SHARE = 1e-10;

/** How well the data hold the parameters; `null` for those they do not. */
export interface ParameterErrors {
  readonly standardErrors: (number | null)[];
  /** `null` in the rows and columns of parameters not held, and everywhere when the rank is short. */
  readonly covariance: (number | null)[][];
  /** Directions among the parameters that the data hold. */
  readonly rank: number;
}

/**
 * Variance times (J'J)^-1 for the parameters `free` to move, from orthonormal columns. The standard error of one parameter is the root of the
 * variance over the length that its column keeps beside the others, which is also right where others cannot be told apart.
 */
export function parameterErrors(
  jacobian: Float64Array,
  size: number,
  parameters: number,
  free: readonly number[],
  variance: number,
): ParameterErrors {
  const column = (j: number): Float64Array => jacobian.slice(j * size, (j + 1) * size);
  const k = free.length;
  const basis = free.map(column);
  const lengths = basis.map(lengthOf);
  const triangle = new Float64Array(k * k);
  orthonormalize(basis, triangle, OWN_SHARE);
  const rank = basis.filter((_, c) => triangle[c * k + c]! > 0).length;
  const standardErrors = new Array<number | null>(parameters).fill(null);
  for (const [c, j] of free.entries()) {
    const others = free.filter((other) => other !== j).map(column);
    orthonormalize(others, new Float64Array((k - 1) ** 2), OWN_SHARE);
    const own = column(j);
    for (let pass = 0; pass < 2; pass++) for (const other of others) takeOut(own, other);
    const left = lengthOf(own);
    if (left > OWN_SHARE * lengths[c]!) standardErrors[j] = Math.sqrt(variance) / left;
  }
  const covariance = Array.from({ length: parameters }, () => new Array<number | null>(parameters).fill(null));
  if (rank === k) {
    const inverse = invertTriangle(triangle, k);
    for (const [a, i] of free.entries()) {
      for (const [b, j] of free.entries()) {
        let sum = 0;
        for (let c = Math.max(a, b); c < k; c++) sum += inverse[a * k + c]! * inverse[b * k + c]!;
        covariance[i]![j] = variance * sum;
      }
    }
  }
  return { standardErrors, covariance, rank };
}

// upper triangle, row by row
function invertTriangle(triangle: Float64Array, k: number): Float64Array {
  const inverse = new Float64Array(k * k);
  for (let c = 0; c < k; c++) {
    inverse[c * k + c] = 1 / triangle[c * k + c]!;
    for (let r = c - 1; r >= 0; r--) {
      let sum = 0;
      for (let e = r + 1; e <= c; e++) sum += triangle[r * k + e]! * inverse[e * k + c]!;
      inverse[r * k + c] = -sum / triangle[r * k + r]!;
    }
  }
  return inverse;
}
