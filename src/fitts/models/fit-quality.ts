import { sumOfSquares } from "../../math/sum-of-squares.js";
import type { TermsFit } from "./fit-terms.js";
import { informationCriteria } from "./information-criteria.js";
import { leaveGroupOut } from "./leave-group-out.js";
import type { ModelTerms } from "./model-terms.js";

/** How well a law meets the cells, all on the scale of movement time, so that laws fitted to the same cells compare. */
export interface FitQuality {
  /** Share of the squared spread of the times that the law takes up; 0 where they have none. Over means of many trials it is high for any law that rises. */
  readonly r2: number;
  /** The same with a price on each coefficient: 1 - (1 - r2)(n - 1)/(n - coefficients). */
  readonly adjustedR2: number;
  /** Correlation of predictor and time; for a law with two terms, of fitted and observed time. */
  readonly r: number;
  /** Standard deviation of the residuals with n - coefficients in the denominator, seconds. */
  readonly residualSd: number;
  /** Gaussian information criteria (lognormal for the power law); smaller is better, only differences mean something. `null` for an exact fit. */
  readonly aic: number | null;
  /** Corrected for few cells; also `null` when the cells are not at least two more than the fitted numbers, residual spread included. */
  readonly aicc: number | null;
  readonly bic: number | null;
  /** Root mean square error, seconds, of foretelling each condition from the others; `null` where the fit needs every one of them. */
  readonly leaveOneOutError: number | null;
}

/** `conditions` names the condition of each cell: all cells of one condition are left out together. */
export function fitQuality(terms: ModelTerms, fit: TermsFit, conditions: readonly string[]): FitQuality {
  const { regression, times, fitted } = fit;
  const n = times.length;
  const left = sumOfSquares(times.map((time, i) => time - fitted[i]!));
  const mean = times.reduce((sum, time) => sum + time / n, 0);
  const total = sumOfSquares(times.map((time) => time - mean));
  const r2 = total > 0 ? 1 - left / total : 0;
  const criteria = fit.exact
    ? { aic: null, aicc: null, bic: null }
    : informationCriteria(regression.residualSum, n, terms.coefficients.length, terms.logarithmic ? times.map(Math.log) : []);
  return {
    r2,
    adjustedR2: 1 - ((1 - r2) * (n - 1)) / regression.df,
    r: correlation(terms.signs.length === 1 ? fit.columns[0]! : fitted, times),
    residualSd: Math.sqrt(left / regression.df),
    ...criteria,
    leaveOneOutError: leaveOneOutError(terms, fit, conditions),
  };
}

function leaveOneOutError(
  terms: ModelTerms,
  { columns, regression, times, exact }: TermsFit,
  conditions: readonly string[],
): number | null {
  const errors = leaveGroupOut(columns, regression.residuals, conditions);
  if (errors === undefined) return null;
  if (exact) return 0;
  const squares = sumOfSquares(times.map((time, i) => time - terms.toTime(terms.toScale(time) - errors[i]!)));
  return Number.isFinite(squares) ? Math.sqrt(squares / times.length) : null;
}

function correlation(x: readonly number[], y: readonly number[]): number {
  const centred = (list: readonly number[]): number[] => {
    const mean = list.reduce((sum, value) => sum + value / list.length, 0);
    return list.map((value) => value - mean);
  };
  const [u, v] = [centred(x), centred(y)];
  const lengths = Math.sqrt(sumOfSquares(u) * sumOfSquares(v));
  return lengths > 0 ? Math.max(-1, Math.min(1, u.reduce((sum, value, i) => sum + value * v[i]!, 0) / lengths)) + 0 : 0;
}
