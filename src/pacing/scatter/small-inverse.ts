import { backSubstitute, triangularize } from "../../math/linear-solve.js";

/** Inverse of a symmetric positive matrix of a few rows; `undefined` where its rows depend on each other. */
export function smallInverse(matrix: readonly (readonly number[])[]): number[][] | undefined {
  const p = matrix.length;
  // in units of the diagonal, so that rows of unlike size weigh alike
  const size = matrix.map((row, i) => Math.sqrt(row[i]!));
  if (!size.every((value) => value > 0 && Number.isFinite(value))) return undefined;
  const columns = size.map((_, k) => {
    const a = new Float64Array(p * p);
    for (let i = 0; i < p; i++) for (let j = 0; j < p; j++) a[j * p + i] = matrix[i]![j]! / size[i]! / size[j]!;
    const b = new Float64Array(p);
    b[k] = 1;
    triangularize(a, p, p, b);
    for (let i = 0; i < p; i++) if (Math.abs(a[i * p + i]!) < 1e-10) return undefined;
    const x = new Float64Array(p);
    backSubstitute(a, p, p, b, x);
    return x;
  });
  if (columns.some((column) => column === undefined)) return undefined;
  return size.map((one, i) => size.map((other, j) => columns[j]![i]! / one / other));
}
