import { requireColumn, requireInteger, requireNumber, requireOneOf } from "../math/require.js";
import { savitzkyGolayWeights } from "./condition/savitzky-golay-weights.js";

/** Seconds: a third of the fastest aimed movements, so that a cubic follows their shape. */
const DEFAULT_WINDOW = 0.05;
/** Beyond this a polynomial follows the noise. */
const HIGHEST_DEGREE = 12;

/** Options of `savitzkyGolay`. */
export interface SavitzkyGolayOptions {
  /** Values in each fit, odd, above `degree`. Default: 50 ms at `sampleRateHz`, at least `degree` + 2. Raised, smoother and flatter. */
  readonly window?: number;
  /** Degree of the fitted polynomial, 0 to 12. Default 3, for speed; 5 suits jerk. Raised, sharper features and more noise pass. */
  readonly degree?: number;
  /** Order of the derivative, 0 (smoothed values) to `degree`. Default 0. */
  readonly derivative?: number;
  /** Samples per second, above 0. Default 1: derivatives are per sample. */
  readonly sampleRateHz?: number;
  /**
   * What lies beyond the ends. `"polynomial"` (default): nothing, the end values come from the fit to the first or last full window. `"mirror"`: the series in reverse, end
   * sample not repeated. `"nearest"`: the end sample again. `"constant"`: zeros. `"wrap"`: the other end.
   */
  readonly edges?: "polynomial" | "mirror" | "nearest" | "constant" | "wrap";
}

/**
 * Smooths or differentiates an evenly sampled series by fitting a polynomial to the values around each one (Savitzky and Golay).
 *
 * Each result is the fitted polynomial's value, or its derivative, at the middle of its window: a fixed weighted sum of the window's values. A polynomial up to
 * `degree` passes unchanged and its derivatives are exact. Cost O(n window).
 *
 * @param series - evenly spaced values, any unit; at least `window` of them when `edges` is `"polynomial"`
 * @param options - see `SavitzkyGolayOptions`
 * @returns the smoothed series or its derivative, unit per s^derivative, as long as `series`
 * @throws TypeError or RangeError when the series is too short or not finite, or an option is outside its range
 * @see same results as SciPy's savgol_filter, whose mode "interp" is `"polynomial"` (tested against it)
 * @example
 * ```ts
 * const cubes = Float64Array.from({ length: 9 }, (_, i) => i ** 3);
 * Math.round(savitzkyGolay(cubes, { window: 5, derivative: 1 })[4]!); // => 48
 * ```
 */
export function savitzkyGolay(series: Float64Array, options: SavitzkyGolayOptions = {}): Float64Array {
  const { degree = 3, derivative = 0, sampleRateHz = 1, edges = "polynomial" } = options;
  requireColumn("savitzkyGolay", "series", series);
  requireInteger("savitzkyGolay", "options.degree", degree, 0, HIGHEST_DEGREE);
  requireInteger("savitzkyGolay", "options.derivative", derivative, 0, degree);
  requireNumber("savitzkyGolay", "options.sampleRateHz", sampleRateHz, 0, undefined, true);
  requireOneOf("savitzkyGolay", "options.edges", edges, ["polynomial", "mirror", "nearest", "constant", "wrap"]);
  const { window = Math.max(2 * Math.floor((DEFAULT_WINDOW * sampleRateHz) / 2) + 1, degree + 2 + ((degree + 1) % 2)) } = options;
  requireInteger("savitzkyGolay", "options.window", window, degree + 1);
  if (window % 2 === 0) throw new RangeError(`savitzkyGolay: options.window must be odd, got ${window}`);
  const n = series.length;
  if (edges === "polynomial" && n < window) {
    throw new RangeError(`savitzkyGolay: series must have at least ${window} entries (options.window), got ${n}`);
  }
  const half = (window - 1) / 2;
  const scale = sampleRateHz ** derivative;
  const weights = savitzkyGolayWeights(window, degree, derivative, 0).map((weight) => weight * scale);
  const result = new Float64Array(n);
  for (let i = half; i < n - half; i++) {
    let sum = 0;
    for (let j = 0, at = i - half; j < window; j++, at++) sum += weights[j]! * series[at]!;
    result[i] = sum;
  }
  for (let i = 0; i < n; i++) {
    if (i >= half && i < n - half) continue;
    result[i] = edges === "polynomial" ? atEdge(series, i, window, degree, derivative) * scale : beyond(series, i, weights, edges);
  }
  return result;
}

/** Result `i` from the polynomial fitted to the first or last full window. */
function atEdge(series: Float64Array, i: number, window: number, degree: number, derivative: number): number {
  const half = (window - 1) / 2;
  const from = i < half ? 0 : series.length - window;
  const weights = savitzkyGolayWeights(window, degree, derivative, i - from - half);
  let sum = 0;
  for (let j = 0; j < window; j++) sum += weights[j]! * series[from + j]!;
  return sum;
}

/** Result `i` from a window that reaches beyond the series. */
function beyond(series: Float64Array, i: number, weights: Float64Array, edges: "mirror" | "nearest" | "constant" | "wrap"): number {
  const n = series.length;
  const half = (weights.length - 1) / 2;
  let sum = 0;
  for (let j = 0; j < weights.length; j++) {
    let at = i - half + j;
    if (at < 0 || at >= n) {
      if (edges === "constant") continue;
      if (edges === "nearest") at = at < 0 ? 0 : n - 1;
      else if (edges === "wrap") at = ((at % n) + n) % n;
      else at = mirrored(at, n);
    }
    sum += weights[j]! * series[at]!;
  }
  return sum;
}

/** Index within 0..n-1 when the series goes to and fro without repeating its end samples. */
function mirrored(at: number, n: number): number {
  const period = Math.max(1, 2 * (n - 1));
  const within = ((at % period) + period) % period;
  return within < n ? within : period - within;
}
