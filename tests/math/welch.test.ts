import { describe, expect, it } from "vitest";
import { uncertainMean, welch } from "../../src/math/welch.js";

const ONE = [27.5, 21.0, 19.0, 23.6, 17.0, 17.9, 16.9, 20.1, 21.9, 22.6, 23.1, 19.6, 19.0, 21.7, 21.4];
const OTHER = [27.1, 22.0, 20.8, 23.4, 23.4, 23.5, 25.8, 22.0, 24.8, 20.2, 21.9, 22.1, 22.9, 20.5, 24.4];

describe("welch against outside values", () => {
  // Source: SciPy 1.17.1 stats.ttest_ind(OTHER, ONE, equal_var=False), computed
  it("is the test of SciPy", () => {
    const test = welch(uncertainMean(ONE), uncertainMean(OTHER), 0.95)!;
    expect(test.t).toBeCloseTo(2.455356398286006, 11);
    expect(test.df).toBeCloseTo(24.988529290231416, 10);
    expect(test.p).toBeCloseTo(0.021378001462866992, 12);
    expect(test.interval).toEqual([expect.closeTo(0.3492370661924069, 10), expect.closeTo(3.984096267140929, 10)]);
  });
  it("is not given without any variance", () => expect(welch(uncertainMean([1, 1]), uncertainMean([2, 2]), 0.95)).toBeUndefined());
});
