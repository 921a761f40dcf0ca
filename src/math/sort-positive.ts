/** Sorts a column without negative entries and NaN in place. Their bits have the same order as whole numbers, which are sorted in half the time. */
export function sortPositive(column: Float64Array<ArrayBuffer>): Float64Array<ArrayBuffer> {
  new BigUint64Array(column.buffer, column.byteOffset, column.length).sort();
  return column;
}
