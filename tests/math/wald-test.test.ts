import { describe, expect, it } from "vitest";
import { fTail } from "../../src/math/f-distribution.js";
import { studentTail } from "../../src/math/student-tail.js";
import { waldTest } from "../../src/math/wald-test.js";

describe("waldTest against outside values", () => {
  // Source: closed forms (textbook). One coefficient: the square of its t. Uncorrelated ones: the mean of their squared t.
  it("is the t test for one coefficient, and the mean of squared t for uncorrelated ones", () => {
    const one = waldTest(
      [9, 1.2],
      [
        [1, 0],
        [0, 0.25],
      ],
      1,
      1,
      12,
    );
    expect(one.f).toBeCloseTo(5.76, 12);
    expect(one.p).toBeCloseTo(studentTail(2.4, 12), 12);
    const both = waldTest(
      [1.2, -3],
      [
        [0.25, 0],
        [0, 4],
      ],
      0,
      2,
      12,
    );
    expect(both).toEqual({ f: expect.closeTo((5.76 + 2.25) / 2, 12), df: [2, 12], p: expect.closeTo(fTail((5.76 + 2.25) / 2, 2, 12), 12) });
  });
  // Source: NumPy 2.4.6 c @ inv(V) @ c / 3, computed
  it("weighs correlated coefficients by their covariance", () => {
    const v = [
      [9, 0, 0, 0],
      [0, 4, 1, 0.5],
      [0, 1, 2, -0.3],
      [0, 0.5, -0.3, 1],
    ];
    expect(waldTest([7, 1, -2, 0.5], v, 1, 3, 20).f).toBeCloseTo(1.059360730593607, 12);
  });
});

describe("waldTest properties", () => {
  it("does not change with the size of a column", () => {
    const v = [
      [4, 1],
      [1, 2],
    ];
    const k = 1e9;
    expect(
      waldTest(
        [1 * k, -2],
        [
          [4 * k * k, 1 * k],
          [1 * k, 2],
        ],
        0,
        2,
        9,
      ).f,
    ).toBeCloseTo(waldTest([1, -2], v, 0, 2, 9).f, 9);
  });
});
