import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { normalQuantile } from "../../src/math/normal-quantile.js";
import { proportionEstimate } from "../../src/math/proportion-estimate.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";

const binomial = readReference("learning/binomial.json");

/** `k` of `n`, up to a million trials. */
const counts = fc.integer({ min: 1, max: 1e6 }).chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n)));
const intervalOf = (k: number, n: number, level?: number): readonly [number, number] => {
  const result = proportionEstimate(k, n, level);
  if (!result.ok || result.interval === undefined) throw new Error("an interval is expected");
  return result.interval;
};

describe("proportionEstimate against outside values", () => {
  // Source: Wilson 95 % intervals of hit shares, computed from the closed form with SciPy 1.10.1 stats.norm.ppf, three digits
  it.each([
    [17, 20, 0.64, 0.948],
    [51, 60, 0.739, 0.919],
  ])("is the Wilson interval of %d of %d", (k, n, low, high) => {
    expect(proportionEstimate(k, n)).toMatchObject({ ok: true, value: k / n, unit: "1", n, level: 0.95 });
    expect(Math.abs(intervalOf(k, n)[0] - low)).toBeLessThan(5.5e-4);
    expect(Math.abs(intervalOf(k, n)[1] - high)).toBeLessThan(5.5e-4);
  });

  // Source: statsmodels 0.13.5 proportion_confint(method="wilson"), computed; reference/learning/binomial.json
  it.skipIf(binomial === undefined)(`meets the table of Wilson intervals (else: ${SHARED_ABSENT})`, () => {
    const cases = binomial!.cases.filter(({ expected }) => expected.wilson !== undefined);
    expect(cases.length).toBe(12);
    for (const { name, input, expected } of cases) {
      const interval = intervalOf(input.k, input.n, input.confidence);
      for (const i of [0, 1] as const) expect(within(interval[i], expected.wilson[i], { rel: 1e-12, abs: 1e-15 }), name).toBe(true);
    }
  });

  // Source: Wilson's defining equation: at both ends p, |k/n - p| = z sqrt(p (1 - p)/n)
  test.prop([counts, fc.constantFrom(0.5, 0.8, 0.95, 0.99)])("ends where the observed share is z standard errors away", ([k, n], level) => {
    const z = normalQuantile(0.5 + level / 2);
    for (const p of intervalOf(k, n, level)) {
      const distance = (k / n - p) ** 2;
      expect(Math.abs(distance - (z * z * p * (1 - p)) / n)).toBeLessThan(1e-14);
    }
  });
});

describe("proportionEstimate properties", () => {
  test.prop([counts])("holds the share and stays within 0..1", ([k, n]) => {
    const [low, high] = intervalOf(k, n);
    expect(0 <= low && low <= k / n && k / n <= high && high <= 1).toBe(true);
  });
  test.prop([counts])("mirrors when hits and misses swap", ([k, n]) => {
    const [low, high] = intervalOf(k, n);
    const [otherLow, otherHigh] = intervalOf(n - k, n);
    expect(otherLow).toBeCloseTo(1 - high, 14);
    expect(otherHigh).toBeCloseTo(1 - low, 14);
  });
  test.prop([counts])("narrows with more trials of the same share", ([k, n]) => {
    const [low, high] = intervalOf(k, n);
    const [nextLow, nextHigh] = intervalOf(4 * k, 4 * n);
    expect(nextHigh - nextLow).toBeLessThan(high - low);
  });
  test.prop([counts])("is plain data", ([k, n]) => {
    const result = proportionEstimate(k, n);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(structuredClone(result)).toEqual(result);
  });
});

describe("proportionEstimate bad input", () => {
  it("says that there are too few when there are no trials", () =>
    expect(proportionEstimate(0, 0)).toEqual({ ok: false, why: "tooFew", unit: "1", n: 0 }));
  it("begins at 0 exactly without a hit and ends at 1 exactly without a miss", () => {
    expect(intervalOf(0, 25)[0]).toBe(0);
    expect(intervalOf(10, 10)[1]).toBe(1);
  });
});
