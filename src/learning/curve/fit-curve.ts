import { normalQuantile } from "../../math/normal-quantile.js";
import { studentQuantile } from "../../math/student-quantile.js";
import { sumOfSquares } from "../../math/sum-of-squares.js";
import type { CurveColumns } from "./columns.js";
import type { CurveBounds } from "./curve-bounds.js";
import { inverseInformation } from "./curve-covariance.js";
import type { CurveModel } from "./curve-model.js";
import { decaySolver } from "./decay-solver.js";
import { type CurveErrors, ERROR_LAWS } from "./error-law.js";
import type { FittedCurve } from "./fitted-curve.js";
import { generalSolver } from "./general-solver.js";
import { ownLawSolver } from "./own-law-solver.js";
import { type RobustFit, robustFit } from "./robust-fit.js";
import { sandwich } from "./sandwich.js";
import { shapeSolver } from "./shape-solver.js";
import type { Solver } from "./solver.js";

/** A residual sum of this share of the squares of the values is rounding. */
const ROUNDING = 1e-26;
/** A parameter this near to a bound, as a share of its size, lies on it. */
const ON_BOUND = 1e-9;

export interface FitCurveOptions {
  readonly robust: boolean;
  readonly level: number;
  /** Of a law of one's own. */
  readonly starts: readonly (readonly number[])[];
  /** Whether profiles will be asked for. */
  readonly profile: boolean;
}

/** A fitted law and what made it; or why there is none. */
export type CurveFitting =
  | { readonly curve: FittedCurve; readonly solver: Solver | undefined; readonly robust: RobustFit | undefined }
  | "tooFew"
  | "noSpread"
  | "notIdentified";

export function fitCurve(
  columns: CurveColumns,
  model: CurveModel,
  errors: CurveErrors,
  limits: CurveBounds,
  options: FitCurveOptions,
): CurveFitting {
  const { lower, upper } = limits;
  const { n } = columns;
  const moving: number[] = [];
  for (let j = 0; j < model.letters.length; j++) if (model.real[j] && lower[j]! < upper[j]!) moving.push(j);
  const p = moving.length;
  if (n < p + 1) return "tooFew";
  if (columns.distinct < p) return "notIdentified";
  if (model.name !== "constant" && columns.low === columns.high) return "noSpread";

  let solver = solverFor(columns, model, errors, options.starts);
  let robust: RobustFit | undefined;
  if (options.robust) {
    robust = robustFit({
      solverFor: (shares) =>
        solverFor({ ...columns, weight: columns.weight.map((w, i) => Math.max(w * shares[i]!, 1e-300)) }, model, errors, options.starts),
      residuals: (parameters) => scaledResiduals(columns, model, errors, parameters),
      lower,
      upper,
      n,
    });
    solver = { ...solver, best: () => robust!.solution };
  }
  const found = solver.best(lower, upper);
  const { parameters } = found;
  if (!Number.isFinite(found.residualSum)) return "notIdentified";
  for (let j = 0; j < parameters.length; j++) if (!Number.isFinite(parameters[j]!)) return "notIdentified";
  const bound: number[] = [];
  const free: number[] = [];
  for (const j of moving) {
    const near = ON_BOUND * Math.abs(parameters[j]!);
    if (parameters[j]! <= lower[j]! + near || parameters[j]! >= upper[j]! - near) bound.push(j);
    else free.push(j);
  }
  let solution = found;
  if (robust !== undefined) {
    const residuals = scaledResiduals(columns, model, errors, parameters);
    solution = { ...found, residualSum: sumOfSquares(residuals) };
  }
  const df = n - p;
  // a logarithm is known to its rounding at 1, however small it is
  const largest = errors === "lognormal" ? 1 : Math.max(Math.abs(columns.low), Math.abs(columns.high));
  const exact = errors !== "binomial" && solution.residualSum <= ROUNDING * columns.weightSum * largest * largest;
  const variance = errors === "binomial" ? 1 : robust === undefined ? solution.residualSum / df : robust.scale ** 2;
  const tail = 0.5 + options.level / 2;
  const summary = errors === "normal" && robust === undefined ? solver.summary?.(free) : undefined;
  const fitted = summary?.fitted ?? new Float64Array(n);
  let covariance = summary?.inverse;
  if (covariance === undefined) {
    const jacobian = new Float64Array(n * model.letters.length);
    model.fill(columns.practice, parameters, fitted, jacobian);
    const tilts = robust === undefined ? jacobian : jacobian.slice();
    covariance = inverseInformation(columns, errors, fitted, jacobian, free);
    if (covariance !== undefined && robust !== undefined)
      covariance = sandwich(columns, ERROR_LAWS[errors], fitted, tilts, covariance, free, robust);
  }
  if (covariance !== undefined && robust === undefined)
    for (const row of covariance) for (let j = 0; j < row.length; j++) row[j]! *= variance;
  if (covariance?.some((row) => row.some((entry) => !Number.isFinite(entry)))) covariance = undefined;
  const curve: FittedCurve = {
    columns,
    model,
    errors,
    solution,
    fitted,
    lower,
    upper,
    runaways: limits.runaways,
    moving,
    bound,
    free,
    covariance,
    df,
    variance,
    reach: errors === "binomial" ? normalQuantile(tail) : studentQuantile(tail, df),
    level: options.level,
    exact,
  };
  return { curve, solver: options.profile && robust === undefined ? solver : undefined, robust };
}

function solverFor(columns: CurveColumns, model: CurveModel, errors: CurveErrors, starts: readonly (readonly number[])[]): Solver {
  const { builtIn } = model;
  if (builtIn === undefined) return ownLawSolver(columns, model, errors, starts);
  const separable = (of: CurveColumns): Solver => (builtIn.lag === undefined ? shapeSolver(of, builtIn) : decaySolver(of, builtIn.lag));
  if (errors === "normal") return separable(columns);
  // least squares with about the weights of the errors leads near enough
  const { n, practice, value, weight } = columns;
  const rough = weight.map((w, i) => (errors === "lognormal" ? w / value[i]! ** 2 : w));
  const near = separable({ ...columns, weight: rough });
  return generalSolver(columns, model, ERROR_LAWS[errors], (lower, upper) => {
    const { parameters } = near.best(lower, upper);
    let above = true;
    for (let i = 0; i < n && above; i++) above = model.value(practice[i]!, parameters) > 0;
    // a law that is not above 0 has no logarithm: from a constant on, the search stays above
    if (errors === "lognormal" && !above) {
      let middle = 0;
      for (let i = 0; i < n; i++) middle += Math.log(value[i]!) / n;
      parameters[0] = Math.exp(middle);
      parameters[1] = 0;
    }
    return [parameters];
  });
}

/** Residuals on the scale of the errors, times the root of their weight. */
function scaledResiduals(columns: CurveColumns, model: CurveModel, errors: CurveErrors, parameters: Float64Array): Float64Array {
  const { practice, value, weight } = columns;
  return value.map((y, i) => ERROR_LAWS[errors].residual(y, model.value(practice[i]!, parameters), weight[i]!));
}
