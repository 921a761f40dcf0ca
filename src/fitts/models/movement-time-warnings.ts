import type { Estimate } from "../../math/estimate.js";
import { linearRegression } from "../../math/linear-regression.js";
import { studentTail } from "../../math/student-tail.js";
import { INTERCEPT_RANGE, LEAST_RANGE, LEAST_TRIALS, rangeOf } from "../design-limits.js";
import { indexOfDifficulty } from "../index-of-difficulty.js";
import { logSizes, type TermsFit } from "./fit-terms.js";
import type { ModelTerms } from "./model-terms.js";
import type { MovementTimeForm, MovementTimeModel, MovementTimeWarning } from "./movement-time.js";
import type { UsableCell } from "./usable-cells.js";

/** Fewer levels of difficulty leave the slope to chance (a design choice). */
const LEAST_LEVELS = 4;
/** r^2 of log amplitude and log width that makes the standard errors of their effects 2.2 times as large as in a crossed design. */
const TOGETHER = 0.8;
const SIGNIFICANT = 0.05;

export interface WarningEvidence {
  readonly model: MovementTimeModel;
  readonly form: MovementTimeForm;
  readonly terms: ModelTerms;
  readonly cells: readonly UsableCell[];
  readonly conditions: number;
  readonly people: number;
  /** Absent when the law could not be fitted. */
  readonly fit: TermsFit | undefined;
  /** Absent for a law without one. */
  readonly intercept: Estimate | undefined;
}

export function movementTimeWarnings({
  model,
  form,
  terms,
  cells,
  conditions,
  people,
  fit,
  intercept,
}: WarningEvidence): MovementTimeWarning[] {
  if (cells.length === 0) return [];
  const difficulties = cells.map((cell) => indexOfDifficulty(cell.amplitude, cell.width, { form }));
  const nominal = cells.map(({ cell }) => indexOfDifficulty(cell.amplitude, cell.width, { form }).toFixed(6));
  const slopes = fit?.regression.coefficients.slice(1) ?? [];
  const raised: readonly (readonly [MovementTimeWarning, boolean])[] = [
    ["intercept", intercept?.ok === true && oddIntercept(model, intercept.value, intercept.interval!)],
    ["narrowRange", rangeOf(difficulties) < LEAST_RANGE || new Set(nominal).size < LEAST_LEVELS],
    ["slope", slopes.some((slope, j) => !(slope * terms.signs[j]! > 0))],
    ["notSeparable", terms.signs.length > 1 && varyTogether(cells)],
    ["fewConditions", conditions < terms.coefficients.length + 2],
    ["pooledPersons", people > 1],
    ["fewTrials", cells.some(({ cell }) => cell.n !== undefined && cell.n < LEAST_TRIALS)],
    ["curved", fit !== undefined && !fit.exact && bends(terms, fit)],
  ];
  return raised.filter(([, holds]) => holds).map(([warning]) => warning);
}

function oddIntercept(model: MovementTimeModel, value: number, [low, high]: readonly [number, number]): boolean {
  if (model === "fitts") return value < INTERCEPT_RANGE[0] || value > INTERCEPT_RANGE[1];
  return model === "linear" && (low > 0 || high < 0);
}

function varyTogether(cells: readonly UsableCell[]): boolean {
  const [amplitudes, widths] = logSizes(cells);
  const line = linearRegression([amplitudes], widths);
  // no spread in the one or the other: nothing of it can be told
  return line === undefined || line.r2 > TOGETHER || rangeOf(widths) === 0;
}

// Tukey's one degree of freedom: for one predictor this is the test of its square
function bends(terms: ModelTerms, { columns, regression, times }: TermsFit): boolean {
  const { coefficients, residuals } = regression;
  const scaled = times.map(terms.toScale);
  const mean = scaled.reduce((sum, value) => sum + value / scaled.length, 0);
  const squares = scaled.map((value, i) => (value - residuals[i]! - mean) ** 2);
  const wider = linearRegression([...columns, squares], scaled);
  if (wider === undefined) return false;
  const last = coefficients.length;
  return studentTail(wider.coefficients[last]! / wider.standardErrors[last]!, wider.df) < SIGNIFICANT;
}
