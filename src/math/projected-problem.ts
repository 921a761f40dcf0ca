import type { CountedProblem } from "./fit-problem.js";
import type { LeastSquaresProblem } from "./least-squares.js";
import { orthonormalize, takeOut, undoTriangle } from "./orthonormal-columns.js";

/** A column with less than this share of its length beside the others gets the coefficient 0. */
const RANK_SHARE = 1e-10;

/** A fit over some of the parameters alone, the others following from them by a linear fit. */
export interface ProjectedProblem extends Omit<LeastSquaresProblem, "start"> {
  /** The parameters searched over, by their place among all. */
  readonly searched: readonly number[];
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** All parameters as they belong to the last call of `evaluate`. */
  readonly whole: () => Float64Array;
}

/**
 * Takes parameters that enter linearly out of a search (variable projection, Golub and Pereyra 1973; the shorter Jacobian of Kaufman 1975; both
 * recalled). The linear fit is made from zero, so that nothing of an earlier point spoils its digits. Without linear parameters the problem stays.
 */
export function projectProblem(problem: CountedProblem, linear: readonly number[]): ProjectedProblem {
  const { size } = problem;
  const all = problem.starts[0]!;
  const searched = Array.from(all, (_, j) => j).filter((j) => !linear.includes(j));
  const whole = new Float64Array(all.length);
  const jacobian = new Float64Array(size * all.length);
  const basis = linear.map(() => new Float64Array(size));
  const triangle = new Float64Array(linear.length ** 2);
  const share = new Float64Array(linear.length);
  const columnOf = (j: number): Float64Array => jacobian.subarray(j * size, (j + 1) * size);

  function evaluate(parameters: Float64Array, residuals: Float64Array): void {
    for (const [c, j] of searched.entries()) whole[j] = parameters[c]!;
    for (const j of linear) whole[j] = 0;
    problem.residuals(whole, residuals);
    if (linear.length === 0) return;
    problem.jacobian(whole, jacobian);
    for (const [c, j] of linear.entries()) basis[c]!.set(columnOf(j));
    orthonormalize(basis, triangle, RANK_SHARE);
    for (const [c, column] of basis.entries()) share[c] = 0 - takeOut(residuals, column);
    undoTriangle(triangle, share);
    for (const [c, j] of linear.entries()) whole[j] = share[c]!;
  }

  // directly after `evaluate`, so that `whole` and `basis` belong to these parameters
  function differentiate(_parameters: Float64Array, _residuals: Float64Array, out: Float64Array): void {
    problem.jacobian(whole, jacobian);
    for (const [c, j] of searched.entries()) {
      const column = out.subarray(c * size, (c + 1) * size);
      column.set(columnOf(j));
      for (const unit of basis) takeOut(column, unit);
    }
  }

  const pick = (bounds: Float64Array): Float64Array => Float64Array.from(searched, (j) => bounds[j]!);
  return { searched, size, lower: pick(problem.lower), upper: pick(problem.upper), evaluate, differentiate, whole: () => whole.slice() };
}
