// Small dense linear algebra for least squares. Matrices are Float64Array, one column after another (row i of column j at j * rows + i), so that
// every loop runs along memory; everything is worked in place, so that a fit of a few milliseconds makes no garbage.

/** A diagonal entry of R below this share of the largest counts as zero: its column is a combination of the columns before it. */
const RANK_SHARE = 1e-13;
/** A column whose squared length is below this is zero: its squares have no digits left in a double. */
const VANISHING = 1e-290;

/**
 * Householder reduction of the `rows` by `columns` matrix `a` to an upper triangle R in its first rows, applying the same reflections to the
 * vector `b`. Below the triangle `a` is left undefined; what of `b` lies past `columns` is the part that no combination of columns reaches.
 */
export function triangularize(a: Float64Array, rows: number, columns: number, b: Float64Array): void {
  for (let k = 0; k < columns && k < rows; k++) {
    const top = k * rows + k;
    const end = (k + 1) * rows;
    let square = 0;
    for (let i = top; i < end; i++) square += a[i]! * a[i]!;
    if (square < VANISHING) {
      a[top] = 0;
      continue;
    }
    const norm = Math.sqrt(square);
    const head = a[top]!;
    const diagonal = head > 0 ? -norm : norm;
    // reflector v = (head - diagonal, rest of the column); half of v.v = norm (norm + |head|)
    a[top] = head - diagonal;
    const half = norm * (norm + Math.abs(head));
    for (let j = k + 1; j < columns; j++) reflect(a, j * rows + k, a, top, end, half);
    reflect(b, k, a, top, end, half);
    a[top] = diagonal;
  }
}

/** Solves R x = b by back substitution into `x`, R being the triangle in the first rows of `r`; unknowns without weight in the data become 0. */
export function backSubstitute(r: Float64Array, rows: number, columns: number, b: Float64Array, x: Float64Array): void {
  let largest = 0;
  for (let k = 0; k < columns; k++) largest = Math.max(largest, Math.abs(r[k * rows + k]!));
  for (let k = columns - 1; k >= 0; k--) {
    const diagonal = r[k * rows + k]!;
    let sum = b[k]!;
    for (let j = k + 1; j < columns; j++) sum -= r[j * rows + k]! * x[j]!;
    x[k] = Math.abs(diagonal) > RANK_SHARE * largest ? sum / diagonal : 0;
  }
}

// the stretch of `m` from `at`, as long as the reflector v = a[top, end), minus v (v.m)/half
function reflect(m: Float64Array, at: number, a: Float64Array, top: number, end: number, half: number): void {
  const shift = at - top;
  let dot = 0;
  for (let i = top; i < end; i++) dot += a[i]! * m[i + shift]!;
  const factor = dot / half;
  for (let i = top; i < end; i++) m[i + shift]! -= factor * a[i]!;
}
