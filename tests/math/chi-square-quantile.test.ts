import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { chiSquareQuantile } from "../../src/math/chi-square-quantile.js";
import { gammaTails } from "../../src/math/gamma.js";
import { normalQuantile } from "../../src/math/normal-quantile.js";

describe("chiSquareQuantile against outside values", () => {
  // Source: SciPy 1.10.1 stats.chi2.ppf, computed
  it.each([
    [0.025, 1, 0.0009820691171752555],
    [0.975, 1, 5.023886187314888],
    [0.025, 4, 0.4844185570879299],
    [0.975, 4, 11.143286781877796],
    [0.05, 9, 3.325112843066815],
    [0.995, 11, 26.756848916469636],
    [0.5, 2.5, 1.8738477677808791],
    [0.025, 29, 16.04707169536489],
    [0.975, 29, 45.72228580417452],
    [1e-10, 6, 0.0016872211249694534],
    [0.975, 1000, 1089.5309127749135],
    [1e-10, 100, 34.399823909124784],
  ])("at %d with %d degrees of freedom", (p, df, expected) =>
    expect(Math.abs(chiSquareQuantile(p, df) / expected - 1)).toBeLessThan(2e-14),
  );

  // Source: printed tables of the chi-squared distribution (2.5 %, 95 %, 97.5 %), from memory
  it.each([
    [2, 0.0506, 5.991, 7.378],
    [3, 0.2158, 7.815, 9.348],
    [5, 0.8312, 11.07, 12.833],
    [10, 3.247, 18.307, 20.483],
    [20, 9.591, 31.41, 34.17],
    [30, 16.791, 43.773, 46.979],
  ])("is the printed row of %d degrees of freedom", (df, low, upper5, high) => {
    expect(Math.abs(chiSquareQuantile(0.025, df) - low)).toBeLessThan(5.5e-4);
    expect(Math.abs(chiSquareQuantile(0.95, df) - upper5)).toBeLessThan(5.5e-4);
    expect(Math.abs(chiSquareQuantile(0.975, df) - high)).toBeLessThan(5.5e-4);
  });

  // Source: closed forms: -2 log(1 - p) for two degrees, the squared normal deviate of (1 + p)/2 for one (textbook)
  test.prop([fc.double({ min: 1e-12, max: 0.999, noNaN: true })])("is the closed form for one and two degrees of freedom", (p) => {
    expect(Math.abs(chiSquareQuantile(p, 2) / (-2 * Math.log1p(-p)) - 1)).toBeLessThan(1e-13);
    // the deviate of a small p itself has lost the digits that (1 + p)/2 cannot hold
    if (p > 1e-3) expect(Math.abs(chiSquareQuantile(p, 1) / normalQuantile((1 + p) / 2) ** 2 - 1)).toBeLessThan(1e-12);
  });

  // Source: Cornish-Fisher expansion with skewness sqrt(8/df) and excess 12/df (recalled); the next term is below 1e-8 of the value here.
  // (SciPy 1.10.1 chi2.ppf is off by 1.4e-7 at this point.)
  it("holds for very many degrees of freedom", () => {
    const df = 1e7;
    const z = normalQuantile(1e-10);
    const skewness = Math.sqrt(8 / df);
    const standard = z + (skewness * (z * z - 1)) / 6 + ((12 / df) * (z ** 3 - 3 * z)) / 24 - (skewness ** 2 * (2 * z ** 3 - 5 * z)) / 36;
    expect(Math.abs(chiSquareQuantile(1e-10, df) / (df + Math.sqrt(2 * df) * standard) - 1)).toBeLessThan(1e-11);
  });
});

describe("chiSquareQuantile properties", () => {
  const p = fc.double({ min: 1e-9, max: 0.999999, noNaN: true });
  const df = fc.double({ min: 0.5, max: 5000, noNaN: true });

  test.prop([p, df])("undoes the distribution function", (below, n) => {
    const { lower, upper } = gammaTails(n / 2, chiSquareQuantile(below, n) / 2);
    expect(Math.abs(lower - below)).toBeLessThan(1e-12 * below + 1e-15);
    expect(Math.abs(upper - (1 - below))).toBeLessThan(1e-12 * (1 - below) + 1e-15);
  });

  test.prop([p, df])("rises with p and with the degrees of freedom", (below, n) => {
    const value = chiSquareQuantile(below, n);
    expect(chiSquareQuantile(below * 0.999, n)).toBeLessThan(value);
    expect(chiSquareQuantile(below, n * 1.01)).toBeGreaterThan(value);
  });
});

describe("chiSquareQuantile at the edges", () => {
  it("is 0 at 0 and infinite at 1", () => {
    expect(chiSquareQuantile(0, 3)).toBe(0);
    expect(chiSquareQuantile(1, 3)).toBe(Number.POSITIVE_INFINITY);
  });
  it("has no value outside 0..1", () =>
    expect([-0.1, 1.1, Number.NaN].map((p) => chiSquareQuantile(p, 3))).toEqual([Number.NaN, Number.NaN, Number.NaN]));
});
