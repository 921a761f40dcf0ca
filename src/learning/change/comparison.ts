import type { Estimate } from "../../math/estimate.js";

/** How a change is counted: in the unit of the measure, or as a share of the level before. */
export type ChangeKind = "difference" | "percent";

/**
 * What a comparison comes to. `better` and `worse`: the interval of the change lies on that side of no change. `equivalent`: the change is shown to be smaller
 * than the smallest worthwhile one, either way. `cannotTell`: neither; no proof that nothing changed.
 */
export type ComparisonVerdict = "better" | "worse" | "equivalent" | "cannotTell";

/**
 * How large the change is, by the interval at 2 level - 1: `worthwhile`, all of it beyond the smallest worthwhile change; `trivial`, all of it within; else `unclear`.
 * A change can be real and trivial.
 */
export type ChangeSize = "worthwhile" | "trivial" | "unclear";

/** What speaks against taking a comparison at its word. */
export type ComparisonWarning =
  /** A period with fewer than five sessions: an interval this wide shows gross changes only. */
  | "fewSessions"
  /** Too few sessions for the permutation test to fall below 1 - level, whatever the data. */
  | "smallestPTooLarge"
  /** Neighbouring sessions are alike (p below 0.05): the sessions are worth fewer, and the permutation test is too ready to see a change. */
  | "autocorrelated"
  /** A period rises or falls within itself (p below 0.05 for both together): its centre is not one level. */
  | "trendWithin"
  /** Sessions scatter more in one period than in the other (p below 0.05): not only the level changed. */
  | "unequalSpread";

/** One of the two periods. */
export interface PeriodFigures {
  readonly sessions: number;
  /** Mean or median of the session values, in the unit of the measure; for `percent` the geometric mean. */
  readonly centre: Estimate;
  /** Standard deviation of the session values; for `percent` the factor exp(SD of the logarithms) less 1, in percent. */
  readonly sd: Estimate;
}

/** Test by rearranging whole sessions between the periods (paired: by turning the signs of the differences). */
export interface RearrangementTest {
  /** Two-sided. */
  readonly p: number;
  /** Whether every arrangement was counted, or random ones. */
  readonly exact: boolean;
  /** Arrangements there are; `null` when more than a double can count. */
  readonly arrangements: number | null;
  /** The smallest value that `p` can take with so many sessions. */
  readonly smallestP: number;
}

/** How alike neighbouring sessions are. */
export interface Dependence {
  /** Lag-one autocorrelation within the periods, corrected for the bias of short series; `tooFew` or `noSpread` where it cannot be measured. */
  readonly r: Estimate;
  /** One-sided p-value of `r` against independent sessions; `null` where it cannot be measured or was given. */
  readonly p: number | null;
  /** The autocorrelation that the intervals allow for: the option's, or `r` where its p-value is below 0.2, else 0. */
  readonly allowedFor: number;
  /** How many independent sessions each period is worth at `allowedFor`: for long periods k (1 - r)/(1 + r). */
  readonly effectiveSessions: readonly [number, number];
}

/** Chances with nothing known beforehand (a flat prior): the share of the distribution of the true change, given the data, on one side of a mark. */
export interface ChangeChances {
  /** That the change is an improvement, however small. */
  readonly improvement: number;
  /** That it is an improvement by more than `worthwhile`. */
  readonly worthwhileImprovement: number;
  /** That it is a loss by more than `worthwhile`. */
  readonly worthwhileLoss: number;
}

/** The two one-sided tests against the smallest worthwhile change, each at 1 - level. */
export interface Equivalence {
  /** Interval of the change at 2 level - 1, in its unit. */
  readonly interval: readonly [number, number];
  readonly level: number;
  /** Whether it lies within -worthwhile and worthwhile. */
  readonly within: boolean;
}
