/**
 * Orders the entries of `order` (indices of points) as a tree over the plane: the middle one of every stretch splits it by x, the middle ones of both
 * halves split those by y, and so on in turn, down to stretches of at most `leaf`. Cost O(n log n).
 */
export function halvePoints(order: Int32Array, x: Float64Array, y: Float64Array, leaf: number): void {
  halve(order, x, y, 0, order.length, leaf);
}

/** Puts the median of the entries from `low` up to `high` into their middle, those before it on its one side; and so on in both halves, along the other axis. */
function halve(order: Int32Array, by: Float64Array, next: Float64Array, low: number, high: number, leaf: number): void {
  if (high - low <= leaf) return;
  const middle = (low + high) >> 1;
  select(order, by, low, high - 1, middle);
  halve(order, next, by, low, middle, leaf);
  halve(order, next, by, middle + 1, high, leaf);
}

/** Hoare's selection (textbook): the entry that belongs at `k` comes there. Equal entries are swapped as well, so that ties do not slow it. */
function select(order: Int32Array, by: Float64Array, from: number, to: number, k: number): void {
  let low = from;
  let high = to;
  while (low < high) {
    const pivot = middleOfThree(by[order[low]!]!, by[order[(low + high) >> 1]!]!, by[order[high]!]!);
    let i = low;
    let j = high;
    while (i <= j) {
      while (by[order[i]!]! < pivot) i++;
      while (by[order[j]!]! > pivot) j--;
      if (i > j) break;
      const entry = order[i]!;
      order[i++] = order[j]!;
      order[j--] = entry;
    }
    if (k <= j) high = j;
    else if (k >= i) low = i;
    else return;
  }
}

function middleOfThree(a: number, b: number, c: number): number {
  return a < b ? Math.min(b, Math.max(a, c)) : Math.min(a, Math.max(b, c));
}
