import type { Estimate } from "../math/estimate.js";
import { requireInteger, requireLevel, requireOneOf, show } from "../math/require.js";
import { requireList } from "../math/require-list.js";
import { averagePrediction } from "./choice/average-predictions.js";
import type { ComparedLearningCurve, LearningComparisonWarning } from "./choice/compared-curve.js";
import { futureErrors } from "./choice/future-errors.js";
import { type CurveCriteria, judgeCurves } from "./choice/judge-curves.js";
import { hasRival, rankCurves } from "./choice/rank-curves.js";
import { requireChoice } from "./choice/require-choice.js";
import { type FitLearningCurveOptions, fitLearningCurve, type LearningCurveFit } from "./fit-learning-curve.js";
import type { LearningLaw, LearningLawName, PracticeSeries } from "./types.js";

export type { ComparedLearningCurve, LearningComparisonWarning } from "./choice/compared-curve.js";

const WHERE = "compareLearningCurves";
/**
 * BIC by which a law must be better to count as such. Set by simulation (40 sessions, 2 % scatter): the law that made the values is named in 93 to 98 % of
 * the series; with 0 in 89 to 94 %, and with 4 in 93 to 99 % but real combined and power laws of four parameters are missed more often. About where Kass and
 * Raftery's scale leaves "not worth more than a bare mention" (recalled).
 */
const LEAST_DIFFERENCE = 2;
/**
 * Of the first law's error of foretelling, the share below which another one counts as better. Set by simulation: beside the law that made the values the
 * warning comes in 2 % of the series of 16 sessions and in under 1 % of those of 40.
 */
const FORETOLD_BETTER = 0.75;

/** Options of `compareLearningCurves`. */
export interface CompareLearningCurvesOptions
  extends Pick<FitLearningCurveOptions, "errors" | "direction" | "intervals" | "level" | "unit" | "practiceUnit" | "predict"> {
  /**
   * Laws to compare, built-in ones by name or your own; default all built-in ones (without the power laws where practice is not above 0). Fewer laws choose
   * more surely if the right one is among them. To foretell, leave out those that never level off (`linear`, `power2`, `exponential2`).
   */
  readonly laws?: readonly (LearningLawName | LearningLaw)[];
  /** Most cuts of the series from which the later values are foretold, from 0 (none, which saves most of the time) to 1000, default 8; more steady `futureError`. */
  readonly origins?: number;
}

/** Laws of practice on the same series, the preferred one first. */
export interface LearningCurveComparison {
  /** The law of `curves[0]`, or `null` when none could be fitted. Read it together with `notDistinguished`. */
  readonly chosen: LearningCurveFit["law"] | null;
  /** Laws that are not worse, the ones with fewest parameters first; then the worse ones by BIC; then those that could not be fitted. */
  readonly curves: readonly ComparedLearningCurve[];
  readonly n: number;
  /** Independent values that the criteria count; `n` unless the errors are autocorrelated. */
  readonly effectiveN: number;
  /** Later values that each law foretold, over all cuts. */
  readonly foretold: number;
  /** For each of `options.predict`, what the laws foretell together by their weights, with the interval of one more value. */
  readonly averaged: readonly Estimate[];
  readonly warnings: readonly LearningComparisonWarning[];
}

/**
 * Fits several laws of practice to one person's series, says which the values prefer, and what they foretell together.
 *
 * A law is `worse` when its BIC is more than 2 above the least. Of the laws that are not, the one with fewest parameters is `chosen`: a richer law must earn
 * its parameters. Where neighbouring errors are alike, the criteria count `effectiveN` values. Beside them stands each law's error in foretelling the
 * later part of the series from the earlier (after each cut, a quarter of the series), and `averaged` weighs all laws by AICc. Cost O(values) for each cut.
 *
 * @param series - practice and value per session of one person, see `PracticeSeries`; a mean over people chooses another law than each of them
 * @param options - see `CompareLearningCurvesOptions`; those not named there are as in `fitLearningCurve`
 * @returns the laws with their fits in order of preference; with `notDistinguished` when the values do not choose
 * @throws TypeError or RangeError if the series or an option is not as described
 * @see Burnham and Anderson 2002 (weights), Buckland, Burnham and Augustin 1997 (averages), both recalled; the bounds are this library's own, by simulation
 * @example
 * ```ts
 * const practice = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14];
 * const value = [1.2, 1.134, 1.059, 1.019, 0.963, 0.94, 0.899, 0.855, 0.835, 0.808, 0.777, 0.766, 0.739, 0.73];
 * const { chosen, averaged } = compareLearningCurves({ practice, value }, { errors: "lognormal", predict: [20] });
 * chosen; // => "exponential3"
 * averaged[0]; // => { ok: true, value: 0.66, unit: "s", n: 14, interval: [0.636, 0.685], level: 0.95 }
 * ```
 */
