import { fc, test } from "@fast-check/vitest";
import { inv, lusolve, multiply, transpose } from "mathjs";
import { linearRegression as simpleFit } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { linearRegression } from "../../src/math/linear-regression.js";

const coordinate = fc.integer({ min: -50, max: 50 }).map((k) => k / 4);
const rows = fc.array(fc.record({ u: coordinate, v: coordinate, y: coordinate }), { minLength: 6, maxLength: 25 });
type Row = { u: number; v: number; y: number };
const columnsOf = (list: readonly Row[]): [number[], number[]] => [list.map((r) => r.u), list.map((r) => r.v)];
const yOf = (list: readonly Row[]): number[] => list.map((r) => r.y);

/** Relative to the larger of the two and to 1. */
function close(a: number, b: number, share: number): boolean {
  return Math.abs(a - b) <= share * Math.max(1, Math.abs(a), Math.abs(b));
}

/** How much of the two columns is their own, 0 where they are one: keeps the comparisons with normal equations to sound tables. */
function ownShare(u: readonly number[], v: readonly number[]): number {
  const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, value, i) => sum + value * b[i]!, 0);
  const centred = (a: readonly number[]): number[] => a.map((value) => value - a.reduce((sum, w) => sum + w, 0) / a.length);
  const [a, b] = [centred(u), centred(v)];
  return 1 - dot(a, b) ** 2 / (dot(a, a) * dot(b, b));
}

describe("linearRegression against outside values", () => {
  // Source: NIST StRD, Norris (certified values, 15 digits): line through 36 calibration points
  it("has the certified coefficients and standard errors of Norris", () => {
    const x = [
      0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777, 558.2, 0.4, 0.6, 775.5, 666.9, 338, 447.5, 11.6, 556, 228.1, 995.8,
      887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999, 779, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5,
    ];
    const y = [
      0.1, 338.8, 118.1, 888, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8, 557.7, 228.3, 998,
      888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2,
    ];
    const fit = linearRegression([x], y)!;
    expect(fit.coefficients[0]).toBeCloseTo(-0.262323073774029, 11);
    expect(fit.coefficients[1]).toBeCloseTo(1.00211681802045, 13);
    expect(fit.standardErrors[0]).toBeCloseTo(0.232818234301152, 13);
    expect(fit.standardErrors[1]).toBeCloseTo(0.000429796848199937, 15);
    expect(Math.sqrt(fit.residualSum / fit.df)).toBeCloseTo(0.884796396144373, 13);
    expect(fit.r2).toBeCloseTo(0.999993745883712, 14);
    expect(fit.df).toBe(34);
  });

  // Source: simple-statistics 7.12.1 linearRegression, a second implementation of the line
  test.prop([rows])("draws the line of simple-statistics", (list) => {
    const [u] = columnsOf(list);
    fc.pre(new Set(u).size > 1);
    const fit = linearRegression([u], yOf(list))!;
    const other = simpleFit(list.map((r) => [r.u, r.y]));
    expect(close(fit.coefficients[0]!, other.b, 1e-8)).toBe(true);
    expect(close(fit.coefficients[1]!, other.m, 1e-8)).toBe(true);
  });

  // Source: textbook normal equations (X'X) b = X'y, covariance s^2 (X'X)^-1, solved by mathjs 15.2
  test.prop([rows])("solves the normal equations of two columns", (list) => {
    const [u, v] = columnsOf(list);
    fc.pre(new Set(u).size > 1 && new Set(v).size > 1 && ownShare(u, v) > 1e-3);
    const fit = linearRegression([u, v], yOf(list))!;
    const x = list.map((r) => [1, r.u, r.v]);
    const square = multiply(transpose(x), x);
    const b = lusolve(square, multiply(transpose(x), yOf(list))) as unknown as number[][];
    const rest = list.reduce((sum, r) => sum + (r.y - b[0]![0]! - b[1]![0]! * r.u - b[2]![0]! * r.v) ** 2, 0);
    const inverse = inv(square);
    expect(fit.coefficients.every((value, j) => close(value, b[j]![0]!, 1e-8))).toBe(true);
    expect(close(fit.residualSum, rest, 1e-8)).toBe(true);
    for (const [i, line] of fit.covariance.entries()) {
      for (const [j, value] of line.entries()) expect(close(value, (inverse[i]![j]! * rest) / (list.length - 3), 1e-7)).toBe(true);
    }
  });
});

