import { describe, expect, it } from "vitest";
import { autocorrelatedMean } from "../../src/math/autocorrelated-mean.js";
import { lagOneAutocorrelation } from "../../src/math/lag-one-autocorrelation.js";
import { createRandom, type Random } from "../../src/math/random.js";
import { band } from "./estimate-properties.js";

function series(random: Random, n: number, r: number): number[] {
  let value = random.normal();
  return Array.from({ length: n }, () => {
    const now = value;
    value = r * value + Math.sqrt(1 - r * r) * random.normal();
    return now;
  });
}

describe("lagOneAutocorrelation against outside values", () => {
  // Source: definition: products of neighbours about the mean over the sum of squares, here 1 - 1 + 1 - 1 + 1 - 1 + 1 over 8; expected sums as autocorrelatedMean has them
  it("is the correlation whose expected sums have the ratio found", () => {
    const { r } = lagOneAutocorrelation([[14, 14, 12, 12, 14, 14, 12, 12]])!;
    const { products, squares } = autocorrelatedMean(8, r);
    expect(products / squares).toBeCloseTo(1 / 8, 10);
  });
  // Source: simulated autoregressions of known r: the median of the estimates, within three standard errors (sd of r about 1/sqrt(values))
  it.each([
    [7, 0],
    [7, 0.3],
    [10, 0.6],
    [40, 0.3],
  ])("finds the true correlation in the middle of its estimates, two series of %d, r = %d", (n, truth) => {
    const random = createRandom(11, n);
    const found = Array.from({ length: 800 }, () => lagOneAutocorrelation([series(random, n, truth), series(random, n, truth)])!.r).sort(
      (a, b) => a - b,
    );
    expect(Math.abs(found[400]! - truth)).toBeLessThan(0.06);
  });
  // Source: the meaning of a p-value, simulated with independent values; binomial 99 % band, and two points for the normal approximation
  it.each([7, 20])("calls independent values alike as often as it says, two series of %d", (n) => {
    const random = createRandom(12, n);
    let called = 0;
    for (let run = 0; run < 2000; run++) if (lagOneAutocorrelation([series(random, n, 0), series(random, n, 0)])!.p < 0.05) called++;
    expect(Math.abs(called / 2000 - 0.05)).toBeLessThan(band(0.05, 2000) + 0.02);
  });
});

describe("lagOneAutocorrelation properties", () => {
  it("does not depend on level and unit, nor on series too short to speak", () => {
    const plain = lagOneAutocorrelation([[3, 1, 4, 1, 5, 9]])!;
    const moved = lagOneAutocorrelation([[3, 1, 4, 1, 5, 9].map((v) => 8 * v + 1.7e9), [1, 2]])!;
    expect(moved.r).toBeCloseTo(plain.r, 9);
    expect(moved.p).toBeCloseTo(plain.p, 9);
  });
  it("ends at 0.95, where a drift looks the same", () => expect(lagOneAutocorrelation([[11, 12, 13, 14, 15]])!.r).toBe(0.95));
  it("says nothing of two values, or of equal ones", () => {
    expect(lagOneAutocorrelation([[1, 2]])).toBeUndefined();
    expect(lagOneAutocorrelation([[4, 4, 4, 4]])).toBeUndefined();
  });
});
