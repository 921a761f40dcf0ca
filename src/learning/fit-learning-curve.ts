import { requireLevel, requireObject, requireOneOf, show } from "../math/require.js";
import { requireList } from "../math/require-list.js";
import { curveColumns } from "./curve/columns.js";
import { curveBounds } from "./curve/curve-bounds.js";
import { LAWS, needsPositive } from "./curve/curve-laws.js";
import { curveModel } from "./curve/curve-model.js";
import type { LearningCurveFit } from "./curve/curve-types.js";
import type { CurveErrors } from "./curve/error-law.js";
import { fitCurve } from "./curve/fit-curve.js";
import { reportCurve } from "./curve/report-curve.js";
import { requireLaw } from "./curve/require-law.js";
import { requireValues } from "./curve/require-values.js";
import type { LearningLaw, LearningLawName, PracticeSeries } from "./types.js";

export type { LearningCurveFit } from "./curve/curve-types.js";

const NAMES = Object.keys(LAWS) as LearningLawName[];
const ERRORS: readonly CurveErrors[] = ["normal", "lognormal", "binomial"];
/** Most points of a band. */
const MOST_POINTS = 10_000;

/** Options of `fitLearningCurve`. */
export interface FitLearningCurveOptions {
  /** A built-in law by name, or one of your own; default "exponential3". */
  readonly law?: LearningLawName | LearningLaw;
  /**
   * How values scatter. `normal`: alike at every level. `lognormal`: in proportion to the level, as times do; values above 0. `binomial`: values
   * are hit shares in [0, 1] of `series.trials` trials. Default "normal".
   */
  readonly errors?: CurveErrors;
  /** Whether outliers count less (bisquare weights; not with binomial errors). Intervals are then Wald's. Default false. */
  readonly robust?: boolean;
  /**
   * Least and largest value by letter. Defaults: `a` at least 0 when no value is below 0; `c`, `d`, `e` from 0 to ends far beyond what the practised
   * range can show; equal ends hold a parameter. Wider bounds let an asymptote leave what the measure can be.
   */
  readonly bounds?: Readonly<Record<string, readonly [number, number]>>;
  /** Which way the measure may go, as the sign of `b`; default "either". */
  readonly direction?: "falling" | "rising" | "either";
  /** `profile`: by the rise of the residual sum; `wald`: value and standard errors, cheaper, and worse where the law bends. Default "profile". */
  readonly intervals?: "profile" | "wald";
  /** Confidence level, above 0 and below 1, default 0.95. */
  readonly level?: number;
  /** Label of the measure's unit; default "s", or "1" for hit shares (binomial errors). */
  readonly unit?: string;
  /** Label of the unit of practice, default "session". */
  readonly practiceUnit?: string;
  /** Points of the band over the practised range, default 41; 0 for none, which saves time. */
  readonly band?: number;
  /** Amounts of practice to foretell the measure at, default none. */
  readonly predict?: readonly number[];
  /** Values of the measure to find the practice for, default none. */
  readonly reach?: readonly number[];
}

/**
 * Fits a law of practice to one person's series: where the measure is heading, how fast, and how sure that is.
 *
 * Least squares (maximum likelihood) within bounds. Built-in laws are a + b g(N): a and b follow from the shape g, and only g's one or two
 * parameters are searched for, over a grid and then by Newton steps. Fit one person at a time: the mean curve of several follows another law.
 * Sessions are the unit, not trials. Cost O(values).
 *
 * @param series - practice and value per session, see `PracticeSeries`
 * @param options - see `FitLearningCurveOptions`
 * @returns parameters with intervals, quality, residuals, half-life, band, predictions and warnings; a parameter on a bound, or whose interval does not
 *   close within the bounds, is `notIdentified`; nothing is fitted with fewer values than parameters + 1
 * @throws TypeError or RangeError if the series or an option is not as described; RangeError for a power law with practice at or below 0
 * @see Heathcote, Brown and Mewhort 2000 (recalled) for exponential against power; profile intervals: Bates and Watts 1988 (recalled)
 * @example
 * ```ts
 * const practice = [1, 2, 3, 4, 5, 6, 7, 8];
 * const value = [1.21, 1.07, 0.93, 0.88, 0.82, 0.77, 0.77, 0.74];
 * const { parameters } = fitLearningCurve({ practice, value });
 * parameters.a; // => { ok: true, value: 0.7038, unit: "s", n: 8, … }
 * ```
 */
export function fitLearningCurve(series: PracticeSeries, options: FitLearningCurveOptions = {}): LearningCurveFit {
  const where = "fitLearningCurve";
  const { law = "exponential3", errors = "normal", robust = false, bounds = {}, direction = "either", intervals = "profile" } = options;
  const { level = 0.95, unit = errors === "binomial" ? "1" : "s", practiceUnit = "session", band = 41, predict = [], reach = [] } = options;
  if (typeof law === "string") requireOneOf(where, "options.law", law, NAMES);
  else requireLaw(where, law);
  requireOneOf(where, "options.errors", errors, ERRORS);
  requireOneOf(where, "options.direction", direction, ["falling", "rising", "either"]);
  requireOneOf(where, "options.intervals", intervals, ["profile", "wald"]);
  requireLevel(where, level);
  if (typeof robust !== "boolean") throw new TypeError(`${where}: options.robust must be true or false, got ${show(robust)}`);
  if (robust && errors === "binomial") throw new RangeError(`${where}: options.robust must be false with binomial errors, got true`);
  requireObject(where, "options.bounds", bounds);
  if (!Number.isInteger(band) || band < 0 || band === 1 || band > MOST_POINTS) {
    throw new RangeError(`${where}: options.band must be 0 or a whole number from 2 to ${MOST_POINTS}, got ${band}`);
  }
  requireList(where, "options.predict", predict);
  requireList(where, "options.reach", reach);

  const model = curveModel(law);
  const positive = typeof law === "string" && needsPositive(law);
  const columns = curveColumns(where, series, positive ? 0 : Number.NEGATIVE_INFINITY);
  requireValues(where, columns.value, errors, series.trials !== undefined);
  if (positive) {
    predict.forEach((amount, i) => {
      if (!(amount > 0)) throw new RangeError(`${where}: options.predict[${i}] must be above 0 for this law, got ${amount}`);
    });
  }
  const limits = curveBounds(where, model, typeof law === "string" ? undefined : law, columns, { bounds, direction, errors });
  const starts = typeof law === "string" ? [] : law.starts;
  const fit = fitCurve(columns, model, errors, limits, { robust, level, starts, profile: intervals === "profile" });
  return reportCurve(fit, columns, model, errors, { level, unit, practiceUnit, band, predict, reach });
}
