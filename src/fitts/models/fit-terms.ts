import { type LinearRegression, linearRegression } from "../../math/linear-regression.js";
import type { ModelTerms } from "./model-terms.js";
import type { UsableCell } from "./usable-cells.js";

/** A law fitted to cells, before anything is said about it. */
export interface TermsFit {
  /** Values of each term, one column per term. */
  readonly columns: readonly (readonly number[])[];
  /** On the scale on which the law is linear. */
  readonly regression: LinearRegression;
  /** Observed and fitted movement times, seconds. */
  readonly times: readonly number[];
  readonly fitted: readonly number[];
  /** Whether the law meets every time up to rounding: then nothing is left over to judge it by. */
  readonly exact: boolean;
}

/** Residuals up to this share of the largest value are rounding. */
const ROUNDING = 1e-14;

/** Fits the law; or says why it cannot be: too few cells, or cells that do not tell its terms apart. */
export function fitTerms(terms: ModelTerms, cells: readonly UsableCell[]): TermsFit | "tooFew" | "notIdentified" {
  if (cells.length <= terms.coefficients.length) return "tooFew";
  const times = cells.map(({ cell }) => cell.movementTime);
  // sizes that only change together cannot be told apart, even where the added width bends one term a little
  if (terms.signs.length > 1 && linearRegression(logSizes(cells), times) === undefined) return "notIdentified";
  const rows = cells.map((cell) => terms.at(cell.amplitude, cell.width));
  const columns = terms.signs.map((_, j) => rows.map((row) => row[j]!));
  const scaled = times.map(terms.toScale);
  const regression = linearRegression(columns, scaled);
  if (regression === undefined) return "notIdentified";
  const { residuals } = regression;
  // a logarithm is known to its rounding at 1, however small it is
  const largest = scaled.reduce((most, value) => Math.max(most, Math.abs(value)), terms.logarithmic ? 1 : 0);
  return {
    columns,
    regression,
    times,
    fitted: scaled.map((value, i) => terms.toTime(value - residuals[i]!)),
    exact: residuals.every((value) => Math.abs(value) <= ROUNDING * largest),
  };
}

/** Logarithms of amplitude and width of the cells. */
export function logSizes(cells: readonly UsableCell[]): [number[], number[]] {
  return [cells.map((cell) => Math.log(cell.amplitude)), cells.map((cell) => Math.log(cell.width))];
}
