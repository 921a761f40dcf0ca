import { requireColumn, requireInteger, requireNumber, requireOneOf } from "../math/require.js";
import { butterworthSections, DEFAULT_CUTOFF, filterBothWays, MEMORY_PERIODS, warpedCutoff } from "./condition/butterworth.js";

const HIGHEST_ORDER = 10;

/** Options of `lowpass`. */
export interface LowpassOptions {
  /** Samples per second, above 0. */
  readonly sampleRateHz: number;
  /** Frequency at which the signal is 3 dB down, Hz, above 0 and below half the sampling rate. Default 20. Raised, more noise passes; lowered, fast movements flatten. */
  readonly cutoffHz?: number;
  /** Order of each of the two passes, 1 to 10. Default 2. Raised, a sharper cutoff that rings more. */
  readonly order?: number;
  /** Whether `cutoffHz` is meant for both passes together. Default true; false makes each pass 3 dB down there, as plain forward-backward routines do. */
  readonly correctForPasses?: boolean;
  /** How the ends are extended: `"odd"` turns the series about its end sample and goes on with its trend, `"even"` mirrors, `"constant"` repeats the end sample. Default `"odd"`. */
  readonly padding?: "odd" | "even" | "constant" | "none";
  /** Samples of extension at each end, 0 or more. Default 3 / cutoff seconds. Never more than the series allows (its length less 1). */
  readonly padLength?: number;
}

/**
 * Smooths an evenly sampled series without moving it in time: a Butterworth low-pass run forward and then backward.
 *
 * Power gain of both passes: 1 / (1 + (tan(pi f/fs) / w)^(2 order))^2, with w = tan(pi fc/fs) / (sqrt(2) - 1)^(1/(2 order)) so that it is 1/2 at the
 * cutoff fc. A constant passes unchanged; with `"odd"` padding a straight line longer than the padding does, too. Values within about
 * 1 / cutoff seconds of the ends depend on the padding. Cost O(n).
 *
 * @param series - evenly spaced values, any unit
 * @param options - see `LowpassOptions`
 * @returns the smoothed series, as long as `series`
 * @throws TypeError or RangeError when the series is no column of finite numbers or an option is outside its range
 * @see same results as SciPy's butter and filtfilt with the same padding (tested against them)
 * @example
 * ```ts
 * const tremor = Float64Array.from({ length: 500 }, (_, i) => Math.cos((2 * Math.PI * 20 * i) / 500));
 * const amplitude = Math.max(...lowpass(tremor, { sampleRateHz: 500, cutoffHz: 20 }).subarray(100, 400));
 * Math.round(amplitude * 1000); // => 707
 * ```
 */
export function lowpass(series: Float64Array, options: LowpassOptions): Float64Array {
  const { sampleRateHz, cutoffHz = DEFAULT_CUTOFF, order = 2, correctForPasses = true, padding = "odd" } = options;
  requireColumn("lowpass", "series", series);
  requireNumber("lowpass", "options.sampleRateHz", sampleRateHz, 0, undefined, true);
  requireNumber("lowpass", "options.cutoffHz", cutoffHz, 0, undefined, true);
  if (cutoffHz >= sampleRateHz / 2) {
    throw new RangeError(`lowpass: options.cutoffHz must be below half the sampling rate (${sampleRateHz / 2}), got ${cutoffHz}`);
  }
  requireInteger("lowpass", "options.order", order, 1, HIGHEST_ORDER);
  requireOneOf("lowpass", "options.padding", padding, ["odd", "even", "constant", "none"]);
  const { padLength = Math.ceil((MEMORY_PERIODS * sampleRateHz) / cutoffHz) } = options;
  requireInteger("lowpass", "options.padLength", padLength, 0);
  const n = series.length;
  const pad = padding === "none" ? 0 : Math.max(0, Math.min(padLength, n - 1));
  const extended = extend(series, pad, padding);
  filterBothWays(extended, butterworthSections(order, warpedCutoff(cutoffHz, sampleRateHz, order, correctForPasses ? 2 : 1)));
  return extended.slice(pad, pad + n);
}

/** The series with `pad` values before and after it. */
function extend(series: Float64Array, pad: number, padding: "odd" | "even" | "constant" | "none"): Float64Array {
  const n = series.length;
  const extended = new Float64Array(n + 2 * pad);
  extended.set(series, pad);
  const first = series[0]!;
  const last = series[n - 1]!;
  for (let i = 1; i <= pad; i++) {
    const before = padding === "constant" ? first : series[i]!;
    const after = padding === "constant" ? last : series[n - 1 - i]!;
    extended[pad - i] = padding === "odd" ? 2 * first - before : before;
    extended[pad + n - 1 + i] = padding === "odd" ? 2 * last - after : after;
  }
  return extended;
}
