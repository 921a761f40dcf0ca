const NO_RANKS: Float64Array = new Float64Array(0);

/**
 * Sorts `order` (indices) by their keys, ascending, equal keys left as they stand, and counts the pairs that had to change places: those of
 * which the one with the greater key stood first. The pairs are numbered as they are met; those whose numbers stand in `ranks` (ascending,
 * repeats allowed) are handed to `take`, the one that stood first before the other. Merge sort (textbook), O(n log n + ranks).
 */
export function mergeOrder(
  order: Int32Array,
  key: Float64Array,
  ranks: Float64Array = NO_RANKS,
  take: (first: number, second: number) => void = ignore,
): number {
  const n = order.length;
  const merged = new Int32Array(n);
  let pairs = 0;
  let next = 0;
  for (let width = 1; width < n; width *= 2) {
    for (let low = 0; low < n; low += 2 * width) {
      const middle = Math.min(low + width, n);
      const high = Math.min(middle + width, n);
      let left = low;
      let right = middle;
      for (let out = low; out < high; out++) {
        if (right >= high || (left < middle && key[order[left]!]! <= key[order[right]!]!)) {
          merged[out] = order[left++]!;
          continue;
        }
        // everything left of the middle that still waits has a greater key than this one
        const waiting = middle - left;
        for (; next < ranks.length && ranks[next]! < pairs + waiting; next++) take(order[left + ranks[next]! - pairs]!, order[right]!);
        pairs += waiting;
        merged[out] = order[right++]!;
      }
    }
    order.set(merged);
  }
  return pairs;
}

function ignore(): void {}
