import { type SegmentOptions, segmentSpectra } from "./segment-spectra.js";

/** Options of `welchDensity`. */
export interface WelchDensityOptions extends SegmentOptions {
  readonly sampleRateHz: number;
  /** `"density"`, the default: power per Hz, whose sum times the spacing of the bins is the variance. `"spectrum"`: power of a sinusoid that falls on a bin. */
  readonly scaling?: "density" | "spectrum";
}

/** A one-sided power spectrum. */
export interface WelchDensity {
  /** Frequencies of the bins, 0 to half the sampling rate, Hz. */
  readonly hz: Float64Array;
  /** Squared unit of the signal per Hz (`"density"`), or squared unit (`"spectrum"`). */
  readonly density: Float64Array;
  /** Segments averaged; none when the signal is shorter than one, with a density of 0 throughout. */
  readonly segments: number;
}

/**
 * One-sided power spectrum of an evenly sampled signal by averaging the spectra of overlapping, windowed segments (Welch 1967, recalled):
 * mean of |F|^2 / (sampleRateHz sum w^2), doubled except at 0 Hz and at half the sampling rate. A single segment as long as the signal with a boxcar is
 * the periodogram. Cost n log(segment).
 */
export function welchDensity(signal: Float64Array, options: WelchDensityOptions): WelchDensity {
  const { sampleRateHz, segment, scaling = "density" } = options;
  const { segments, step, weights, bins, transform, room } = segmentSpectra(signal.length, options);
  const density = new Float64Array(bins);
  const spectrum = room();
  for (let s = 0; s < segments; s++) {
    const { re, im } = transform(signal, s * step, spectrum);
    for (let j = 0; j < bins; j++) density[j]! += re[j]! * re[j]! + im[j]! * im[j]!;
  }
  const factor = oneSidedFactor(weights, sampleRateHz, scaling) / Math.max(segments, 1);
  for (let j = 0; j < bins; j++) density[j]! *= isPaired(j, segment) ? 2 * factor : factor;
  return { hz: binFrequencies(segment, sampleRateHz), density, segments };
}

/** Frequencies of the bins of a transform of `size` samples, Hz. */
export function binFrequencies(size: number, sampleRateHz: number): Float64Array {
  return Float64Array.from({ length: Math.floor(size / 2) + 1 }, (_, j) => (j * sampleRateHz) / size);
}

/** Whether a bin also stands for its negative frequency. */
export function isPaired(bin: number, size: number): boolean {
  return bin > 0 && 2 * bin < size;
}

/** What squared magnitudes are multiplied by. */
export function oneSidedFactor(weights: Float64Array, sampleRateHz: number, scaling: "density" | "spectrum"): number {
  let sum = 0;
  let squares = 0;
  for (const w of weights) {
    sum += w;
    squares += w * w;
  }
  return scaling === "density" ? 1 / (sampleRateHz * squares) : 1 / (sum * sum);
}
