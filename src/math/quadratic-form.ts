/** v' M v: the variance of a sum of estimates with weights `v` and covariance `matrix`. */
export function quadraticForm(matrix: readonly (readonly number[])[], v: readonly number[]): number {
  return v.reduce((sum, a, i) => sum + v.reduce((inner, b, j) => inner + a * b * matrix[i]![j]!, 0), 0);
}
