import { expect, it } from "vitest";
import { robustSd } from "../../src/math/robust-sd.js";

// Source: NumPy 1.24.2, 1.482602218505602 * median(|x - median(x)|); also scipy.stats.median_abs_deviation(scale="normal") 1.10.1.
it("is the scaled median deviation, and leaves the values alone", () => {
  const values = Object.freeze([0.07, 0.05, 0.12, -0.02, 0.08, 0.2, 0.06, 0.09, 0.03, 0.07]);
  expect(robustSd(values)).toBeCloseTo(0.029652044370112037, 14);
  expect(robustSd([3, 3, 3, 9])).toBe(0);
});
