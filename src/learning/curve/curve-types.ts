import type { Estimate } from "../../math/estimate.js";
import type { LearningLawName } from "../types.js";
import type { CurveErrors } from "./error-law.js";

/** A parameter of a law; `standardError` in the same unit, `null` where there is none. */
export type CurveParameter = Estimate & {
  readonly standardError: number | null;
  /** Of a parameter that is not identified: the ends of its interval, `null` where it does not close within the bounds. */
  readonly ends?: readonly [number | null, number | null];
};

/** What speaks against a fitted curve, or limits it. */
export type LearningCurveWarning =
  /** Fewer sessions than the law needs to be trusted: 4, 6 or 10 for two, three or four parameters. */
  | "fewSessions"
  /** Neighbouring residuals are more alike than chance makes them: every interval is too narrow. */
  | "autocorrelated"
  /** The data do not say where the curve ends. */
  | "asymptoteNotIdentified"
  /** A parameter lies on a bound: see `atBound`. */
  | "atBound"
  /** The interval of the gain `b` spans 0, or does not close: no change is shown. */
  | "noGain"
  /** Something was asked for at more than one and a half times the practised range. */
  | "extrapolated"
  /** The sessions differ by more than their trials explain (5 % level): intervals from binomial errors are too narrow. */
  | "overdispersed"
  /** The scatter grows with the level (one-sided, 5 %): log-normal errors suit better, and these intervals are too narrow. */
  | "unequalSpread"
  /** The search did not settle. */
  | "notConverged";

/** How well the law meets the values, on the scale of its errors: values, logarithms, or deviance for binomial errors. */
export interface CurveQuality {
  /** Values minus parameters. */
  readonly df: number;
  /** Weighted sum of squared residuals; the deviance for binomial errors. */
  readonly residualSum: number;
  /** Root of `residualSum` over `df`, of a value with weight 1; for a robust fit the scale that its weights rest on. */
  readonly residualSd: number;
  /** With all constants, on the scale of the values whatever the errors; `null` for an exact or a robust fit, as are the criteria. */
  readonly logLikelihood: number | null;
  /** Information criteria; the residual variance counts as a parameter. Smaller is better, on the same values. */
  readonly aic: number | null;
  /** Also `null` with no more values than parameters and two. */
  readonly aicc: number | null;
  readonly bic: number | null;
  /** Share of the weighted squared spread (of the null deviance) that the law takes up; `null` for a robust fit. */
  readonly r2: number | null;
}

/** The law at one amount of practice, with the interval of the law and the wider one of one more value. */
export interface CurveBandPoint {
  readonly practice: number;
  readonly value: number;
  readonly confidence: readonly [number, number];
  readonly prediction: readonly [number, number];
}

/** A learning law fitted to a series. */
export interface LearningCurveFit {
  readonly law: LearningLawName | "own";
  readonly formula: string;
  readonly errors: CurveErrors;
  readonly level: number;
  readonly n: number;
  /** By the letters of the law. `tooFew`, `noSpread` or `notIdentified` where the data cannot tell. */
  readonly parameters: Readonly<Record<string, CurveParameter>>;
  /** Letters of the parameters that lie on a bound. */
  readonly atBound: readonly string[];
  /** Of the parameters in their order, 0 for those held at a bound; `null` where the data do not tell the parameters apart. */
  readonly covariance: readonly (readonly number[])[] | null;
  readonly convergence: {
    readonly converged: boolean;
    /** Why the search ended. */
    readonly reason: string;
    /** Searches made, and how many of them ended at the least residual sum. */
    readonly starts: number;
    readonly startsReachingBest: number;
    readonly iterations: number;
  };
  /** `null` when no law could be fitted. */
  readonly quality: CurveQuality | null;
  /** Value of the law for each entry, empty when no law could be fitted. */
  readonly fitted: readonly number[];
  /** Value minus fitted value. */
  readonly residuals: readonly number[];
  /** Correlation of neighbouring errors, from the residuals in order, corrected for the bias that fitting brings. */
  readonly autocorrelation: Estimate;
  /** How many independent values the series is worth: n (1 - r)/(1 + r), never above n; `null` when no law could be fitted. */
  readonly effectiveN: number | null;
  /** ln 2/c for exponentials, in practice; for the others with an end, the practice at which half of the gain from N = 1 is made. */
  readonly halfLife: Estimate;
  /** Share of the fitted gain from the first value on that is still to come at the last. */
  readonly remaining: Estimate;
  readonly band: readonly CurveBandPoint[];
  /** One for each of `options.predict`, with the interval of one more value (of as many trials as the mean). */
  readonly predictions: readonly Estimate[];
  /** One for each of `options.reach`: the practice at which the law has that value. */
  readonly reach: readonly Estimate[];
  /** How a robust fit counted each value, from 0 (left out) to 1, and the scale of its residuals; `null` for others. */
  readonly robust: { readonly scale: number; readonly weights: readonly number[] } | null;
  readonly warnings: readonly LearningCurveWarning[];
}