export function compareLearningCurves(series: PracticeSeries, options: CompareLearningCurvesOptions = {}): LearningCurveComparison {
  const { errors = "normal", direction = "either", intervals = "profile", level = 0.95, unit = "s", practiceUnit = "session" } = options;
  const { predict = [], origins = 8 } = options;
  requireOneOf(WHERE, "options.errors", errors, ["normal", "lognormal", "binomial"]);
  requireOneOf(WHERE, "options.direction", direction, ["falling", "rising", "either"]);
  requireOneOf(WHERE, "options.intervals", intervals, ["profile", "wald"]);
  requireLevel(WHERE, level);
  requireInteger(WHERE, "options.origins", origins, 0, 1000);
  requireList(WHERE, "options.predict", predict);
  if (options.laws !== undefined && !Array.isArray(options.laws))
    throw new TypeError(`${WHERE}: options.laws must be a list of laws, got ${show(options.laws)}`);
  const { laws, noPowers } = requireChoice(WHERE, series, options.laws, errors, predict);

  const n = series.value.length;
  const fits = laws.map((law) =>
    fitLearningCurve(series, { law, errors, direction, intervals, level, unit, practiceUnit, predict, band: 0 }),
  );
  const { criteria, effectiveN } = judgeCurves(fits, n);
  const richest = Math.max(...fits.map((fit) => (fit.quality === null ? 0 : parametersOf(fit))));
  const future = futureErrors(WHERE, { series, laws, errors, direction, origins, richest });
  const curves = rankCurves(compared(fits, criteria, future.errors));
  const first = curves[0]!;
  const warnings: LearningComparisonWarning[] = [];
  if (hasRival(curves)) warnings.push("notDistinguished");
  if (fits.some((fit) => fit.convergence.reason === "tooFew" || fit.warnings.includes("fewSessions"))) warnings.push("fewSessions");
  if (effectiveN < n) warnings.push("autocorrelated");
  if (curves.some(({ futureError }) => futureError !== null && futureError < FORETOLD_BETTER * (first.futureError ?? 0)))
    warnings.push("foretoldBetter");
  if (noPowers) warnings.push("noPowers");
  return {
    chosen: first.fit.quality === null ? null : first.fit.law,
    curves,
    n,
    effectiveN,
    foretold: future.foretold,
    averaged: predict.map((_, place) => averagePrediction(curves, place, errors, unit, level)),
    warnings,
  };
}

function compared(
  fits: readonly LearningCurveFit[],
  criteria: readonly CurveCriteria[],
  future: readonly (number | null)[],
): ComparedLearningCurve[] {
  const least = (of: (entry: CurveCriteria) => number | null): number =>
    Math.min(...criteria.map((entry) => of(entry) ?? Number.POSITIVE_INFINITY));
  const bic = least((entry) => entry.bic);
  const aicc = least((entry) => entry.aicc);
  const supports = criteria.map((entry) => (entry.aicc === null ? 0 : Math.exp((aicc - entry.aicc) / 2)));
  const total = supports.reduce((sum, support) => sum + support, 0);
  return fits.map((fit, i) => {
    const own = criteria[i]!;
    const worse = own.bic !== null && own.bic !== bic && own.bic - bic > LEAST_DIFFERENCE;
    return {
      fit,
      parameterCount: parametersOf(fit),
      bicDifference: own.bic === null || bic === Number.NEGATIVE_INFINITY ? null : own.bic - bic,
      aiccDifference: own.aicc === null || bic === Number.NEGATIVE_INFINITY ? null : own.aicc - aicc,
      weight: own.aicc === null || bic === Number.NEGATIVE_INFINITY ? null : supports[i]! / total,
      futureError: future[i]!,
      worse,
    };
  });
}

function parametersOf(fit: LearningCurveFit): number {
  return Object.keys(fit.parameters).length;
}
