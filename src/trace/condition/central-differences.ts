import { BLOCK } from "./block.js";

/** Slope of an evenly sampled column: the difference of a sample's neighbours over their time. The first and the last entry stay 0. */
export function centralDifferences(column: Float64Array, sampleRateHz: number): Float64Array {
  const slope = new Float64Array(column.length);
  const last = column.length - 1;
  for (let from = 1; from < last; from += BLOCK) fillSlope(column, sampleRateHz / 2, from, Math.min(last, from + BLOCK), slope);
  return slope;
}

function fillSlope(column: Float64Array, scale: number, from: number, to: number, slope: Float64Array): void {
  for (let i = from; i < to; i++) slope[i] = (column[i + 1]! - column[i - 1]!) * scale;
}
