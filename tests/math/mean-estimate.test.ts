import { describe, expect, it } from "vitest";
import { meanEstimate } from "../../src/math/mean-estimate.js";
import { band, coverage, keepsEstimateRules } from "./estimate-properties.js";

const times = [0.412, 0.388, 0.501, 0.447, 0.395, 0.46, 0.433, 0.522, 0.371, 0.418];

describe("meanEstimate against outside values", () => {
  // Source: NumPy 1.24.2 mean, std(ddof=1) and SciPy 1.10.1 special.betaincinv for t, computed (invented times)
  it("carries the Student interval", () => {
    expect(meanEstimate(times, "s")).toEqual({
      ok: true,
      value: expect.closeTo(0.4347, 14),
      unit: "s",
      n: 10,
      interval: [expect.closeTo(0.3998010575676074, 13), expect.closeTo(0.46959894243239253, 13)],
      level: 0.95,
    });
  });

  // Source: definition of the interval: 2.576 binomial standard errors about 95 % hold 99 % of all simulations of 4000 normal samples
  it.each([2, 5, 20])("holds the true mean of normal samples of %d as often as it says", (n) => {
    const held = coverage(meanEstimate, 3, (random) => random.normal(3, 2), n, 4000);
    expect(Math.abs(held - 0.95)).toBeLessThan(band(0.95, 4000));
  });
  it("holds it as often as another level says", () => {
    const held = coverage(
      (v, unit) => meanEstimate(v, unit, 0.8),
      0,
      (random) => random.normal(),
      6,
      4000,
    );
    expect(Math.abs(held - 0.8)).toBeLessThan(band(0.8, 4000));
  });
});

describe("meanEstimate properties", () => {
  keepsEstimateRules(meanEstimate);

  it("moves with a clock offset and keeps its width", () => {
    const plain = [0.125, 0.25, 0.5, 0.75, 1, 0.375];
    const one = meanEstimate(plain, "s");
    const other = meanEstimate(
      plain.map((t) => t + 1.7e9),
      "s",
    );
    if (!one.ok || !other.ok) throw new Error("both must be ok");
    expect(other.value).toBe(one.value + 1.7e9);
    // clock times are stored to 2.4e-7 s
    expect(other.interval![1] - other.interval![0]).toBeCloseTo(one.interval![1] - one.interval![0], 6);
  });

  it("widens with the level", () => {
    const width = (level: number) => {
      const result = meanEstimate(times, "s", level);
      return result.ok ? result.interval![1] - result.interval![0] : Number.NaN;
    };
    expect(width(0.99)).toBeGreaterThan(width(0.95));
    expect(width(0.95)).toBeGreaterThan(width(0.5));
  });
});

describe("meanEstimate bad input", () => {
  it("needs two values", () => expect(meanEstimate([3], "s")).toEqual({ ok: false, why: "tooFew", unit: "s", n: 1 }));
  it("gives equal values an interval without width", () =>
    expect(meanEstimate([0.1, 0.1, 0.1], "s")).toEqual({ ok: true, value: 0.1, unit: "s", n: 3, interval: [0.1, 0.1], level: 0.95 }));
});
