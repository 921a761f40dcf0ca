import { leastSquares } from "../../math/least-squares.js";
import type { CurveColumns } from "./columns.js";
import type { CurveModel } from "./curve-model.js";
import type { ErrorLaw } from "./error-law.js";
import { bestOf, type Solution, type Solver } from "./solver.js";

/** A solver for any law and any errors, over all parameters at once, from every start. */
export function generalSolver(
  columns: CurveColumns,
  model: CurveModel,
  errors: ErrorLaw,
  startsFor: (lower: Float64Array, upper: Float64Array) => readonly Float64Array[],
): Solver {
  const { n, practice, value, weight } = columns;
  const p = model.letters.length;
  const fitted = new Float64Array(n);
  const tilts = new Float64Array(n * p);

  function from(start: Float64Array, lower: Float64Array, upper: Float64Array): Solution {
    const { parameters, residualSum, converged, reason, iterations } = leastSquares({
      start,
      size: n,
      lower,
      upper,
      evaluate: (at, residuals) => {
        model.fill(practice, at, fitted, tilts);
        for (let i = 0; i < n; i++) residuals[i] = errors.residual(value[i]!, fitted[i]!, weight[i]!);
      },
      differentiate: (_at, _residuals, jacobian) => {
        for (let i = 0; i < n; i++) {
          const slope = errors.slope(value[i]!, fitted[i]!, weight[i]!);
          for (let j = 0; j < p; j++) jacobian[j * n + i] = slope * tilts[j * n + i]!;
        }
      },
    });
    return { parameters: parameters.slice(), residualSum, converged, reason, iterations };
  }
  return { from, best: (lower, upper) => bestOf(startsFor(lower, upper).map((start) => from(start, lower, upper))) };
}
