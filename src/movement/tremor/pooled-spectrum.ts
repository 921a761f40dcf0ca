import { segmentSpectra } from "../../math/segment-spectra.js";
import { binFrequencies, isPaired, oneSidedFactor } from "../../math/welch-density.js";
import type { StillPiece } from "./still-pieces.js";

/** Most groups of windows that are left out in turn to see how sure a figure is. */
const MOST_GROUPS = 20;

/** Densities of many holds in the same bins. */
export interface PooledSpectrum {
  readonly hz: Float64Array;
  /** Mean over all windows, x and y together, squared unit per Hz. */
  readonly density: Float64Array;
  /** The same without one group of neighbouring windows each. */
  readonly without: readonly Float64Array[];
  readonly windows: number;
}

/** Welch's density from Hann windows of `size` samples that overlap by half, each less its line, over all pieces together. */
export function pooledSpectrum(pieces: readonly StillPiece[], size: number, sampleRateHz: number): PooledSpectrum {
  const { step, weights, bins, transform, room } = segmentSpectra(size, { segment: size, detrend: "linear" });
  const spectrum = room();
  const places = pieces.flatMap(({ x, y }) => {
    const count = x.length < size ? 0 : Math.floor((x.length - size) / step) + 1;
    return Array.from({ length: count }, (_, k) => ({ x, y, start: k * step }));
  });
  const windows = places.length;
  const groups = Math.min(MOST_GROUPS, windows);
  const sums = Array.from({ length: groups }, () => new Float64Array(bins));
  const counts = new Array<number>(groups).fill(0);
  const total = new Float64Array(bins);
  for (const [k, { x, y, start }] of places.entries()) {
    const group = Math.floor((k * groups) / windows);
    counts[group]!++;
    for (const axis of [x, y]) {
      const { re, im } = transform(axis, start, spectrum);
      for (let j = 0; j < bins; j++) {
        const power = re[j]! * re[j]! + im[j]! * im[j]!;
        sums[group]![j]! += power;
        total[j]! += power;
      }
    }
  }
  const factor = oneSidedFactor(weights, sampleRateHz, "density");
  const scale = (sum: Float64Array, n: number): Float64Array =>
    sum.map((value, j) => (value * factor * (isPaired(j, size) ? 2 : 1)) / Math.max(n, 1));
  return {
    hz: binFrequencies(size, sampleRateHz),
    density: scale(total, windows),
    without: sums.map((sum, g) => {
      const rest = total.map((value, j) => value - sum[j]!);
      return scale(rest, windows - counts[g]!);
    }),
    windows,
  };
}
