import { clamp, createLocalModel } from "./local-model.js";
import { sumOfSquares } from "./sum-of-squares.js";

/** First damping, as a share of the squared column norms: small, because the starts that reach this function are near a minimum. */
const FIRST_DAMPING = 1e-3;
/** When no step helps although the residuals still lean this much (a cosine) on some column, the search is stuck and not at a minimum. */
const STEEP = 1e-3;

/** What is to be made small: the sum of squared residuals, as a function of parameters within bounds. */
export interface LeastSquaresProblem {
  /** Where the search begins; put within the bounds when outside. */
  readonly start: ArrayLike<number>;
  /** Number of residuals. */
  readonly size: number;
  /** Fills `residuals` (model minus data, or the reverse) at `parameters`. */
  readonly evaluate: (parameters: Float64Array, residuals: Float64Array) => void;
  /**
   * Fills `jacobian`, one column after another: d residual i / d parameter j at j * size + i. Called only directly after `evaluate` at the same
   * parameters.
   */
  readonly differentiate: (parameters: Float64Array, residuals: Float64Array, jacobian: Float64Array) => void;
  /** Smallest value allowed for each parameter; absent means no bound. */
  readonly lower?: ArrayLike<number>;
  /** Largest value allowed for each parameter; absent means no bound. */
  readonly upper?: ArrayLike<number>;
}

export interface LeastSquaresOptions {
  /** Most steps tried, accepted or not. Default 200. */
  readonly maxIterations?: number;
  /** Stop when a step lowers the residual sum, in fact and by prediction, by no more than this share. Default 1e-15. */
  readonly changeTolerance?: number;
  /** Stop when the cosine between the residuals and every column of the Jacobian is no larger. Default 1e-10. */
  readonly gradientTolerance?: number;
  /** Stop when a step is no longer than this share of the parameters, both weighted by their effect on the residuals. Default 1e-10. */
  readonly stepTolerance?: number;
  /** Residual sum that counts as an exact fit. Default 0. */
  readonly exactBelow?: number;
}

/** Why the search ended; after the last three it had not settled. */
export type LeastSquaresReason = "exact" | "gradient" | "change" | "step" | "iterations" | "stuck" | "notFinite";

export interface LeastSquaresResult {
  readonly parameters: Float64Array;
  /** Sum of squared residuals at `parameters`. */
  readonly residualSum: number;
  readonly converged: boolean;
  readonly reason: LeastSquaresReason;
  /** Steps tried. */
  readonly iterations: number;
}

/**
 * Least squares by damped Gauss-Newton steps (Levenberg 1944, Marquardt 1963, recalled) with bounds: a parameter that lies on a bound and
 * is pushed outward is held for that step, and a step that would leave the bounds is cut at them.
 * Every stop rule is relative, so that the units of data and parameters do not matter. Cost per step O(size p^2).
 */
export function leastSquares(problem: LeastSquaresProblem, options: LeastSquaresOptions = {}): LeastSquaresResult {
  const { maxIterations = 200, changeTolerance = 1e-15, gradientTolerance = 1e-10, stepTolerance = 1e-10, exactBelow = 0 } = options;
  const { size } = problem;
  const p = problem.start.length;
  const lower = Float64Array.from({ length: p }, (_, j) => problem.lower?.[j] ?? Number.NEGATIVE_INFINITY);
  const upper = Float64Array.from({ length: p }, (_, j) => problem.upper?.[j] ?? Number.POSITIVE_INFINITY);
  const at = Float64Array.from({ length: p }, (_, j) => clamp(problem.start[j]!, lower[j]!, upper[j]!));
  const trial = new Float64Array(p);
  const residuals = new Float64Array(size);
  const trialResiduals = new Float64Array(size);
  const jacobian = new Float64Array(size * p);
  const local = createLocalModel(size, lower, upper);
  const { scale } = local;

  problem.evaluate(at, residuals);
  let sum = sumOfSquares(residuals);
  let damping = FIRST_DAMPING;
  let growth = 2;
  let iterations = 0;
  const end = (reason: LeastSquaresReason): LeastSquaresResult => ({
    parameters: at,
    residualSum: sum,
    converged: reason !== "iterations" && reason !== "stuck" && reason !== "notFinite",
    reason,
    iterations,
  });
  if (!Number.isFinite(sum)) return end("notFinite");
  if (sum <= exactBelow) return end("exact");

  for (;;) {
    problem.differentiate(at, residuals, jacobian);
    const steepest = local.prepare(jacobian, residuals, at);
    if (!(steepest > gradientTolerance * Math.sqrt(sum))) return end(steepest - steepest === 0 ? "gradient" : "notFinite");

    // the damping is raised until a step lowers the sum
    for (let accepted = false; !accepted; ) {
      if (iterations++ >= maxIterations) {
        iterations = maxIterations;
        return end("iterations");
      }
      const predicted = local.step(damping, at, trial);
      let length = 0;
      let reach = 0;
      for (let j = 0; j < p; j++) {
        length += (scale[j]! * (trial[j]! - at[j]!)) ** 2;
        reach += (scale[j]! * at[j]!) ** 2;
      }
      const short = Math.sqrt(length) <= stepTolerance * (Math.sqrt(reach) + stepTolerance);
      problem.evaluate(trial, trialResiduals);
      const trialSum = sumOfSquares(trialResiduals);
      const gained = sum - trialSum;
      accepted = gained > 0; // false for a sum that is not finite
      if (!accepted) {
        if (short) return end(steepest <= STEEP * Math.sqrt(sum) ? "step" : "stuck");
        if (Math.abs(gained) <= changeTolerance * sum && predicted <= changeTolerance * sum) return end("change");
        damping *= growth;
        growth *= 2;
        continue;
      }
      const before = sum;
      at.set(trial);
      residuals.set(trialResiduals);
      sum = trialSum;
      if (sum <= exactBelow) return end("exact");
      if (gained <= changeTolerance * before && predicted <= changeTolerance * before) return end("change");
      if (short) return end("step");
      // Nielsen's rule (recalled): trust grows smoothly with the ratio of actual to predicted gain
      const ratio = predicted > 0 ? gained / predicted : 0;
      damping *= Math.max(1 / 3, 1 - (2 * ratio - 1) ** 3);
      growth = 2;
    }
  }
}
