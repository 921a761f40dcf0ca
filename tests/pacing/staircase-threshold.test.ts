import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import type { Estimate } from "../../src/math/estimate.js";
import { createRandom } from "../../src/math/random.js";
import { createStaircase } from "../../src/pacing/create-staircase.js";
import { fitPsychometric } from "../../src/pacing/fit-psychometric.js";
import { staircaseThreshold } from "../../src/pacing/staircase-threshold.js";
import { stepStaircase } from "../../src/pacing/step-staircase.js";
import { band } from "../math/estimate-properties.js";
import { climb, roundShare, roundWidth } from "./pointing-observer.js";

const given = (estimate: Estimate): number => (estimate.ok ? estimate.value : Number.NaN);
const quick = { resamples: 0 } as const;

describe("staircaseThreshold against outside values", () => {
  // Source: closed form of the Rayleigh distribution: a round target of diameter W is hit with 1 - exp(-W^2/(8 s^2)), so that 0.8 asks for s sqrt(8 ln 5)
  it.each([60, 120])("finds the width that a pointing person hits four times in five, %d trials", (trials) => {
    const truth = 8 * Math.sqrt(8 * Math.log(5));
    expect(roundWidth(0.8, 8)).toBeCloseTo(truth, 12);
    const runs = 150;
    const logs = { reversals: [] as number[], threshold: [] as number[] };
    let held = 0;
    for (let run = 0; run < runs; run++) {
      const random = createRandom(17, run);
      const found = staircaseThreshold(
        climb(createStaircase({ start: 60 }), trials, random, (w) => roundShare(w, 8)),
        quick,
      );
      logs.reversals.push(Math.log(given(found.reversals) / truth));
      if (found.threshold.ok) logs.threshold.push(Math.log(found.threshold.value / truth));
      const [low, high] = found.fit.thresholds[0]!.within;
      if ((low ?? 0) <= truth && truth <= (high ?? Number.POSITIVE_INFINITY)) held++;
    }
    expect(logs.threshold.length).toBeGreaterThan(0.95 * runs);
    for (const list of Object.values(logs)) {
      const mean = list.reduce((sum, x) => sum + x, 0) / list.length;
      // 3 % of the level: a fifth of a step; the standard error of the mean of 150 is below 1 %
      expect(Math.abs(mean)).toBeLessThan(0.03);
    }
    // the range of spreads holds the truth at its edge: the interval holds what it says or more
    expect(held / runs).toBeGreaterThan(0.95 - band(0.95, runs));
  });
  // Source: by hand: reversals 6, 8, 6, 8, … on equal steps; the first four and an odd one are left out
  it("averages an even number of later reversals", () => {
    let state = createStaircase({ start: 8, scale: "linear", steps: [2], inARow: 1, target: 0.5 });
    for (let i = 0; i < 13; i++) state = stepStaircase(state, i % 2 === 0);
    expect(state.reversals).toHaveLength(12);
    expect(staircaseThreshold(state, { ...quick, unit: "mm" }).reversals).toEqual({ ok: true, value: 7, unit: "mm", n: 8 });
    expect(staircaseThreshold(state, { ...quick, discard: 3 }).reversals).toMatchObject({ n: 8, value: 7 });
    expect(staircaseThreshold(state, { ...quick, discard: 9 }).reversals).toEqual({ ok: false, why: "tooFew", unit: "px", n: 2 });
  });
});

