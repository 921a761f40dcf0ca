import type { Estimate } from "../../math/estimate.js";
import { uncertainMean, welch } from "../../math/welch.js";

/** Whether the distance from the target's centre changed from one set to another: bias and spread together. */
export interface AccuracyChange {
  /** Mean radial error after minus before: below 0 is closer. Welch interval. */
  readonly difference: Estimate;
  /** Two-sided, of Welch's t; `null` when neither set has any spread of its distances. */
  readonly p: number | null;
  /** By `p`; `notShown` is no proof of an equal accuracy. */
  readonly verdict: "closer" | "farther" | "notShown";
}

/** From the distances of both sets. */
export function accuracyChange(before: Float64Array, after: Float64Array, unit: string, level: number): AccuracyChange {
  const n = before.length + after.length;
  const test = welch(uncertainMean(before), uncertainMean(after), level);
  if (test === undefined) return { difference: { ok: false, why: "noSpread", unit, n }, p: null, verdict: "notShown" };
  const { difference, interval, p } = test;
  const verdict = p < 1 - level ? (difference < 0 ? "closer" : "farther") : "notShown";
  return { difference: { ok: true, value: difference, unit, n, interval, level }, p, verdict };
}
