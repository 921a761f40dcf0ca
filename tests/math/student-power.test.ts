import { describe, expect, it } from "vitest";
import { shiftForPower, studentPower } from "../../src/math/student-power.js";

describe("studentPower against outside values", () => {
  // Source: SciPy 1.17.1 stats.nct, both tails, computed
  it.each([
    [2, 8, 0.05, 0.4210519380483821],
    [1.5, 3, 0.1, 0.320029065800897],
    [3, 500, 0.01, 0.6606418205324222],
    [12, 4, 0.001, 0.8895263481060175],
  ])("with shift %d, %d degrees of freedom and alpha %d", (shift, df, alpha, expected) =>
    expect(studentPower(shift, df, alpha)).toBeCloseTo(expected, 12),
  );
  // Source: the meaning of an error rate, exact: without a shift the test rejects at it
  it("is the error rate without a shift", () => expect(studentPower(0, 7, 0.05)).toBeCloseTo(0.05, 14));
  it("does not jump where the series gives way to the quadrature, nor end below certainty", () => {
    expect(studentPower(37 + 1e-7, 2, 0.0005) - studentPower(37 - 1e-7, 2, 0.0005)).toBeLessThan(1e-7);
    expect(studentPower(37 + 1e-7, 30, 1e-20) - studentPower(37 - 1e-7, 30, 1e-20)).toBeLessThan(1e-9);
    expect(studentPower(60, 20, 0.05)).toBeCloseTo(1, 14);
  });
});

describe("shiftForPower against outside values", () => {
  // Source: textbook tables of the t test for two groups (effect size found with power 0.8 at alpha 0.05: 2.02, 1.63, 1.32, 1.10 SD); digits by SciPy 1.17.1 stats.nct, solved
  it.each([
    [5, 2.0244393393845423],
    [7, 1.6317140515562245],
    [10, 1.3249473925792306],
    [14, 1.100080394045397],
  ])("for two groups of %d", (k, expected) => expect(shiftForPower(0.8, 2 * k - 2, 0.05) * Math.sqrt(2 / k)).toBeCloseTo(expected, 8));
  it.each([
    [0.8, 1, 0.0001],
    [0.99, 3, 0.01],
    [0.06, 5, 0.05],
    [0.8, 2, 0.4],
    [0.5, 1000, 0.05],
  ])("turns the power around: %d with %d degrees of freedom at %d", (power, df, alpha) =>
    expect(studentPower(shiftForPower(power, df, alpha), df, alpha)).toBeCloseTo(power, 10),
  );
});
