import type { Estimate } from "../../math/estimate.js";

/** Another measure of the same sessions, in which learning may still show. */
export interface AlongsideMeasure {
  /** One value per session, in one unit. */
  readonly value: ArrayLike<number>;
  /** Which way is better. */
  readonly better: "lower" | "higher";
}

/** Session values of one measure of one person, in the order of practice. Columns of one length. */
export interface PlateauSeries {
  /** Day of each session, counted from any day; never falling, parts of a day allowed. */
  readonly day: ArrayLike<number>;
  /** The measure, one value per session. */
  readonly value: ArrayLike<number>;
  /** Equipment of each session: only the sessions since the last change of it are judged. */
  readonly equipment?: readonly string[];
  /** Share of presses that hit, 0 to 1: near 1 the task may have become too easy to show learning. */
  readonly hitShare?: ArrayLike<number>;
  /** Other measures of the same sessions by name, such as the spread within a session or the pace. */
  readonly alongside?: Readonly<Record<string, AlongsideMeasure>>;
}

/** Options of `detectPlateau`. */
export interface DetectPlateauOptions {
  /** Which way is improvement, default "lower" (times, errors). */
  readonly better?: "lower" | "higher";
  /**
   * How change is counted: "percent" of the level, on logarithms, for values above 0 (default); "difference" in the unit of the measure, for values that may be
   * 0 or less.
   */
  readonly kind?: "percent" | "difference";
  /** Smallest change over the horizon that matters, above 0: percent (below 100) or the unit of the measure. Default 2 %; no default for differences. Larger is sooner told. */
  readonly worthwhile?: number;
  /** Days over which a change counts, above 0, default 14. Longer is harder to tell with the same sessions, since the recent trend is carried that far. */
  readonly horizon?: number;
  /** Unit of the measure for kind "difference", default "s"; it only labels results. */
  readonly unit?: string;
}

/** Whether a line of evidence speaks for a plateau, against one, or not at all. */
export type Speaks = "for" | "against" | "silent";

/** The trend of the recent sessions, carried over the horizon. */
export interface TrendEvidence {
  readonly speaks: Speaks;
  /** Improvement over the horizon, above 0 when better, with its 90 % interval: inside the worthwhile change on both sides two one-sided tests at 5 % hold. */
  readonly improvement: Estimate;
  /** Chance of an improvement of the worthwhile size or more, of any, of any loss, and of a loss of that size or more. */
  readonly chances: { readonly worthwhileGain: number; readonly gain: number; readonly loss: number; readonly worthwhileLoss: number };
  /** Autocorrelation of neighbouring sessions about the trend, and their standard deviation, in percent or the unit; `null` without scatter. */
  readonly autocorrelation: number | null;
  readonly sessionSd: number | null;
  /**
   * The same for sessions taken as independent, as in textbooks: improvement over the horizon by ordinary least squares, and the larger p of two one-sided
   * Student tests against the worthwhile change. Too small a p where neighbours resemble each other; no verdict rests on it. `null` without scatter.
   */
  readonly independent: { readonly improvement: number; readonly p: number } | null;
}

/** Whether later recent sessions tend to be better than earlier ones, without assuming a line or a normal scatter. */
export interface OrderEvidence {
  readonly speaks: Speaks;
  /** Median slope over the horizon as an improvement, with its 95 % limits (neighbours taken as independent); `null` when all days are equal. */
  readonly medianSlope: { readonly improvement: number; readonly interval: readonly [number, number] } | null;
  /** Kendall's rank correlation of improvement with time, and the two-sided p of the Mann-Kendall test, allowed for autocorrelation. */
  readonly tau: number;
  readonly p: number;
}

/** How far the fitted exponential curve is from its asymptote. */
export interface AsymptoteEvidence {
  readonly speaks: Speaks;
  /** Share of the whole gain that is still to come, with a 90 % interval. */
  readonly remaining: Estimate;
  /** Improvement that the curve promises over the horizon, with a 90 % interval. */
  readonly projected: Estimate;
}

/** Stretches and steps. */
export interface SegmentEvidence {
  readonly speaks: Speaks;
  /**
   * Bayesian criterion of an exponential curve through the sessions on the present equipment, less that of a level, or of a line that bends to one: above 6 is strong
   * for the level; `null` where the curve has no fit.
   */
  readonly levelOverCurve: number | null;
  /** Day at which that line bends, where the criterion is above 6 for it; else `null`: gains that fade slowly have no such day. */
  readonly levelSince: number | null;
  /** First session after each step of the level by the worthwhile size or more within the recent stretch, index in the series. */
  readonly steps: readonly number[];
}

/** Records among the recent sessions. */
export interface RecordEvidence {
  readonly speaks: Speaks;
  readonly count: number;
  /** Chance of that many or more without any trend. */
  readonly chance: number;
}

/** What one of the other measures shows. */
export interface AlongsideEvidence {
  readonly name: string;
  readonly speaks: Speaks;
  /** Chance that it is getting better; `null` without scatter. */
  readonly chanceBetter: number | null;
}

/** Why nothing can be told. */
export type PlateauReason =
  /** Fewer than eight sessions in the recent stretch. */
  | "tooFewSessions"
  /** The recent stretch covers fewer than ten days. */
  | "tooShort"
  /** The sessions scatter too much for their number. */
  | "tooNoisy"
  /** No scatter at all: no chance can be worked out. */
  | "noScatter"
  /** The trend is flat, but something strong speaks against a plateau. */
  | "contradicted";

/** What limits a verdict. */
export type PlateauWarning =
  /** Neighbouring sessions are alike (autocorrelation above 0.3): they tell less than their number. */
  | "autocorrelated"
  /** The trend is certainly not 0, though smaller than what matters. */
  | "realButSmall"
  /** Sessions on other equipment were left out. */
  | "equipmentChanged"
  /** More than 97 % of the recent presses hit: a harder task may still show learning. */
  | "taskTooEasy"
  /** A gap of more than a week between recent sessions. */
  | "break"
  /** Earlier sessions follow another course: only the recent stretch is judged. */
  | "earlierCourse";

/** A verdict, with what speaks for and against a plateau. */
export interface PlateauReport {
  readonly verdict: "improving" | "plateau" | "declining" | "cannotTell";
  /** Only with "cannotTell", else `null`. */
  readonly why: PlateauReason | null;
  readonly better: "lower" | "higher";
  readonly kind: "percent" | "difference";
  readonly worthwhile: number;
  /** Days. */
  readonly horizon: number;
  /** Sessions given, and the recent stretch that is judged: index of its first session, its sessions and days. */
  readonly n: number;
  readonly recent: { readonly from: number; readonly sessions: number; readonly days: number };
  readonly evidence: {
    readonly trend: TrendEvidence;
    readonly order: OrderEvidence;
    readonly asymptote: AsymptoteEvidence;
    readonly segments: SegmentEvidence;
    readonly records: RecordEvidence;
    readonly alongside: readonly AlongsideEvidence[];
  };
  /** Smallest improvement over the horizon that sessions like these would show in four of five cases; `null` without scatter. */
  readonly detectable: number | null;
  /**
   * Further sessions, at the pace of the recent ones, until a flat learner would be told in four of five cases; only with "cannotTell" and a known scatter, else
   * `null`.
   */
  readonly sessionsNeeded: number | null;
  readonly warnings: readonly PlateauWarning[];
}
