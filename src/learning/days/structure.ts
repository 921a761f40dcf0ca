import type { Estimate } from "../../math/estimate.js";

/** A change of the measure, above 0 when its value rises, whichever way is better. */
export interface Effect {
  /** As a share of the level, unit "1": 0.08 is 8 % more. */
  readonly share: Estimate;
  /** In the unit of the measure, at the typical level of all sessions. */
  readonly amount: Estimate;
}

/** One session. Levels in the unit of the measure; on logarithms they are those of a typical trial (the median), not of the mean. */
export interface SessionLevels {
  readonly session: number;
  readonly day: number | null;
  /** Trials in it. */
  readonly n: number;
  /** Mean of all its trials, warm-up included. */
  readonly mean: number;
  /** Fitted level at the first trial and at the last one, without the warm-up; `null` when there is no fit. */
  readonly start: number | null;
  readonly end: number | null;
  /** Mean of the trials past the warm-up: skill without a model. `null` when the warm-up's length is not known or none is left. */
  readonly afterWarmUp: number | null;
  /** Excess of its own first trial as a share, at the common rate; `null` under six trials. Much noisier than the common decrement. */
  readonly warmUp: number | null;
}

/** What came between two sessions. Changes as shares of the level; `null` without a fit, or when the level is not above 0. */
export interface SessionStep {
  readonly from: number;
  readonly to: number;
  /** Days from one to the next; `null` when no days were given. */
  readonly days: number | null;
  /** `rest`: on the same day; `night`: on another day; `break`: more than `breakDays` later. */
  readonly kind: "rest" | "night" | "break";
  /** Start of the next less end of this, without the warm-up, and without the slope when it counts as fatigue. */
  readonly corrected: number | null;
  readonly warmUpRemoved: number | null;
  /** Mean of the first `block` trials of the next less that of the last `block` of this. */
  readonly raw: number | null;
  /** After a break: sessions until the level before it was reached again, 1 for the first; `null` when it was not, or for other kinds. */
  readonly recoveredAfter: number | null;
}

/** What a reader must know before using the figures. */
export type SessionStructureWarning =
  /** No days were given: every step between sessions counts as one night. */
  | "noDays"
  /** Under five sessions: intervals rest on few units. */
  | "fewSessions"
  /** Some session has under 20 trials: warm-up and slope can hardly be told apart in it. */
  | "fewTrials"
  /** The interval of the warm-up decrement includes 0: none was found. */
  | "noWarmUp"
  /** The rate of the warm-up ran into the end of its range: two trials, or two thirds of the longest session. */
  | "rateAtLimit"
  /** The slope after the warm-up is an improvement and counts as learning: it stays in the corrected overnight change's end level. */
  | "gainWithinSession"
  /** First and last blocks alone show an overnight improvement that is not there once warm-up and fatigue are removed. */
  | "fatigueMistakenForGain"
  /** First and last blocks alone show an overnight loss that is not there once warm-up and fatigue are removed. */
  | "warmUpMistakenForLoss"
  /** Levels of neighbouring sessions resemble each other beyond the trend: the overnight intervals are too narrow. */
  | "autocorrelated";

/** How a person's performance runs within sessions and between them. */
export interface SessionStructure {
  readonly unit: string;
  readonly level: number;
  readonly better: "lower" | "higher";
  readonly errors: "normal" | "lognormal";
  /** Trials in all. */
  readonly n: number;
  readonly warmUp: {
    /** Excess on the first trial. */
    readonly decrement: Effect;
    /** Trials until a twentieth of it is left, ln(20)/rate; `notIdentified` when no warm-up was found or the rate ran into its range. */
    readonly length: Estimate;
  };
  /** Change from trial to trial once the warm-up is over; units "1/trial" and the measure's per trial. */
  readonly slope: Effect;
  /** How the slope is taken: gone by the next session, or learned. `null` without a fit. */
  readonly slopeTakenAs: "fatigue" | "gain" | null;
  /** Fitted level on the last trial over the best one of a session of median length; 1 when the last is the best, and then without an interval. */
  readonly endToBest: Estimate;
  /** Mean change over a night, three ways; `nights` steps of kind `night`. */
  readonly overnight: {
    readonly nights: number;
    readonly corrected: Effect;
    readonly warmUpRemoved: Effect;
    readonly raw: Effect;
  };
  /** Mean change over a break of more than `breakDays`, as corrected; `tooFew` without one. */
  readonly afterBreak: { readonly breaks: number; readonly change: Effect };
  /** SD of the session levels about their trend, as a share (unit "1"), and the correlation of neighbours (unit "1"), both without intervals. */
  readonly sessionSd: Estimate;
  readonly autocorrelation: Estimate;
  readonly sessions: readonly SessionLevels[];
  readonly steps: readonly SessionStep[];
  readonly warnings: readonly SessionStructureWarning[];
}
