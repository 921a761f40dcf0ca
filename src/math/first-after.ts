/** Index of the first entry of an ascending column above `value`, its length when there is none. */
export function firstAfter(column: ArrayLike<number>, value: number): number {
  let low = 0;
  let high = column.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (column[middle]! <= value) low = middle + 1;
    else high = middle;
  }
  return low;
}
