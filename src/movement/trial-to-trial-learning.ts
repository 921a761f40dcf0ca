import { chiSquareQuantile } from "../math/chi-square-quantile.js";
import type { Estimate, Reason } from "../math/estimate.js";
import { medianDeviation } from "../math/median.js";
import { normalQuantile } from "../math/normal-quantile.js";
import { requireLevel } from "../math/require.js";
import { SD_PER_MAD } from "../math/sd-per-mad.js";
import { studentQuantile } from "../math/student-quantile.js";
import { type LagOne, lagOne } from "./repetition/lag-one.js";
import { type LearnerDeviance, learnerDeviance } from "./repetition/learner-deviance.js";
import { type LearnerLabels, learnerEstimates, noLearner } from "./repetition/learner-estimates.js";
import { fitLearner, traitInterval } from "./repetition/learner-fit.js";
import { errorAutocorrelation, learnerOf } from "./repetition/learner-model.js";
import { prepareErrors, takeOutRegressors } from "./repetition/prepare-errors.js";
import { requireErrors } from "./repetition/require-errors.js";

/** Options of `trialToTrialLearning`. */
export interface TrialToTrialOptions {
  /** Label of the errors' unit, default "px". */
  readonly unit?: string;
  /** Confidence level, above 0 and below 1, default 0.95. Raised, intervals grow and fewer verdicts are given. */
  readonly level?: number;
  /** Take a straight trend over the trials out of the errors beside their mean. Default true; without it, a drift looks like under-correcting. */
  readonly detrend?: boolean;
}

/** How a person corrects from one trial to the next. */
export type TrialToTrialLearning =
  | {
      readonly ok: true;
      /** Known errors. */
      readonly n: number;
      /** Trials without a known error. */
      readonly missing: number;
      readonly unit: string;
      readonly level: number;
      /** Whether a straight trend was taken out. */
      readonly detrended: boolean;
      /** Slope of that trend, or what it would have been, unit per trial; its error allows for what neighbours have in common. */
      readonly drift: Estimate;
      /** Likeliest correlation of neighbouring errors: above 0, errors stay; below 0, they turn round. Its interval allows for every learner that fits. */
      readonly autocorrelation: Estimate;
      /** The plain correlation of neighbours, with mean and SD that independent errors would give. */
      readonly sample: LagOne;
      /**
       * `overCorrecting` and `underCorrecting`: the interval of `autocorrelation` lies below or above 0. `aboutRight`: it holds 0, and `sample` is within 0.2 of
       * independence with its error: what remains costs at most about 5 % of the spread. `cannotTell`: otherwise.
       */
      readonly verdict: "overCorrecting" | "underCorrecting" | "aboutRight" | "cannotTell";
      /** Share of an error taken back on the next trial, 0 to 2. `tooFew` under 100 errors; `notIdentified` where `autocorrelation` holds 0: then every rate fits that equals the best. */
      readonly rate: Estimate;
      /** The rate that would leave the smallest errors with these two noises. */
      readonly bestRate: Estimate;
      /** SD of the noise that later plans keep, and of the noise that ends with the movement. */
      readonly planningSd: Estimate;
      readonly executionSd: Estimate;
      /** `drift`: the trend's interval excludes 0; `outlying`: an error over 6 robust SDs off, which hides correlation; `few`: under 50 errors. */
      readonly warnings: readonly ("drift" | "outlying" | "few")[];
    }
  /** `tooFew`: under 20 errors, or under 10 pairs of neighbours; `noSpread`: all on a line. */
  | { readonly ok: false; readonly why: Reason; readonly unit: string; readonly n: number };

const LEAST = 20;
const LEAST_PAIRS = 10;
/** Fewer errors show only learners far from their best rate. */
const ENOUGH = 50;
/** Fewer errors tell over- from under-correcting, but not the rate. */
const LEAST_FOR_RATE = 100;
/** At this autocorrelation the spread of errors is 2 to 5 % above the least possible (computed for q/r from 2 down to 0.2). */
const SMALL = 0.2;
const OUTLYING_SDS = 6;

