import { findProjection } from "./find-projection.js";
import { type CountedProblem, countProblem, type FitProblem } from "./fit-problem.js";
import { type LeastSquaresReason, leastSquares } from "./least-squares.js";
import { parameterErrors } from "./parameter-errors.js";
import { dipsBeside, spreadAbout } from "./restart-points.js";
import { sumOfSquares } from "./sum-of-squares.js";

/** A residual of this share of the data is rounding; no search goes below. */
const ROUNDING = 1e-13;
/** Two searches ended at the same minimum when their residual sums differ by no more than this share. */
const SAME = 1e-6;
/** Steps of one search, before the others had their turn. */
const STEPS = 100;
/** Calls of the model kept back for the last search, which goes on from the best point in all parameters. */
const RESERVE = 30;
/** The last search stops only where rounding hides the way. */
const FINE = { changeTolerance: 1e-18, gradientTolerance: 1e-13, stepTolerance: 1e-12 };
/** Searches begun from one round of restart points. */
const PER_ROUND = 2;

export interface NonlinearFitOptions {
  /** Most calls of the model, all searches and trial points together; calls for derivatives are counted beside. Default 2000. */
  readonly maxEvaluations?: number;
  /** Searches that must end at the best minimum before no more are begun; 1 takes the first that settles. Default 3. */
  readonly agreeing?: number;
  /** Standard deviation of the logarithms of the factors that make further starts. Default 1. */
  readonly spread?: number;
}

export interface NonlinearFitResult {
  readonly parameters: Float64Array;
  /** Root of the diagonal of `covariance`; `null` for a parameter on a bound, without effect, or not told apart from others. */
  readonly standardErrors: readonly (number | null)[];
  /** s^2 (J'WJ)^-1 of the parameters off their bounds; `null` elsewhere, and everywhere when `rank` is short of them. */
  readonly covariance: readonly (readonly (number | null)[])[];
  /** Directions that the data hold, and parameters off their bounds: equal unless the parameters are not identified. */
  readonly rank: number;
  readonly free: number;
  /** Weighted sum of squared residuals. */
  readonly residualSum: number;
  /** Data that count minus parameters; below 1 there are no standard errors. */
  readonly df: number;
  /** Whether the last search, from the best point in all parameters at once, settled at a minimum. */
  readonly converged: boolean;
  /** Why it ended. */
  readonly reason: LeastSquaresReason;
  /** Searches begun, and how many of them settled at the minimum returned. */
  readonly starts: number;
  readonly startsReachingBest: number;
  /** Calls of the model for values and for derivatives. */
  readonly evaluations: number;
  readonly differentiations: number;
}

/** The best point so far: where the search stood, and all parameters there. */
interface Best {
  readonly sum: number;
  readonly searched: Float64Array;
  readonly whole: Float64Array;
}

/**
 * Nonlinear least squares from several starts, with standard errors and a report of how the search went.
 *
 * Parameters that enter linearly are found and solved out, the others searched by damped steps within their bounds. After the given starts come the
 * dips beside the best minimum and points spread about the starts, until enough searches agree or the calls are used up. Of equally good minima
 * the one nearest to a given start is kept. Deterministic. The inputs are trusted. Cost per step O(n p^2).
 */
