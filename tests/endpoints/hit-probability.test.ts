import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { circularErrorProbable } from "../../src/endpoints/circular-error-probable.js";
import { type HitProbabilityOptions, hitProbability } from "../../src/endpoints/hit-probability.js";
import type { Endpoints, NormalScatter } from "../../src/endpoints/types.js";
import { createRandom } from "../../src/math/random.js";
import type { Shape } from "../../src/trace/types.js";
import { band } from "../math/estimate-properties.js";
import { DRAWS, drawEndpoints, endpointsArb, mapped, notFinite, turn } from "./scatter-draws.js";

const TWELVE: Endpoints = {
  x: Float64Array.of(6.2, -3.1, 9.4, 2.7, -7.8, 12.3, 4.4, -1.6, 8.9, 0.3, 5.1, -4.7),
  y: Float64Array.of(1.4, -2.2, 3.9, 0.8, -1.9, 2.6, -3.3, 0.1, 4.2, -0.7, -2.8, 1.1),
};
const circle = (diameter: number): Shape => ({ kind: "circle", diameter });
const round = (s: number, mean: readonly [number, number] = [0, 0]): NormalScatter => ({
  mean,
  covariance: [
    [s * s, 0],
    [0, s * s],
  ],
});

function model(scatter: Endpoints | NormalScatter, shape: Shape, options: HitProbabilityOptions = {}): number {
  const { model: estimate } = hitProbability(scatter, shape, { draws: 99, ...options });
  if (!estimate.ok) throw new Error(`not given: ${estimate.why}`);
  return estimate.value;
}

describe("hitProbability against outside values", () => {
  // Source: closed form, 1 - exp(-R^2/(2 s^2)), printed to four digits in many textbooks (from memory)
  it.each([
    [0.5, 0.1175],
    [1, 0.3935],
    [1.5, 0.6753],
    [2, 0.8647],
    [2.5, 0.9561],
  ])("of a circle of radius %d s about round scatter", (k, p) => expect(model(round(4), circle(8 * k))).toBeCloseTo(p, 4));
  // Source: NumPy 2.4.6 mean and cov, SciPy 1.17.1 integrate.quad (circle) and multivariate_normal.cdf (rectangle), computed
  it("of twelve endpoints is the normal integral of SciPy, as are both gains", () => {
    const onCircle = hitProbability(TWELVE, circle(12));
    expect(onCircle.model).toMatchObject({ value: expect.closeTo(0.5787552579148235, 12), n: 12, level: 0.95 });
    expect(onCircle.gain.withoutBias).toMatchObject({ value: expect.closeTo(0.04163544564497246, 12) });
    expect(onCircle.gain.withLessSpread).toMatchObject({ value: expect.closeTo(0.09941170900395224, 12) });
    const rectangle = { kind: "rect", width: 16, height: 5, angle: 20 } as const;
    const onRectangle = hitProbability(TWELVE, rectangle);
    expect(onRectangle.model).toMatchObject({ value: expect.closeTo(0.5714046759822751, 11) });
    expect(onRectangle.gain.withoutBias).toMatchObject({ value: expect.closeTo(0.6116932985464935 - 0.5714046759822751, 11) });
    expect(onRectangle.gain.withLessSpread).toMatchObject({ value: expect.closeTo(0.7068343745575786 - 0.5714046759822751, 11) });
  });
  // Source: count by hand (NumPy 2.4.6, computed: 7 within 6, 6 in the rectangle); Wilson interval of 7 of 12: SciPy 1.17.1 binomtest(7, 12).proportion_ci(method="wilson"),
  // p from SciPy binom.cdf and sf, computed
  it("counts the endpoints on the target and compares", () => {
    const onCircle = hitProbability(TWELVE, circle(12));
    expect(onCircle.observed).toMatchObject({
      value: 7 / 12,
      interval: [expect.closeTo(0.31951131254954973, 12), expect.closeTo(0.8067396863412435, 12)],
    });
    expect(onCircle).toMatchObject({ p: 1, agrees: true, warnings: ["few", "shapeUnknown"], seed: 1, spreadCut: 0.2 });
    expect(hitProbability(TWELVE, { kind: "rect", width: 16, height: 5, angle: 20 }).observed).toMatchObject({ value: 0.5 });
  });
  // Source: SciPy 1.17.1 stats.ncx2.cdf((8/4)**2, 2, (5/4)**2), computed
  it("counts the bias", () => expect(model(round(4, [3, -4]), circle(16))).toBeCloseTo(0.6591000697802386, 12));
  // Source: Student's t with 3 degrees of freedom per axis, the share within the circle by a simulation of 4 million endpoints (NumPy 2.4.6,
  // standard_t(3) per axis, share of hypot <= 1.5: 0.5341, standard error 0.0003): the normal model is far off, the count is not.
  it("prefers the count where the tails are heavy", () => {
    const heavy = drawEndpoints(createRandom(2), 2000, DRAWS.heavyTailed);
    const result = hitProbability(heavy, circle(3), { draws: 99 });
    expect(result.warnings).toEqual(["notNormal", "preferObserved"]);
    expect(result.agrees).toBe(false);
    expect(Math.abs((result.observed.ok ? result.observed.value : 0) - 0.5341)).toBeLessThan(1.5 * band(0.5341, 2000));
    expect((result.model.ok ? result.model.value : 1) < 0.45).toBe(true);
  });
  // Source: closed form; true probability from SciPy as above with mean (2, -1): 0.6886276370985124, gain without bias by the difference to the centred one.
  // The intervals hold it at 93 to 96 % over 2000 runs; here the lower end of a binomial 99.8 % band of 200 runs under 94 %.
  it("gives intervals that hold the true probability and the true gain", () => {
    const random = createRandom(41);
    const truth = hitProbability(
      {
        mean: [2, -1],
        covariance: [
          [36, 7.2],
          [7.2, 16],
        ],
      },
      circle(16),
    );
    expect(truth.model).toMatchObject({ value: expect.closeTo(0.6886276370985124, 11) });
    const held = { model: 0, withoutBias: 0 };
    const within = (one: typeof truth.model, other: typeof truth.model) =>
      one.ok && other.ok && one.interval![0] <= other.value && other.value <= one.interval![1] ? 1 : 0;
    for (let run = 0; run < 200; run++) {
      const set = mapped(drawEndpoints(random, 50, DRAWS.normal), [6, 0, 1.2, 4 * Math.sqrt(0.91)], [2, -1]);
      const result = hitProbability(set, circle(16), { seed: run, draws: 99 });
      held.model += within(result.model, truth.model);
      held.withoutBias += within(result.gain.withoutBias, truth.gain.withoutBias);
    }
    expect(held.model / 200).toBeGreaterThan(0.94 - 1.2 * band(0.94, 200));
    expect(held.withoutBias / 200).toBeGreaterThan(0.94 - 1.2 * band(0.94, 200));
  });
});

