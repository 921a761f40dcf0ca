import { describe, expect, it } from "vitest";
import { hotelling, hotellingCritical } from "../../src/math/hotelling.js";
import { studentQuantile } from "../../src/math/student-quantile.js";

describe("hotelling against outside values", () => {
  // Source: statsmodels 0.15.0 stats.multivariate.test_mvmean on rows (0.1 i, 0.01 i^2 + (i mod 3), sin i), i = 0..11, about (0.5, 1, 0); computed
  it("is the test of statsmodels for three variables", () => {
    const column = (f: (i: number) => number) => Float64Array.from({ length: 12 }, (_, i) => f(i));
    const test = hotelling([column((i) => 0.1 * i), column((i) => 0.01 * i * i + (i % 3)), column(Math.sin)], [0.5, 1, 0])!;
    expect(test.t2).toBeCloseTo(2.2912584018328026, 11);
    expect(test.p).toBeCloseTo(0.6167035142453252, 11);
    expect(test.df).toEqual([3, 9]);
  });
  // Source: closed form. With one variable T2 is the square of Student's t: mean 2.5, SD sqrt(5/3), n = 4, about 1
  it("is Student's test for one variable", () => {
    expect(hotelling([Float64Array.of(1, 2, 3, 4)], [1])!.t2).toBeCloseTo((1.5 * 1.5 * 4) / (5 / 3), 12);
    expect(hotellingCritical(0.95, 1, 9)).toBeCloseTo(studentQuantile(0.975, 8) ** 2, 9);
  });
});

describe("hotelling at the edges", () => {
  const row = Float64Array.of(1, 4, 2, 8, 5);
  it("is not given for too few rows, constant columns and columns that follow from others", () => {
    expect(
      hotelling([row, row.map((v) => v * v), row.map((v) => v ** 3), row.map((v) => v ** 4), row.map(Math.sin)], [0, 0, 0, 0, 0]),
    ).toBeUndefined();
    expect(hotelling([row, row.map(() => 3)], [0, 0])).toBeUndefined();
    expect(hotelling([row, row.map((v) => 0.1 * v + 0.3)], [0, 0])).toBeUndefined();
    expect(hotelling([row.map((v) => 1e9 + v / 10), row.map((v) => 1e9 - v / 30)], [0, 0])).toBeUndefined();
  });
  it("stands columns of very unlike sizes", () => {
    const other = Float64Array.of(3, 1, 4, 1, 5);
    const test = hotelling([row, other], [0, 0])!;
    expect(hotelling([row.map((v) => v * 2 ** 600), other.map((v) => v * 2 ** -600)], [0, 0])!.t2).toBeCloseTo(test.t2, 9);
  });
});
