import { describe, expect, it } from "vitest";
import { coefficientEstimate } from "../../src/math/coefficient-estimate.js";
import { linearRegression } from "../../src/math/linear-regression.js";

describe("coefficientEstimate against outside values", () => {
  // Source: closed form: y = 0, 1, 3 at x = 0, 1, 2 has the slope 3/2 and the residual sum 1/6 with one degree of freedom, so that the slope's
  // standard error is sqrt(1/12); a Student variable with one degree of freedom is Cauchy's, whose 97.5 % point is tan(0.475 pi)
  it("puts Student's interval about the slope", () => {
    const estimate = coefficientEstimate(linearRegression([[0, 1, 2]], [0, 1, 3])!, 1, 3, "s/bit", 0.95);
    const half = Math.tan(0.475 * Math.PI) * Math.sqrt(1 / 12);
    expect(estimate).toEqual({
      ok: true,
      value: expect.closeTo(1.5, 12),
      unit: "s/bit",
      n: 3,
      interval: [expect.closeTo(1.5 - half, 10), expect.closeTo(1.5 + half, 10)],
      level: 0.95,
    });
  });
});

describe("coefficientEstimate properties", () => {
  it("widens with the level and takes the intercept as coefficient 0", () => {
    const fit = linearRegression([[0, 1, 2, 3]], [1, 2, 2, 4])!;
    const widths = [0.5, 0.8, 0.95].map((level) => {
      const estimate = coefficientEstimate(fit, 0, 4, "s", level);
      if (!estimate.ok) throw new Error("no estimate");
      const [low, high] = estimate.interval!;
      expect((low + high) / 2).toBeCloseTo(estimate.value, 12);
      expect(estimate.value).toBeCloseTo(0.9, 12);
      return high - low;
    });
    expect(widths).toEqual([...widths].sort((a, b) => a - b));
    expect(widths[0]).toBeLessThan(widths[2]!);
  });
});
