import { leastSquares } from "../../math/least-squares.js";
import { sumOfSquares } from "../../math/sum-of-squares.js";
import type { CurveColumns } from "./columns.js";
import type { BuiltInLaw } from "./curve-laws.js";
import { type LinearPart, linearPart } from "./linear-part.js";
import { linearSums } from "./linear-sums.js";
import { shapeStarts } from "./shape-starts.js";
import { bestOf, type Solution, type Solver } from "./solver.js";

/** Long valleys, such as those of prior practice and exponent, take many steps. */
const MOST_STEPS = 1000;

/** A solver for any a + b g(N): a and b follow from the shape, and only the shape's parameters, none or two, are searched for. */
export function shapeSolver(columns: CurveColumns, law: BuiltInLaw): Solver {
  const { n, practice, value, weight } = columns;
  const k = law.shape.length;
  const basis = new Float64Array(n);
  const tilts = new Float64Array(n * k);
  const look = new Float64Array(1 + k);
  const root = weight.map(Math.sqrt);
  const part: LinearPart = { a: 0, b: 0, aFree: false, bFree: false };
  let sums = linearSums(value, basis, weight);

  function evaluate(shape: ArrayLike<number>, lower: Float64Array, upper: Float64Array, residuals: Float64Array): void {
    for (let i = 0; i < n; i++) {
      law.at(practice[i]!, shape, look);
      basis[i] = look[0]!;
      for (let j = 0; j < k; j++) tilts[j * n + i] = look[1 + j]!;
    }
    sums = linearSums(value, basis, weight);
    linearPart(sums, lower, upper, part);
    for (let i = 0; i < n; i++) residuals[i] = root[i]! * (value[i]! - part.a - part.b * basis[i]!);
  }

  // derivative of the residuals, less what a change of the free ones of a and b would take up (Kaufman's form, recalled)
  function differentiate(jacobian: Float64Array): void {
    const { weight: weightSum, meanBasis, basisSquare } = sums;
    const centre = part.aFree ? meanBasis : 0;
    const square = part.aFree ? basisSquare : basisSquare + weightSum * meanBasis * meanBasis;
    for (let j = 0; j < k; j++) {
      const from = j * n;
      let mean = 0;
      if (part.aFree) for (let i = 0; i < n; i++) mean += (weight[i]! / weightSum) * tilts[from + i]!;
      let along = 0;
      if (part.bFree) for (let i = 0; i < n; i++) along += weight[i]! * (basis[i]! - centre) * (tilts[from + i]! - mean);
      const share = part.bFree ? along / square : 0;
      for (let i = 0; i < n; i++) {
        jacobian[from + i] = -root[i]! * part.b * (tilts[from + i]! - mean - share * (basis[i]! - centre));
      }
    }
  }

  function from(start: Float64Array, lower: Float64Array, upper: Float64Array): Solution {
    const residuals = new Float64Array(n);
    if (k === 0) {
      evaluate([], lower, upper, residuals);
      const residualSum = sumOfSquares(residuals);
      return { parameters: Float64Array.of(part.a, part.b), residualSum, converged: true, reason: "linear", iterations: 1 };
    }
    const found = leastSquares(
      {
        start: start.subarray(2),
        size: n,
        lower: lower.subarray(2),
        upper: upper.subarray(2),
        evaluate: (shape, out) => evaluate(shape, lower, upper, out),
        differentiate: (_shape, _residuals, jacobian) => differentiate(jacobian),
      },
      { maxIterations: MOST_STEPS },
    );
    evaluate(found.parameters, lower, upper, residuals);
    const { residualSum, converged, reason, iterations } = found;
    return { parameters: Float64Array.of(part.a, part.b, ...found.parameters), residualSum, converged, reason, iterations };
  }
  return {
    from,
    best: (lower, upper) => bestOf(shapeStarts(columns, law, lower, upper).map((start) => from(start, lower, upper))),
  };
}
