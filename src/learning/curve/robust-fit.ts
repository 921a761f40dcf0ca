import { medianInPlace } from "../../math/median.js";
import { SD_PER_MAD } from "../../math/sd-per-mad.js";
import type { BestSolution, Solution, Solver } from "./solver.js";

/** Huber's and Tukey's constants: 95 % of the efficiency of least squares for normal errors. */
const HUBER = 1.345;
const BISQUARE = 4.685;
/** Weights change less than this at the end. */
const SETTLED = 1e-9;
const MOST = 200;
/** Rounds of Huber's weights that search everywhere, since the first fit may have been drawn far off. */
const FULL_SEARCHES = 3;

/** A fit by bisquare weights. */
export interface RobustFit {
  readonly solution: BestSolution;
  /** Of each value, 0 to 1. */
  readonly weights: Float64Array;
  /** Scale of the standardised residuals. */
  readonly scale: number;
}

/** What weighted fits and their residuals look like to this search. */
export interface RobustTask {
  /** A solver for the values with these shares of their own weights. */
  readonly solverFor: (shares: Float64Array) => Solver;
  /** Residuals on the scale of the errors, of weight 1. */
  readonly residuals: (parameters: Float64Array) => Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly n: number;
}

/**
 * Iteratively reweighted least squares: Huber's weights with the scale taken anew each time from the median absolute residual, then bisquare
 * weights with that scale held. Huber's come first because the bisquare's have several minima.
 */
export function robustFit(task: RobustTask): RobustFit {
  const { lower, upper, n } = task;
  const shares = new Float64Array(n).fill(1);
  let solution: BestSolution = task.solverFor(shares).best(lower, upper);
  let latest: Solution = solution;
  let scale = 0;
  let iterations = solution.iterations;
  let converged = false;
  for (const stage of ["huber", "bisquare"] as const) {
    converged = false;
    for (let round = 0; round < MOST && !converged; round++) {
      const residuals = task.residuals(latest.parameters);
      if (stage === "huber") scale = scaleOf(residuals);
      const change = reweigh(residuals, scale, stage, shares);
      if (change < SETTLED && round > 0) {
        converged = true;
        break;
      }
      const solver = task.solverFor(shares);
      if (stage === "huber" && round < FULL_SEARCHES) {
        solution = solver.best(lower, upper);
        latest = solution;
      } else latest = solver.from(latest.parameters, lower, upper);
      iterations += latest.iterations;
    }
  }
  return {
    solution: {
      ...solution,
      ...latest,
      converged: converged && latest.converged,
      reason: converged ? latest.reason : "iterations",
      iterations,
    },
    weights: shares,
    scale,
  };
}

/** Median absolute residual as an SD; where more than half of the residuals vanish, their mean size. */
function scaleOf(residuals: Float64Array): number {
  const sizes = residuals.map(Math.abs);
  const mean = sizes.reduce((sum, size) => sum + size / sizes.length, 0);
  const scale = SD_PER_MAD * medianInPlace(sizes);
  return scale > 1e-9 * mean ? scale : mean;
}

function reweigh(residuals: Float64Array, scale: number, stage: "huber" | "bisquare", shares: Float64Array): number {
  let change = 0;
  for (let i = 0; i < residuals.length; i++) {
    const u = scale > 0 ? Math.abs(residuals[i]!) / scale : 0;
    let share = u <= HUBER ? 1 : HUBER / u;
    if (stage === "bisquare") share = u < BISQUARE ? (1 - (u / BISQUARE) ** 2) ** 2 : 0;
    change = Math.max(change, Math.abs(share - shares[i]!));
    shares[i] = share;
  }
  return change;
}

/** Derivative of the bisquare's pull by the residual, in scales. */
export function bisquareSlope(u: number): number {
  const square = (u / BISQUARE) ** 2;
  return square < 1 ? (1 - square) * (1 - 5 * square) : 0;
}
