// Source: NIST Statistical Reference Datasets, linear regression: the eleven problems with their certified values, as stored in the shared
// reference table learning/nist-linear.json (residual sums recomputed there with 60 digits).
import { combinations } from "mathjs";
import { describe, expect, it } from "vitest";
import { type LinearRegression, linearRegression } from "../../src/math/linear-regression.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const table = readReference("learning/nist-linear.json");
const problems = (kind: RegExp): ReferenceCase[] => table?.cases.filter((problem) => kind.test(problem.params.kind)) ?? [];
const polynomials = problems(/^polynomial with intercept$/);
const multiple = problems(/^multiple regression with intercept$/);
const throughOrigin = problems(/^line through the origin$/);

const times = (row: readonly number[], list: readonly number[]): number => row.reduce((sum, value, m) => sum + value * list[m]!, 0);

/** Whether every number of the fit is within the stored tolerance; `back` makes the certified parameters out of the fitted coefficients. */
function expectCertified(problem: ReferenceCase, fit: LinearRegression, back: readonly (readonly number[])[]): void {
  const { expected, tolerance } = problem;
  const check = (what: string, got: number, value: number): void =>
    expect(within(got, value, tolerance), `${what}: ${got} for ${value}`).toBe(true);
  for (const [j, row] of back.entries()) {
    const ofRow = fit.covariance.map((line) => times(line, row));
    check(`parameter ${j}`, times(row, fit.coefficients), expected.parameters[j]);
    check(`standard error ${j}`, Math.sqrt(times(row, ofRow)), expected.standardErrors[j]);
  }
  check("residual SD", Math.sqrt(fit.residualSum / fit.df), expected.residualSd);
  check("r2", fit.r2, expected.rSquared);
  check("residual sum", fit.residualSum, expected.rss);
}

describe.skipIf(!table)(`linearRegression against NIST's certified problems (skipped: ${SHARED_ABSENT})`, () => {
  it("has the eleven problems", () => expect([polynomials.length, multiple.length, throughOrigin.length]).toEqual([8, 1, 2]));

  // Polynomials, Filip's of degree 10 among them, are fitted in powers of (x - middle)/half range and put back into powers of x by the
  // binomial theorem: raw powers of x lose digits before any fit sees them, and the routine does not scale its columns.
  it.each(polynomials)("$name", (problem) => {
    const x: number[] = problem.input.x;
    const middle = Math.round((Math.min(...x) + Math.max(...x)) / 2);
    const half = 2 ** Math.round(Math.log2((Math.max(...x) - Math.min(...x)) / 2));
    const powers = Array.from({ length: problem.params.degree + 1 }, (_, j) => j);
    const columns = powers.slice(1).map((j) => x.map((value) => ((value - middle) / half) ** j));
    const back = powers.map((j) => powers.map((m) => (m < j ? 0 : (combinations(m, j) * (-middle) ** (m - j)) / half ** m)));
    expectCertified(problem, linearRegression(columns, problem.input.y)!, back);
  });

  it.each(multiple)("$name", (problem) => {
    const rows: number[][] = problem.input.x;
    const columns = rows[0]!.map((_, j) => rows.map((row) => row[j]!));
    const unchanged = Array.from({ length: columns.length + 1 }, (_, j) =>
      Array.from({ length: columns.length + 1 }, (_, m) => +(j === m)),
    );
    expectCertified(problem, linearRegression(columns, problem.input.y)!, unchanged);
  });

  // The routine always fits an intercept. Every point with its mirror image in the origin has intercept 0 and the slope, residual SD and
  // (uncentred) r2 of the line through the origin; the residual sum is doubled and so are the sum of squares of x and the degrees of
  // freedom, which halves the variance.
  it.each(throughOrigin)("$name, by mirrored points", (problem) => {
    const mirrored = (list: readonly number[]): number[] => [...list, ...list.map((value) => -value)];
    const fit = linearRegression([mirrored(problem.input.x)], mirrored(problem.input.y))!;
    expect(Math.abs(fit.coefficients[0]!)).toBeLessThan(1e-12);
    const covariance = fit.covariance.map((row) => row.map((value) => 2 * value));
    expectCertified(problem, { ...fit, covariance, residualSum: fit.residualSum / 2, df: fit.df / 2 }, [[0, 1]]);
  });
});
