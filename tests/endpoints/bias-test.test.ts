import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { type BiasTest, biasTest } from "../../src/endpoints/bias-test.js";
import type { Endpoints } from "../../src/endpoints/types.js";
import { createRandom } from "../../src/math/random.js";
import { band } from "../math/estimate-properties.js";
import { DRAWS, drawEndpoints, endpointsArb, endpointsOf, mapped, turn } from "./scatter-draws.js";

type Given = Extract<BiasTest, { ok: true }>;

function given(endpoints: Endpoints, options = {}): Given {
  const result = biasTest(endpoints, options);
  if (!result.ok) throw new Error(`not given: ${result.why}`);
  return result;
}

const TWELVE: Endpoints = {
  x: Float64Array.of(6.2, -3.1, 9.4, 2.7, -7.8, 12.3, 4.4, -1.6, 8.9, 0.3, 5.1, -4.7),
  y: Float64Array.of(1.4, -2.2, 3.9, 0.8, -1.9, 2.6, -3.3, 0.1, 4.2, -0.7, -2.8, 1.1),
};

describe("biasTest against outside values", () => {
  const about0 = given(TWELVE, { unit: "mm" });

  // Source: statsmodels 0.15.0 stats.multivariate.test_mvmean, computed
  it.each([
    [[0, 0], 2.5737743489817344, 1.1698974313553336, 0.3495105583517764, "notShown"],
    [[5, -1], 10.497746070521206, 4.7717027593278205, 0.03507508903592803, "biased"],
  ] as const)("about %j is the test of statsmodels", (about, t2, f, p, verdict) => {
    const result = given(TWELVE, { about });
    expect(result.t2).toBeCloseTo(t2, 11);
    expect(result.f).toBeCloseTo(f, 11);
    expect(result.p).toBeCloseTo(p, 12);
    expect(result).toMatchObject({ df: [2, 10], verdict, warnings: ["few"] });
  });
  // Source: NumPy 2.4.6 linalg.eigh of the covariance and SciPy 1.17.1 stats.f.ppf, computed
  it("draws the region of the mean", () => {
    expect(about0.criticalT2).toBeCloseTo(9.02620623328688, 11);
    expect(about0.region.semiAxes[0]).toBeCloseTo(5.5085293, 7);
    expect(about0.region.semiAxes[1]).toBeCloseTo(1.76925996, 8);
    expect(about0.region.angle).toBeCloseTo(180 - 165.64315156676625, 9);
    expect(about0.distance).toBeCloseTo(2.6882589367676446, 12);
    expect(about0.direction).toBeCloseTo(5.692920164737153, 12);
  });
  // Source: SciPy 1.17.1 stats.ttest_1samp(...).confidence_interval, computed; simultaneous: mean +- sqrt(criticalT2 s^2/n), s^2 with n - 1
  // (Johnson and Wichern, recalled; NumPy, computed). statsmodels 0.15.0 confint_mvmean takes s^2 with n there and comes out narrower.
  it("gives the intervals per axis, each for itself and both together", () => {
    expect(about0.x).toMatchObject({
      ok: true,
      unit: "mm",
      n: 12,
      interval: [expect.closeTo(-1.2476857418115617, 10), expect.closeTo(6.59768574181156, 10)],
    });
    expect(about0.y).toMatchObject({ interval: [expect.closeTo(-1.3389542209313223, 10), expect.closeTo(1.8722875542646555, 10)] });
    expect(about0.simultaneous.x).toEqual([expect.closeTo(-2.679501303072666, 10), expect.closeTo(8.029501303072665, 10)]);
    expect(about0.simultaneous.y).toEqual([expect.closeTo(-1.9250202796635651, 10), expect.closeTo(2.4583536129968984, 10)]);
  });
  // Source: closed form. Normal scatter: the region holds the true mean with the probability named, whatever n and shape; binomial 99 % band of 1500 runs.
  it.each([4, 10, 50])("holds the true mean of normal scatter as often as it says, n = %d", (n) => {
    const random = createRandom(31);
    let held = 0;
    for (let run = 0; run < 1500; run++) {
      const set = mapped(drawEndpoints(random, n, DRAWS.normal, [3, 1], [2, -1]), [1, 0.4, 0, 1], [5, 5]);
      if (given(set, { about: [2 - 0.4 + 5, -1 + 5], level: 0.9 }).verdict === "notShown") held++;
    }
    expect(Math.abs(held / 1500 - 0.9)).toBeLessThan(band(0.9, 1500));
  });
});

