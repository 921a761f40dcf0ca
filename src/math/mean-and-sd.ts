/**
 * Mean and sample standard deviation (n - 1) of a list; 0 for the deviation of a single value, NaN for both when empty.
 * Everything is measured from the first value and the mean is corrected by a second pass, so that a large common offset (clock times)
 * costs no digits and the deviation is exactly 0 if and only if all values are equal. Squares are scaled, so that they cannot overflow or
 * vanish.
 */
export function meanAndSd(values: ArrayLike<number>): { mean: number; sd: number } {
  const n = values.length;
  if (n === 0) return { mean: Number.NaN, sd: Number.NaN };
  const first = values[0]!;
  let sum = 0;
  for (let i = 1; i < n; i++) sum += values[i]! - first;
  const offset = sum / n;
  let rest = 0;
  let largest = 0;
  for (let i = 0; i < n; i++) {
    const deviation = values[i]! - first - offset;
    rest += deviation;
    const size = Math.abs(deviation);
    if (size > largest) largest = size;
  }
  const centre = offset + rest / n;
  if (largest === 0) return { mean: first + centre, sd: 0 };
  let squares = 0;
  for (let i = 0; i < n; i++) {
    const deviation = (values[i]! - first - centre) / largest;
    squares += deviation * deviation;
  }
  return { mean: first + centre, sd: n < 2 ? 0 : largest * Math.sqrt(squares / (n - 1)) };
}
