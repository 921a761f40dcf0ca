import type { Estimate, Reason } from "../../math/estimate.js";
import { effectiveCount } from "../trend/effective-count.js";
import type { CurveColumns } from "./columns.js";
import type { CurveModel } from "./curve-model.js";
import { curveQuality } from "./curve-quality.js";
import { reachOf } from "./curve-reach.js";
import { halfLife, remainingGain } from "./curve-times.js";
import type { CurveBandPoint, CurveParameter, LearningCurveFit } from "./curve-types.js";
import { curveWarnings, isFar } from "./curve-warnings.js";
import { describeParameters } from "./describe-parameters.js";
import type { CurveErrors } from "./error-law.js";
import type { CurveFitting } from "./fit-curve.js";
import type { FittedCurve } from "./fitted-curve.js";
import { curvePredictor } from "./predict-value.js";
import { residualCorrelation } from "./residual-correlation.js";

export interface ReportOptions {
  readonly level: number;
  readonly unit: string;
  readonly practiceUnit: string;
  readonly band: number;
  readonly predict: readonly number[];
  readonly reach: readonly number[];
}

/** The result of a fit, or of none. */
export function reportCurve(
  fitting: CurveFitting,
  columns: CurveColumns,
  model: CurveModel,
  errors: CurveErrors,
  options: ReportOptions,
): LearningCurveFit {
  const { level, unit, practiceUnit, predict, reach } = options;
  const { n } = columns;
  const unitOf = unitsOf(model, unit, practiceUnit);
  if (typeof fitting === "string") return noFit(fitting, columns, model, errors, unitOf, options);
  const { curve, solver, robust } = fitting;
  const { solution, bound } = curve;
  const fitted = new Array<number>(n);
  const residuals = new Array<number>(n);
  for (let i = 0; i < n; i++) {
    fitted[i] = curve.fitted[i]! + 0;
    residuals[i] = columns.value[i]! - fitted[i]! + 0;
  }
  const parameters = describeParameters(curve, unitOf, solver);
  const quality = curveQuality(curve, robust?.scale);
  const correlation = residualCorrelation(standardised(curve, fitted, residuals), columns.weight, curve.moving.length, level, curve.exact);
  const predicted = curvePredictor(curve);
  const { a } = parameters;
  const hasAsymptote = a !== undefined && model.name !== "constant" && model.name !== "linear" && model.name !== "own";
  const reached = reach.map((target) => reachOf(curve, hasAsymptote ? a : undefined, target, practiceUnit));
  const asked = [...predict, ...reached.flatMap((amount) => (amount.ok ? [amount.value] : []))];
  // written out field by field: a spread would cost as much as the fit of a short series
  return {
    law: model.name,
    formula: model.formula,
    errors,
    level,
    n,
    parameters,
    atBound: bound.map((j) => model.letters[j]!),
    covariance: covarianceTable(curve),
    convergence: {
      converged: solution.converged,
      reason: solution.reason,
      starts: solution.starts,
      startsReachingBest: solution.startsReachingBest,
      iterations: solution.iterations,
    },
    quality,
    fitted,
    residuals,
    autocorrelation: correlation.estimate,
    effectiveN: effectiveCount(n, correlation.estimate.ok ? correlation.estimate.value : 0),
    halfLife: halfLife(curve, parameters, practiceUnit),
    remaining: remainingGain(curve, parameters),
    band: drawBand(columns, options.band, predicted),
    predictions: predict.map((practice): Estimate => {
      const point = predicted(practice);
      // how far the law falls beyond the data rests on its end, which is then a guess
      const blind = hasAsymptote && !a.ok && isFar(columns, practice);
      if (point === undefined || blind) return { ok: false, why: "notIdentified", unit, n };
      return { ok: true, value: point.value, unit, n, interval: point.prediction, level };
    }),
    reach: reached,
    robust: robust === undefined ? null : { scale: robust.scale, weights: Array.from(robust.weights) },
    warnings: curveWarnings({ curve, parameters, hasAsymptote, autocorrelated: correlation.shown, robust: robust !== undefined, asked }),
  };
}

function noFit(
  why: Reason,
  columns: CurveColumns,
  model: CurveModel,
  errors: CurveErrors,
  unitOf: (letter: string) => string,
  { level, unit, practiceUnit, predict, reach }: ReportOptions,
): LearningCurveFit {
  const { n } = columns;
  const none = (of: string): Estimate => ({ ok: false, why, unit: of, n });
  const letters = model.letters.filter((_, j) => model.real[j]);
  const flat = why === "noSpread";
  return {
    law: model.name,
    formula: model.formula,
    errors,
    level,
    n,
    parameters: Object.fromEntries(
      letters.map((letter): [string, CurveParameter] => [letter, { ok: false, why, unit: unitOf(letter), n, standardError: null }]),
    ),
    atBound: [],
    covariance: null,
    convergence: { converged: false, reason: why, starts: 0, startsReachingBest: 0, iterations: 0 },
    quality: null,
    fitted: flat ? Array.from(columns.value) : [],
    residuals: flat ? new Array<number>(n).fill(0) : [],
    autocorrelation: none("1"),
    effectiveN: null,
    halfLife: none(practiceUnit),
    remaining: none("1"),
    band: [],
    predictions: predict.map(() => none(unit)),
    reach: reach.map(() => none(practiceUnit)),
    robust: null,
    warnings: [],
  };
}

function unitsOf(model: CurveModel, unit: string, practiceUnit: string): (letter: string) => string {
  const { name } = model;
  if (name === "own") return () => "";
  const rate = `1/${practiceUnit}`;
  const isPower = model.formula.includes("^-c");
  const units: Record<string, string> = {
    a: unit,
    b: name === "linear" ? `${unit}/${practiceUnit}` : unit,
    c: isPower ? "1" : rate,
    d: name === "combined" ? rate : "1",
    e: practiceUnit,
  };
  return (letter) => units[letter]!;
}

function covarianceTable({ model, moving, free, covariance }: FittedCurve): number[][] | null {
  if (covariance === undefined) return null;
  const real = model.letters.map((_, j) => j).filter((j) => model.real[j] || moving.includes(j));
  return real.map((i) => real.map((j) => (covariance[free.indexOf(i)]?.[free.indexOf(j)] ?? 0) + 0));
}

// residuals on the scale of the errors, before their weights
function standardised({ errors, columns }: FittedCurve, fitted: readonly number[], residuals: readonly number[]): readonly number[] {
  if (errors === "normal") return residuals;
  if (errors === "lognormal") return fitted.map((value, i) => Math.log(columns.value[i]! / value));
  return fitted.map((value, i) => (value > 0 && value < 1 ? residuals[i]! / Math.sqrt(value * (1 - value)) : 0));
}

function drawBand(
  { practice, n }: CurveColumns,
  points: number,
  predicted: (practice: number) => CurveBandPoint | undefined,
): CurveBandPoint[] {
  if (points === 0) return [];
  const first = practice[0]!;
  const last = practice[n - 1]!;
  const band: CurveBandPoint[] = [];
  for (let k = 0; k < points; k++) {
    const point = predicted(k < points - 1 ? first + ((last - first) * k) / (points - 1) : last);
    if (point !== undefined) band.push(point);
  }
  return band;
}
