import { normalQuantile } from "../math/normal-quantile.js";
import { proportionEstimate } from "../math/proportion-estimate.js";
import { requireInteger, requireLevel, requireNumber } from "../math/require.js";

/** Options of `effectiveWidthFromErrorRate`. */
export interface EffectiveWidthFromErrorRateOptions {
  /** Trials that the error rate comes from, a whole number of at least 1; absent means unknown, and then there is no interval. More make the interval narrower. */
  readonly trials?: number;
  /** Confidence level of the interval, above 0 and below 1, default 0.95. Higher makes it wider. */
  readonly level?: number;
}

/** An effective width that rests on an error rate. */
export interface EffectiveWidthFromErrorRate {
  /** The width, in the unit of the nominal one. */
  readonly value: number;
  /** Whether there were too few errors to tell a width: `value` is then the convention's floor, 0.5089 of the nominal width. */
  readonly floored: boolean;
  /** From the Wilson interval of the error rate, in the unit of `value`; `null` without `trials`. */
  readonly interval: readonly [number, number] | null;
  readonly level: number;
}

const WHERE = "effectiveWidthFromErrorRate";
/** Half of 4.133: standard deviations from the middle to the edge of the effective width, as the throughput literature rounds it. */
const HALF_WIDTHS = 2.066;
/** 2.066/z at an error rate of 0.0049 %, which no error at all counts as; the literature's digits. */
const FLOOR = 0.5089;
/** The largest share that a width answers to; rounding may put the upper end of an interval at 1. */
const BELOW_ONE = 0.9999999999999998;

/**
 * The effective width where only the share of misses is known: the target width that normal scatter with that share would have called for.
 *
 * Formula: We = W 2.066/z(1 - err/2), z the standard normal quantile; shares up to 0.0049 % count as that (factor 0.5089). It assumes endpoints that are
 * normal and centred on the target, and misses along the axis only: with a bias of W/4 and SD W/4 it is 42 % too wide. Use it for printed
 * tables; where endpoints were recorded, `effectiveWidth` is the better measure. Few trials tell little: 1 error in 20 leaves a factor of two.
 *
 * @param width - nominal width, above 0
 * @param errorRate - share of misses, at least 0 and below 1 (not percent)
 * @param options - see `EffectiveWidthFromErrorRateOptions`
 * @returns the width; smaller is more accurate
 * @throws TypeError if an argument is no number; RangeError if one is out of range, among them an error rate of 1, which no width answers to
 * @see Soukoreff and MacKenzie 2004 (recalled); interval of the share: Wilson 1927 (recalled)
 * @example
 * ```ts
 * effectiveWidthFromErrorRate(40, 0.05).value; // => 42.164
 * effectiveWidthFromErrorRate(40, 0.05, { trials: 200 }).interval; // => [37.461, 48.68]
 * ```
 */
export function effectiveWidthFromErrorRate(
  width: number,
  errorRate: number,
  options: EffectiveWidthFromErrorRateOptions = {},
): EffectiveWidthFromErrorRate {
  const { trials, level = 0.95 } = options;
  requireNumber(WHERE, "width", width, 0, Number.POSITIVE_INFINITY, true);
  requireNumber(WHERE, "errorRate", errorRate, 0);
  if (errorRate >= 1) throw new RangeError(`${WHERE}: errorRate must be below 1, got ${errorRate}`);
  if (trials !== undefined) requireInteger(WHERE, "options.trials", trials, 1);
  requireLevel(WHERE, level);
  const share = trials === undefined ? undefined : proportionEstimate(errorRate * trials, trials, level);
  const interval = share?.ok && share.interval ? share.interval.map((end) => width * factor(end)) : null;
  return {
    value: width * factor(errorRate),
    floored: factor(errorRate) === FLOOR,
    interval: interval && [interval[0]!, interval[1]!],
    level,
  };
}

function factor(errorRate: number): number {
  const share = Math.min(Math.max(errorRate, 0), BELOW_ONE); // ends of an interval may lie beyond by rounding
  // z(1 - err/2) taken from the lower tail, where a small share keeps its digits
  return Math.max(FLOOR, HALF_WIDTHS / (0 - normalQuantile(share / 2)));
}
