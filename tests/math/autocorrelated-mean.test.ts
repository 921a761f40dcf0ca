import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { autocorrelatedMean } from "../../src/math/autocorrelated-mean.js";

describe("autocorrelatedMean against outside values", () => {
  // Source: traces of the matrices themselves (NumPy 1.24.2): R = r^|i - j|, A = I - 1/n
  it.each([
    [5, 0.3, 0.322568, 3.38716, 3.674439568052114, -0.165368],
    [10, 0.6, 0.32545349632, 6.7454650368, 5.343794278768139, 2.31698823168],
    [7, -0.4, 0.069568, 6.513024, 4.752371931228599, -2.752128],
    [200, 0.9, 0.09050000000317479, 181.899999999365, 21.68440140334613, 161.0094999992913],
  ])("of %d values with r = %d", (n, r, variance, squares, df, products) => {
    const found = autocorrelatedMean(n, r);
    expect(found.variance).toBeCloseTo(variance, 12);
    expect(found.squares).toBeCloseTo(squares, 9);
    expect(found.df).toBeCloseTo(df, 9);
    expect(found.products).toBeCloseTo(products, 9);
  });
  // Source: textbook, independent values: variance 1/n, n - 1 degrees of freedom
  it("is the plain mean without autocorrelation", () => {
    const { variance, squares, df, products } = autocorrelatedMean(6, 0);
    expect([variance, squares, df, products]).toEqual([1 / 6, 5, expect.closeTo(5, 12), expect.closeTo(-5 / 6, 12)]);
  });
  // Source: n (1 - r)/(1 + r) for long series, textbook: 0.67, 0.43 and 0.25 n at r = 0.2, 0.4 and 0.6
  it.each([
    [0.2, 0.67],
    [0.4, 0.43],
    [0.6, 0.25],
  ])("is worth fewer independent values, r = %d", (r, share) =>
    expect(1 / autocorrelatedMean(1e6, r).variance / 1e6).toBeCloseTo(share, 2),
  );
});

describe("autocorrelatedMean properties", () => {
  test.prop([fc.integer({ min: 2, max: 60 }), fc.integer({ min: 0, max: 90 })])(
    "is worth less the more alike neighbours are",
    (n, percent) => {
      const [one, other] = [autocorrelatedMean(n, percent / 100), autocorrelatedMean(n, percent / 100 + 0.05)];
      expect(other.variance).toBeGreaterThan(one.variance);
      expect(other.squares).toBeLessThan(one.squares);
      expect(other.df).toBeLessThan(one.df + 1e-9 * n);
    },
  );
});
