import { cvEstimate } from "../../math/cv-estimate.js";
import type { Estimate } from "../../math/estimate.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { medianEstimate } from "../../math/median-estimate.js";
import { robustSd } from "../../math/robust-sd.js";
import { sdEstimate } from "../../math/sd-estimate.js";

/** One measure over many movements: where it lies, and how alike it is from one to the next. */
export interface Consistency {
  readonly mean: Estimate;
  readonly median: Estimate;
  /** Standard deviation, n - 1. From 20 movements it is known to within a factor of some 1.4, from 50 to 1.25. */
  readonly sd: Estimate;
  /** Median absolute deviation times 1.4826: the SD of normal values, deaf to a few outliers. No interval. */
  readonly robustSd: Estimate;
}

/** A measure that is always positive also has a coefficient of variation. */
export interface RelativeConsistency extends Consistency {
  /** SD over mean. */
  readonly cv: Estimate;
}

/** How alike the values are; their order does not matter. */
export function consistencyOf(values: readonly number[], unit: string, level: number): Consistency {
  return {
    mean: meanEstimate(values, unit, level),
    median: medianEstimate(values, unit, level),
    sd: sdEstimate(values, unit, level),
    robustSd: robustSdEstimate(values, unit),
  };
}

/** How alike positive values are. */
export function relativeConsistencyOf(values: readonly number[], unit: string, level: number): RelativeConsistency {
  return { ...consistencyOf(values, unit, level), cv: cvEstimate(values, level) };
}

function robustSdEstimate(values: readonly number[], unit: string): Estimate {
  const n = values.length;
  if (n < 2) return { ok: false, why: "tooFew", unit, n };
  const value = robustSd(values);
  return value > 0 ? { ok: true, value, unit, n } : { ok: false, why: "noSpread", unit, n };
}
