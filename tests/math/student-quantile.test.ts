import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { normalQuantile } from "../../src/math/normal-quantile.js";
import { studentQuantile } from "../../src/math/student-quantile.js";

describe("studentQuantile against outside values", () => {
  // Source: SciPy 1.10.1 special.betaincinv of t^2/(df + t^2), computed (stats.t.ppf of that version is off by up to 5e-9, at 0.05 and 30
  // for one)
  it.each([
    [0.025, 2, -4.302652729749464],
    [0.025, 4, -2.7764451051977943],
    [0.05, 9, -1.8331129326562374],
    [0.005, 11, -3.1058065155392813],
    [0.1, 2.5, -1.7302509288071763],
    [0.05, 30, -1.6972608865939587],
    [0.025, 29, -2.0452296421327034],
    [0.4, 7, -0.2631668613520227],
    [0.025, 120, -1.9799304050824347],
    [0.0005, 15, -4.072765195903792],
  ])("at %d with %d degrees of freedom", (p, df, expected) => expect(Math.abs(studentQuantile(p, df) / expected - 1)).toBeLessThan(3e-14));

  // Source: printed tables of Student's distribution (two-sided 5 %, one-sided 5 % and two-sided 1 %), from memory
  it.each([
    [1, 12.706, 6.314, 63.657],
    [2, 4.303, 2.92, 9.925],
    [3, 3.182, 2.353, 5.841],
    [5, 2.571, 2.015, 4.032],
    [10, 2.228, 1.812, 3.169],
    [20, 2.086, 1.725, 2.845],
    [30, 2.042, 1.697, 2.75],
    [60, 2.0, 1.671, 2.66],
    [120, 1.98, 1.658, 2.617],
  ])("is the printed row of %d degrees of freedom", (df, twoSided5, oneSided5, twoSided1) => {
    expect(Math.abs(studentQuantile(0.975, df) - twoSided5)).toBeLessThan(5.5e-4);
    expect(Math.abs(studentQuantile(0.95, df) - oneSided5)).toBeLessThan(5.5e-4);
    expect(Math.abs(studentQuantile(0.995, df) - twoSided1)).toBeLessThan(5.5e-4);
  });

  // Source: closed forms for one degree, -1/tan(pi p), and two, (2p - 1)/sqrt(2p (1 - p)) (textbook)
  test.prop([fc.double({ min: 1e-12, max: 0.49, noNaN: true })])("is the closed form for one and two degrees of freedom", (p) => {
    expect(Math.abs(studentQuantile(p, 1) * Math.tan(Math.PI * p) + 1)).toBeLessThan(1e-13);
    expect(Math.abs(studentQuantile(p, 2) / ((2 * p - 1) / Math.sqrt(2 * p * (1 - p))) - 1)).toBeLessThan(1e-13);
  });

  // Source: the expansion about the normal deviate z, z + (z^3 + z)/(4 df) + (5z^5 + 16z^3 + 3z)/(96 df^2) + ... (Cornish and Fisher,
  // recalled); the next term begins with 3z^7/(384 df^3), 6e-15 at 1e5 degrees of freedom and 0.005
  it.each([1e5, 1e6, 1e8])("approaches the normal deviate at %d degrees of freedom", (df) => {
    for (const p of [0.005, 0.025, 0.1, 0.3, 0.45]) {
      const z = normalQuantile(p);
      const expected = z + (z ** 3 + z) / (4 * df) + (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * df * df);
      expect(Math.abs(studentQuantile(p, df) - expected)).toBeLessThan(3e-14);
    }
  });

  // Source: SciPy 1.10.1 stats.t.ppf, computed
  it("is that of SciPy for 1000 degrees of freedom", () => expect(studentQuantile(0.025, 1000)).toBeCloseTo(-1.9623390808264078, 13));
});

describe("studentQuantile properties", () => {
  const p = fc.double({ min: 1e-6, max: 0.4999, noNaN: true });
  const df = fc.double({ min: 0.5, max: 1e4, noNaN: true });

  test.prop([p, df])("mirrors at one half", (below, n) => {
    expect(studentQuantile(1 - below, n)).toBe(0 - studentQuantile(1 - (1 - below), n));
  });

  test.prop([p, p, df])("rises with p", (one, other, n) => {
    if (Math.abs(one - other) < 1e-9) return;
    expect(Math.sign(studentQuantile(one, n) - studentQuantile(other, n))).toBe(Math.sign(one - other));
  });

  test.prop([p, df])("comes closer to 0 with more degrees of freedom", (below, n) => {
    expect(studentQuantile(below, n * 1.1)).toBeGreaterThan(studentQuantile(below, n));
  });
});

describe("studentQuantile at the edges", () => {
  it("is infinite at 0 and 1, 0 at one half", () => {
    expect(studentQuantile(0, 3)).toBe(Number.NEGATIVE_INFINITY);
    expect(studentQuantile(1, 3)).toBe(Number.POSITIVE_INFINITY);
    expect(studentQuantile(0.5, 3)).toBe(0);
  });
  it("has no value outside 0..1", () =>
    expect([-0.1, 1.1, Number.NaN].map((p) => studentQuantile(p, 3))).toEqual([Number.NaN, Number.NaN, Number.NaN]));
});