describe("staircaseThreshold properties", () => {
  test.prop([fc.integer({ min: 1, max: 1e6 }), fc.constantFrom("down", "up"), fc.integer({ min: 0, max: 80 })], { numRuns: 25 })(
    "is plain data that repeats, and agrees with the fit of all trials",
    (seed, harder, trials) => {
      const share = (level: number) => roundShare(harder === "down" ? level : 900 / level, 8);
      const state = climb(createStaircase({ start: harder === "down" ? 50 : 18, harder }), trials, createRandom(seed), share);
      const found = staircaseThreshold(state, { resamples: 19 });
      expect(JSON.parse(JSON.stringify(found))).toEqual(found);
      expect(staircaseThreshold(state, { resamples: 19 })).toEqual(found);
      expect(found.fit).toEqual(fitPsychometric(state, { harder, spread: [0.5, 1], resamples: 19 }));
      expect(found.threshold).toEqual(found.fit.thresholds[0]!.estimate);
      expect(found).toMatchObject({ target: 0.8, level: 0.95, hitShare: { n: trials } });
    },
  );
  it("does not average through a bound", () => {
    // needs 29 px, but nothing below 35 px can be shown
    const state = climb(createStaircase({ start: 60, lowest: 35 }), 80, createRandom(3), (w) => roundShare(w, 8));
    const found = staircaseThreshold(state, quick);
    expect(found).toMatchObject({ bound: "lowest", reversals: { ok: false, why: "outOfReach" } });
    expect(found.warnings).toContain("boundReached");
    const large = climb(createStaircase({ start: 20, highest: 22 }), 80, createRandom(3), (w) => roundShare(w, 8));
    expect(staircaseThreshold(large, quick)).toMatchObject({ bound: "highest", reversals: { ok: false, why: "outOfReach" } });
  });
  it("forgets a bound that was touched on the way in only", () => {
    const start = climb(createStaircase({ start: 60, highest: 60 }), 1, createRandom(1), () => 0);
    expect(start.cut).toEqual([0]);
    const found = staircaseThreshold(
      climb(start, 90, createRandom(4), (w) => roundShare(w, 8)),
      quick,
    );
    expect(found).toMatchObject({ bound: null, reversals: { ok: true } });
  });
  it("holds the share of hits while skill doubles, and shows it in the threshold", () => {
    const shares = [8, 4].map((scatter) => {
      const state = climb(createStaircase({ start: 50 }), 300, createRandom(9), (w) => roundShare(w, scatter));
      return staircaseThreshold(state, quick);
    });
    expect(Math.abs(given(shares[0]!.hitShare) - given(shares[1]!.hitShare))).toBeLessThan(0.05);
    expect(given(shares[1]!.threshold) / given(shares[0]!.threshold)).toBeCloseTo(0.5, 1);
  });
  it("says where there is too little", () => {
    const found = staircaseThreshold(createStaircase({ start: 60 }), quick);
    expect(found).toMatchObject({
      reversals: { ok: false, why: "tooFew", n: 0 },
      threshold: { ok: false, why: "tooFew", n: 0 },
      hitShare: { ok: false, why: "tooFew" },
      bound: null,
      warnings: ["fewReversals"],
    });
  });
  it("fits the spread on a linear scale, where no range is known", () => {
    const state = createStaircase({ start: 3, scale: "linear", steps: [0.5] });
    const done = climb(state, 200, createRandom(2), (x) => 1 / (1 + Math.exp(-x)));
    const { fit } = staircaseThreshold(done, quick);
    expect(fit).toMatchObject({ shape: "normal", scale: "linear" });
    expect(fit.warnings).not.toContain("spreadAtLimit");
  });
});

describe("staircaseThreshold bad input", () => {
  const state = createStaircase({ start: 40 });
  it.each([
    [{}, {}, /staircaseThreshold: state\.settings must be an object/],
    [state, null, /staircaseThreshold: options must be an object, got null/],
    [state, { discard: -1 }, /staircaseThreshold: options\.discard must be a whole number at least 0 and at most 1000, got -1/],
    [state, { level: 1 }, /staircaseThreshold: options\.level must be above 0 and below 1, got 1/],
    [state, { spread: 0 }, /options\.spread must be finite and above 0|options\.spread must be above 0/],
    [state, { lapse: 0.1 }, /options\.lapse must be at least 0 and at most 0\.06, got 0\.1/],
    [state, { shape: "cauchy" }, /options\.shape must be one of/],
  ])("case %#", (given, options, message) => expect(() => staircaseThreshold(given as never, options as never)).toThrow(message));
});
