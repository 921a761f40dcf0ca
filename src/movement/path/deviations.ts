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
    const across = x[i]! * uy - y[i]! * ux;
    largest = Math.max(largest, Math.abs(across));
    if (i > 0) {
      const step = Math.sqrt((x[i]! - x[i - 1]!) ** 2 + (y[i]! - y[i - 1]!) ** 2);
      // two triangles where the step crosses the axis, else a trapezium
      const crosses = across * before < 0;
      sum += crosses
        ? (step * (across * across + before * before)) / (2 * Math.abs(across - before))
        : (step * Math.abs(across + before)) / 2;
      length += step;
    }
    before = across;
  }
  return { largestDeviation: largest, meanDeviation: length > 0 ? sum / length : 0 };
}
