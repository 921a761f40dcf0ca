import { binFrequencies } from "../../math/welch-density.js";
import { welchDensity } from "../../math/welch-density.js";
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

/** Welch's density with windows of `size` samples that overlap by half, each less its line, over all pieces together. */
export function pooledSpectrum(pieces: readonly StillPiece[], size: number, sampleRateHz: number): PooledSpectrum {
  const parts = pieces.flatMap(({ x, y }) => windowsOf(x, y, size, sampleRateHz));
  const hz = binFrequencies(size, sampleRateHz);
  const windows = parts.length;
  const groups = Math.min(MOST_GROUPS, windows);
  const sums = Array.from({ length: groups }, () => new Float64Array(hz.length));
  const counts = new Array<number>(groups).fill(0);
  const total = new Float64Array(hz.length);
  for (const [k, part] of parts.entries()) {
    const group = Math.floor((k * groups) / windows);
    counts[group]!++;
    for (let j = 0; j < hz.length; j++) {
      sums[group]![j]! += part[j]!;
      total[j]! += part[j]!;
    }
  }
  return {
    hz,
    density: total.map((value) => value / windows),
    without: sums.map((sum, g) => total.map((value, j) => (value - sum[j]!) / (windows - counts[g]!))),
    windows,
  };
}

/** One density per half-overlapping window, both axes added. */
function windowsOf(x: Float64Array, y: Float64Array, size: number, sampleRateHz: number): Float64Array[] {
  const options = { sampleRateHz, segment: size, detrend: "linear" } as const;
  const step = size - Math.floor(size / 2);
  const found: Float64Array[] = [];
  for (let start = 0; start + size <= x.length; start += step) {
    const one = welchDensity(x.subarray(start, start + size), options).density;
    const other = welchDensity(y.subarray(start, start + size), options).density;
    found.push(one.map((value, j) => value + other[j]!));
  }
  return found;
}
