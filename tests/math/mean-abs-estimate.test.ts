import { describe, expect, it } from "vitest";
import { meanAbsEstimate } from "../../src/math/mean-abs-estimate.js";
import { coverage, keepsEstimateRules } from "./estimate-properties.js";

describe("meanAbsEstimate against outside values", () => {
  // Source: NumPy 1.24.2 mean, SciPy 1.10.1 stats.sem and special.betaincinv for t, computed (invented errors)
  it("carries the Student interval of the sizes", () => {
    expect(meanAbsEstimate([-4.2, 1.5, 3.1, -2.4, 0.8, -6.7, 2.2, 5.9], "mm")).toMatchObject({
      ok: true,
      value: expect.closeTo(3.35, 13),
      unit: "mm",
      n: 8,
      interval: [expect.closeTo(1.6003378330250853, 12), expect.closeTo(5.099662166974915, 12)],
      level: 0.95,
    });
  });

  // Source: E|v| = sqrt(2/pi) for a standard normal v (textbook). The sizes are skewed: "a little below" is taken as within 0.03 of the
  // level.
  it("covers the true mean size of normal values nearly as often as it says", () => {
    const held = coverage(meanAbsEstimate, Math.sqrt(2 / Math.PI), (random) => random.normal(), 10, 4000);
    expect(held).toBeGreaterThan(0.92);
    expect(held).toBeLessThan(0.96);
  });
});

describe("meanAbsEstimate properties", () => {
  keepsEstimateRules(meanAbsEstimate);
  it("cuts its interval at 0", () => expect(meanAbsEstimate([0, 10], "mm")).toMatchObject({ value: 5, interval: [0, expect.any(Number)] }));
});

describe("meanAbsEstimate bad input", () => {
  it("needs two values", () => expect(meanAbsEstimate([-3], "mm")).toEqual({ ok: false, why: "tooFew", unit: "mm", n: 1 }));
  it("gives equal sizes an interval without width", () =>
    expect(meanAbsEstimate([-3, 3], "mm")).toMatchObject({ value: 3, interval: [3, 3] }));
});
