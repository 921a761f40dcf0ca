import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { fieller } from "../../src/math/fieller.js";
import { uncertainMean } from "../../src/math/welch.js";

/** Two means of equal share of the degrees of freedom, chosen so that Welch and Satterthwaite's come out as ten at a ratio of 2. */
function example(varianceAbove: number, varianceBelow: number) {
  const df = 10 * (0.36 ** 2 + 0.64 ** 2);
  return [
    { estimate: { value: 14, variance: varianceAbove, df }, numerator: 1, denominator: 0 },
    { estimate: { value: 7, variance: varianceBelow, df }, numerator: 0, denominator: 1 },
  ];
}

describe("fieller against outside values", () => {
  // Source: worked example printed in the notebook of DCSTATS (github.com/DCPROGS/DCSTATS): 14 (SD 3) over 7 (SD 2), df 10, t 1.812461: 1.051413 to 4.414296
  it("has the limits of a printed example", () => {
    const ratio = fieller(example(9, 4), 0.9)!;
    expect(ratio.value).toBe(2);
    expect(ratio.df).toBeCloseTo(10, 9);
    expect(ratio.interval).toEqual([expect.closeTo(1.051413, 6), expect.closeTo(4.414296, 6)]);
  });

  // Source: an online calculator's output printed in the same notebook: means 14 and 7, SD 3 and 2, six values each
  it.each([
    [0.9, 1.54, 2.64],
    [0.95, 1.46, 2.83],
    [0.99, 1.27, 3.36],
  ])("agrees with a calculator at level %d", (level, low, high) => {
    const [least, most] = fieller(example(9 / 6, 4 / 6), level)!.interval!;
    // two decimals printed
    expect(Math.abs(least - low)).toBeLessThan(0.0051);
    expect(Math.abs(most - high)).toBeLessThan(0.0051);
  });

  // Source: R 4.2.2: (mx - q my)^2 = t^2 (vx + q^2 vy) solved by uniroot, df after Satterthwaite at the ratio
  it("inverts Welch's test of two samples", () => {
    const above = uncertainMean([4.1, 3.8, 4.6, 4.4, 5.0, 3.9]);
    const below = uncertainMean([6.2, 7.1, 6.6, 5.8, 6.9]);
    const terms = [
      { estimate: above, numerator: 1, denominator: 0 },
      { estimate: below, numerator: 0, denominator: 1 },
    ];
    const ratio = fieller(terms, 0.95)!;
    expect(ratio.value).toBeCloseTo(0.659509202453988, 13);
    expect(ratio.df).toBeCloseTo(8.957110667262292, 11);
    expect(ratio.interval).toEqual([expect.closeTo(0.579377200740966, 11), expect.closeTo(0.748509811282154, 11)]);
  });
});

describe("fieller properties", () => {
  const value = fc.integer({ min: -1000, max: 1000 }).map((v) => v / 10);
  const variance = fc.integer({ min: 1, max: 1000 }).map((v) => v / 100);

  test.prop([value, value, value, variance, variance, variance])(
    "ends where the numerator less the ratio times the denominator is just compatible with 0",
    (a, b, c, va, vb, vc) => {
      const terms = [
        { estimate: { value: a, variance: va, df: 4 }, numerator: 1, denominator: 0 },
        { estimate: { value: b, variance: vb, df: 7 }, numerator: -1, denominator: -1 },
        { estimate: { value: c, variance: vc, df: 5 }, numerator: 0, denominator: 1 },
      ];
      const ratio = fieller(terms, 0.95);
      if (ratio?.interval === undefined) return;
      expect(ratio.interval[0] <= ratio.value && ratio.value <= ratio.interval[1]).toBe(true);
      // both ends leave the same statistic, which is Student's quantile
      const [low, high] = ratio.interval.map((end) => {
        const rest = terms.map(({ estimate, numerator, denominator }) => ({ ...estimate, factor: numerator - end * denominator }));
        const off = rest.reduce((sum, { value, factor }) => sum + factor * value, 0);
        return Math.abs(off) / Math.sqrt(rest.reduce((sum, { variance, factor }) => sum + factor * factor * variance, 0));
      }) as [number, number];
      // an interval that is all but unbounded has few digits
      if (ratio.interval[1] - ratio.interval[0] < 1e3) expect(Math.abs(low - high)).toBeLessThan(1e-6 * low);
    },
  );

  it("has no bounds when the denominator is not told from 0, and no value when it is 0", () => {
    expect(fieller(example(1, 49), 0.95)!.interval).toBeUndefined();
    const zero = { estimate: { value: 0, variance: 1, df: 3 }, numerator: 0, denominator: 1 };
    expect(fieller([example(1, 1)[0]!, zero], 0.95)).toBeUndefined();
  });

  it("shrinks to the ratio without any variance", () => expect(fieller(example(0, 0), 0.95)!.interval).toEqual([2, 2]));
});