describe("hitProbability properties", () => {
  const size = fc.integer({ min: 1, max: 2000 }).map((w) => w / 10);
  const degrees = fc.integer({ min: -180, max: 180 });
  const shapes: fc.Arbitrary<Shape> = fc.oneof(
    size.map(circle),
    fc.record({ width: size, height: size, angle: degrees }).map((rect) => ({ kind: "rect" as const, ...rect })),
  );

  test.prop([endpointsArb(0), shapes])("gives plain data, keeps its input and stays within 0 and 1", (set, shape) => {
    const copy = structuredClone(set);
    const result = hitProbability(set, shape, { draws: 99 });
    expect(set).toEqual(copy);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(structuredClone(result)).toEqual(result);
    expect(notFinite(result)).toEqual([]);
    expect(result.agrees === null).toBe(!result.model.ok);
    if (!result.model.ok) return;
    const { value, interval } = result.model;
    expect(value).toBeGreaterThanOrEqual(0);
    expect(value).toBeLessThanOrEqual(1);
    expect(interval![0]).toBeLessThanOrEqual(value);
    expect(interval![1]).toBeGreaterThanOrEqual(value);
    // of all places for its mean the target's centre is the best (Anderson 1955, recalled)
    expect(result.gain.withoutBias.ok && result.gain.withoutBias.value).toBeGreaterThanOrEqual(-1e-12);
  });
  test.prop([endpointsArb(4), shapes, degrees])("turns with endpoints and target", (set, shape, angle) => {
    const turnedShape = shape.kind === "circle" ? shape : { ...shape, angle: (shape.angle ?? 0) + angle };
    const one = hitProbability(set, shape, { draws: 99 });
    const other = hitProbability(mapped(set, turn(angle)), turnedShape, { draws: 99 });
    if (!one.model.ok || !other.model.ok) return;
    expect(Math.abs(one.model.value - other.model.value)).toBeLessThan(1e-6);
  });
  test.prop([endpointsArb(4), fc.constantFrom(0.2, 0.5, 0.9)])("of the circle that holds a share is that share", (set, share) => {
    const { radius } = circularErrorProbable(set, { share, draws: 99 });
    if (!radius.ok || radius.value === 0) return;
    expect(Math.abs(model(set, circle(2 * radius.value)) - share)).toBeLessThan(1e-8);
  });
  test.prop([endpointsArb(4), shapes])("grows with the target", (set, shape) => {
    const larger: Shape =
      shape.kind === "circle" ? circle(shape.diameter * 1.5) : { ...shape, width: shape.width * 1.5, height: shape.height * 1.5 };
    const one = hitProbability(set, shape, { draws: 99 });
    const other = hitProbability(set, larger, { draws: 99 });
    if (one.model.ok && other.model.ok) expect(other.model.value).toBeGreaterThanOrEqual(one.model.value - 1e-12);
    if (one.observed.ok && other.observed.ok) expect(other.observed.value).toBeGreaterThanOrEqual(one.observed.value);
  });
  it("does not change with the unit of length, up to the ends of a double", () => {
    const { model: plain } = hitProbability(TWELVE, circle(12), { draws: 99 });
    for (const unit of [1e-300, 1e-150, 1e150, 1e300]) {
      const result = hitProbability(mapped(TWELVE, [unit, 0, 0, unit]), circle(12 * unit), { draws: 99 });
      expect(notFinite(result)).toEqual([]);
      expect(result.model.ok && plain.ok && Math.abs(result.model.value - plain.value)).toBeLessThan(1e-12);
    }
  });
  it("takes the edge as inside, and a stated scatter as true", () => {
    const onEdge = { x: Float64Array.of(5, -3, 0, 5.01), y: Float64Array.of(0, 4, 0, 0) };
    expect(hitProbability(onEdge, circle(10), { draws: 99 }).observed).toMatchObject({ value: 0.75 });
    const stated = hitProbability(round(3), circle(6));
    expect(stated).toMatchObject({ n: 0, agrees: null, p: null, warnings: [], observed: { ok: false, why: "tooFew", n: 0 } });
    expect(stated.model).not.toHaveProperty("interval");
    expect(hitProbability(round(0, [3, 0]), circle(6)).model).toMatchObject({ value: 1 });
  });
  it("may lose by less spread when the mean lies off the target", () => {
    const { gain } = hitProbability(round(3, [10, 0]), circle(8));
    expect(gain.withLessSpread.ok && gain.withLessSpread.value).toBeLessThan(0);
    expect(gain.withoutBias.ok && gain.withoutBias.value).toBeGreaterThan(0.4);
  });
  it("reaches the certain hit when all of the spread is cut", () => {
    const { model: now, gain } = hitProbability(round(3, [1, 0]), circle(8), { spreadCut: 1 });
    expect(now.ok && gain.withLessSpread.ok && now.value + gain.withLessSpread.value).toBeCloseTo(1, 12);
  });
  it("still counts when there is no model", () => {
    const two = { x: Float64Array.of(1, 20), y: Float64Array.of(1, 5) };
    const result = hitProbability(two, circle(10));
    expect(result).toMatchObject({ model: { ok: false, why: "tooFew", unit: "1", n: 2 }, observed: { value: 0.5 }, agrees: null, p: null });
    const same = { x: new Float64Array(5).fill(1), y: new Float64Array(5).fill(1) };
    expect(hitProbability(same, circle(10))).toMatchObject({ model: { ok: false, why: "noSpread" }, observed: { value: 1 } });
    const none = { x: new Float64Array(0), y: new Float64Array(0) };
    expect(hitProbability(none, circle(10))).toMatchObject({ n: 0, model: { ok: false, why: "tooFew" }, observed: { ok: false } });
  });
});

