import { test } from "@fast-check/vitest";
import { median } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { medianEstimate } from "../../src/math/median-estimate.js";
import { band, coverage, keepsEstimateRules, near, values } from "./estimate-properties.js";

/** 1..n in a stirred order: each value is its own rank. */
const ranks = (n: number): number[] => Array.from({ length: n }, (_, i) => 1 + ((i * 7919) % n));

describe("medianEstimate against outside values", () => {
  // Source: SciPy 1.10.1 stats.binom.cdf with share 1/2, computed: the largest rank that covers with 95 %, and what it covers
  it.each([
    [6, 1, 0.96875],
    [7, 1, 0.984375],
    [10, 2, 0.978515625],
    [15, 4, 0.96484375],
    [20, 6, 0.9586105346679688],
    [30, 10, 0.9572260547429323],
    [50, 18, 0.9671608624357315],
    [101, 41, 0.9539559330706572],
    [1000, 469, 0.9537088026395019],
    [5001, 2431, 0.9522736955323166],
  ])("takes the ranks of the binomial distribution for %d values", (n, rank, level) => {
    expect(medianEstimate(ranks(n), "s")).toEqual({
      ok: true,
      value: (n + 1) / 2,
      unit: "s",
      n,
      interval: [rank, n + 1 - rank],
      level: expect.closeTo(level, 11),
    });
  });

  // Source: simple-statistics 7.12.1 median
  test.prop([values(1)])("is the median of simple-statistics", (list) => {
    const result = medianEstimate(list, "s");
    expect(result.ok && near(result.value, median(list), 1000)).toBe(true);
  });

  // Source: definition of the level attained, exact for every continuous distribution; here a strongly skewed one with median log 2
  it.each([6, 11, 30])("holds the true median of skewed samples of %d as often as it says", (n) => {
    const stated = medianEstimate(ranks(n), "s");
    const level = stated.ok ? stated.level! : Number.NaN;
    const held = coverage(medianEstimate, Math.LN2, (random) => random.exponential(1), n, 4000);
    expect(Math.abs(held - level)).toBeLessThan(band(level, 4000));
  });
});

describe("medianEstimate properties", () => {
  keepsEstimateRules(medianEstimate);

  test.prop([values(6)])("attains at least the level asked for, between two of its values", (list) => {
    const result = medianEstimate(list, "s");
    if (!result.ok || result.interval === undefined) throw new Error("six values suffice");
    expect(result.level).toBeGreaterThanOrEqual(0.95);
    for (const end of result.interval) expect(list.map((v) => v + 0)).toContain(end);
  });

  it("keeps clock times to the digit", () => {
    const clock = [0.125, 0.25, 0.5, 0.75, 1, 0.375].map((t) => t + 1.7e9);
    expect(medianEstimate(clock, "s")).toMatchObject({ value: 1.7e9 + 0.4375, interval: [1.7e9 + 0.125, 1.7e9 + 1] });
  });
});

describe("medianEstimate bad input", () => {
  it("has a value but no interval below six values", () => {
    expect(medianEstimate([5], "s")).toEqual({ ok: true, value: 5, unit: "s", n: 1 });
    expect(medianEstimate([5, 1, 2, 4, 3], "s")).toEqual({ ok: true, value: 3, unit: "s", n: 5 });
  });
  it("has an interval from five values on at 90 %", () =>
    expect(medianEstimate([5, 1, 2, 4, 3], "s", 0.9)).toMatchObject({ interval: [1, 5], level: 0.9375 }));
});
