/**
 * Weights that give, from `window` evenly spaced values, the derivative of order `derivative` (per sample step) at position `at` of the polynomial of
 * `degree` fitted to them by least squares; positions count from the middle of the window.
 * The fit is a sum over polynomials p_k that are orthogonal on the window: weight_j = sum over k of p_k(j) p_k'(at) / |p_k|^2, with the recursion
 * p_(k+1)(x) = x p_k(x) - (|p_k|^2 / |p_(k-1)|^2) p_(k-1)(x), which holds for any set of points symmetric about 0 and needs no equations solved.
 */
export function savitzkyGolayWeights(window: number, degree: number, derivative: number, at: number): Float64Array {
  const half = (window - 1) / 2;
  const weights = new Float64Array(window);
  let before = new Float64Array(window);
  let current = new Float64Array(window).fill(1);
  // derivatives of order 0..derivative of the two polynomials at `at`
  let beforeAt = new Float64Array(derivative + 1);
  let currentAt = new Float64Array(derivative + 1);
  currentAt[0] = 1;
  let squaresBefore = 1;
  for (let k = 0; k <= degree; k++) {
    let squares = 0;
    for (let j = 0; j < window; j++) squares += current[j]! * current[j]!;
    for (let j = 0; j < window; j++) weights[j]! += (current[j]! * currentAt[derivative]!) / squares;
    const ratio = k === 0 ? 0 : squares / squaresBefore;
    const next = new Float64Array(window);
    for (let j = 0; j < window; j++) next[j] = (j - half) * current[j]! - ratio * before[j]!;
    const nextAt = new Float64Array(derivative + 1);
    for (let d = 0; d <= derivative; d++) {
      nextAt[d] = at * currentAt[d]! + (d > 0 ? d * currentAt[d - 1]! : 0) - ratio * beforeAt[d]!;
    }
    [before, current, beforeAt, currentAt, squaresBefore] = [current, next, currentAt, nextAt, squares];
  }
  return weights;
}
