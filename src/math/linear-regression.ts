import { centreColumn, largestSize } from "./centre-column.js";
import { backSubstitute, triangularize } from "./linear-solve.js";
import { sumOfSquares } from "./sum-of-squares.js";

/** A column of which less than this share of its length is its own, beside the columns before it, counts as a combination of them. */
const COLLINEAR_SHARE = 1e-12;
/** A column whose spread is less than this share of its largest value is constant up to the rounding of its entries. */
const CONSTANT_SHARE = 1e-14;
/** The second solution is of what the first left over: it wins back digits that an ill-conditioned table costs. */
const PASSES = 2;

/** An ordinary least-squares fit; entry 0 of coefficients, errors and covariance belongs to the intercept. */
export interface LinearRegression {
  readonly coefficients: number[];
  /** Standard errors, from the residual variance with `df` degrees of freedom. */
  readonly standardErrors: number[];
  readonly covariance: number[][];
  /** Observed minus fitted, in the order of the rows. */
  readonly residuals: Float64Array;
  /** Sum of the squared residuals. */
  readonly residualSum: number;
  /** Rows minus coefficients, at least 1. */
  readonly df: number;
  /** Share of the squared spread of `y` about its mean that the fit takes up; 0 where `y` has none. */
  readonly r2: number;
}

/**
 * Least squares of `y` on the columns, with an intercept. Columns are centred on their means, so that a large common offset costs no digits,
 * and reduced by Householder reflections. `undefined` when a column is constant or a combination of others, or when there are no more rows
 * than coefficients, so that nothing is left over to tell errors from. Cost O(rows columns^2).
 */
export function linearRegression(columns: readonly ArrayLike<number>[], y: ArrayLike<number>): LinearRegression | undefined {
  const n = y.length;
  const width = columns.length;
  const df = n - width - 1;
  if (df < 1) return undefined;
  const x = new Float64Array(n * width);
  const rest = new Float64Array(n);
  const centres = columns.map((column, j) => centre(column, x.subarray(j * n, (j + 1) * n)));
  const { mean, length } = centre(y, rest);
  if (centres.some((column) => column.length === 0)) return undefined;

  const triangle = new Float64Array(n * width);
  const slopes = new Float64Array(width);
  const step = new Float64Array(width);
  for (let pass = 0; pass < PASSES; pass++) {
    triangle.set(x);
    const side = rest.slice();
    triangularize(triangle, n, width, side);
    if (centres.some((column, j) => Math.abs(triangle[j * n + j]!) < COLLINEAR_SHARE * column.length)) return undefined;
    backSubstitute(triangle, n, width, side, step);
    for (let j = 0; j < width; j++) {
      slopes[j]! += step[j]!;
      takeOff(rest, step[j]!, x, j * n);
    }
  }
  const residualSum = sumOfSquares(rest);
  const means = centres.map((column) => column.mean);
  const covariance = scatter(triangle, n, means).map((row) => row.map((value) => (value * residualSum) / df));
  return {
    coefficients: [slopes.reduce((left, slope, j) => left - slope * means[j]!, mean), ...slopes],
    standardErrors: covariance.map((row, j) => Math.sqrt(row[j]!)),
    covariance,
    residuals: rest,
    residualSum,
    df,
    r2: length > 0 ? 1 - residualSum / length ** 2 : 0,
  };
}

// `rest` less `slope` times the column that begins at `from`
function takeOff(rest: Float64Array, slope: number, x: Float64Array, from: number): void {
  for (let i = 0; i < rest.length; i++) rest[i]! -= slope * x[from + i]!;
}

// fills `out` with the values less their mean; `length` is the root of their summed squares, 0 where they differ by rounding alone
function centre(values: ArrayLike<number>, out: Float64Array): { mean: number; length: number } {
  const mean = centreColumn(values, out);
  const length = Math.sqrt(sumOfSquares(out));
  return { mean, length: length > CONSTANT_SHARE * Math.sqrt(values.length) * largestSize(values) ? length : 0 };
}

// (X'X)^-1 for the columns with a column of ones before them, from the triangle R of the centred columns: their part is R^-1 R^-T
function scatter(triangle: Float64Array, n: number, means: readonly number[]): number[][] {
  const width = means.length;
  const inverse = means.map((_, j) => {
    const unit = new Float64Array(width);
    unit[j] = 1;
    const column = new Float64Array(width);
    backSubstitute(triangle, n, width, unit, column);
    return column;
  });
  const slopes = means.map((_, i) => means.map((_, j) => inverse.reduce((sum, column) => sum + column[i]! * column[j]!, 0)));
  const mixed = slopes.map((row) => 0 - row.reduce((sum, value, j) => sum + value * means[j]!, 0));
  const corner = mixed.reduce((sum, value, j) => sum - value * means[j]!, 1 / n);
  return [[corner, ...mixed], ...slopes.map((row, i) => [mixed[i]!, ...row])];
}