describe("hitProbability bad input", () => {
  it("names the argument, what is allowed and what came", () => {
    expect(() => hitProbability(TWELVE, circle(0))).toThrow(/hitProbability: shape\.diameter must be finite and above 0, got 0/);
    expect(() => hitProbability(TWELVE, { kind: "rect", width: 4, height: -1 })).toThrow(
      /shape\.height must be finite and above 0, got -1/,
    );
    expect(() => hitProbability(TWELVE, { kind: "star" } as never)).toThrow(/shape\.kind must be one of "circle", "rect", got "star"/);
    expect(() => hitProbability(TWELVE, circle(4), { spreadCut: 0 })).toThrow(/options\.spreadCut must be above 0 and at most 1, got 0/);
    expect(() => hitProbability(TWELVE, circle(4), { level: 1 })).toThrow(/options\.level must be above 0 and below 1, got 1/);
    expect(() => hitProbability(TWELVE, circle(4), { seed: 2 ** 33 })).toThrow(/options\.seed must be a whole number/);
    expect(() => hitProbability(TWELVE, circle(4), { draws: 1 })).toThrow(/options\.draws must be a whole number at least 99/);
    expect(() => hitProbability({ x: TWELVE.x, y: Float64Array.of(1) }, circle(4))).toThrow(/scatter\.y must have 12 entries/);
  });
});
