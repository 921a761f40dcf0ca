/** Sum of the straight steps between the points `[start, end)`. */
export function pathLength(x: Float64Array, y: Float64Array, start: number, end: number): number {
  let sum = 0;
  for (let i = start + 1; i < end; i++) {
    const dx = x[i]! - x[i - 1]!;
    const dy = y[i]! - y[i - 1]!;
    sum += Math.sqrt(dx * dx + dy * dy);
  }
  return sum;
}
