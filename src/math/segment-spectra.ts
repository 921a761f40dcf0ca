import { emptySpectrum, fourierPlan, type Spectrum } from "./fourier.js";
import { type SpectralWindow, spectralWindow } from "./spectral-window.js";

/** How a signal is cut into segments before spectra are averaged. */
export interface SegmentOptions {
  /** Samples per segment, 1 to the length of the signal. */
  readonly segment: number;
  /** Samples that neighbouring segments share, below `segment`; default half of it, rounded down. */
  readonly overlap?: number;
  /** Default `"hann"`. */
  readonly window?: SpectralWindow;
  /** What is taken off each segment: nothing, its mean, or its least-squares line; default `"constant"`. */
  readonly detrend?: "none" | "constant" | "linear";
}

/** Spectra of one segment after the other, written over each other. */
export interface SegmentSpectra {
  /** Whole segments in `length` samples. */
  readonly segments: number;
  /** Samples from one segment to the next. */
  readonly step: number;
  /** Weights of the window. */
  readonly weights: Float64Array;
  /** Bins of each spectrum. */
  readonly bins: number;
  /** Spectrum of the segment that begins at `start`, in `out`. */
  readonly transform: (signal: Float64Array, start: number, out: Spectrum) => Spectrum;
  readonly room: () => Spectrum;
}

/** Plans the spectra of the segments of signals of `length` samples; what is left over at the end is not used. */
export function segmentSpectra(length: number, options: SegmentOptions): SegmentSpectra {
  const { segment, overlap = Math.floor(segment / 2), window = "hann", detrend = "constant" } = options;
  const step = segment - overlap;
  const weights = spectralWindow(window, segment);
  const plan = fourierPlan(segment);
  const piece = new Float64Array(segment);
  return {
    segments: length < segment ? 0 : Math.floor((length - overlap) / step),
    step,
    weights,
    bins: Math.floor(segment / 2) + 1,
    transform: (signal, start, out) => {
      piece.set(signal.subarray(start, start + segment));
      if (detrend !== "none") removeTrend(piece, detrend === "linear");
      for (let k = 0; k < segment; k++) piece[k]! *= weights[k]!;
      return plan(piece, out);
    },
    room: () => emptySpectrum(segment),
  };
}

/** Takes the mean off, or the least-squares line. */
function removeTrend(values: Float64Array, line: boolean): void {
  const n = values.length;
  const middle = (n - 1) / 2;
  let mean = 0;
  for (let k = 0; k < n; k++) mean += values[k]!;
  mean /= n;
  let slope = 0;
  if (line && n > 1) {
    for (let k = 0; k < n; k++) slope += (k - middle) * (values[k]! - mean);
    // sum of (k - middle)^2
    slope /= (n * (n * n - 1)) / 12;
  }
  for (let k = 0; k < n; k++) values[k]! -= mean + slope * (k - middle);
}
