import type { LearningCurveFit } from "../fit-learning-curve.js";

/** One law beside the others on the same series. */
export interface ComparedLearningCurve {
  readonly fit: LearningCurveFit;
  /** Numbers that the law has to be fitted with. */
  readonly parameterCount: number;
  /** BIC less the least of all laws, counted with `effectiveN`; `null` where the law has none. */
  readonly bicDifference: number | null;
  /** AICc less the least of all laws, in the same way. */
  readonly aiccDifference: number | null;
  /** Akaike weight: the law's share of the support when exactly these laws are in question; they sum to 1. `null` where the law has no AICc. */
  readonly weight: number | null;
  /**
   * Root mean square of what later values differed by from those foretold, on the scale of the errors: the unit of the measure, logarithms (0.02 is
   * 2 %) or shares. `null` where a cut of the series was too short for the law, or nothing was foretold.
   */
  readonly futureError: number | null;
  /** Whether the values speak against the law: its BIC is more than 2 above the least. */
  readonly worse: boolean;
}

/** What limits a comparison of laws. */
export type LearningComparisonWarning =
  /** A law that is not a richer form of the first one is not worse: these values do not choose between them. */
  | "notDistinguished"
  /** Some law has fewer sessions than it needs to be trusted. */
  | "fewSessions"
  /** Neighbouring errors are alike: the laws were judged with `effectiveN`, and all intervals are too narrow. */
  | "autocorrelated"
  /** Another law foretold the later values with an error more than 25 % smaller than the first one's. */
  | "foretoldBetter"
  /** Practice at or below 0, in the series or to foretell: the power laws were left out. */
  | "noPowers";
