// Small dense linear algebra for least squares. Matrices are Float64Array in row order; everything is worked in place, so that a fit
// of a few milliseconds makes no garbage.

/** A diagonal entry of R below this share of the largest counts as zero: its column is a combination of the columns before it. */
const RANK_SHARE = 1e-13;

/**
 * Householder reduction of the `rows` by `columns` matrix `a` (rows >= columns) to an upper triangle R in its first rows, applying the
 * same reflections to the `sides` columns of `b`. Below the triangle `a` is left undefined; the rows of `b` past `columns` hold the residual part.
 */
export function triangularize(a: Float64Array, rows: number, columns: number, b: Float64Array, sides: number): void {
  for (let k = 0; k < columns; k++) {
    let square = 0;
    for (let i = k; i < rows; i++) square += a[i * columns + k]! ** 2;
    const norm = Math.sqrt(square);
    if (norm === 0) continue;
    const head = a[k * columns + k]!;
    const diagonal = head > 0 ? -norm : norm;
    // reflector v = (head - diagonal, rest of the column); v.v = 2 norm (norm + |head|)
    a[k * columns + k] = head - diagonal;
    const half = norm * (norm + Math.abs(head));
    for (let j = k + 1; j < columns; j++) reflect(a, columns, j, a, columns, k, rows, half);
    for (let j = 0; j < sides; j++) reflect(b, sides, j, a, columns, k, rows, half);
    a[k * columns + k] = diagonal;
  }
}

/** Solves R x = b for one column `side` of `b` by back substitution into `x`; unknowns without weight in the data become 0. */
export function backSubstitute(r: Float64Array, columns: number, b: Float64Array, sides: number, side: number, x: Float64Array): void {
  let largest = 0;
  for (let k = 0; k < columns; k++) largest = Math.max(largest, Math.abs(r[k * columns + k]!));
  for (let k = columns - 1; k >= 0; k--) {
    const diagonal = r[k * columns + k]!;
    let sum = b[k * sides + side]!;
    for (let j = k + 1; j < columns; j++) sum -= r[k * columns + j]! * x[j]!;
    x[k] = Math.abs(diagonal) > RANK_SHARE * largest ? sum / diagonal : 0;
  }
}

// column j of `m` minus v (v.m)/(half of v.v), where v is column k of `a` from row k down
function reflect(m: Float64Array, width: number, j: number, a: Float64Array, columns: number, k: number, rows: number, half: number): void {
  let dot = 0;
  for (let i = k; i < rows; i++) dot += a[i * columns + k]! * m[i * width + j]!;
  const factor = dot / half;
  for (let i = k; i < rows; i++) m[i * width + j]! -= factor * a[i * columns + k]!;
}
