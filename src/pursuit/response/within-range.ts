/** Sizes whose fourth powers neither overflow nor vanish. */
const LARGEST = 1e60;
const SMALLEST = 1e-60;

/** The columns as they are, or both by one power of two, so that the sums of their squares stay within range. */
export function withinRange(columns: readonly [Float64Array, Float64Array]): readonly [Float64Array, Float64Array] {
  let most = 0;
  for (const column of columns) for (let k = 0; k < column.length; k++) most = Math.max(most, Math.abs(column[k]!));
  if (most === 0 || (most >= SMALLEST && most <= LARGEST)) return columns;
  // in two steps: the factor for the smallest doubles is itself out of range
  const half = 2 ** -Math.round(Math.log2(most) / 2);
  return [columns[0].map((value) => value * half * half), columns[1].map((value) => value * half * half)];
}
