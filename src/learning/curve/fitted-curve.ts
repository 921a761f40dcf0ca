import type { CurveColumns } from "./columns.js";
import type { Runaway } from "./curve-bounds.js";
import type { CurveModel } from "./curve-model.js";
import type { CurveErrors } from "./error-law.js";
import type { BestSolution } from "./solver.js";

/** A fitted law with its uncertainty, before anything is said about it. */
export interface FittedCurve {
  readonly columns: CurveColumns;
  readonly model: CurveModel;
  readonly errors: CurveErrors;
  readonly solution: BestSolution;
  /** Of each entry. */
  readonly fitted: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly runaways: readonly Runaway[];
  /** Places of the parameters that the law has and that may move. */
  readonly moving: readonly number[];
  /** Those of them that lie on a bound. */
  readonly bound: readonly number[];
  /** The others. */
  readonly free: readonly number[];
  /** Covariance of the free parameters; `undefined` when the data do not tell them apart. */
  readonly covariance: readonly (readonly number[])[] | undefined;
  readonly df: number;
  /** Variance of a value of weight 1 on the scale of its errors; 1 for binomial errors. */
  readonly variance: number;
  /** Standard errors to either side of an interval: Student's t, or the normal quantile for binomial errors. */
  readonly reach: number;
  readonly level: number;
  /** Whether the law meets every value up to rounding. */
  readonly exact: boolean;
}

/** Variance of a quantity with this gradient by all parameters, those at a bound held. */
export function varianceAlong({ free, covariance }: FittedCurve, gradient: ArrayLike<number>): number {
  if (covariance === undefined) return Number.NaN;
  let sum = 0;
  for (let i = 0; i < free.length; i++) {
    const row = covariance[i]!;
    for (let j = 0; j < free.length; j++) sum += gradient[free[i]!]! * row[j]! * gradient[free[j]!]!;
  }
  return Math.max(0, sum);
}

/** Gradient of any function of the parameters by central differences, over a small share of each standard error. */
export function gradientOf({ solution, free, covariance }: FittedCurve, quantity: (parameters: Float64Array) => number): Float64Array {
  const at = solution.parameters.slice();
  const gradient = new Float64Array(at.length);
  for (let k = 0; k < free.length; k++) {
    const j = free[k]!;
    const centre = at[j]!;
    const step = Math.max(1e-4 * Math.sqrt(covariance?.[k]?.[k] ?? 0), 1e-7 * Math.abs(centre)) || 1e-9;
    at[j] = centre + step;
    const above = quantity(at);
    at[j] = centre - step;
    gradient[j] = (above - quantity(at)) / (2 * step);
    at[j] = centre;
  }
  return gradient;
}
