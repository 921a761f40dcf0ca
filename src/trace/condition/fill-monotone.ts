import type { Knots } from "./knots.js";

/**
 * The shape-preserving cubic through `values` at the times `t`, read at `(first + o) / sampleRateHz` for every entry `o` of `out`: between two
 * knots it never leaves their range, so that it does not ring at a hold. Slopes are Fritsch and Carlson's weighted harmonic means, at the ends
 * the limited three-point formula (the scheme of SciPy's PchipInterpolator, to which it is tested).
 */
export function fillMonotone(t: Knots["t"], values: Float64Array, first: number, sampleRateHz: number, out: Float64Array): void {
  const slopes = knotSlopes(t, values);
  const lastKnot = t.length - 1;
  let i = 0;
  for (let o = 0; o < out.length; o++) {
    const at = (first + o) / sampleRateHz;
    while (i < lastKnot - 1 && at >= t[i + 1]!) i++;
    // a grid point may lie outside the samples by the rounding of their times; it is not extrapolated
    if (at <= t[i]! || lastKnot === 0) {
      out[o] = values[i]!;
    } else if (at >= t[i + 1]!) {
      out[o] = values[i + 1]!;
    } else {
      const length = t[i + 1]! - t[i]!;
      const mean = (values[i + 1]! - values[i]!) / length;
      const along = at - t[i]!;
      const square = (3 * mean - 2 * slopes[i]! - slopes[i + 1]!) / length;
      const cube = (slopes[i]! + slopes[i + 1]! - 2 * mean) / (length * length);
      out[o] = values[i]! + along * (slopes[i]! + along * (square + along * cube));
    }
  }
}

function knotSlopes(t: Float64Array, values: Float64Array): Float64Array {
  const n = t.length;
  const slopes = new Float64Array(n);
  if (n < 2) return slopes;
  const length = (i: number): number => t[i + 1]! - t[i]!;
  const mean = (i: number): number => (values[i + 1]! - values[i]!) / length(i);
  if (n === 2) return slopes.fill(mean(0));
  for (let i = 1; i < n - 1; i++) slopes[i] = innerSlope(length(i - 1), length(i), mean(i - 1), mean(i));
  slopes[0] = endSlope(length(0), length(1), mean(0), mean(1));
  slopes[n - 1] = endSlope(length(n - 2), length(n - 3), mean(n - 2), mean(n - 3));
  return slopes;
}

/** Slope at a knot between two intervals: their weighted harmonic mean, 0 at a turn or a flat. */
function innerSlope(length: number, after: number, mean: number, meanAfter: number): number {
  if (mean * meanAfter <= 0) return 0;
  return (3 * (length + after) * mean * meanAfter) / ((2 * after + length) * meanAfter + (after + 2 * length) * mean);
}

/** Slope at the outer knot of an end interval, from it and its neighbour, limited to the shape. */
function endSlope(length: number, neighbour: number, mean: number, meanNeighbour: number): number {
  const slope = ((2 * length + neighbour) * mean - length * meanNeighbour) / (length + neighbour);
  if (slope * mean <= 0) return 0;
  return mean * meanNeighbour <= 0 && Math.abs(slope) > 3 * Math.abs(mean) ? 3 * mean : slope;
}
