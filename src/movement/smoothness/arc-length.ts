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
 * Arc length of the normalised magnitude spectrum of a speed profile, `[start, end)`, negative: over the bins from the first to the last one at or below `maxHz` that
 * reach `threshold`. `undefined` where nothing moves, and where these are fewer than two. A spectrum of values from 0 up is largest at 0 Hz, which saves its upper bins;
 * where a filter or a sign puts some below 0, all bins are looked at.
 */
export function arcLength(speed: Float64Array, start: number, end: number, settings: ArcSettings): number | undefined {
  const { sampleRateHz, maxHz, threshold, padLevel } = settings;
  const n = end - start;
  const size = powerOfTwoFrom(n) * 2 ** padLevel;
  const step = sampleRateHz / size;
  const bins = Math.min(Math.floor((maxHz + 1e-9 * step) / step), size / 2) + 1;
  const signed = anyBelowZero(speed, start, end);
  const direct = !signed && n * bins <= DIRECT_LIMIT && 4 * bins <= size;
  const magnitudes = direct
    ? summed(speed, start, end, size, bins)
    : transformed(speed.subarray(start, end), size, signed ? size / 2 + 1 : bins);
  const top = signed ? largest(magnitudes) : magnitudes[0]!;
  if (!(top > 0)) return undefined;
  let last = bins - 1;
  while (last > 0 && magnitudes[last]! < threshold * top) last--;
  let first = 0;
  while (first < last && magnitudes[first]! < threshold * top) first++;
  const width = last - first;
  let length = 0;
  for (let k = first + 1; k <= last; k++) {
    const rise = (magnitudes[k]! - magnitudes[k - 1]!) / top;
    length += Math.sqrt(1 / (width * width) + rise * rise);
  }
  return width > 0 && Number.isFinite(length) ? 0 - length : undefined;
}

function anyBelowZero(values: Float64Array, start: number, end: number): boolean {
  for (let i = start; i < end; i++) if (values[i]! < 0) return true;
  return false;
}

function largest(values: Float64Array): number {
  let top = 0;
  for (let k = 0; k < values.length; k++) top = Math.max(top, values[k]!);
  return top;
}

function transformed(speed: Float64Array, size: number, bins: number): Float64Array {
  const { re, im } = fourierPlan(size)(speed);
  return Float64Array.from({ length: bins }, (_, k) => Math.sqrt(re[k]! * re[k]! + im[k]! * im[k]!));
}

/**
 * The same bins two at a time, so that the processor works on one while it waits for the other: Goertzel's recurrence in the form of Reinsch (recalled), which carries
 * the difference of neighbours along. The plain form subtracts almost equal numbers at low frequencies; this one does so past a quarter of the rate.
 */
function summed(speed: Float64Array, start: number, end: number, size: number, bins: number): Float64Array {
  const magnitudes = new Float64Array(bins + 1);
  for (let k = 0; k < bins; k += 2) {
    const turn = -4 * Math.sin((Math.PI * k) / size) ** 2;
    const nextTurn = -4 * Math.sin((Math.PI * (k + 1)) / size) ** 2;
    let value = 0;
    let change = 0;
    let nextValue = 0;
    let nextChange = 0;
    for (let i = start; i < end; i++) {
      const v = speed[i]!;
      change = v + change + turn * value;
      value += change;
      nextChange = v + nextChange + nextTurn * nextValue;
      nextValue += nextChange;
    }
    magnitudes[k] = Math.sqrt(Math.max(0, change * change - turn * value * (value - change)));
    magnitudes[k + 1] = Math.sqrt(Math.max(0, nextChange * nextChange - nextTurn * nextValue * (nextValue - nextChange)));
  }
  return magnitudes;
}
