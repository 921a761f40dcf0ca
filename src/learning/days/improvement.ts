import { requireNumber, requireObject } from "../../math/require.js";
import { requireList } from "../../math/require-list.js";
import { type Uncertain, uncertainMean } from "../../math/welch.js";
import type { Sum } from "./describe-ratio.js";

/** Two lists of one measure, of session or block values that may count as independent. */
export interface BeforeAfter {
  readonly before: ArrayLike<number>;
  readonly after: ArrayLike<number>;
}

/** An improvement known from elsewhere, above 0 when better. */
export interface KnownImprovement {
  readonly gain: number;
  /** At least 0, default 0. */
  readonly standardError?: number;
}

/** An improvement as a sum, above 0 when better, with the smaller count of its lists. */
export interface Improvement {
  readonly sum: Sum;
  readonly n: number;
}

/** One from lists, with the means of these. */
export interface MeasuredImprovement extends Improvement {
  readonly before: Uncertain;
  readonly after: Uncertain;
}

/** Improvement between two lists. */
export function measuredImprovement(where: string, name: string, lists: BeforeAfter, better: "lower" | "higher"): MeasuredImprovement {
  requireObject(where, name, lists);
  requireList(where, `${name}.before`, lists.before);
  requireList(where, `${name}.after`, lists.after);
  const before = uncertainMean(lists.before);
  const after = uncertainMean(lists.after);
  const sign = better === "lower" ? 1 : -1;
  const sum = [
    { estimate: before, factor: sign },
    { estimate: after, factor: -sign },
  ];
  return { sum, n: Math.min(lists.before.length, lists.after.length), before, after };
}

/** Improvement between two lists, or one known from elsewhere: that limits neither the degrees of freedom nor the count. */
export function anyImprovement(
  where: string,
  name: string,
  given: BeforeAfter | KnownImprovement,
  better: "lower" | "higher",
): Improvement {
  requireObject(where, name, given);
  if (!("gain" in given)) return measuredImprovement(where, name, given, better);
  const { gain, standardError = 0 } = given;
  requireNumber(where, `${name}.gain`, gain);
  requireNumber(where, `${name}.standardError`, standardError, 0);
  const estimate = { value: gain, variance: standardError * standardError, df: Number.POSITIVE_INFINITY };
  return { sum: [{ estimate, factor: 1 }], n: Number.POSITIVE_INFINITY };
}
