import type { Estimate } from "../math/estimate.js";
import { requireColumn, requireInteger, requireNumber, requireObject } from "../math/require.js";
import { arcLength } from "./smoothness/arc-length.js";

/** Options of `spectralArcLength`. */
export interface SpectralArcLengthOptions {
  /** Samples per second of the speed, above 0. */
  readonly sampleRateHz: number;
  /** Highest frequency that counts, Hz, above 0, default 20. The literature's 10 cuts movements under 0.2 s short; raised, noise counts. */
  readonly maxHz?: number;
  /** The spectrum ends where it last reaches this share of its top, above 0 and at most 1, default 0.05. Lowered, noise counts. */
  readonly threshold?: number;
  /** The spectrum is drawn with 2^padLevel times as many points, a whole number from 0 to 10, default 4. Raised, it costs more and changes little. */
  readonly padLevel?: number;
}

/** A spectrum of fewer samples is a straight line. */
const LEAST_SAMPLES = 4;

/**
 * Spectral arc length of a speed profile: how smooth a movement was, without looking at derivatives. Minus the length of the curve that the magnitude spectrum V of the
 * speed (largest value 1) draws over frequency, with the band used scaled to 1: -sum sqrt((df / f_c)^2 + dV^2), from 0 Hz to f_c, the last frequency up to
 * `maxHz` at which V reaches `threshold`. Dimensionless; one minimum-jerk movement gives about -1.41; more negative is less smooth.
 * Free of size and pace; hardly moved by noise or by rest before and after; lowered by rests between parts. Cost O(n log n).
 *
 * @param speed - speeds on an even grid, unit per second; at least 4. What a filter leaves below 0 is taken as it is; of a signed component, which is no
 *   speed, the band begins where V first reaches `threshold`
 * @param options - see `SpectralArcLengthOptions`
 * @returns an estimate without interval, `n` samples; `noSpread` when nothing moved, `tooFew` below 4 samples, `belowResolution` where fewer
 *   than two frequencies count (`maxHz` near the step of the spectrum)
 * @throws TypeError or RangeError if `speed` holds anything but finite numbers, or an option is out of range
 * @see Balasubramanian, Melendez-Calderon, Roby-Brami and Burdet 2015, J NeuroEng Rehabil 12:112 (abstract and table 3 read; steps as in its first author's public script, read)
 * @example
 * ```ts
 * const bell = Float64Array.from({ length: 76 }, (_, i) => (i / 75) ** 2 * (1 - i / 75) ** 2);
 * const smooth = spectralArcLength(bell, { sampleRateHz: 250 });
 * smooth.ok && smooth.value.toFixed(2); // => "-1.40"
 * ```
 */
export function spectralArcLength(speed: Float64Array, options: SpectralArcLengthOptions): Estimate {
  const where = "spectralArcLength";
  requireColumn(where, "speed", speed);
  requireObject(where, "options", options);
  const { sampleRateHz, maxHz = 20, threshold = 0.05, padLevel = 4 } = options;
  requireNumber(where, "options.sampleRateHz", sampleRateHz, 0, undefined, true);
  requireNumber(where, "options.maxHz", maxHz, 0, undefined, true);
  requireNumber(where, "options.threshold", threshold, 0, 1, true);
  requireInteger(where, "options.padLevel", padLevel, 0, 10);
  const n = speed.length;
  let moves = false;
  for (let i = 0; i < n; i++) moves ||= speed[i] !== 0;
  if (n < LEAST_SAMPLES) return { ok: false, why: "tooFew", unit: "1", n };
  const value = arcLength(speed, 0, n, { sampleRateHz, maxHz, threshold, padLevel });
  if (value !== undefined) return { ok: true, value, unit: "1", n };
  return { ok: false, why: moves ? "belowResolution" : "noSpread", unit: "1", n };
}
