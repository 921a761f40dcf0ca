/** Weights that let a segment fade in and out before its spectrum is taken; `boxcar` leaves it as it is. */
export type SpectralWindow = "hann" | "hamming" | "blackman" | "boxcar";

/** Cosine series of each window, lowest term first (textbook values). */
const TERMS: Readonly<Record<SpectralWindow, readonly number[]>> = {
  boxcar: [1],
  hann: [0.5, -0.5],
  hamming: [0.54, -0.46],
  blackman: [0.42, -0.5, 0.08],
};

/** Weights of a periodic window of `size` samples: its next sample would be the first again, as spectra need it. */
export function spectralWindow(kind: SpectralWindow, size: number): Float64Array {
  const terms = TERMS[kind];
  return Float64Array.from({ length: size }, (_, k) => terms.reduce((sum, a, j) => sum + a * Math.cos((2 * Math.PI * j * k) / size), 0));
}
