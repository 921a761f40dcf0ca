import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { mannKendall } from "../../../src/learning/trend/mann-kendall.js";
import { normalCdf } from "../../../src/math/normal.js";
import { NILE, orders, pointsArb, same } from "./series.js";

const column = (...values: number[]): Float64Array => Float64Array.from(values);

/** S, pair by pair. */
function plainS(x: ArrayLike<number>, y: ArrayLike<number>): number {
  let s = 0;
  for (let j = 0; j < y.length; j++) {
    for (let i = 0; i < j; i++) s += Math.sign(x[j]! - x[i]!) * Math.sign(y[j]! - y[i]!);
  }
  return s;
}

describe("mannKendall against outside values", () => {
  // Source: the Nile by a plain NumPy 1.24 program and SciPy 1.10.1 kendalltau, as stored in the reference table learning/trend.json
  it("has S, variance, z, p and tau-b of the Nile", () => {
    const years = Float64Array.from(NILE, (_, i) => 1871 + i);
    const result = mannKendall(years, Float64Array.from(NILE));
    expect(result.s).toBe(-1387);
    expect(result.variance).toBeCloseTo(112728.33333333333, 8);
    expect(result.z).toBeCloseTo(-4.128066522844101, 12);
    expect(result.p / 3.658262921664327e-5).toBeCloseTo(1, 11);
    expect(result.tau).toBeCloseTo(-0.2807413347246131, 14);
  });

  // Source: SciPy 1.17.1 stats.kendalltau(method="asymptotic"), whose p has no continuity correction: it fixes the variance with ties in
  // both lists
  it("has tau-b and the variance of SciPy with ties in both lists", () => {
    const x = column(1, 1, 1, 2, 2, 3, 4, 4, 5, 6, 7, 7, 7, 8, 9);
    const y = column(9.1, 8.4, 8.4, 7.9, 8.4, 7.2, 6.8, 7.9, 6.1, 6.1, 5.2, 5.9, 5.2, 4.8, 5.2);
    const { s, variance, tau } = mannKendall(x, y);
    expect(tau).toBeCloseTo(-0.8969072164948455, 14);
    expect((2 * normalCdf(-Math.abs(s) / Math.sqrt(variance))) / 1.0635919540195812e-5).toBeCloseTo(1, 11);
  });

  // Source: definition of the variance: the mean of S^2 over every order of the values, S having mean 0
  it.each([
    [
      [1, 2, 3, 4, 5, 6],
      [1, 2, 3, 4, 5, 6],
    ],
    [
      [1, 2, 3, 4, 5, 6],
      [3, 1, 1, 2, 2, 2],
    ],
    [
      [1, 1, 2, 2, 2, 7],
      [3, 1, 1, 4, 4, 4],
    ],
    [
      [1, 1, 1, 1, 1, 2],
      [0, 5, 5, 5, 5, 5],
    ],
    [
      [1, 2],
      [5, 3],
    ],
  ])("has the variance of all orders of %j, %j", (x, y) => {
    const all = orders(y).map((order) => plainS(x, order));
    const exact = all.reduce((sum, s) => sum + s * s, 0) / all.length;
    expect(mannKendall(Float64Array.from(x), Float64Array.from(y)).variance).toBeCloseTo(exact, 10);
  });

  test.prop([pointsArb(0)])("counts the pairs as a look at every pair does", ({ x, y }) => {
    const { s, variance } = mannKendall(x, y);
    if (variance > 0) expect(s).toBe(plainS(x, y));
    else expect([s, plainS(x, y)]).toEqual([0, expect.closeTo(0, 12)]);
  });
});

describe("mannKendall properties", () => {
  test.prop([pointsArb(2)])("changes sign with the values, and leaves its columns alone", ({ x, y }) => {
    const copies = [x.slice(), y.slice()];
    const up = mannKendall(x, y);
    const down = mannKendall(
      x,
      y.map((value) => -value),
    );
    expect(down.s + up.s).toBe(0);
    expect(down.z + up.z).toBe(0);
    expect([down.p, down.variance]).toEqual([up.p, up.variance]);
    expect(same(x, copies[0]!) && same(y, copies[1]!)).toBe(true);
  });

  test.prop([pointsArb(2), fc.integer({ min: 1, max: 9 })])("sees only the order of x and of y", ({ x, y }, k) => {
    const bent = mannKendall(
      x.map((value) => 1.7e9 + 3600 * value),
      y.map((value) => Math.exp(value / k)),
    );
    expect(bent).toEqual(mannKendall(x, y));
  });

  test.prop([pointsArb(0)])("gives probabilities, correlations and no other number", ({ x, y }) => {
    const result = mannKendall(x, y);
    expect(Object.values(result).every(Number.isFinite)).toBe(true);
    expect(result.p > 0 && result.p <= 1 && Math.abs(result.tau) <= 1 + 1e-12).toBe(true);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
  });
});

describe("mannKendall bad input", () => {
  const nothing = { s: 0, variance: 0, z: 0, p: 1, tau: 0 };
  it("sees no trend without values, with one, with one x or one y", () => {
    expect(mannKendall(column(), column())).toEqual(nothing);
    expect(mannKendall(column(1), column(2))).toEqual(nothing);
    expect(mannKendall(column(4, 4, 4), column(1, 2, 3))).toEqual(nothing);
    expect(mannKendall(column(1, 2, 3), column(0.1, 0.1, 0.1))).toEqual(nothing);
  });
});
