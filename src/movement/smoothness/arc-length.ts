import { fourierPlan, powerOfTwoFrom } from "../../math/fourier.js";

/** Settings of the spectral arc length. */
export interface ArcSettings {
  readonly sampleRateHz: number;
  readonly maxHz: number;
  readonly threshold: number;
  readonly padLevel: number;
}

/** Sums for single bins cost their number times the length; beyond this product a whole transform is cheaper (measured on Node 20, its plan included). */
const DIRECT_LIMIT = 1000000;

/**
 * Arc length of the normalised magnitude spectrum of a speed profile, `[start, end)`, negative: over the bins from 0 Hz to the last one at or below `maxHz` that
 * reaches `threshold`. `undefined` where nothing moves. Speed is never negative, so that its spectrum is largest at 0 Hz.
 */
export function arcLength(speed: Float64Array, start: number, end: number, settings: ArcSettings): number | undefined {
  const { sampleRateHz, maxHz, threshold, padLevel } = settings;
  const n = end - start;
  const size = powerOfTwoFrom(n) * 2 ** padLevel;
  const step = sampleRateHz / size;
  const bins = Math.min(Math.floor((maxHz + 1e-9 * step) / step), size / 2) + 1;
  const magnitudes = n * bins > DIRECT_LIMIT ? transformed(speed.subarray(start, end), size, bins) : summed(speed, start, end, size, bins);
  const top = magnitudes[0]!;
  if (!(top > 0)) return undefined;
  let last = bins - 1;
  while (last > 0 && magnitudes[last]! < threshold * top) last--;
  let length = 0;
  for (let k = 1; k <= last; k++) {
    const rise = (magnitudes[k]! - magnitudes[k - 1]!) / top;
    length += Math.sqrt(1 / (last * last) + rise * rise);
  }
  return 0 - length;
}

function transformed(speed: Float64Array, size: number, bins: number): Float64Array {
  const { re, im } = fourierPlan(size)(speed);
  return Float64Array.from({ length: bins }, (_, k) => Math.sqrt(re[k]! * re[k]! + im[k]! * im[k]!));
}

/** The same bins one by one (Goertzel's recurrence). */
function summed(speed: Float64Array, start: number, end: number, size: number, bins: number): Float64Array {
  const magnitudes = new Float64Array(bins);
  for (let k = 0; k < bins; k++) {
    const angle = (2 * Math.PI * k) / size;
    const twice = 2 * Math.cos(angle);
    let one = 0;
    let two = 0;
    for (let i = start; i < end; i++) {
      const next = speed[i]! + twice * one - two;
      two = one;
      one = next;
    }
    magnitudes[k] = Math.sqrt(Math.max(0, one * one + two * two - twice * one * two));
  }
  return magnitudes;
}
