import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { type AnisotropyTest, anisotropyTest } from "../../src/endpoints/anisotropy-test.js";
import type { Endpoints } from "../../src/endpoints/types.js";
import { createRandom } from "../../src/math/random.js";
import { band } from "../math/estimate-properties.js";
import { DRAWS, drawEndpoints, endpointsArb, endpointsOf, mapped, turn } from "./scatter-draws.js";

type Given = Extract<AnisotropyTest, { ok: true }>;

function given(endpoints: Endpoints, options = {}): Given {
  const result = anisotropyTest(endpoints, options);
  if (!result.ok) throw new Error(`not given: ${result.why}`);
  return result;
}

const TWELVE: Endpoints = {
  x: Float64Array.of(6.2, -3.1, 9.4, 2.7, -7.8, 12.3, 4.4, -1.6, 8.9, 0.3, 5.1, -4.7),
  y: Float64Array.of(1.4, -2.2, 3.9, 0.8, -1.9, 2.6, -3.3, 0.1, 4.2, -0.7, -2.8, 1.1),
};

describe("anisotropyTest against outside values", () => {
  const { anyDirection, axes } = given(TWELVE, { unit: "mm" });

  // Source: statsmodels 0.15.0 stats.multivariate.test_cov_spherical (W from its statistic) and NumPy 2.4.6 linalg.eigh, computed.
  // Its chi-squared p-value is exact for two variables, as W^((n - 2)/2) is.
  it("gives Mauchly's W and its p-value", () => {
    expect(anyDirection.mauchly.w).toBeCloseTo(0.33907426662714313, 12);
    expect(anyDirection.mauchly.p).toBeCloseTo(0.004482023770837044, 12);
    expect(anyDirection.aspect).toBeCloseTo(3.113465188716936, 11);
    expect(anyDirection.angle).toBeCloseTo(14.35684843323375, 9);
  });
  // Source: statsmodels 0.15.0 test_mvmean on the columns dx^2 - dy^2 and 2 dx dy about the mean, computed
  it("tests the squared deviations as Hotelling's test does", () => {
    expect(anyDirection.p).toBeCloseTo(0.06292321644997495, 12);
    expect(anyDirection.verdict).toBe("notShown");
  });
  // Source: SciPy 1.17.1 stats.pearsonr(x + y, x - y); interval: the ratios l at which pearsonr(x/l + y, x/l - y) has p = 0.05, by brentq
  it("gives the test of Pitman and Morgan with its interval", () => {
    expect(axes.pitmanMorgan.correlation).toBeCloseTo(0.7745241764396695, 12);
    expect(axes.pitmanMorgan.p).toBeCloseTo(0.0030986562978843808, 12);
    expect(axes.pitmanMorgan.df).toBe(10);
    expect(axes.pitmanMorgan.interval[0]).toBeCloseTo(1.401034581939049, 10);
    expect(axes.pitmanMorgan.interval[1]).toBeCloseTo(4.260221306316156, 10);
  });
  // Source: leave-one-out of log(SDx/SDy), by NumPy 2.4.6 with one endpoint deleted after the other, and SciPy 1.17.1 stats.t, computed
  it("gives the jackknife of the ratio", () => {
    expect(axes.ratio).toEqual({
      ok: true,
      value: expect.closeTo(2.4430958591227006, 12),
      unit: "1",
      n: 12,
      interval: [expect.closeTo(1.473494790073306, 11), expect.closeTo(4.050721737920459, 11)],
      level: 0.95,
    });
    expect(axes.p).toBeCloseTo(0.002526731387350206, 12);
    expect(axes.verdict).toBe("xLarger");
  });
  // Source: closed form. W of round normal scatter is distributed as u^(2/(n - 2)), u uniform: 10 % of the p-values lie below 0.1. Binomial 99 % band.
  it("is exact for round normal scatter: Mauchly and Pitman-Morgan", () => {
    const random = createRandom(5);
    let sphere = 0;
    let equal = 0;
    for (let run = 0; run < 2000; run++) {
      // a correlation does not matter to the second question
      const round = drawEndpoints(random, 9, DRAWS.normal);
      if (given(round).anyDirection.mauchly.p < 0.1) sphere++;
      if (given(mapped(round, [1, 0.5, 0.5, 1])).axes.pitmanMorgan.p < 0.1) equal++;
    }
    expect(Math.abs(sphere / 2000 - 0.1)).toBeLessThan(band(0.1, 2000));
    expect(Math.abs(equal / 2000 - 0.1)).toBeLessThan(band(0.1, 2000));
  });
  // Source: the meaning of a level, simulated; the bars are the figures of the page less the binomial 99 % band of 600 runs
  it.each([
    ["normal", 10, 0.93],
    ["normal", 50, 0.93],
    ["skewed", 10, 0.89],
    ["skewed", 50, 0.92],
    ["heavyTailed", 10, 0.9],
    ["heavyTailed", 50, 0.91],
  ] as const)(
    "keeps its promises for %s scatter of %d endpoints: the interval of the ratio, and no elongation where there is none",
    (kind, n, bar) => {
      const random = createRandom(17);
      let held = 0;
      let alarms = 0;
      for (let run = 0; run < 600; run++) {
        const { axes, anyDirection } = given(drawEndpoints(random, n, DRAWS[kind]));
        if (axes.ratio.ok && axes.ratio.interval![0] <= 1 && axes.ratio.interval![1] >= 1) held++;
        if (anyDirection.verdict === "elongated") alarms++;
      }
      expect(held / 600).toBeGreaterThan(bar - band(bar, 600));
      expect(alarms / 600).toBeLessThan(0.05 + band(0.05, 600));
    },
  );
});

