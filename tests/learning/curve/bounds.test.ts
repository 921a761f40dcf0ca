// Laws whose rate would leave its bounds, and what the bounds themselves are.
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { curveColumns } from "../../../src/learning/curve/columns.js";
import { curveBounds } from "../../../src/learning/curve/curve-bounds.js";
import { curveModel } from "../../../src/learning/curve/curve-model.js";
import { fitLearningCurve } from "../../../src/learning/fit-learning-curve.js";
import type { LearningLawName } from "../../../src/learning/types.js";
import { createRandom } from "../../../src/math/random.js";

const OPEN = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] as const;
const quick = { intervals: "wald", band: 0 } as const;
const counted = (value: readonly number[]) => ({ practice: value.map((_, i) => i + 1), value });

describe("a rate held back by a bound", () => {
  const seeds = fc.integer({ min: 1, max: 1e9 });
  const laws = fc.constantFrom("power2" as const, "power3" as const, "exponential2" as const, "exponential3" as const);
  const drawn = (law: LearningLawName, seed: number) => {
    const random = createRandom(seed);
    const fall = law.startsWith("power") ? (n: number) => n ** -0.7 : (n: number) => Math.exp(-0.3 * (n - 1));
    return counted(Array.from({ length: 14 }, (_, i) => (law.endsWith("2") ? 0 : 0.6) + fall(i + 1) * (1 + random.normal(0, 0.01))));
  };
  // Source: the meaning of a bound: the sum of squares falls all the way to the one best rate, so that the bound on this side of it is the place
  test.prop([laws, seeds, fc.double({ min: 0.05, max: 0.9, noNaN: true }), fc.boolean()], { numRuns: 60 })(
    "lies on it, and fits as the law with the rate held there",
    (law, seed, share, above) => {
      const series = drawn(law, seed);
      const free = fitLearningCurve(series, { law, ...quick }).parameters.c!;
      if (!free.ok) return;
      const bound = above ? free.value * share : free.value / share;
      const kept = fitLearningCurve(series, { law, ...quick, bounds: { c: above ? [0, bound] : [bound, 50] } });
      const held = fitLearningCurve(series, { law, ...quick, bounds: { c: [bound, bound] } });
      expect(kept.atBound).toContain("c");
      expect(kept.warnings).toContain("atBound");
      expect(kept.parameters.c!.ok).toBe(false);
      expect(Math.abs(kept.quality!.residualSum - held.quality!.residualSum)).toBeLessThan(1e-9 * held.quality!.residualSum);
    },
  );

  // Source: with every value but the first at the asymptote a larger rate is always better, up to where nothing is left to win
  it("is at the upper end for a fall within one step, without half-life and rest", () => {
    const step = counted([2, 1.01, 0.99, 1.02, 0.98, 1, 1.01, 0.99]);
    const { atBound, halfLife, remaining } = fitLearningCurve(step, { bounds: { c: [0, 2] }, practiceUnit: "day" });
    expect(atBound).toEqual(["c"]);
    expect(halfLife).toEqual({ ok: false, why: "notIdentified", unit: "day", n: 8 });
    expect(remaining).toEqual({ ok: false, why: "notIdentified", unit: "1", n: 8 });
  });
});

