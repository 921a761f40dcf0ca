import { type LeastSquaresOptions, type LeastSquaresReason, leastSquares } from "./least-squares.js";
import { lengthOf, orthonormalize, takeOut, undoTriangle } from "./orthonormal-columns.js";

/** A column that keeps less than this share of its length beside the others adds nothing that data could tell; its coefficient is 0. */
const RANK_SHARE = 1e-6;

/** A residual of this share of the data is rounding; such a fit counts as exact unless the options say otherwise. */
const ROUNDING = 1e-14;

/** Data = sum over columns of coefficient times column, where the columns depend on parameters in any way and the coefficients enter linearly. */
export interface SeparableProblem {
  /** Where the search for the parameters begins. The coefficients need no start. */
  readonly start: ArrayLike<number>;
  readonly lower?: ArrayLike<number>;
  readonly upper?: ArrayLike<number>;
  /** One or more series that share the parameters; each gets coefficients of its own. All of one length. */
  readonly data: readonly Float64Array[];
  /** Number of columns. */
  readonly columns: number;
  /** For each parameter the one column that depends on it. */
  readonly columnOf: ArrayLike<number>;
  /** Fills the columns at `parameters`. */
  readonly fill: (parameters: Float64Array, columns: readonly Float64Array[]) => void;
  /** Fills, for each parameter, the derivative of its column. */
  readonly differentiate: (parameters: Float64Array, derivatives: readonly Float64Array[]) => void;
}

export interface SeparableResult {
  readonly parameters: Float64Array;
  /** Per series of `data`, the coefficient of each column. */
  readonly coefficients: Float64Array[];
  readonly residualSum: number;
  readonly converged: boolean;
  readonly reason: LeastSquaresReason;
  readonly iterations: number;
}

/**
 * Least squares with the linear coefficients projected out (variable projection, Golub and Pereyra 1973; the shorter Jacobian of Kaufman
 * 1975; both recalled): for any parameters the best coefficients follow by a linear fit, so that the search runs over the parameters alone.
 * It needs fewer starts and steps than a search over both, and no start for the coefficients.
 */
export function separableLeastSquares(problem: SeparableProblem, options: LeastSquaresOptions = {}): SeparableResult {
  const { start, data, columns: k, columnOf } = problem;
  const n = data[0]!.length;
  const p = start.length;
  const basis = Array.from({ length: k }, () => new Float64Array(n));
  const derivatives = Array.from({ length: p }, () => new Float64Array(n));
  const coefficients = data.map(() => new Float64Array(k));
  const triangle = new Float64Array(k * k);

  function evaluate(parameters: Float64Array, residuals: Float64Array): void {
    problem.fill(parameters, basis);
    orthonormalize(basis, triangle, RANK_SHARE);
    for (let s = 0; s < data.length; s++) {
      const rest = residuals.subarray(s * n, (s + 1) * n);
      rest.set(data[s]!);
      const share = coefficients[s]!;
      for (let c = 0; c < k; c++) share[c] = takeOut(rest, basis[c]!);
      undoTriangle(triangle, share);
    }
  }

  // d residual / d parameter = -coefficient * (derivative of the column, less what the columns themselves can explain)
  function differentiate(parameters: Float64Array, _residuals: Float64Array, jacobian: Float64Array): void {
    problem.differentiate(parameters, derivatives);
    for (let j = 0; j < p; j++) {
      const slope = derivatives[j]!;
      for (let c = 0; c < k; c++) takeOut(slope, basis[c]!);
      for (let s = 0; s < data.length; s++) {
        const factor = -coefficients[s]![columnOf[j]!]!;
        const from = (j * data.length + s) * n;
        for (let i = 0; i < n; i++) jacobian[from + i] = factor * slope[i]!;
      }
    }
  }

  const { lower = [], upper = [] } = problem;
  const exactBelow = ROUNDING ** 2 * data.reduce((sum, series) => sum + lengthOf(series) ** 2, 0);
  const found = leastSquares({ start, lower, upper, size: data.length * n, evaluate, differentiate }, { exactBelow, ...options });
  // the last point tried need not be the one kept
  evaluate(found.parameters, new Float64Array(data.length * n));
  return { ...found, coefficients };
}
