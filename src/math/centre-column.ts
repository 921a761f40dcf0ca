/**
 * Writes the values less their mean into `out` and gives that mean. Measured from the first value, the mean corrected by a second pass, so that a large
 * common offset costs no digits.
 */
export function centreColumn(values: ArrayLike<number>, out: Float64Array): number {
  const n = values.length;
  const first = values[0]!;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += values[i]! - first;
  const offset = sum / n;
  let rest = 0;
  for (let i = 0; i < n; i++) {
    out[i] = values[i]! - first - offset;
    rest += out[i]!;
  }
  const correction = rest / n;
  for (let i = 0; i < n; i++) out[i]! -= correction;
  return first + offset + correction;
}

/** The largest size among the values. */
export function largestSize(values: ArrayLike<number>): number {
  let largest = 0;
  for (let i = 0; i < values.length; i++) largest = Math.max(largest, Math.abs(values[i]!));
  return largest;
}
