import type { Estimate } from "../math/estimate.js";
import { requireColumn, requireNumber, requireObject, requireOneOf } from "../math/require.js";
import { type JerkForm, logJerk } from "./smoothness/log-jerk.js";

export type { JerkForm } from "./smoothness/log-jerk.js";

/** Options of `logDimensionlessJerk`. */
export interface LogDimensionlessJerkOptions {
  /** Samples per second of the velocities, above 0. */
  readonly sampleRateHz: number;
  /** What makes the jerk dimensionless, default `"velocity"`: T^3 / peak speed^2, `"acceleration"`: T / peak acceleration^2, `"amplitude"`: T^5 / displacement^2. */
  readonly form?: JerkForm;
}

/** A second difference needs three. */
const LEAST_SAMPLES = 3;

/**
 * Log dimensionless jerk of a movement: -ln(T^3 / v_peak^2 * integral of |jerk|^2 dt), jerk as the vector of second differences of the velocity components. More negative is
 * less smooth; a minimum-jerk movement has -5.32 (acceleration form -3.07, amplitude form -6.58). It falls with noise (that of jerk grows with the sixth power of the
 * sampling rate) and with rest before and after: give it filtered velocities of one movement, onset to end. Cost O(n).
 *
 * @param velocity - components on one even grid, unit per second; columns of equal length
 * @param options - see `LogDimensionlessJerkOptions`
 * @returns an estimate without interval, `n` samples; `noSpread` when nothing moved or nothing jerked, `tooFew` below 3 samples
 * @throws TypeError or RangeError if the columns differ in length or hold anything but finite numbers, or an option is out of range
 * @see Balasubramanian et al. 2015, J NeuroEng Rehabil 12:112 (abstract and table 3 read); forms of the measure: PMC9930366, table 3 (read)
 * @example
 * ```ts
 * const x = Float64Array.from({ length: 301 }, (_, i) => (i / 300) ** 2 * (1 - i / 300) ** 2);
 * const smooth = logDimensionlessJerk({ x, y: new Float64Array(301) }, { sampleRateHz: 1000 });
 * smooth.ok && smooth.value.toFixed(2); // => "-5.32"
 * ```
 */
export function logDimensionlessJerk(
  velocity: { readonly x: Float64Array; readonly y: Float64Array },
  options: LogDimensionlessJerkOptions,
): Estimate {
  const where = "logDimensionlessJerk";
  requireObject(where, "velocity", velocity);
  requireObject(where, "options", options);
  const { x, y } = velocity;
  requireColumn(where, "velocity.x", x);
  requireColumn(where, "velocity.y", y, x.length);
  const { sampleRateHz, form = "velocity" } = options;
  requireNumber(where, "options.sampleRateHz", sampleRateHz, 0, undefined, true);
  requireOneOf(where, "options.form", form, ["velocity", "acceleration", "amplitude"]);
  const n = x.length;
  if (n < LEAST_SAMPLES) return { ok: false, why: "tooFew", unit: "1", n };
  const value = logJerk(x, y, 0, n, sampleRateHz, form);
  return value === undefined ? { ok: false, why: "noSpread", unit: "1", n } : { ok: true, value, unit: "1", n };
}
