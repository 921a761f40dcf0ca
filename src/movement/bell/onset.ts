import { crossing } from "./bouts.js";

/** Band of speed, in shares of the peak, through which the beginning is extrapolated. */
export const RISE = [0.05, 0.3] as const;
/** The same for the end, where braking is longer. */
export const FALL = [0.05, 0.4] as const;

/** Where a line through the square root of speed reaches zero, and the plain threshold crossing beside it; both in samples. */
export interface Edge {
  /** Crossing of `low` times the peak, interpolated. */
  readonly crossing: number;
  /**
   * Zero of the fitted line, no farther beyond `crossing` than the band is wide: by the square law it is 0.69 of that (0.55 at the end), and a line that says more has met
   * something else than one stroke. Equals `crossing` when fewer than two samples lie in the band.
   */
  readonly extrapolated: number;
}

/**
 * The beginning of the rise to the peak at sample `peak`, looking back no further than `limit`.
 * Threshold crossings come late by an amount that grows with movement time; the extrapolated line takes most of that away.
 * The band `[low, high]` is in shares of the peak (Botzer and Karniel 2009 for the cubic start of position, recalled).
 */
export function riseBefore(speed: Float64Array, peak: number, limit: number, low: number, high: number): Edge {
  const level = low * speed[peak]!;
  let i = peak;
  while (i > limit && speed[i - 1]! >= level) i--;
  const at = i > limit ? crossing(speed, i - 1, level) : i;
  const top = high * speed[peak]!;
  let j = i;
  while (j < peak && speed[j]! < top) j++;
  const width = (j > i ? crossing(speed, j - 1, top) : j) - at;
  return { crossing: at, extrapolated: Math.max(zeroOfRoot(speed, i, peak, level, top) ?? at, at - width) };
}

/** The end of the fall from the peak at sample `peak`, looking on no further than `limit` (exclusive). Mirror image of `riseBefore`. */
export function fallAfter(speed: Float64Array, peak: number, limit: number, low: number, high: number): Edge {
  const level = low * speed[peak]!;
  let i = peak;
  while (i + 1 < limit && speed[i + 1]! >= level) i++;
  const at = i + 1 < limit ? crossing(speed, i, level) : i;
  const top = high * speed[peak]!;
  let j = i;
  while (j > peak && speed[j]! < top) j--;
  const width = at - (j < i ? crossing(speed, j, top) : j);
  return { crossing: at, extrapolated: Math.min(zeroOfRoot(speed, peak + 1, i + 1, level, top) ?? at, at + width) };
}

/** Zero of the least-squares line through the root of the samples of `[start, end)` that lie within `[low, high]`. */
function zeroOfRoot(speed: Float64Array, start: number, end: number, low: number, high: number): number | undefined {
  let n = 0;
  let sumI = 0;
  let sumR = 0;
  let sumII = 0;
  let sumIR = 0;
  for (let i = start; i < end; i++) {
    const v = speed[i]!;
    if (v < low || v > high) continue;
    const r = Math.sqrt(v);
    // counted from `start`, so that the sums stay small
    const k = i - start;
    n++;
    sumI += k;
    sumR += r;
    sumII += k * k;
    sumIR += k * r;
  }
  const spread = n * sumII - sumI * sumI;
  const slope = spread > 0 ? (n * sumIR - sumI * sumR) / spread : 0;
  return slope === 0 ? undefined : start + (sumI - sumR / slope) / n;
}
