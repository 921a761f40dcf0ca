import { nonlinearFit } from "../../math/nonlinear-fit.js";
import type { CurveColumns } from "./columns.js";
import type { CurveModel } from "./curve-model.js";
import { type CurveErrors, ERROR_LAWS } from "./error-law.js";
import { generalSolver } from "./general-solver.js";
import type { BestSolution, Solver } from "./solver.js";

/** A solver for a law of which nothing is known but its starts: more starts are tried than were given. */
export function ownLawSolver(
  columns: CurveColumns,
  model: CurveModel,
  errors: CurveErrors,
  starts: readonly (readonly number[])[],
): Solver {
  const { n, practice, value, weight } = columns;
  const p = model.letters.length;
  const { residual, slope } = ERROR_LAWS[errors];
  const fitted = new Float64Array(n);
  const tilts = new Float64Array(n * p);

  // with normal errors the law meets the values themselves, so that parameters that enter linearly are seen; otherwise its residuals meet 0
  const plain = {
    data: value,
    weights: weight,
    evaluate: (at: Float64Array, values: Float64Array): void => model.fill(practice, at, values, tilts),
    differentiate: (at: Float64Array, jacobian: Float64Array): void => model.fill(practice, at, fitted, jacobian),
  };
  const transformed = {
    data: new Float64Array(n),
    evaluate: (at: Float64Array, values: Float64Array): void => {
      model.fill(practice, at, fitted, tilts);
      for (let i = 0; i < n; i++) values[i] = residual(value[i]!, fitted[i]!, weight[i]!);
    },
    differentiate: (at: Float64Array, jacobian: Float64Array): void => {
      model.fill(practice, at, fitted, tilts);
      for (let i = 0; i < n; i++) {
        const lean = slope(value[i]!, fitted[i]!, weight[i]!);
        for (let j = 0; j < p; j++) jacobian[j * n + i] = lean * tilts[j * n + i]!;
      }
    },
  };

  function best(lower: Float64Array, upper: Float64Array): BestSolution {
    const found = nonlinearFit({ ...(errors === "normal" ? plain : transformed), starts, lower, upper });
    const { parameters, residualSum, converged, reason, evaluations, startsReachingBest } = found;
    return { parameters, residualSum, converged, reason, iterations: evaluations, starts: found.starts, startsReachingBest };
  }
  const { from } = generalSolver(columns, model, ERROR_LAWS[errors], () => []);
  return { from, best };
}
