// A quantile sketch: counts of values in bins whose width grows with the values, fixed once and for all, so that sketches of parts add up to that of the
// whole. The bins of DDSketch with linear interpolation between powers of two (Masson, Rim and Lee 2019, recalled): a bin is named by the leading bits
// of the double itself, so that every machine puts a value into the same one.
import { quantile } from "./quantile.js";

/** Equal bins from each power of two to the next: none is wider than this share of the values in it. */
export const BINS_PER_OCTAVE = 128;
/** Smaller values share the bin of 0: 2^-30. */
export const SMALLEST: number = 2 ** -30;
/** Bits of the double's upper half that lie below those that name the bin. */
const UNUSED_BITS = 13;
/** Name of the first bin above `SMALLEST`, less 1, so that names count from 1: (1023 - 30) 128 - 1. */
const NAMES_BEFORE = 127103;

/** Bins in ascending order, each with the number of values in it; bins without values are left out. */
export type Bins = readonly (readonly [bin: number, count: number])[];

/** Ends of what is known of a value. */
export type Bracket = readonly [number, number];

/** A function that names the bin of a number up to 1e140 in size; 0 for numbers about 0, negative for negative ones, ascending with the numbers. */
export function createBinning(): (value: number) => number {
  const view = new DataView(new ArrayBuffer(8));
  return (value) => {
    const size = Math.abs(value);
    if (size < SMALLEST) return 0;
    view.setFloat64(0, size);
    const bin = (view.getUint32(0) >>> UNUSED_BITS) - NAMES_BEFORE;
    return value < 0 ? -bin : bin;
  };
}

/** Lower and upper end of a bin; a value at an end between two bins belongs to that farther from 0. */
export function binEnds(bin: number): Bracket {
  if (bin === 0) return [-SMALLEST, SMALLEST];
  const size = Math.abs(bin) + NAMES_BEFORE;
  const near = sizeOf(size);
  const far = sizeOf(size + 1);
  return bin < 0 ? [-far, -near] : [near, far];
}

/**
 * Quantile `p` of the values counted, rule 7 of Hyndman and Fan as everywhere, and the bracket within which that of the values themselves lies. Values are
 * taken to lie evenly within their bin, and between the least and the largest of all.
 */
export function binnedQuantile(bins: Bins, range: Bracket, p: number): { value: number; within: Bracket } {
  const n = bins.reduce((sum, [, count]) => sum + count, 0);
  const position = (n - 1) * p;
  const index = Math.min(Math.floor(position), n - 1);
  const below = orderedValue(bins, range, index);
  const above = orderedValue(bins, range, Math.min(index + 1, n - 1));
  const between = (a: number, b: number): number => quantile([a, b], position - index) + 0;
  return {
    value: between(below.value, above.value),
    within: [between(below.within[0], above.within[0]), between(below.within[1], above.within[1])],
  };
}

/** What is known of the value with `index` smaller ones. */
export function orderedValue(bins: Bins, [least, largest]: Bracket, index: number): { value: number; within: Bracket } {
  let before = 0;
  let at = 0;
  while (at < bins.length - 1 && before + bins[at]![1] <= index) before += bins[at++]![1];
  const [bin, count] = bins[at]!;
  const [low, high] = binEnds(bin);
  const within = [Math.max(low, least), Math.min(high, largest)] as const;
  const share = (index - before + 0.5) / count;
  return { value: within[0] + (within[1] - within[0]) * share, within };
}

/** The double whose upper half begins with the bits of this name. */
function sizeOf(name: number): number {
  const view = new DataView(new ArrayBuffer(8));
  view.setUint32(0, name << UNUSED_BITS);
  return view.getFloat64(0);
}
