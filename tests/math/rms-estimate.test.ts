import { describe, expect, it } from "vitest";
import { rmsEstimate } from "../../src/math/rms-estimate.js";
import { coverage, keepsEstimateRules } from "./estimate-properties.js";

describe("rmsEstimate against outside values", () => {
  // Source: NumPy 1.24.2 mean of squares, SciPy 1.10.1 stats.sem and special.betaincinv for t, computed from the formula (invented errors)
  it("carries the interval taken on the logarithm of the mean square", () => {
    expect(rmsEstimate([-4.2, 1.5, 3.1, -2.4, 0.8, -6.7, 2.2, 5.9], "mm")).toMatchObject({
      ok: true,
      value: expect.closeTo(3.8800773188172424, 13),
      unit: "mm",
      n: 8,
      interval: [expect.closeTo(2.461875055440978, 12), expect.closeTo(6.115257541899626, 12)],
      level: 0.95,
    });
  });

  // Source: NumPy 1.24.2 simulation of 40 000 samples by the same formula (another generator): .910 at n = 10 and .935 at 50 without bias,
  // .948 at 10 with a bias of three deviations; .015 is 3.5 standard errors of 4000 runs
  it.each([
    [10, 0, 0.91],
    [50, 0, 0.935],
    [10, 3, 0.948],
  ])("covers what its description says (n = %d, bias %d)", (n, bias, expected) => {
    const held = coverage(rmsEstimate, Math.sqrt(1 + bias * bias), (random) => random.normal(bias), n, 4000);
    expect(Math.abs(held - expected)).toBeLessThan(0.015);
  });
});

describe("rmsEstimate properties", () => keepsEstimateRules(rmsEstimate));

describe("rmsEstimate bad input", () => {
  it("needs two values", () => expect(rmsEstimate([3], "mm")).toEqual({ ok: false, why: "tooFew", unit: "mm", n: 1 }));
  it("gives equal sizes an interval without width", () => {
    expect(rmsEstimate([3, -3, 3], "mm")).toMatchObject({ ok: true, value: 3, unit: "mm", n: 3, interval: [3, 3], level: 0.95 });
    expect(rmsEstimate([0, 0], "mm")).toMatchObject({ ok: true, value: 0, unit: "mm", n: 2, interval: [0, 0], level: 0.95 });
  });
  it("has no interval when its upper end would pass every number", () =>
    expect(rmsEstimate([0, 1], "mm", 0.99999)).toMatchObject({ ok: true, value: Math.SQRT1_2, unit: "mm", n: 2 }));
});
