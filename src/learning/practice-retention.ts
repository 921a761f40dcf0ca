import type { Estimate } from "../math/estimate.js";
import { meanEstimate } from "../math/mean-estimate.js";
import { requireLevel, requireOneOf, show } from "../math/require.js";
import { requireList } from "../math/require-list.js";
import { uncertainMean } from "../math/welch.js";
import { describeRatio, describeSum, type Sum, unlessFew } from "./days/describe-ratio.js";
import { type Savings, type SavingsData, savings } from "./days/savings.js";

/** Fewer values than this leave an interval that one odd session decides. */
const FEW = 5;

/** What was measured, of one person and one measure: session or block values that may count as independent. */
export interface RetentionScores {
  /** At the start of practice. */
  readonly start: ArrayLike<number>;
  /** At its end. */
  readonly end: ArrayLike<number>;
  /** At the retention test, after a break without practice: the first values only, before relearning sets in. */
  readonly retention: ArrayLike<number>;
  /** Trials to a criterion when learning and when relearning; default none. */
  readonly savings?: SavingsData;
}

/** Options of `practiceRetention`. */
export interface PracticeRetentionOptions {
  /** Label of the measure's unit, default "s". */
  readonly unit?: string;
  /** Which way is improvement, default "lower", as for times and errors. */
  readonly better?: "lower" | "higher";
  /** Confidence level of every interval, above 0 and below 1, default 0.95. */
  readonly level?: number;
}

/** What a reader must know before using the scores. */
export type RetentionWarning =
  /** Under five values at the start, at the end or at the test. */
  | "fewValues"
  /** The interval of the gain in practice includes 0: there may have been nothing to retain, and the percentage is not given. */
  | "gainNotShown"
  /** A criterion was not met: savings have bounds and no value. */
  | "censored";

/** What was kept of what practice gave. */
export interface PracticeRetention {
  readonly unit: string;
  readonly level: number;
  readonly better: "lower" | "higher";
  readonly n: { readonly start: number; readonly end: number; readonly retention: number };
  /** Improvement from start to end, above 0 when better; Welch's interval. */
  readonly gain: Estimate;
  /** Level at the retention test, in the unit of the measure; Student's interval. The least distorted score, and the one to read first. */
  readonly absolute: Estimate;
  /** What was lost from the end to the test, above 0 when worse; Welch's interval. */
  readonly difference: Estimate;
  /** The same as a percentage of the gain, %; Fieller's interval. `notIdentified` when the gain does not exceed its standard error or the interval has no bounds. */
  readonly percentage: Estimate;
  /** `null` when no trials to a criterion were given. */
  readonly savings: Savings | null;
  readonly warnings: readonly RetentionWarning[];
}

/**
 * How much of what practice gave is still there after a break: retention scores, the absolute one first.
 *
 * With s, e and r the means at start, end and test, turned so that smaller is better: gain = s - e, difference = r - e,
 * percentage = 100 (r - e)/(s - e), savings = 100 (N1 - N2)/N1 with N trials to the criterion. The percentage divides by an uncertain gain:
 * its interval is Fieller's, with e in both parts. Intervals take the values as independent: give sessions or blocks, not trials. Cost O(values).
 *
 * @param scores - lists at the start, at the end and at the test, and the trials of both learnings if there are any
 * @param options - see `PracticeRetentionOptions`
 * @returns the scores with intervals; not ok with fewer than two values, or where the gain is too uncertain to divide by
 * @throws TypeError or RangeError if a list or an option is not as described
 * @see scores: textbook terms (read in study notes); savings after Ebbinghaus 1885 (as described by Murre and Chessa 2023); Fieller 1954 (recalled)
 * @example
 * ```ts
 * const scores = { start: [1.02, 0.95, 1.08, 0.99, 1.05], end: [0.7, 0.66, 0.74, 0.69, 0.72], retention: [0.8, 0.75, 0.83, 0.78, 0.79] };
 * const { absolute, percentage } = practiceRetention(scores);
 * absolute; // => { ok: true, value: 0.79, unit: "s", n: 5, … }
 * percentage; // => { ok: true, value: 27.85, unit: "%", n: 5, … }
 * ```
 */
export function practiceRetention(scores: RetentionScores, options: PracticeRetentionOptions = {}): PracticeRetention {
  const where = "practiceRetention";
  const { unit = "s", better = "lower", level = 0.95 } = options;
  if (scores === null || typeof scores !== "object")
    throw new TypeError(`${where}: scores must be an object of lists, got ${show(scores)}`);
  const { start, end, retention } = scores;
  requireList(where, "scores.start", start);
  requireList(where, "scores.end", end);
  requireList(where, "scores.retention", retention);
  requireOneOf(where, "options.better", better, ["lower", "higher"]);
  requireLevel(where, level);
  const n = { start: start.length, end: end.length, retention: retention.length };
  const saved = scores.savings === undefined ? null : savings(where, scores.savings, better, level);

  const sign = better === "lower" ? 1 : -1;
  const s = uncertainMean(start);
  const e = uncertainMean(end);
  const r = uncertainMean(retention);
  const gained: Sum = [
    { estimate: s, factor: sign },
    { estimate: e, factor: -sign },
  ];
  const lost: Sum = [
    { estimate: r, factor: sign },
    { estimate: e, factor: -sign },
  ];
  const all = Math.min(n.start, n.end, n.retention);
  const gain = unlessFew({ unit, n: Math.min(n.start, n.end), level }, (label) => describeSum(gained, label));
  const warnings: readonly (readonly [RetentionWarning, boolean])[] = [
    ["fewValues", all < FEW],
    ["gainNotShown", !(gain.ok && gain.interval![0] > 0)],
    ["censored", saved !== null && [...saved.first, ...saved.again].includes(null)],
  ];
  return {
    unit,
    level,
    better,
    n,
    gain,
    absolute: meanEstimate(retention, unit, level),
    difference: unlessFew({ unit, n: Math.min(n.end, n.retention), level }, (label) => describeSum(lost, label)),
    percentage: unlessFew({ unit: "%", n: all, level }, (label) => describeRatio(lost, gained, 100, label)),
    savings: saved,
    warnings: warnings.flatMap(([warning, holds]) => (holds ? [warning] : [])),
  };
}
