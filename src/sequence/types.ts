import type { Estimate } from "../math/estimate.js";
import type { Acquisition, Budget } from "../movement/types.js";
import type { OrderConsistency } from "./choice/consistency.js";
import type { SetSizeEffect } from "./choice/set-size.js";
import type { TimeLaw } from "./choice/time-law.js";
import type { Overlap } from "./steps/overlap-outcomes.js";

/** Where a movement ended beside the one other target that might have drawn it; lengths in the space's unit. */
export interface BetweenLanding {
  /** Id of the other target: of those still open and 20 to 90 degrees off the way the nearest to the chosen one that the person's scatter can be told apart from. */
  readonly other: string;
  /** Angle between the directions to both, seen from the start, degrees, 20 to 90. */
  readonly separationDeg: number;
  /** Distance between both. */
  readonly distance: number;
  /** How far the end point lies on the way from the chosen target to the other: 0 at the chosen, 1 at the other. */
  readonly share: number;
  /** Distance of the end point from the line through both. */
  readonly offLine: number;
  /** Deviation of the direction taken toward the other over `separationDeg`: 0 to the chosen, 0.5 to the middle, negative away. */
  readonly averagingIndex: number;
  /** It ended in between: off both targets, `share` above 0.2 and below 0.8, `offLine` at most W/2 or 0.15 of `distance`, whichever is more. */
  readonly between: boolean;
}

/** One acquisition of a sequence. Times in seconds. */
export interface SequenceStep {
  readonly target: string;
  readonly outcome: Acquisition["outcome"];
  /** From the end of the acquisition before to the end of this one: `waiting` plus the parts of `budget`. Absent for the first. */
  readonly interval?: number;
  /** From the end of the one before until this target was shown; 0 when it was there. Absent for the first. */
  readonly waiting?: number;
  readonly budget: Budget;
  /** From the press before (the first: from target shown) to the onset; negative when the movement began first. Absent without a movement or trustworthy boundaries. */
  readonly latency?: number;
  /** Change of direction between the movement before and this one, degrees in (-180, 180], positive to the left; 180 is straight back. */
  readonly turnDeg?: number;
  /** The movement began before the press before it. */
  readonly overlap: boolean;
  /** The latency is longer than those of like movements by more than three robust standard deviations of their logarithm. */
  readonly late: boolean;
  /** Longest rest within the movement, off the target. */
  readonly pause: number;
  /** `late`, or a `pause` of more than 0.15 s. */
  readonly hesitation: boolean;
  /** The end of the primary submovement, and the first press. Absent without an other target to tell apart. */
  readonly primary?: BetweenLanding;
  readonly press?: BetweenLanding;
}

/** The order that was taken, beside all others. Centre to centre from where the pointer was; lengths in the space's unit. */
export interface OrderChoice {
  /** Targets to choose from: those that lay open when the first movement began. */
  readonly targets: number;
  readonly length: number;
  /** The shortest open way. */
  readonly shortest: number;
  /** Whether `shortest` is certain (to 12 targets) or a good way found by search. */
  readonly exact: boolean;
  /** `length / shortest - 1`, and the difference. */
  readonly excess: number;
  readonly regret: number;
  /** No order is shorter. */
  readonly best: boolean;
  /** Time the law of movement time foretells beyond that of the fastest order, seconds. Absent without a law, and above 12 targets. */
  readonly timeRegret?: number;
  /** 1 for the shortest order, 2 for the next; equally long ones share the better rank. Absent above 8 targets. */
  readonly rank?: number;
}

/** How often the best of few orders was taken. */
export interface BestOrders {
  readonly share: Estimate;
  /** Share that picking at random would reach: 1/2 of two orders, 1/6 of six. */
  readonly chance: number;
}

/** The orders taken, in figures. Unit of analysis: the sequence. */
export interface OrderSummary {
  /** Mean excess over the shortest way, as a share of it. */
  readonly excess: Estimate;
  /** Mean length beyond the shortest way, in the space's unit. */
  readonly regret: Estimate;
  /** Mean time beyond the fastest order by the law of movement time, seconds. */
  readonly timeRegret: Estimate;
  /** Sequences of exactly two and of exactly three targets. */
  readonly best: { readonly ofTwo: BestOrders; readonly ofThree: BestOrders };
}

