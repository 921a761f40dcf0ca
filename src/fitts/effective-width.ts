import type { Estimate } from "../math/estimate.js";
import { requireLevel, requireNumber } from "../math/require.js";
import { requireList } from "../math/require-list.js";
import { sdEstimate } from "../math/sd-estimate.js";
import { WIDTHS_PER_SD } from "./widths-per-sd.js";

/** Options of `effectiveWidth`. */
export interface EffectiveWidthOptions {
  /** Name of the length unit of `along`, default `"px"`; it only labels the result. */
  readonly unit?: string;
  /** Confidence level of the interval, above 0 and below 1, default 0.95. Higher makes it wider. */
  readonly level?: number;
  /** Standard deviation that the pointing instrument itself adds, in the unit of `along`, default 0. It is taken out: what remains is the person's. Raise it for touch and remote pointing. */
  readonly deviceSd?: number;
}

/**
 * The target width that the observed scatter would have called for: about 96 % of normally spread endpoints fall inside it.
 *
 * Formula: We = 4.133 sqrt(SD^2 - deviceSd^2), SD the sample standard deviation (n - 1) of the signed deviations along the task axis about their own
 * mean. Smaller is more accurate. A constant bias does not change it: report the bias beside it. Give one person's trials of one amplitude and width, hits and misses together; pooled
 * conditions or people, distances without a sign (0.603 of the spread) or hits alone make it another number. Few trials make it too small: on average by
 * 6, 3 and 1 % at n = 5, 10 and 20.
 *
 * @param along - endpoint minus target centre along the task axis, signed, one length unit; one entry per trial
 * @param options - see `EffectiveWidthOptions`
 * @returns the width with the interval of `SD`; not ok with fewer than two trials (`tooFew`), equal deviations (`noSpread`) or no more spread than the instrument's (`belowResolution`)
 * @throws TypeError if `along` is no list of numbers; RangeError if an entry is not finite or an option is out of range
 * @see Soukoreff and MacKenzie 2004, ISO 9241-411 (recalled); instrument noise taken out: Bi, Li and Zhai 2013 (abstract read); interval: Bonett 2006 (recalled)
 * @example
 * ```ts
 * effectiveWidth([-4, 1, 3, -2, 2]); // => { ok: true, value: 12.0497, unit: "px", n: 5, level: 0.95, … }
 * ```
 */
export function effectiveWidth(along: ArrayLike<number>, options: EffectiveWidthOptions = {}): Estimate {
  const { unit = "px", level = 0.95, deviceSd = 0 } = options;
  requireList("effectiveWidth", "along", along);
  requireNumber("effectiveWidth", "options.deviceSd", deviceSd, 0);
  requireLevel("effectiveWidth", level);
  const spread = sdEstimate(along, unit, level);
  if (!spread.ok) return spread;
  if (spread.value <= deviceSd) return { ok: false, why: "belowResolution", unit, n: spread.n };
  const width = (sd: number): number => WIDTHS_PER_SD * Math.sqrt(Math.max(0, sd * sd - deviceSd * deviceSd));
  const { interval, ...rest } = spread;
  return interval === undefined
    ? { ...rest, value: width(spread.value) }
    : { ...rest, value: width(spread.value), interval: [width(interval[0]), width(interval[1])] };
}
