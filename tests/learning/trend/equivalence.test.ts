import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { equivalence } from "../../../src/learning/trend/equivalence.js";
import { linearRegression } from "../../../src/math/linear-regression.js";
import { studentQuantile } from "../../../src/math/student-quantile.js";

describe("equivalence against outside values", () => {
  // Source: SciPy 1.10.1 linregress and stats.t, the larger of two one-sided tails, as stored in the reference table learning/trend.json
  it("calls the last 15 sessions of a simulated learner flat within 0.01 a session", () => {
    const y = [0.624, 0.486, 0.696, 0.591, 0.642, 0.573, 0.751, 0.573, 0.64, 0.703, 0.637, 0.635, 0.553, 0.524, 0.572];
    const fit = linearRegression([y.map((_, i) => i)], y)!;
    expect(fit.coefficients[1]).toBeCloseTo(-0.001932142857142855, 15);
    expect(fit.standardErrors[1]).toBeCloseTo(0.004346023951717975, 15);
    expect(equivalence(fit.coefficients[1]!, fit.standardErrors[1]!, fit.df, 0.01)).toBeCloseTo(0.043101171810702624, 13);
  });

  // Source: closed form, Student's t with 1 degree of freedom is Cauchy's distribution: P(T > t) = 1/2 - atan(t)/pi
  it("is the tail beyond the nearer margin", () => {
    expect(equivalence(0.5, 1, 1, 2)).toBeCloseTo(0.5 - Math.atan(1.5) / Math.PI, 14);
    expect(equivalence(-3, 0.5, 1, 2)).toBeCloseTo(0.5 + Math.atan(2) / Math.PI, 14);
    expect(equivalence(2, 1, 1, 2)).toBeCloseTo(0.5, 14);
  });
});

const size = fc.integer({ min: 1, max: 4000 }).map((k) => k / 1000);

describe("equivalence properties", () => {
  test.prop([fc.integer({ min: -4000, max: 4000 }), size, fc.integer({ min: 1, max: 60 }), size])(
    "is below 5 % if and only if the 90 % interval lies inside the margins, whichever way the estimate points",
    (thousandths, error, df, margin) => {
      const estimate = thousandths / 1000;
      const p = equivalence(estimate, error, df, margin);
      const reach = Math.abs(estimate) + studentQuantile(0.95, df) * error;
      fc.pre(Math.abs(reach - margin) > 1e-9);
      expect(p < 0.05).toBe(reach < margin);
      expect(equivalence(-estimate, error, df, margin)).toBe(p);
      expect(p >= 0 && p <= 1).toBe(true);
    },
  );
});

describe("equivalence bad input", () => {
  it("takes an estimate without error at its word", () => {
    expect(equivalence(0.1, 0, 5, 0.2)).toBe(0);
    expect(equivalence(-0.3, 0, 5, 0.2)).toBe(1);
    expect(equivalence(0.2, 0, 5, 0.2)).toBe(1);
  });
});