describe("anisotropyTest properties", () => {
  const close = (a: number, b: number) => expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-6 * (Math.abs(b) + 1e-3));

  test.prop([endpointsArb(4), fc.integer({ min: -89, max: 89 })])(
    "finds the same elongation in any direction, and turns its angle with it",
    (set, degrees) => {
      const one = anisotropyTest(set);
      const other = anisotropyTest(mapped(set, turn(degrees), [7, -3]));
      // at the brink of a line rounding decides
      if (!one.ok || !other.ok || one.anyDirection.mauchly.w < 1e-9) return;
      close(other.anyDirection.mauchly.w, one.anyDirection.mauchly.w);
      close(other.anyDirection.aspect, one.anyDirection.aspect);
      if (one.anyDirection.angle === null || one.anyDirection.aspect < 1.001) return;
      const change = (other.anyDirection.angle! - one.anyDirection.angle - degrees + 720) % 180;
      expect(Math.min(change, 180 - change)).toBeLessThan(1e-3);
    },
  );
  test.prop([endpointsArb(4)])("turns the ratio over when the axes are exchanged", (set) => {
    const one = anisotropyTest(set);
    const other = anisotropyTest({ x: set.y, y: set.x });
    expect(other.ok).toBe(one.ok);
    if (!one.ok || !other.ok || !one.axes.ratio.ok || !other.axes.ratio.ok) return;
    close(other.axes.ratio.value * one.axes.ratio.value, 1);
    close(other.axes.pitmanMorgan.interval[0] * one.axes.pitmanMorgan.interval[1], 1);
    expect({ xLarger: "yLarger", yLarger: "xLarger", notShown: "notShown" }[one.axes.verdict]).toBe(other.axes.verdict);
  });
  test.prop([endpointsArb(4)])("scales with the unit: SDs by it, all else not at all", (set) => {
    const one = anisotropyTest(set);
    const other = anisotropyTest(mapped(set, [1024, 0, 0, 1024]));
    expect(other.ok).toBe(one.ok);
    if (!one.ok || !other.ok) return;
    close(other.anyDirection.mauchly.p, one.anyDirection.mauchly.p);
    if (one.axes.sdX.ok && other.axes.sdX.ok) close(other.axes.sdX.value / 1024, one.axes.sdX.value);
    expect(other.warnings).toEqual(one.warnings);
  });
  test.prop([endpointsArb(0)])("leaves its input alone and gives plain data, the value inside its interval", (set) => {
    const copy = structuredClone(set);
    const result = anisotropyTest(set, { unit: "mm" });
    expect(set).toEqual(copy);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(structuredClone(result)).toEqual(result);
    if (!result.ok || !result.axes.ratio.ok) return;
    const { ratio, pitmanMorgan } = result.axes;
    expect(pitmanMorgan.interval[0] <= ratio.value && ratio.value <= pitmanMorgan.interval[1]).toBe(true);
    if (ratio.interval) expect(ratio.interval[0] <= ratio.value && ratio.value <= ratio.interval[1]).toBe(true);
  });
  it("shows an elongation that is plain, in any direction", () => {
    const long = mapped(drawEndpoints(createRandom(2), 60, DRAWS.normal, [4, 1]), turn(45));
    expect(given(long)).toMatchObject({
      anyDirection: { verdict: "elongated", angle: expect.closeTo(45, -1) },
      axes: { verdict: "notShown" },
    });
  });
  it("warns of tails that the normal figures do not stand, and of few endpoints", () => {
    expect(given(drawEndpoints(createRandom(1), 400, DRAWS.heavyTailed)).warnings).toEqual(["notNormal"]);
    expect(given(drawEndpoints(createRandom(1), 400, DRAWS.normal)).warnings).toEqual([]);
    expect(given(TWELVE).warnings).toEqual(["few"]);
  });
  it("does not call for fewer than four endpoints, nor for endpoints on a line", () => {
    expect(
      anisotropyTest(
        endpointsOf([
          [1, 2],
          [3, 1],
          [0, 5],
        ]),
      ),
    ).toEqual({ ok: false, why: "tooFew", unit: "px", n: 3 });
    expect(anisotropyTest(endpointsOf([0.1, 0.7, 1.3, 2.9].map((t) => [t, 3 - 0.3 * t] as const)))).toMatchObject({
      ok: false,
      why: "noSpread",
    });
  });
  it("gives a ratio without interval when one endpoint alone makes the spread along an axis", () => {
    const result = given(
      endpointsOf([
        [1, 0],
        [2, 0],
        [4, 0],
        [3, 5],
      ]),
    );
    expect(result.axes).toMatchObject({ p: null, verdict: "notShown", ratio: { ok: true } });
    expect(result.axes.ratio).not.toHaveProperty("interval");
  });
  it("has no p-value for an elongation of corners, whose squares do not differ", () => {
    expect(
      given(
        endpointsOf([
          [1, 1],
          [-1, 1],
          [1, -1],
          [-1, -1],
        ]),
      ).anyDirection,
    ).toMatchObject({ p: null, verdict: "notShown", angle: null, aspect: 1 });
  });
});

describe("anisotropyTest bad input", () => {
  it("names the bad column and the bad level", () => {
    expect(() => anisotropyTest({ x: Float64Array.of(1, Number.POSITIVE_INFINITY), y: Float64Array.of(1, 2) })).toThrow(
      /anisotropyTest: endpoints\.x\[1\] must be finite, got Infinity/,
    );
    expect(() => anisotropyTest(TWELVE, { level: 0 })).toThrow(/anisotropyTest: options\.level must be above 0 and below 1, got 0/);
  });
});
