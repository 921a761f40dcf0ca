/** The local maxima of a series, in order, as equally long columns. */
export interface Peaks {
  /** Index of the maximum; a flat top counts once, at its middle (rounded down). */
  readonly index: number[];
  /** Height above the higher of the two lowest points reached on each side before a higher peak. */
  readonly prominence: number[];
}

/**
 * Local maxima with their prominences over `[start, end)`; the ends are no peaks, and the range ends where the terrain ends.
 * The definition is the topographic one that scipy.signal.find_peaks uses. One pass each way with a stack: O(n).
 */
export function findPeaks(series: Float64Array, start = 0, end: number = series.length): Peaks {
  const index: number[] = [];
  for (let i = start + 1; i < end - 1; i++) {
    if (!(series[i]! > series[i - 1]!)) continue;
    let last = i;
    while (last < end - 1 && series[last + 1]! === series[i]!) last++;
    if (last < end - 1 && series[last + 1]! < series[i]!) index.push((i + last) >> 1);
    i = last;
  }
  const left = basesBefore(series, index, start);
  const right = basesAfter(series, index, end);
  return { index, prominence: index.map((at, k) => series[at]! - Math.max(left[k]!, right[k]!)) };
}

/** For each peak the lowest value between it and the nearest higher peak before it, or the start. */
function basesBefore(series: Float64Array, index: readonly number[], start: number): number[] {
  const stack: { height: number; base: number }[] = [];
  let from = start;
  return index.map((at) => {
    let base = lowest(series, from, at);
    from = at;
    // a peak no higher than this one does not stop the descent: take over its base
    while (stack.length > 0 && stack[stack.length - 1]!.height <= series[at]!) base = Math.min(base, stack.pop()!.base);
    stack.push({ height: series[at]!, base });
    return base;
  });
}

/** For each peak the lowest value between it and the nearest higher peak after it, or the end. */
function basesAfter(series: Float64Array, index: readonly number[], end: number): number[] {
  const stack: { height: number; base: number }[] = [];
  const bases = new Array<number>(index.length);
  let to = end;
  for (let k = index.length - 1; k >= 0; k--) {
    const at = index[k]!;
    let base = lowest(series, at, to);
    to = at + 1;
    while (stack.length > 0 && stack[stack.length - 1]!.height <= series[at]!) base = Math.min(base, stack.pop()!.base);
    stack.push({ height: series[at]!, base });
    bases[k] = base;
  }
  return bases;
}

/** Smallest value over `[start, end)`. */
function lowest(series: Float64Array, start: number, end: number): number {
  let low = Number.POSITIVE_INFINITY;
  for (let i = start; i < end; i++) if (series[i]! < low) low = series[i]!;
  return low;
}
