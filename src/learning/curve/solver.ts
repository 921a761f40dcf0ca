/** Where a search ended; the parameters in the solver's own order. */
export interface Solution {
  readonly parameters: Float64Array;
  /** Weighted sum of squared residuals, or the deviance. */
  readonly residualSum: number;
  readonly converged: boolean;
  readonly reason: string;
  readonly iterations: number;
}

/** The best of several searches. */
export interface BestSolution extends Solution {
  /** Searches made, and how many of them ended at the least residual sum. */
  readonly starts: number;
  readonly startsReachingBest: number;
}

/** Least squares of one law on one series. Bounds are given with each call; a parameter with equal bounds is held there. */
export interface Solver {
  readonly best: (lower: Float64Array, upper: Float64Array) => BestSolution;
  /** The nearest minimum, from a start. */
  readonly from: (start: Float64Array, lower: Float64Array, upper: Float64Array) => Solution;
  /**
   * Directly after `best`, where its last look has all that is needed: the fitted values, and the inverse of the information about the
   * parameters in `free`, `undefined` where that has to be worked out from the derivatives.
   */
  readonly summary?: (free: readonly number[]) => { readonly fitted: Float64Array; readonly inverse: number[][] | undefined };
}

/** Two residual sums no further apart count as one. */
const SAME = 1e-8;

/** The lowest of several solutions, with the count of those that reached it. */
export function bestOf(solutions: readonly Solution[]): BestSolution {
  let best = solutions[0]!;
  for (const solution of solutions) {
    if (solution.residualSum < best.residualSum || !(best.residualSum < Number.POSITIVE_INFINITY)) best = solution;
  }
  const limit = best.residualSum * (1 + SAME);
  const startsReachingBest = solutions.filter((solution) => solution.residualSum <= limit).length;
  const iterations = solutions.reduce((sum, solution) => sum + solution.iterations, 0);
  return { ...best, iterations, starts: solutions.length, startsReachingBest };
}
