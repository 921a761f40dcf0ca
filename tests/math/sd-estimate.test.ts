import { describe, expect, it } from "vitest";
import { sdEstimate } from "../../src/math/sd-estimate.js";
import { readReference, SHARED_ABSENT } from "../shared.js";
import { band, coverage, keepsEstimateRules } from "./estimate-properties.js";

const times = [0.412, 0.388, 0.501, 0.447, 0.395, 0.46, 0.433, 0.522, 0.371, 0.418];
const nist = readReference("learning/nist-univariate.json");

describe("sdEstimate against outside values", () => {
  // Source: NumPy 1.24.2 std(ddof=1) and SciPy 1.10.1 stats.chi2.ppf, computed (invented times)
  it("carries the chi-squared interval", () => {
    const value = expect.closeTo(0.04878535754825531, 14);
    const interval95 = [expect.closeTo(0.03355628649552806, 13), expect.closeTo(0.08906304549795305, 13)];
    const interval90 = [expect.closeTo(0.035581453845509196, 13), expect.closeTo(0.08026155190434446, 13)];
    expect(sdEstimate(times, "s")).toEqual({ ok: true, value, unit: "s", n: 10, interval: interval95, level: 0.95 });
    expect(sdEstimate(times, "s", 0.9)).toEqual({ ok: true, value, unit: "s", n: 10, interval: interval90, level: 0.9 });
  });

  // Source: NIST StRD univariate summary statistics, certified figures of the set Michelso (reference/learning/nist-univariate.json)
  it.skipIf(nist === undefined)(`meets a certified deviation (else: ${SHARED_ABSENT})`, () => {
    const { input, expected } = nist!.cases.find(({ name }) => name === "Michelso")!;
    expect(sdEstimate(input.values, "Mm/s")).toMatchObject({ ok: true, value: expect.closeTo(expected.sd, 13), n: 100 });
  });

  // Source: definition of the interval: 2.576 binomial standard errors about 95 % hold 99 % of all simulations of 4000 normal samples
  it.each([2, 5, 20])("holds the true deviation of normal samples of %d as often as it says", (n) => {
    const held = coverage(sdEstimate, 2, (random) => random.normal(3, 2), n, 4000);
    expect(Math.abs(held - 0.95)).toBeLessThan(band(0.95, 4000));
  });
});

describe("sdEstimate properties", () => {
  keepsEstimateRules(sdEstimate);

  it("does not change with a clock offset", () => {
    const plain = [0.125, 0.25, 0.5, 0.75, 1, 0.375];
    const clock = plain.map((t) => t + 1.7e9);
    expect(sdEstimate(clock, "s")).toEqual(sdEstimate(plain, "s"));
  });
});

describe("sdEstimate bad input", () => {
  it("needs two values", () => expect(sdEstimate([3], "s")).toEqual({ ok: false, why: "tooFew", unit: "s", n: 1 }));
  it("needs values that differ", () => expect(sdEstimate([0.1, 0.1, 0.1], "s")).toEqual({ ok: false, why: "noSpread", unit: "s", n: 3 }));
});
