import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/math/random.js";
import { createStaircase } from "../../src/pacing/create-staircase.js";
import { harderShare } from "../../src/pacing/staircase/level-steps.js";
import { climb } from "./pointing-observer.js";

describe("createStaircase against outside values", () => {
  // Source: Levitt 1971 prints 70.7, 79.4 and 84.1 % for 2, 3 and 4 (from memory); closed form 0.5^(1/k)
  it.each([
    [1, 0.5],
    [2, Math.SQRT1_2],
    [3, 0.794],
    [4, 0.841],
  ])("%d in a row hold %f with equal steps", (inARow, target) => {
    const { settings } = createStaircase({ start: 40, inARow });
    expect(settings.target).toBeCloseTo(target, 3);
    expect(harderShare(settings)).toBeCloseTo(1, 12);
  });
  // Source: Kaernbach 1991 (from memory): up to down 3:1 holds .75; 4:1 and 17:3 follow from step up (1 - p) = step down p
  it.each([
    [0.75, 3],
    [0.8, 4],
    [0.85, 17 / 3],
  ])("steps for %f are %f to 1", (target, ratio) =>
    expect(1 / harderShare(createStaircase({ start: 40, target }).settings)).toBeCloseTo(ratio, 12),
  );
  // Source: Levitt 1971, Kaernbach 1991 as above, as shares of hits of simulated staircases with small equal steps on a known logistic function of spread 1; the bar is 0.02
  it.each([
    { inARow: 1, target: 0.5 },
    { inARow: 2, target: Math.SQRT1_2 },
    { inARow: 3, target: 0.7937 },
    { inARow: 4, target: 0.8409 },
    { inARow: 1, target: 0.75 },
    { inARow: 1, target: 0.8 },
    { inARow: 1, target: 0.85 },
    { inARow: 2, target: 0.8 },
  ])("converges on $target with $inARow in a row", ({ inARow, target }) => {
    const share = (level: number) => 1 / (1 + Math.exp(-level));
    const start = Math.log(target / (1 - target));
    let [hits, trials] = [0, 0];
    for (let run = 0; run < 8; run++) {
      const random = createRandom(5, run);
      const done = climb(createStaircase({ start, scale: "linear", steps: [0.1], inARow, target }), 1500, random, share);
      hits += done.hits.reduce((sum, hit) => sum + hit, 0);
      trials += done.hits.length;
    }
    expect(Math.abs(hits / trials - target)).toBeLessThan(0.02);
  });
});

describe("createStaircase properties", () => {
  test.prop([fc.integer({ min: 1, max: 13 }), fc.double({ min: 0.5, max: 0.95, noNaN: true })])(
    "steps balance at the target, whatever the row",
    (inARow, target) => {
      const { settings } = createStaircase({ start: 3, inARow, target });
      const row = target ** inARow;
      expect(row * harderShare(settings)).toBeCloseTo(1 - row, 12);
    },
  );
  it("is plain data with every default filled in, and leaves its options alone", () => {
    const options = Object.freeze({ start: 60, steps: Object.freeze([0.3, 0.1]) });
    const state = createStaircase(options);
    expect(state).toEqual({
      settings: {
        start: 60,
        harder: "down",
        scale: "log",
        inARow: 1,
        target: 0.8,
        steps: [0.3, 0.1],
        stepReversals: 4,
        lowest: null,
        highest: null,
      },
      level: 60,
      row: 0,
      direction: null,
      levels: [],
      hits: [],
      reversals: [],
      cut: [],
    });
    expect(JSON.parse(JSON.stringify(state))).toEqual(state);
    expect(createStaircase({ start: 60 }).settings.steps).toEqual([0.2, 0.1]);
  });
});

describe("createStaircase bad input", () => {
  it.each([
    [{}, /createStaircase: options\.start must be a number, got undefined/],
    [{ start: 0 }, /createStaircase: options\.start must be finite and at least 1e-100/],
    [{ start: Number.NaN }, /options\.start must be .* got NaN/],
    [{ start: 9, harder: "left" }, /options\.harder must be one of "down", "up", got "left"/],
    [{ start: 9, scale: "db" }, /options\.scale must be one of "log", "linear", got "db"/],
    [{ start: 9, inARow: 0 }, /options\.inARow must be a whole number at least 1 and at most 13, got 0/],
    [{ start: 9, inARow: 1.5 }, /options\.inARow must be a whole number/],
    [{ start: 9, target: 0.49 }, /options\.target must be at least 0\.5 and at most 0\.95, got 0\.49/],
    [{ start: 9, target: 0.96 }, /options\.target .* got 0\.96/],
    [{ start: 9, steps: [] }, /options\.steps must be a list of one or more steps, got an array of 0/],
    [{ start: 9, steps: 0.1 }, /options\.steps must be an object, got 0\.1/],
    [{ start: 9, steps: [0.1, 0] }, /options\.steps\[1\] must be above 0 and at most 4, got 0/],
    [{ start: 9, scale: "linear" }, /options\.steps must be a list of one or more steps/],
    [{ start: 9, stepReversals: 0 }, /options\.stepReversals must be a whole number at least 1/],
    [{ start: 9, lowest: 10 }, /options\.lowest must be at most options\.start, 9, got 10/],
    [{ start: 9, highest: 8 }, /options\.highest must be at least options\.start, 9, got 8/],
    [{ start: 9, lowest: 9, highest: 9 }, /options\.highest must be above options\.lowest, 9, got 9/],
  ])("%o", (options, message) => expect(() => createStaircase(options as never)).toThrow(message));
  it("needs options", () => expect(() => createStaircase(undefined as never)).toThrow(/createStaircase: options must be an object/));
});