describe("biasTest properties", () => {
  const whole = fc.integer({ min: -300, max: 300 });
  const close = (a: number, b: number, scale = 1) => expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-7 * (Math.abs(b) + scale));

  test.prop([endpointsArb(4), whole, whole])("moves with the endpoints and the point alike", (set, dx, dy) => {
    const one = biasTest(set);
    const other = biasTest(mapped(set, [1, 0, 0, 1], [dx, dy]), { about: [dx, dy] });
    expect(other.ok).toBe(one.ok);
    if (!one.ok || !other.ok) return;
    close(other.t2, one.t2);
    close(other.offset[0], one.offset[0]);
    close(other.region.semiAxes[1], one.region.semiAxes[1]);
  });
  test.prop([endpointsArb(4), fc.integer({ min: -360, max: 360 })])("turns with the endpoints", (set, degrees) => {
    const one = biasTest(set);
    const other = biasTest(mapped(set, turn(degrees)));
    if (!one.ok || !other.ok) return;
    close(other.t2, one.t2);
    close(other.distance, one.distance);
    close(other.region.semiAxes[0], one.region.semiAxes[0]);
    close(other.p, one.p);
  });
  test.prop([endpointsArb(4)])("keeps its test when the axes are stretched, sheared or counted in another unit", (set) => {
    const one = biasTest(set);
    const other = biasTest(mapped(set, [8, 3, 0, 0.25]));
    expect(other.ok).toBe(one.ok);
    if (one.ok && other.ok) close(other.t2, one.t2);
  });
  test.prop([endpointsArb(0), fc.constantFrom(0.5, 0.9, 0.95, 0.999)])(
    "leaves its input alone, and gives plain data and a verdict in keeping with p and region",
    (set, level) => {
      const copy = structuredClone(set);
      const result = biasTest(set, { level });
      expect(set).toEqual(copy);
      expect(JSON.parse(JSON.stringify(result))).toEqual(result);
      expect(structuredClone(result)).toEqual(result);
      if (!result.ok) return;
      expect(result.verdict === "biased").toBe(result.t2 > result.criticalT2);
      if (Math.abs(result.p - (1 - level)) > 1e-9) expect(result.verdict === "biased").toBe(result.p < 1 - level);
      const { x, simultaneous } = result;
      if (x.ok) expect(simultaneous.x[0]).toBeLessThanOrEqual(x.interval![0] + 1e-9);
    },
  );
  test.prop([endpointsArb(4)])("does not depend on the order of the endpoints", (set) => {
    const one = biasTest(set);
    const other = biasTest({ x: set.x.slice().reverse(), y: set.y.slice().reverse() });
    expect(other.ok).toBe(one.ok);
    if (one.ok && other.ok) close(other.t2, one.t2);
  });
  it("does not call for fewer than four endpoints, nor for endpoints on a line", () => {
    expect(
      biasTest(
        endpointsOf([
          [1, 2],
          [3, 1],
          [0, 5],
        ]),
        { unit: "mm" },
      ),
    ).toEqual({ ok: false, why: "tooFew", unit: "mm", n: 3 });
    const line = endpointsOf([0.1, 0.7, 1.3, 2.9, 3.3].map((t) => [1e6 + t, 3 - 0.3 * t] as const));
    expect(biasTest(line)).toEqual({ ok: false, why: "noSpread", unit: "px", n: 5 });
    expect(
      biasTest(
        endpointsOf([
          [2, 3],
          [2, 3],
          [2, 3],
          [2, 3],
        ]),
      ),
    ).toMatchObject({ ok: false, why: "noSpread" });
    expect(
      biasTest(
        endpointsOf([
          [2, 3],
          [2, 4],
          [2, 3],
          [2, 7],
        ]),
      ),
    ).toMatchObject({ ok: false, why: "noSpread" });
  });
  it("stands a common offset far larger than the scatter", () => {
    const far = given(mapped(TWELVE, [1, 0, 0, 1], [1.7e9, -1.7e9]), { about: [1.7e9, -1.7e9] });
    expect(far.t2).toBeCloseTo(2.5737743489817344, 5);
  });
  it("has no direction without an offset and no angle for a round region", () => {
    const square = endpointsOf([
      [1, 1],
      [-1, 1],
      [1, -1],
      [-1, -1],
    ]);
    expect(given(square)).toMatchObject({ direction: null, distance: 0, region: { angle: null }, verdict: "notShown", t2: 0, p: 1 });
  });
  it("drops the warning from 30 endpoints on", () => {
    expect(given(drawEndpoints(createRandom(3), 30, DRAWS.normal)).warnings).toEqual([]);
  });
});

describe("biasTest bad input", () => {
  it("names the bad column", () => {
    expect(() => biasTest({ x: Float64Array.of(1, Number.NaN), y: Float64Array.of(1, 2) })).toThrow(
      /biasTest: endpoints\.x\[1\] must be finite, got NaN/,
    );
    expect(() => biasTest({ x: Float64Array.of(1, 2), y: Float64Array.of(1) })).toThrow(/endpoints\.y must have 2 entries/);
    expect(() => biasTest([1, 2] as never)).toThrow(/endpoints\.x must be a Float64Array/);
    expect(() => biasTest(null as never)).toThrow(/endpoints must be endpoints with columns x and y, got null/);
  });
  it("refuses a level outside (0, 1) and a point that is none", () => {
    expect(() => biasTest(TWELVE, { level: 1 })).toThrow(/options\.level must be above 0 and below 1, got 1/);
    expect(() => biasTest(TWELVE, { about: [0] as never })).toThrow(/options\.about must be a pair of numbers, got an array of 1/);
    expect(() => biasTest(TWELVE, { about: [0, Number.NaN] })).toThrow(/options\.about\[1\] must be finite, got NaN/);
  });
});