describe("linearRegression properties", () => {
  test.prop([rows])("leaves residuals that lean on no column, and squares that add up", (list) => {
    const [u, v] = columnsOf(list);
    fc.pre(new Set(u).size > 1 && new Set(v).size > 1 && ownShare(u, v) > 1e-3);
    const y = yOf(list);
    const fit = linearRegression([u, v].map(Object.freeze) as number[][], Object.freeze(y) as number[])!;
    for (const column of [u.map(() => 1), u, v]) {
      expect(Math.abs(column.reduce((sum, value, i) => sum + value * fit.residuals[i]!, 0))).toBeLessThan(1e-9 * list.length * 2500);
    }
    expect(fit.residuals.reduce((sum, r) => sum + r * r, 0)).toBeCloseTo(fit.residualSum, 9);
    expect(fit.r2 >= -1e-12 && fit.r2 <= 1).toBe(true);
    expect(structuredClone(fit)).toEqual(fit);
  });

  it("loses nothing to clock times as predictor and answer", () => {
    const x = [0, 1, 2, 3, 4, 5, 6, 7];
    const y = [0.5, 0.25, 1.5, 1.75, 2, 2.25, 3.5, 3.25];
    const near = linearRegression([x], y)!;
    const far = linearRegression(
      [x.map((value) => value + 1.7e9)],
      y.map((value) => value + 1.7e9),
    )!;
    expect(far.coefficients[1]).toBeCloseTo(near.coefficients[1]!, 12);
    expect(far.standardErrors[1]).toBeCloseTo(near.standardErrors[1]!, 12);
    expect(far.residualSum).toBeCloseTo(near.residualSum, 12);
  });

  it("fits a mean with no column at all", () => {
    // Source: closed form, mean and its standard error
    const fit = linearRegression([], [1, 2, 6])!;
    expect(fit.coefficients).toEqual([3]);
    expect(fit.standardErrors[0]).toBeCloseTo(Math.sqrt(7 / 3), 14);
    expect(fit.r2).toBeCloseTo(0, 14);
  });

  it("explains nothing where the answer has no spread", () => {
    const fit = linearRegression([[1, 2, 3, 4]], [5, 5, 5, 5])!;
    expect(fit.r2).toBe(0);
    expect(fit.coefficients).toEqual([5, 0]);
  });
});

describe("linearRegression bad input", () => {
  it("has no answer for a constant column, also when constant up to rounding", () => {
    expect(linearRegression([[2, 2, 2, 2]], [1, 2, 3, 5])).toBeUndefined();
    expect(linearRegression([[0.1 + 0.2, 0.3, 0.3, 0.3]], [1, 2, 3, 5])).toBeUndefined();
  });

  it("has no answer for a column that the others make up, also up to rounding", () => {
    const u = [1, 2, 3, 4, 5, 6];
    const v = [0.1, 0.7, 0.3, 0.9, 0.2, 0.8];
    const y = [1, 3, 2, 5, 4, 6];
    const mixed = u.map((value, i) => 0.3 * value - 0.7 * v[i]! + 11);
    expect(linearRegression([u, v, mixed], y)).toBeUndefined();
    expect(linearRegression([u, u.map((value) => value / 3)], y)).toBeUndefined();
  });

  it("has no answer without a row to spare", () => {
    expect(linearRegression([[1, 2]], [1, 2])).toBeUndefined();
    expect(linearRegression([], [])).toBeUndefined();
    expect(linearRegression([[1, 2, 4]], [1, 2, 2])).toBeDefined();
  });
});