/**
 * Does a person chase the last miss, or leave errors standing?
 *
 * Model: error e = p + execution noise (SD r); the next plan p' = p - B e + planning noise (SD q). Neighbouring errors are uncorrelated exactly when B is the best rate
 * for these noises, B* = (sqrt(q^4 + 4 q^2 r^2) - q^2)/(2 r^2). A negative correlation says that errors are over-corrected, a positive one that too little of them
 * is taken back (or that something wanders). The likelihood is exact (Kalman filter from the long-run spread, mean and trend taken out); intervals
 * are what stays in the joint region of rate and best rate, so that a rate that cannot be told does not make the rest look sure.
 *
 * @param errors - signed errors (along the axis, say) in the order of the trials, of one person, task and sitting; `null` for a trial whose error is not known
 * @param options - see `TrialToTrialOptions`
 * @returns correlation, verdict, and from 100 errors on the learner; not ok with under 20 errors or without spread. O(n) per step, some thousand steps
 * @throws TypeError or RangeError if an error is neither a finite number nor `null`, or an option is not as described
 * @see van Beers 2009 and 2012 (recalled) for the model; formulas derived and tested against a dense normal density
 * @example
 * ```ts
 * const errors = Array.from({ length: 120 }, (_, i) => (i % 2 === 0 ? 4 : -4) + (i % 5));
 * const learning = trialToTrialLearning(errors);
 * learning.ok && learning.verdict; // => "overCorrecting"
 * ```
 */
export function trialToTrialLearning(errors: ArrayLike<number | null>, options: TrialToTrialOptions = {}): TrialToTrialLearning {
  const { unit = "px", level = 0.95, detrend = true } = options;
  const { values, known } = requireErrors("trialToTrialLearning", "errors", errors);
  requireLevel("trialToTrialLearning", level);
  const n = known.reduce((sum, one) => sum + one, 0);
  const pairs = known.reduce((sum, one, i) => sum + (i > 0 ? one * known[i - 1]! : 0), 0);
  if (n < LEAST || pairs < LEAST_PAIRS) return { ok: false, why: "tooFew", unit, n };
  const { aboutMean, aboutLine, size } = prepareErrors(values, known);
  const series = detrend ? aboutLine : aboutMean;
  const left = takeOutRegressors(series);
  if (left === undefined) return { ok: false, why: "noSpread", unit, n };
  const labels = { n, unit, level, size };
  const sample = lagOne(left.rest, left.basis, known);
  const fit = fitLearner(series);
  const limit = fit.deviance + chiSquareQuantile(level, 2);
  const correlation = errorAutocorrelation(learnerOf(fit.rate, fit.bestRate), 1);
  const interval = traitInterval(series, "autocorrelation", correlation, limit);
  const verdict = verdictOf(interval, sample, level);
  const shown = verdict === "overCorrecting" || verdict === "underCorrecting";
  const drift = driftOf(detrend ? fit : learnerDeviance(aboutLine, fit.rate, fit.bestRate), known.length, labels);
  const warnings: ("drift" | "outlying" | "few")[] = isAway(drift) ? ["drift"] : [];
  if (isOutlying(left.rest, known)) warnings.push("outlying");
  if (n < ENOUGH) warnings.push("few");
  return {
    ok: true,
    n,
    missing: known.length - n,
    unit,
    level,
    detrended: detrend,
    drift,
    autocorrelation: { ok: true, value: correlation, unit: "1", n, interval, level },
    sample,
    verdict,
    ...(n >= LEAST_FOR_RATE && shown
      ? learnerEstimates(series, fit, limit, labels)
      : noLearner(n < LEAST_FOR_RATE ? "tooFew" : "notIdentified", labels)),
    warnings,
  };
}

function verdictOf([low, high]: readonly [number, number], sample: LagOne, level: number) {
  if (high < 0) return "overCorrecting";
  if (low > 0) return "underCorrecting";
  const away = Math.abs(sample.value - sample.expectedIfIndependent);
  return away + normalQuantile(0.5 + level / 2) * sample.standardErrorIfIndependent <= SMALL ? "aboutRight" : "cannotTell";
}

/** The line's regressor rises by 2 over all trials. */
function driftOf({ last, lastError }: LearnerDeviance, trials: number, { n, unit, level, size }: LearnerLabels): Estimate {
  const perTrial = (2 * size) / (trials - 1);
  const half = -studentQuantile((1 - level) / 2, n - 2) * lastError;
  return {
    ok: true,
    value: last * perTrial,
    unit: `${unit}/trial`,
    n,
    interval: [(last - half) * perTrial, (last + half) * perTrial],
    level,
  };
}

function isAway(estimate: Estimate): boolean {
  return estimate.ok && estimate.interval !== undefined && estimate.interval[0] * estimate.interval[1] > 0;
}

function isOutlying(rest: Float64Array, known: Uint8Array): boolean {
  const some = rest.filter((_, i) => known[i] === 1);
  const limit = OUTLYING_SDS * SD_PER_MAD * medianDeviation(some, 0);
  return some.some((value) => Math.abs(value) > limit);
}