describe("bounds by default", () => {
  const columns = curveColumns("test", { practice: [2, 4, 5, 8], value: [4, 3, 2, 1] });
  const boundsOf = (law: LearningLawName, options: object = {}, of = columns) => {
    const model = curveModel(law);
    const { lower, upper, runaways } = curveBounds("test", model, undefined, of, {
      bounds: {},
      direction: "either",
      errors: "normal",
      ...options,
    });
    const pairs = model.letters.flatMap((letter, j) => (model.real[j] ? [[letter, [lower[j], upper[j]]]] : []));
    return { pairs: Object.fromEntries(pairs), runaways };
  };

  // Source: the docstring of `bounds`: an asymptote at least 0 where no value is below; a power up to 20; an exponential's rate up to 20 over the smallest
  // step (here 1); earlier practice up to ten times the last; a bend at least 1e-5 over the range of practice (6) or of its logarithm (ln 4)
  it.each([
    ["constant", { a: [0, OPEN[1]] }],
    ["linear", { a: OPEN, b: OPEN }],
    ["power2", { b: OPEN, c: [0, 20] }],
    ["power3", { a: [0, OPEN[1]], b: OPEN, c: [1e-5 / Math.log(4), 20] }],
    ["power4", { a: [0, OPEN[1]], b: OPEN, c: [1e-5 / Math.log(4), 20], e: [0, 80] }],
    ["exponential2", { b: OPEN, c: [0, 20] }],
    ["exponential3", { a: [0, OPEN[1]], b: OPEN, c: [1e-5 / 6, 20] }],
    ["combined", { a: [0, OPEN[1]], b: OPEN, c: [0, 20], d: [0, 20] }],
    ["delayedExponential", { a: [0, OPEN[1]], b: OPEN, c: [1e-5 / 6, 20], d: [0, 1e6] }],
  ] as const)("are those of the law %s", (law, expected) => {
    const { pairs } = boundsOf(law);
    expect(Object.keys(pairs)).toEqual(Object.keys(expected));
    for (const [letter, [low, high]] of Object.entries(expected)) {
      expect(pairs[letter][0]).toBeCloseTo(low, 15);
      expect(pairs[letter][1]).toBe(high);
    }
  });

  // Source: as above: the smallest step is half a day, so that the steepest rate is 40 a day, and 20 over it where there is but one amount of practice
  it("of a rate go with the smallest step of practice", () => {
    const dense = curveColumns("test", { practice: [1, 1.5, 3, 5, 5], value: [4, 3, 2, 1, 1] });
    expect(boundsOf("exponential2", {}, dense).pairs.c).toEqual([0, 40]);
    expect(boundsOf("combined", {}, dense).pairs).toMatchObject({ c: [0, 20], d: [0, 40] });
    expect(boundsOf("delayedExponential", {}, dense).pairs.d).toEqual([0, 1e6]);
    const single = curveColumns("test", { practice: [3, 3], value: [4, 3] });
    expect(boundsOf("exponential2", {}, single).pairs.c).toEqual([0, 20]);
    expect(boundsOf("power4", {}, curveColumns("test", { practice: [], value: [] })).pairs.e).toEqual([0, 10]);
  });

  it("leave an asymptote free below 0 where a value is, and hold a share's within 0 and 1", () => {
    const signed = curveColumns("test", { practice: [1, 2, 3], value: [2, 0.5, -0.1] });
    expect(boundsOf("exponential3", {}, signed).pairs.a).toEqual(OPEN);
    expect(boundsOf("exponential3", { errors: "binomial" }).pairs.a).toEqual([0, 1]);
    expect(boundsOf("linear", { errors: "binomial" }).pairs.a).toEqual(OPEN);
  });

  // Source: b is the distance to the asymptote, above 0 for a measure that falls; a line's b is its slope, above 0 for one that rises
  it.each([
    ["exponential3", "falling", [0, OPEN[1]]],
    ["exponential3", "rising", [OPEN[0], 0]],
    ["exponential3", "either", OPEN],
    ["linear", "falling", [OPEN[0], 0]],
    ["linear", "rising", [0, OPEN[1]]],
  ] as const)("of the gain of %s, %s", (law, direction, expected) => expect(boundsOf(law, { direction }).pairs.b).toEqual(expected));

  // Source: what a bound decides in place of the data: no bend leaves a and b open; a fall within a step before the second value, b; a further shape at its
  // end, b (and c, which goes with it)
  it("name what runs away with a parameter that meets them", () => {
    const named = (law: LearningLawName, options = {}, of = columns) =>
      boundsOf(law, options, of).runaways.map(({ place, bound, takes }) => [place, bound, ...takes]);
    const fromOne = curveColumns("test", { practice: [1, 4, 5, 7], value: [4, 3, 2, 1] });
    expect(named("constant")).toEqual([]);
    expect(named("linear")).toEqual([]);
    expect(named("exponential2")).toEqual([[2, 20, 1]]);
    expect(named("exponential2", {}, fromOne)).toEqual([]);
    expect(named("exponential3", {}, fromOne)).toEqual([[2, expect.closeTo(1e-5 / 6, 15), 0, 1]]);
    expect(named("combined", {}, fromOne)).toEqual([[3, 20, 1]]);
    expect(named("delayedExponential", {}, fromOne)).toEqual([
      [2, expect.closeTo(1e-5 / 6, 15), 0, 1],
      [3, 1e6, 1, 2],
    ]);
    expect(named("power4", {}, fromOne)).toEqual([
      [2, expect.closeTo(1e-5 / Math.log(7), 15), 0, 1],
      [3, 70, 1, 2],
      [2, 20, 1, 3],
    ]);
  });

  it("count as no runaway where they were asked for", () => {
    const asked = (law: LearningLawName, bounds: object) => boundsOf(law, { bounds }).runaways.map(({ place, takes }) => [place, ...takes]);
    expect(asked("exponential2", { c: [0, 20] })).toEqual([]);
    expect(asked("exponential2", { c: [0.5, 0.5] })).toEqual([]);
    // held at no bend at all
    expect(asked("exponential3", { c: [0, 0] })).toEqual([]);
    expect(asked("exponential3", { c: [0.1, 3] })).toEqual([]);
    expect(asked("exponential3", { a: [0.5, 0.5], c: [0, 3] })).toEqual([]);
    expect(asked("delayedExponential", { c: [0.1, 3], d: [0, 9] })).toEqual([]);
    expect(asked("power4", { c: [0.1, 3] })).toEqual([[3, 1, 2]]);
    expect(asked("power4", { e: [0, 3] })).toEqual([
      [2, 0, 1],
      [2, 1],
    ]);
  });
});
