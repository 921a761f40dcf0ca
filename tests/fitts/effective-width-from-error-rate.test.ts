import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { effectiveWidth } from "../../src/fitts/effective-width.js";
import { effectiveWidthFromErrorRate } from "../../src/fitts/effective-width-from-error-rate.js";
import { normalQuantile } from "../../src/math/normal-quantile.js";

const widthArb = fc.double({ min: 0.1, max: 1000, noNaN: true });
const rateArb = fc.double({ min: 0, max: 0.999, noNaN: true });

describe("effectiveWidthFromErrorRate against outside values", () => {
  // Source: Fitts 1954, 1-oz table as reprinted in MacKenzie 1991 (read): errors in percent, printed effective widths in inches. The print rounds z, which moves widths by up to 0.0024.
  it.each([
    [0.25, 3.35, 0.243],
    [0.25, 2.78, 0.235],
    [0.5, 2.72, 0.468],
    [1, 0.44, 0.725],
    [1, 2.38, 0.914],
    [2, 0, 1.02],
    [2, 0.08, 1.233],
    [2, 0.87, 1.576],
  ])("prints Fitts' data as the thesis does: W = %d, %d %% errors", (width, percent, printed) => {
    expect(Math.abs(effectiveWidthFromErrorRate(width, percent / 100).value - printed)).toBeLessThan(0.0025);
  });

  // Source: SciPy 1.17.1 norm.ppf, computed: 2.066/z(1 - err/2), ten digits.
  it.each([
    [0.001, 0.6278630045],
    [0.01, 0.8020717821],
    [0.0388, 0.9998539852],
    [0.2, 1.612108366],
    [0.5, 3.063056183],
  ])("is that of SciPy at a share of %d", (rate, factor) => {
    expect(effectiveWidthFromErrorRate(1, rate).value).toBeCloseTo(factor, 9);
  });

  // Source: SciPy 1.17.1 stats.binomtest(...).proportion_ci(method="wilson") at 95 %, put through 2.066/norm.isf(err/2).
  it.each([
    [0.05, 200, 0.9365285075165033, 1.2169927621227465],
    [0, 20, 0.5089, 1.4743479852405543],
    [0.05, 20, 0.7895790609311306, 1.7438832141324518],
    [0.3, 10, 1.2846656638796756, 3.9748126574609004],
  ])("carries the Wilson interval of %d in %d trials", (rate, trials, low, high) => {
    const { interval } = effectiveWidthFromErrorRate(40, rate, { trials });
    expect(interval![0]).toBeCloseTo(40 * low, 9);
    expect(interval![1]).toBeCloseTo(40 * high, 9);
  });

  // Source: the floor of the throughput literature (Soukoreff and MacKenzie 2004, recalled): 0.5089 up to 0.0049 %.
  it("does not go below the floor that no errors count as", () => {
    expect(effectiveWidthFromErrorRate(100, 0)).toEqual({ value: 50.89, floored: true, interval: null, level: 0.95 });
    expect(effectiveWidthFromErrorRate(100, 0.000049)).toMatchObject({ value: 50.89, floored: true });
    expect(effectiveWidthFromErrorRate(100, 0.0001).floored).toBe(false);
  });
});

describe("effectiveWidthFromErrorRate properties", () => {
  test.prop([widthArb, rateArb, rateArb])("never falls as errors grow", (width, one, other) => {
    const [few, many] = [Math.min(one, other), Math.max(one, other)].map((rate) => effectiveWidthFromErrorRate(width, rate).value);
    expect(few).toBeLessThanOrEqual(many!);
  });

  test.prop([widthArb, rateArb, fc.integer({ min: 1, max: 500 }), fc.double({ min: 0.5, max: 0.99, noNaN: true })])(
    "lies within its interval, scales with the width and survives JSON",
    (width, rate, trials, level) => {
      const result = effectiveWidthFromErrorRate(width, rate, { trials, level });
      expect(result.interval![0]).toBeLessThanOrEqual(result.value * (1 + 1e-9));
      expect(result.interval![1]).toBeGreaterThanOrEqual(result.value * (1 - 1e-9));
      expect(effectiveWidthFromErrorRate(3 * width, rate).value / result.value).toBeCloseTo(3, 9);
      expect(JSON.parse(JSON.stringify(result))).toEqual(result);
      expect(structuredClone(result)).toEqual(result);
    },
  );

  it("narrows with more trials and widens with the level", () => {
    const size = (options: { trials: number; level?: number }): number => {
      const [low, high] = effectiveWidthFromErrorRate(40, 0.05, options).interval!;
      return high - low;
    };
    expect(size({ trials: 400 })).toBeLessThan(size({ trials: 100 }));
    expect(size({ trials: 100, level: 0.99 })).toBeGreaterThan(size({ trials: 100, level: 0.9 }));
  });

  it("agrees with the width from endpoints where these are normal and centred, and is 42 % above it with a bias of a quarter", () => {
    // quantiles of a normal distribution with SD 10 stand for a large sample
    const normal = Float64Array.from({ length: 20000 }, (_, i) => 10 * normalQuantile((i + 0.5) / 20000));
    const ratio = (shift: number): number => {
      const along = normal.map((v) => v + shift);
      const misses = along.filter((v) => Math.abs(v) > 20).length / along.length;
      const spread = effectiveWidth(along);
      return effectiveWidthFromErrorRate(40, misses).value / (spread.ok ? spread.value : 0);
    };
    expect(ratio(0)).toBeCloseTo(1, 2);
    expect(ratio(10)).toBeCloseTo(1.42, 2);
  });
});

describe("effectiveWidthFromErrorRate bad input", () => {
  it("refuses an error rate of 1 and beyond, and percent taken for shares", () => {
    expect(() => effectiveWidthFromErrorRate(40, 1)).toThrow(
      new RangeError("effectiveWidthFromErrorRate: errorRate must be below 1, got 1"),
    );
    expect(() => effectiveWidthFromErrorRate(40, 5)).toThrow(/errorRate must be below 1, got 5/);
    expect(() => effectiveWidthFromErrorRate(40, -0.1)).toThrow(/errorRate must be finite and at least 0, got -0\.1/);
    expect(() => effectiveWidthFromErrorRate(40, Number.NaN)).toThrow(/errorRate must be finite and at least 0, got NaN/);
  });
  it("names the other bad arguments", () => {
    expect(() => effectiveWidthFromErrorRate(0, 0.1)).toThrow(/width must be finite and above 0, got 0/);
    expect(() => effectiveWidthFromErrorRate(40, 0.1, { trials: 0 })).toThrow(/options\.trials must be a whole number .*at least 1, got 0/);
    expect(() => effectiveWidthFromErrorRate(40, 0.1, { level: 1 })).toThrow(/options\.level must be above 0 and below 1, got 1/);
    expect(() => effectiveWidthFromErrorRate("40" as never, 0.1)).toThrow(TypeError);
  });
  it("stays finite where rounding would make the upper end of the interval all errors", () => {
    const { interval } = effectiveWidthFromErrorRate(1, 1 - 2 ** -53, { trials: 1e9 });
    expect(interval!.every(Number.isFinite)).toBe(true);
  });
});
