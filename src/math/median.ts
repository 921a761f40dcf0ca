import { selectInPlace } from "./select-in-place.js";

/** Middle value of a column, the mean of the two middle ones for an even count; the order of the entries is lost, nothing is copied. NaN when empty. */
export function medianInPlace(values: Float64Array): number {
  const n = values.length;
  const middle = n >> 1;
  const upper = selectInPlace(values, middle);
  if (n % 2 === 1) return upper;
  let lower = values[0]!;
  for (let i = 1; i < middle; i++) if (values[i]! > lower) lower = values[i]!;
  return (lower + upper) / 2;
}

/** Median distance of the values from `centre`, in their unit; the values stay as they are. */
export function medianDeviation(values: Float64Array, centre: number): number {
  return medianInPlace(values.map((value) => Math.abs(value - centre)));
}