export function nonlinearFit(problem: FitProblem, options: NonlinearFitOptions = {}): NonlinearFitResult {
  const { maxEvaluations = 2000, agreeing = 3, spread = 1 } = options;
  const counted = countProblem(problem);
  const { calls, starts: given } = counted;
  const exactBelow = ROUNDING ** 2 * counted.dataSum;
  const projected = findProjection(counted, spread);
  const left = (): number => maxEvaluations - RESERVE - calls.values;
  const scratch = new Float64Array(counted.size);
  let best: Best = { sum: Number.POSITIVE_INFINITY, searched: new Float64Array(0), whole: given[0]! };
  let begun = 0;
  let reaching = 0;

  const sumAt = (point: Float64Array): number => {
    if (left() <= 0) return Number.POSITIVE_INFINITY;
    projected.evaluate(point, scratch);
    const sum = sumOfSquares(scratch);
    return Number.isFinite(sum) ? sum : Number.POSITIVE_INFINITY;
  };
  const search = (start: Float64Array): void => {
    begun++;
    const found = leastSquares({ ...projected, start }, { maxIterations: Math.min(STEPS, left()), exactBelow });
    if (!Number.isFinite(found.residualSum)) return;
    projected.evaluate(found.parameters, scratch);
    const end = { sum: found.residualSum, searched: found.parameters, whole: projected.whole() };
    if (end.sum < best.sum * (1 - SAME)) {
      best = end;
      reaching = found.converged ? 1 : 0;
    } else if (found.converged && end.sum <= best.sum * (1 + SAME)) {
      reaching++;
      if (distance(end.whole, given) < distance(best.whole, given)) best = end;
    }
  };
  const isDone = (): boolean => reaching >= agreeing || best.sum <= exactBelow || left() <= 0;
  const searchAll = (points: readonly Float64Array[]): void => {
    for (const point of points) if (!isDone()) search(point);
  };

  const centres = given.map((start) => Float64Array.from(projected.searched, (j) => start[j]!));
  searchAll(centres);
  // without a parameter to search over one linear fit was all
  for (let round = 0; projected.searched.length > 0 && !isDone(); round++) {
    if (Number.isFinite(best.sum)) {
      const dips = dipsBeside({ point: best.searched, sum: best.sum }, sumAt, projected);
      searchAll(dips.slice(0, PER_ROUND).map(({ point }) => point));
    }
    if (isDone()) break;
    const points = spreadAbout(centres[round % centres.length]!, Math.floor(round / centres.length), spread, sumAt, projected);
    searchAll(points.slice(0, PER_ROUND).map(({ point }) => point));
  }
  const last = finish(counted, best.whole, exactBelow, maxEvaluations);
  return {
    ...last,
    starts: begun,
    // the last search may still improve on what no search before had settled at
    startsReachingBest: best.sum > exactBelow && last.residualSum < best.sum * (1 - SAME) ? 0 : reaching,
    evaluations: calls.values,
    differentiations: calls.derivatives,
  };
}

// from the best point in all parameters at once, then their errors
function finish(
  counted: CountedProblem,
  start: Float64Array,
  exactBelow: number,
  maxEvaluations: number,
): Omit<NonlinearFitResult, "starts" | "startsReachingBest" | "evaluations" | "differentiations"> {
  const { size, lower, upper } = counted;
  const found = leastSquares(
    {
      start,
      size,
      lower,
      upper,
      evaluate: counted.residuals,
      differentiate: (parameters, _residuals, jacobian) => counted.jacobian(parameters, jacobian),
    },
    { ...FINE, maxIterations: Math.max(1, maxEvaluations - counted.calls.values - 1), exactBelow },
  );
  const { parameters, residualSum, converged, reason } = found;
  const p = parameters.length;
  const jacobian = new Float64Array(size * p);
  counted.jacobian(parameters, jacobian);
  const free = Array.from(parameters, (_, j) => j).filter((j) => parameters[j]! > lower[j]! && parameters[j]! < upper[j]!);
  const df = counted.counting - p;
  const errors = parameterErrors(jacobian, size, p, free, df > 0 ? residualSum / df : Number.NaN);
  const held = (value: number | null): number | null => (value !== null && Number.isFinite(value) ? value : null);
  return {
    parameters,
    residualSum,
    converged,
    reason,
    df,
    rank: errors.rank,
    free: free.length,
    standardErrors: errors.standardErrors.map(held),
    covariance: errors.covariance.map((row) => row.map(held)),
  };
}

/** How far a point is from the nearest start: the differences of the parameters, each as a share of both sizes, squared and summed. */
function distance(point: Float64Array, starts: readonly Float64Array[]): number {
  return Math.min(
    ...starts.map((start) =>
      start.reduce((sum, value, j) => {
        const size = Math.abs(value) + Math.abs(point[j]!);
        return size > 0 ? sum + ((point[j]! - value) / size) ** 2 : sum;
      }, 0),
    ),
  );
}
