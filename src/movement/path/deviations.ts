/** How far a path strayed from the straight way. */
export interface Deviations {
  readonly largestDeviation: number;
  /** Mean over the length of the path. */
  readonly meanDeviation: number;
}

/** Distances of a polygon from an axis through the origin with the direction (ux, uy). Every stretch counts by its length, so that a rest does not weigh. */
export function deviations(x: Float64Array, y: Float64Array, { ux, uy }: { readonly ux: number; readonly uy: number }): Deviations {
  let largest = 0;
  let sum = 0;
  let length = 0;
  let before = 0;
  for (let i = 0; i < x.length; i++) {
    const across = Math.abs(x[i]! * uy - y[i]! * ux);
    largest = Math.max(largest, across);
    if (i > 0) {
      const step = Math.sqrt((x[i]! - x[i - 1]!) ** 2 + (y[i]! - y[i - 1]!) ** 2);
      sum += (step * (across + before)) / 2;
      length += step;
    }
    before = across;
  }
  return { largestDeviation: largest, meanDeviation: length > 0 ? sum / length : 0 };
}
