import { type SegmentOptions, segmentSpectra } from "./segment-spectra.js";
import { binFrequencies, isPaired, oneSidedFactor } from "./welch-density.js";

/** Power of two signals and what they have in common, one-sided, per Hz. */
export interface CrossDensity {
  /** Frequencies of the bins, Hz. */
  readonly hz: Float64Array;
  /** Density of the first signal and of the second. */
  readonly first: Float64Array;
  readonly second: Float64Array;
  /** Mean of conj(F first) F second: its angle is negative where the second signal comes later. */
  readonly re: Float64Array;
  readonly im: Float64Array;
  /** Segments averaged. */
  readonly segments: number;
}

/**
 * Densities of two equally long signals and their cross density by averaging over windowed segments (Welch 1967, recalled), scaled as in
 * `welchDensity`. The second signal is read `shift` samples later than the first (default 0, negative earlier), over the stretch where both exist.
 * Cost n log(segment).
 */
export function crossDensity(
  first: Float64Array,
  second: Float64Array,
  options: SegmentOptions & { readonly sampleRateHz: number; readonly shift?: number },
): CrossDensity {
  const { sampleRateHz, segment, shift = 0 } = options;
  const spectra = segmentSpectra(first.length - Math.abs(shift), options);
  const { segments, step, bins, transform } = spectra;
  const out = {
    hz: binFrequencies(segment, sampleRateHz),
    first: new Float64Array(bins),
    second: new Float64Array(bins),
    re: new Float64Array(bins),
    im: new Float64Array(bins),
    segments,
  };
  const one = spectra.room();
  const two = spectra.room();
  for (let s = 0; s < segments; s++) {
    const a = transform(first, s * step + Math.max(0, -shift), one);
    const b = transform(second, s * step + Math.max(0, shift), two);
    for (let j = 0; j < bins; j++) {
      const ar = a.re[j]!;
      const ai = a.im[j]!;
      const br = b.re[j]!;
      const bi = b.im[j]!;
      out.first[j]! += ar * ar + ai * ai;
      out.second[j]! += br * br + bi * bi;
      out.re[j]! += ar * br + ai * bi;
      out.im[j]! += ar * bi - ai * br;
    }
  }
  const factor = oneSidedFactor(spectra.weights, sampleRateHz, "density") / Math.max(segments, 1);
  for (const column of [out.first, out.second, out.re, out.im]) {
    for (let j = 0; j < bins; j++) column[j]! *= isPaired(j, segment) ? 2 * factor : factor;
  }
  return out;
}
