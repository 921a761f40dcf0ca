import { fc, test } from "@fast-check/vitest";
import { mean as meanOf, sampleStandardDeviation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { meanAndSd } from "../../src/math/mean-and-sd.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";
import { near, values } from "./estimate-properties.js";

const nist = readReference("learning/nist-univariate.json");

/** What the data themselves allow: written in doubles, the two hardest sets have another deviation than the decimal numbers certified. */
const ALLOWED: Record<string, number> = { NumAcc3: 1e-9, NumAcc4: 1e-8 };

describe("meanAndSd against outside values", () => {
  // Source: NIST StRD univariate summary statistics, certified figures (reference/learning/nist-univariate.json)
  it.skipIf(nist === undefined)(`meets the certified figures (else: ${SHARED_ABSENT})`, () => {
    expect(nist!.cases.length).toBe(9);
    for (const { name, input, expected } of nist!.cases) {
      const { mean, sd } = meanAndSd(input.values ?? Array.from(input.digits as string, Number));
      expect(within(mean, expected.mean, { rel: 1e-14, abs: 0 }), name).toBe(true);
      expect(within(sd, expected.sd, { rel: ALLOWED[name] ?? 1e-12, abs: 0 }), name).toBe(true);
    }
  });

  // Source: NumPy 1.24.2 mean and std(ddof=1) of the offsets alone, computed: 0.5 and 0.32596012026013244
  it("loses nothing to clock times", () => {
    const { mean, sd } = meanAndSd([0.125, 0.25, 0.5, 0.75, 1, 0.375].map((t) => 1.7e9 + t));
    expect(mean).toBe(1.7e9 + 0.5);
    expect(sd).toBeCloseTo(0.32596012026013244, 15);
  });

  // Source: closed form, k values a and one 0 have the mean a k/(k + 1); a plain running sum of a million misses it by 1e-11
  it("does not drift over a million values", () => {
    const { mean } = meanAndSd(new Float64Array(1e6).fill(0.1, 1));
    expect(Math.abs(mean / 0.0999999 - 1)).toBeLessThan(1e-15);
  });

  // Source: simple-statistics 7.12.1 mean and sampleStandardDeviation
  test.prop([values(2)])("is that of simple-statistics", (list) => {
    const { mean, sd } = meanAndSd(list);
    expect(near(mean, meanOf(list), 1000)).toBe(true);
    expect(near(sd, sampleStandardDeviation(list), 1000)).toBe(true);
  });
});

describe("meanAndSd properties", () => {
  const anyValue = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e300, max: 1e300 });
  test.prop([anyValue, fc.integer({ min: 1, max: 50 })])("finds no spread among equal values, and their value as the mean", (value, n) => {
    expect(meanAndSd(new Array(n).fill(value))).toEqual({ mean: value + 0, sd: 0 });
  });

  test.prop([values(2)])("finds a spread when two values differ", (list) => {
    expect(meanAndSd(list).sd > 0).toBe(new Set(list).size > 1);
  });

  // the shift is a power of two far above the values, kept in 32nds: no digit is lost by adding it
  test.prop([fc.array(fc.integer({ min: -1e5, max: 1e5 }), { minLength: 2, maxLength: 30 })])(
    "does not change its deviation with a shift",
    (list) => {
      const plain = list.map((v) => v / 32);
      expect(meanAndSd(plain.map((v) => v + 2 ** 31)).sd).toBe(meanAndSd(plain).sd);
    },
  );

  test.prop([values(2)])("leaves its input alone", (list) => {
    expect(() => meanAndSd(Object.freeze(list))).not.toThrow();
  });
});

describe("meanAndSd at the edges", () => {
  it("has no figures for an empty list and no spread for one value", () => {
    expect(meanAndSd([])).toEqual({ mean: Number.NaN, sd: Number.NaN });
    expect(meanAndSd([3])).toEqual({ mean: 3, sd: 0 });
  });
  it("neither overflows nor vanishes", () => {
    expect(meanAndSd([-1e200, 1e200]).sd).toBeCloseTo(Math.SQRT2 * 1e200, -190);
    expect(meanAndSd([-1e-200, 1e-200]).sd / 1e-200).toBeCloseTo(Math.SQRT2, 14);
  });
});
