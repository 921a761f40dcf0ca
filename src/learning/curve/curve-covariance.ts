import type { CurveColumns } from "./columns.js";
import { type CurveErrors, ERROR_LAWS } from "./error-law.js";

/** A column of which less than this share is its own, beside the others, cannot be told from them. */
const COLLINEAR = 1e-10;

/**
 * Inverse of the information about the parameters in `free` (times the variance it is the covariance), one row per free parameter; `undefined`
 * when the data do not tell them apart. `jacobian`, destroyed, holds the derivatives of the fitted values, one column after another.
 */
export function inverseInformation(
  { n, weight, weighted }: CurveColumns,
  errors: CurveErrors,
  fitted: Float64Array,
  jacobian: Float64Array,
  free: readonly number[],
): number[][] | undefined {
  if (weighted || errors !== "normal") {
    const { information } = ERROR_LAWS[errors];
    for (let i = 0; i < n; i++) {
      const root = Math.sqrt(information(fitted[i]!, weight[i]!));
      for (let k = 0; k < free.length; k++) jacobian[free[k]! * n + i]! *= root;
    }
  }
  return inverseSquare(jacobian, n, free);
}

/** (A'A)^-1 for some columns of a matrix (destroyed), by modified Gram-Schmidt; `undefined` when they are not independent. */
function inverseSquare(matrix: Float64Array, n: number, columns: readonly number[]): number[][] | undefined {
  const k = columns.length;
  const whole = new Float64Array(k);
  const triangle = new Float64Array(k * k);
  for (let j = 0; j < k; j++) whole[j] = product(matrix, columns[j]! * n, columns[j]! * n, n);
  for (let j = 0; j < k; j++) {
    const from = columns[j]! * n;
    const square = product(matrix, from, from, n);
    if (!(square > COLLINEAR * COLLINEAR * whole[j]! && square < Number.POSITIVE_INFINITY)) return undefined;
    const root = Math.sqrt(square);
    triangle[j * k + j] = root;
    for (let m = j + 1; m < k; m++) {
      const to = columns[m]! * n;
      const share = product(matrix, from, to, n) / square;
      triangle[j * k + m] = share * root;
      for (let i = 0; i < n; i++) matrix[to + i]! -= share * matrix[from + i]!;
    }
  }
  return inverseFromTriangle(triangle, k);
}

/** (R'R)^-1 for an upper triangle R in rows. */
export function inverseFromTriangle(triangle: ArrayLike<number>, k: number): number[][] {
  const inverse = new Array<number>(k * k).fill(0);
  for (let j = 0; j < k; j++) {
    for (let i = j; i >= 0; i--) {
      let sum = i === j ? 1 : 0;
      for (let m = i + 1; m <= j; m++) sum -= triangle[i * k + m]! * inverse[m * k + j]!;
      inverse[i * k + j] = sum / triangle[i * k + i]!;
    }
  }
  const table: number[][] = [];
  for (let i = 0; i < k; i++) {
    const row: number[] = [];
    for (let j = 0; j < k; j++) {
      let sum = 0;
      for (let m = Math.max(i, j); m < k; m++) sum += inverse[i * k + m]! * inverse[j * k + m]!;
      row.push(sum);
    }
    table.push(row);
  }
  return table;
}

function product(matrix: Float64Array, one: number, two: number, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += matrix[one + i]! * matrix[two + i]!;
  return sum;
}
