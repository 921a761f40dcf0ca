/** The local maxima of a series, in order, as equally long columns. */
export interface Peaks {
  /** Index of the maximum; a flat top counts once, at its middle (rounded down). */
  readonly index: number[];
  /** Height above the higher of the two lowest points reached on each side before a higher peak. */
  readonly prominence: number[];
}

/**
 * Local maxima with their prominences over `[start, end)`; the ends are no peaks, and the range ends where the terrain ends.
 * The definition is the topographic one that scipy.signal.find_peaks uses. One pass over the samples, two over the peaks: O(n).
 */
export function findPeaks(series: Float64Array, start = 0, end: number = series.length): Peaks {
  const index: number[] = [];
  // the lowest values before the first peak, between neighbours, and after the last
  const valleys: number[] = [];
  let low = end > start ? series[start]! : 0;
  for (let i = start + 1; i < end; i++) {
    const height = series[i]!;
    if (height < low) low = height;
    if (!(height > series[i - 1]!)) continue;
    let last = i;
    while (last < end - 1 && series[last + 1]! === height) last++;
    if (last < end - 1 && series[last + 1]! < height) {
      index.push((i + last) >> 1);
      valleys.push(low);
      low = height;
    }
    i = last;
  }
  valleys.push(low);
  const heights = index.map((at) => series[at]!);
  const before = basesBefore(heights, valleys);
  // the same seen from the other side
  const after = basesBefore(heights.slice().reverse(), valleys.slice().reverse()).reverse();
  return { index, prominence: heights.map((height, k) => height - Math.max(before[k]!, after[k]!)) };
}

/** For each peak the lowest value between it and the nearest higher peak before it, or the start; `valleys[k]` is the lowest just before peak `k`. */
function basesBefore(heights: readonly number[], valleys: readonly number[]): number[] {
  const bases: number[] = [];
  // peaks that nothing higher has followed yet, the nearest last
  const open: number[] = [];
  for (let k = 0; k < heights.length; k++) {
    let base = valleys[k]!;
    // a peak no higher than this one does not stop the descent: take over its base
    while (open.length > 0 && heights[open[open.length - 1]!]! <= heights[k]!) base = Math.min(base, bases[open.pop()!]!);
    open.push(k);
    bases.push(base);
  }
  return bases;
}
