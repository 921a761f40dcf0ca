import type { Trace } from "../types.js";

/** The even grid being filled: point `o` of `x` and `y` lies at `start + (first + o) / sampleRateHz`. */
export interface Grid {
  readonly start: number;
  readonly sampleRateHz: number;
  readonly first: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/**
 * Fills the grid points `begin`..`end` (exclusive) with straight lines from sample `from` on, which must not lie after them, up to sample `to`.
 * Of samples at one time the last counts. Returns the sample from which the next points are to be filled.
 */
export function fillLinear(trace: Trace, from: number, to: number, grid: Grid, begin: number, end: number): number {
  const { t, x, y } = trace;
  const { start, first } = grid;
  const outX = grid.x;
  const outY = grid.y;
  const step = 1 / grid.sampleRateHz;
  let i = lastAt(t, from, to);
  let left = t[i]! - start;
  let leftX = x[i]!;
  let leftY = y[i]!;
  let o = begin;
  // the first point may lie before the first sample by the rounding of their times; it is not extrapolated
  let at = Math.max(left, (first + o) * step);
  for (let next = i + 1; next <= to && o < end; next++) {
    const right = t[next]! - start;
    const rightX = x[next]!;
    const rightY = y[next]!;
    if (at < right) {
      if (next < to && t[next + 1] === t[next]) continue;
      const inverse = 1 / (right - left);
      const slopeX = (rightX - leftX) * inverse;
      const slopeY = (rightY - leftY) * inverse;
      do {
        outX[o] = leftX + slopeX * (at - left);
        outY[o] = leftY + slopeY * (at - left);
        o++;
        at = (first + o) * step;
      } while (at < right && o < end);
      if (o === end) return i;
    }
    left = right;
    leftX = rightX;
    leftY = rightY;
    i = next;
  }
  // points at the last sample, or after it by the rounding of their times
  for (; o < end; o++) {
    outX[o] = leftX;
    outY[o] = leftY;
  }
  return i;
}

/** The last sample with the time of sample `i`, not beyond `to`. */
export function lastAt(t: Float64Array, i: number, to: number): number {
  let last = i;
  while (last < to && t[last + 1] === t[last]) last++;
  return last;
}