/** What a reader of a sequence must know. */
export type SequenceFlag =
  /** Not every target that lay open at the first onset was tried. */
  | "unfinished"
  /** Targets came later; they are left out of the order. */
  | "laterTargets"
  /** A target moved: there is no one length of a way. */
  | "movingTarget"
  /** Nobody knows where the pointer was at the start. */
  | "noStart"
  /** Fewer than two targets lay open: nothing to choose. */
  | "noChoice"
  /** The shortest way comes from a search and may be beaten. */
  | "heuristic";

/** One trial of kind `"sequence"`. */
export interface Sequence {
  readonly trial: string;
  readonly block: string;
  /** Ids of the targets in the order in which they were gone for. */
  readonly order: readonly string[];
  /** Seconds from the first go to the last end. */
  readonly duration: number;
  readonly steps: readonly SequenceStep[];
  /** Absent when a flag other than `laterTargets` or `heuristic` says why. */
  readonly choice?: OrderChoice;
  readonly flags: readonly SequenceFlag[];
}

/** How often movements end between two targets, and whether the person's own scatter explains it. Unit of analysis: the movement, with one pair each. */
export interface BetweenTest {
  /** Movements with a pair, and those whose pairs all lie too close together (under three standard deviations of the person's scatter). */
  readonly pairs: number;
  readonly undecidable: number;
  /** Share that ended in between. */
  readonly observed: Estimate;
  /** Movements without any other target open, from which the scatter is known. */
  readonly singles: number;
  /** Share that would end in between by that scatter alone. `tooFew` under 20 singles. */
  readonly expected: Estimate;
  /** `observed - expected`. */
  readonly excess: Estimate;
  /** Probability of as many or more in between by scatter alone: binomial, widened by the uncertainty of `expected`. `null` without it. */
  readonly p: number | null;
  /** Ended between the chosen and the other target, or between the chosen and the other's mirror image across the way; `p` of an even split, one-sided exact. `null` without any. */
  readonly mirror: { readonly between: number; readonly mirrored: number; readonly p: number | null };
  /** Mean over the pairs: 0 straight to the chosen target, 0.5 to the middle. */
  readonly averagingIndex: Estimate;
}

/** What a reader of the figures must know. */
export type SequenceWarning =
  /** Under 20 sequences with a choice: figures of the order are coarse. */
  | "fewChoices"
  /** Every sequence of two or more targets was taken in the order of `goals`: it may have been given. */
  | "orderOfGoals"
  /** Some shortest ways may be beaten. */
  | "heuristic"
  /** Under 20 movements to single targets: landings in between are judged by the mirror image alone. */
  | "noSingles";

/** Several targets taken one after another. Intervals take steps and sequences as independent of each other. */
export interface SequenceAnalysis {
  readonly level: number;
  readonly sequences: readonly Sequence[];
  /** Between the press before and the onset. Unit of analysis: the step after the first, its target there at the press. */
  readonly downtime: {
    readonly median: Estimate;
    readonly lowerQuartile: Estimate;
    readonly upperQuartile: Estimate;
    /** Share longer than 0.15 s. */
    readonly long: Estimate;
  };
  /** Median latency of the first movement. */
  readonly firstLatency: Estimate;
  /** From press to press: mean, and coefficient of variation. */
  readonly interval: { readonly mean: Estimate; readonly variation: Estimate };
  readonly overlap: Overlap;
  /** Of the steps after the first whose boundaries were found, the shares that began late, that paused long on the way, and that did either. */
  readonly hesitations: { readonly late: Estimate; readonly paused: Estimate; readonly either: Estimate };
  /** Seconds from press to press that each degree of turn costs, difficulty held equal; `tooFew` without three or more differing steps. */
  readonly turnCost: Estimate;
  readonly setSize: SetSizeEffect;
  /** `null` when the order was given. */
  readonly order: (OrderSummary & OrderConsistency) | null;
  /** `null` when none was given and the rows show none. */
  readonly timeLaw: TimeLaw | null;
  /** Ends between two targets: of the primary submovement, and of the press. */
  readonly between: { readonly primary: BetweenTest; readonly press: BetweenTest };
  readonly warnings: readonly SequenceWarning[];
}
