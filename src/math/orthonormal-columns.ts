// Columns of a basis made orthonormal in place, and what a series has along them.

/**
 * Makes the columns orthonormal in place (modified Gram-Schmidt, each taken out twice) and writes the triangle that undoes it. A column that keeps
 * no more than `rankShare` of its length beside those before it becomes zero, as does its diagonal entry.
 */
export function orthonormalize(columns: readonly Float64Array[], triangle: Float64Array, rankShare: number): void {
  const k = columns.length;
  triangle.fill(0);
  for (let c = 0; c < k; c++) {
    const column = columns[c]!;
    const whole = lengthOf(column);
    for (let pass = 0; pass < 2; pass++) {
      for (let e = 0; e < c; e++) triangle[e * k + c]! += takeOut(column, columns[e]!);
    }
    const left = lengthOf(column);
    const counts = left > rankShare * whole;
    triangle[c * k + c] = counts ? left : 0;
    for (let i = 0; i < column.length; i++) column[i] = counts ? column[i]! / left : 0;
  }
}

/** Turns shares along the orthonormal columns into coefficients of the columns they were made from, in place; 0 for a column without a length. */
export function undoTriangle(triangle: Float64Array, share: Float64Array): void {
  const k = share.length;
  for (let c = k - 1; c >= 0; c--) {
    for (let e = c + 1; e < k; e++) share[c]! -= triangle[c * k + e]! * share[e]!;
    const diagonal = triangle[c * k + c]!;
    share[c] = diagonal === 0 ? 0 : share[c]! / diagonal;
  }
}

/** Subtracts from `series` its part along `unit`, and returns how much that was. */
export function takeOut(series: Float64Array, unit: Float64Array): number {
  let dot = 0;
  for (let i = 0; i < series.length; i++) dot += series[i]! * unit[i]!;
  for (let i = 0; i < series.length; i++) series[i]! -= dot * unit[i]!;
  return dot;
}

export function lengthOf(series: Float64Array): number {
  let square = 0;
  for (let i = 0; i < series.length; i++) square += series[i]! * series[i]!;
  return Math.sqrt(square);
}
