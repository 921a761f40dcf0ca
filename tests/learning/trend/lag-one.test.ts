import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { effectiveCount } from "../../../src/learning/trend/effective-count.js";
import { lagOne } from "../../../src/learning/trend/lag-one.js";
import { unbiasedLagOne } from "../../../src/learning/trend/unbiased-lag-one.js";
import { linearRegression } from "../../../src/math/linear-regression.js";
import { createRandom, type Random } from "../../../src/math/random.js";
import { same, valuesArb } from "./series.js";

/** A stationary first-order autoregressive series. */
function autoregressive(random: Random, n: number, rho: number): Float64Array {
  let level = random.normal();
  return Float64Array.from({ length: n }, () => {
    const value = level;
    level = rho * level + Math.sqrt(1 - rho * rho) * random.normal();
    return value;
  });
}

describe("lagOne against outside values", () => {
  // Source: NIST StRD univariate, certified values of NumAcc1 and Mavro
  it("has the certified autocorrelations", () => {
    expect(lagOne(Float64Array.of(10000001, 10000003, 10000002))).toBeCloseTo(-0.5, 15);
    const mavro = [
      2.0018, 2.0017, 2.0018, 2.0019, 2.0018, 2.0017, 2.0015, 2.0014, 2.0015, 2.0015, 2.0017, 2.0018, 2.0018, 2.0019, 2.0019, 2.0021, 2.002,
      2.0016, 2.0014, 2.0013, 2.0013, 2.0015, 2.0015, 2.0016, 2.0015, 2.0014, 2.0013, 2.0014, 2.0015, 2.0014, 2.0015, 2.0016, 2.0015,
      2.0016, 2.0019, 2.002, 2.002, 2.0021, 2.0022, 2.0023, 2.0024, 2.0025, 2.0027, 2.0026, 2.0026, 2.0026, 2.0027, 2.0026, 2.0025, 2.0024,
    ];
    expect(lagOne(Float64Array.from(mavro))).toBeCloseTo(0.937989183438248, 11);
  });
});

describe("unbiasedLagOne against outside values", () => {
  // Source: the truth of simulated first-order series; 3000 of 40 values, so that the mean is known to 0.003
  it.each([
    [0, 1],
    [0.3, 1],
    [0.6, 1],
    [0, 2],
    [0.3, 2],
    [0.6, 2],
  ])("finds %d on average after %d fitted numbers, which the plain figure does not", (rho, coefficients) => {
    const random = createRandom(20261125);
    let plain = 0;
    let corrected = 0;
    for (let k = 0; k < 3000; k++) {
      const y = autoregressive(random, 40, rho);
      const r = lagOne(coefficients === 1 ? y : Float64Array.from(linearRegression([Array.from(y.keys())], y)!.residuals))!;
      plain += r / 3000;
      corrected += unbiasedLagOne(r, 40, coefficients) / 3000;
    }
    // what is left is of the order of 1/n^2
    expect(Math.abs(corrected - rho)).toBeLessThan(0.02);
    expect(rho - plain).toBeGreaterThan(0.02);
  });
});

describe("effectiveCount against outside values", () => {
  // Source: textbook, variance of the mean of a first-order series: correlations of .2, .4, .6 leave .67, .43, .25 of the values
  it("is the share that correlation leaves", () => {
    expect([0.2, 0.4, 0.6].map((r) => effectiveCount(100, r))).toEqual([
      expect.closeTo(200 / 3, 10),
      expect.closeTo(300 / 7, 10),
      expect.closeTo(25, 10),
    ]);
  });

  // Source: simulated first-order series: the variance of their means, 4000 of 60 values, known to 2.3 %; the formula leaves out terms of
  // 1/n
  it("counts the values that fix a mean", () => {
    const random = createRandom(7);
    let squares = 0;
    for (let k = 0; k < 4000; k++) squares += (autoregressive(random, 60, 0.5).reduce((sum, v) => sum + v, 0) / 60) ** 2;
    expect(4000 / squares / effectiveCount(60, 0.5)).toBeGreaterThan(0.95);
    expect(4000 / squares / effectiveCount(60, 0.5)).toBeLessThan(1.1);
  });
});

describe("lagOne properties", () => {
  test.prop([valuesArb(2), fc.integer({ min: -20, max: 20 })])("does not change with unit, zero or direction of time", (values, power) => {
    const copy = values.slice();
    const r = lagOne(values);
    fc.pre(r !== undefined);
    expect(Math.abs(r!)).toBeLessThanOrEqual(1);
    expect(lagOne(values.map((value) => value * 2 ** power))).toBeCloseTo(r!, 12);
    expect(lagOne(values.slice().reverse())).toBeCloseTo(r!, 12);
    expect(same(values, copy)).toBe(true);
  });

  it("loses nothing to clock times", () => {
    const near = Float64Array.of(0.5, 0.25, 1.5, 1.75, 2, 2.25, 3.5, 3.25);
    expect(lagOne(near.map((value) => value + 1.7e9))).toBeCloseTo(lagOne(near)!, 12);
  });

  test.prop([fc.integer({ min: 1, max: 500 }), fc.integer({ min: -99, max: 99 })])("never counts more values than there are", (n, r) => {
    const count = effectiveCount(n, r / 100);
    expect(count >= 1 && count <= n).toBe(true);
  });
});

describe("lagOne bad input", () => {
  it("has no answer without spread", () => {
    expect(lagOne(new Float64Array(0))).toBeUndefined();
    expect(lagOne(Float64Array.of(3))).toBeUndefined();
    expect(lagOne(Float64Array.of(0.1, 0.1, 0.1))).toBeUndefined();
  });
  it("corrects nothing with too few values, and stays below 1", () => {
    expect(unbiasedLagOne(0.4, 5, 2)).toBe(0);
    expect(unbiasedLagOne(0.9, 12, 2)).toBe(0.99);
    expect(unbiasedLagOne(-0.99, 60, 1)).toBe(-0.99);
    expect(effectiveCount(0, 0.5)).toBe(0);
  });
});
