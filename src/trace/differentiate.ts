import { finiteDifferenceWeights } from "../math/finite-difference-weights.js";
import { requireColumn, requireNumber } from "../math/require.js";
import { centralDifferences } from "./condition/central-differences.js";

/** Options of `differentiate`. */
export interface DifferentiateOptions {
  /** Samples per second of an evenly sampled series, above 0. Give this or `t`. */
  readonly sampleRateHz?: number;
  /** Time of each value, seconds, strictly increasing, for an unevenly sampled series. Give this or `sampleRateHz`. */
  readonly t?: Float64Array;
  /** 1: first derivative. 2: second derivative from three neighbours, which is noisier than the first derivative taken twice. Default 1. */
  readonly order?: 1 | 2;
  /** How exact the two end values are: their error shrinks with this power of the time step. Default 1. 2 uses one sample more and passes on more noise. */
  readonly edgeOrder?: 1 | 2;
}

/**
 * First or second derivative of a series with respect to time, by differences between neighbours; nothing is smoothed.
 *
 * Inside, with steps h1 before and h2 after: first (h1^2 x[i+1] + (h2^2 - h1^2) x[i] - h2^2 x[i-1]) / (h1 h2 (h1 + h2)), second
 * 2 (h1 x[i+1] - (h1 + h2) x[i] + h2 x[i-1]) / (h1 h2 (h1 + h2)); both exact for a parabola. At the two ends the derivative of the polynomial through the nearest
 * `order + edgeOrder` values. White noise of SD s at even steps dt gets SD s / (sqrt(2) dt) in the first and sqrt(6) s / dt^2 in the second derivative. Cost O(n).
 *
 * @param series - values, any unit, at least `order + edgeOrder`
 * @param options - see `DifferentiateOptions`
 * @returns the derivative at the time of every value, unit per s or per s^2
 * @throws TypeError or RangeError when the series is too short or not finite, times do not increase, or an option is outside its range
 * @see first derivative: same results as NumPy's gradient (tested against it)
 * @example
 * ```ts
 * differentiate(Float64Array.of(0, 1, 4, 9), { sampleRateHz: 1 }); // => Float64Array [1, 2, 4, 5]
 * ```
 */
export function differentiate(series: Float64Array, options: DifferentiateOptions): Float64Array {
  const { sampleRateHz, t, order = 1, edgeOrder = 1 } = options;
  requireColumn("differentiate", "series", series);
  if (order !== 1 && order !== 2) throw new RangeError(`differentiate: options.order must be 1 or 2, got ${order}`);
  if (edgeOrder !== 1 && edgeOrder !== 2) throw new RangeError(`differentiate: options.edgeOrder must be 1 or 2, got ${edgeOrder}`);
  const least = order + edgeOrder;
  if (series.length < least) throw new RangeError(`differentiate: series must have at least ${least} entries, got ${series.length}`);
  if ((sampleRateHz === undefined) === (t === undefined)) {
    throw new TypeError(`differentiate: options must have either sampleRateHz or t, got ${t === undefined ? "neither" : "both"}`);
  }
  if (sampleRateHz !== undefined) requireNumber("differentiate", "options.sampleRateHz", sampleRateHz, 0, undefined, true);
  if (t !== undefined) requireIncreasing(t, series.length);
  const result = t === undefined ? evenInside(series, sampleRateHz!, order) : unevenInside(series, t, order);
  const n = series.length;
  result[0] = endValue(series, t, sampleRateHz ?? 1, 0, 0, order, least);
  result[n - 1] = endValue(series, t, sampleRateHz ?? 1, n - least, n - 1, order, least);
  return result;
}

function requireIncreasing(t: Float64Array, length: number): void {
  requireColumn("differentiate", "options.t", t, length);
  for (let i = 1; i < t.length; i++) {
    if (t[i]! > t[i - 1]!) continue;
    throw new RangeError(`differentiate: options.t must increase, got options.t[${i}] = ${t[i]} after ${t[i - 1]}`);
  }
}

function evenInside(series: Float64Array, sampleRateHz: number, order: 1 | 2): Float64Array {
  if (order === 1) return centralDifferences(series, sampleRateHz);
  const n = series.length;
  const result = new Float64Array(n);
  const square = sampleRateHz * sampleRateHz;
  for (let i = 1; i < n - 1; i++) result[i] = (series[i + 1]! - 2 * series[i]! + series[i - 1]!) * square;
  return result;
}

function unevenInside(series: Float64Array, t: Float64Array, order: 1 | 2): Float64Array {
  const n = series.length;
  const result = new Float64Array(n);
  for (let i = 1; i < n - 1; i++) {
    const before = t[i]! - t[i - 1]!;
    const after = t[i + 1]! - t[i]!;
    // slopes on the two sides; their weighted mean and their difference are the two derivatives
    const left = (series[i]! - series[i - 1]!) / before;
    const right = (series[i + 1]! - series[i]!) / after;
    result[i] = order === 1 ? (after * left + before * right) / (before + after) : (2 * (right - left)) / (before + after);
  }
  return result;
}

/** Derivative at sample `at` of the polynomial through `count` values from sample `from` on. */
function endValue(
  series: Float64Array,
  t: Float64Array | undefined,
  sampleRateHz: number,
  from: number,
  at: number,
  order: 1 | 2,
  count: number,
): number {
  // times relative to the sample itself, so that large ones lose nothing
  const nodes = Float64Array.from({ length: count }, (_, i) => (t === undefined ? from + i - at : t[from + i]! - t[at]!));
  const weights = finiteDifferenceWeights(nodes, 0, order);
  let sum = 0;
  for (let i = 0; i < count; i++) sum += weights[i]! * (series[from + i]! - series[at]!);
  return t === undefined ? sum * sampleRateHz ** order : sum;
}
