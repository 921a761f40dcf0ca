import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { type CreateStaircaseOptions, createStaircase } from "../../src/pacing/create-staircase.js";
import type { StaircaseState } from "../../src/pacing/staircase/staircase-state.js";
import { stepStaircase } from "../../src/pacing/step-staircase.js";

const walk = (state: StaircaseState, hits: readonly boolean[]): StaircaseState => hits.reduce(stepStaircase, state);

describe("stepStaircase against outside values", () => {
  // Source: worked by hand after the rule of Levitt 1971 (from memory): two hits in a row go down, a miss goes up, a reversal is where the direction flips
  it("two in a row down, one up, a track by hand", () => {
    const state = walk(createStaircase({ start: 10, scale: "linear", steps: [2], inARow: 2 }), [
      true,
      true,
      true,
      true,
      false,
      true,
      true,
      false,
      false,
      true,
    ]);
    expect(state.levels).toEqual([10, 10, 8, 8, 6, 8, 8, 6, 8, 10]);
    expect(state.hits).toEqual([1, 1, 1, 1, 0, 1, 1, 0, 0, 1]);
    expect(state.reversals).toEqual([
      { trial: 4, level: 6, toward: "easier" },
      { trial: 6, level: 8, toward: "harder" },
      { trial: 7, level: 6, toward: "easier" },
    ]);
    expect(state).toMatchObject({ level: 10, row: 1, direction: "easier", cut: [] });
  });
  // Source: Kaernbach 1991 (from memory): at .75 a miss goes up by three of the steps that a hit goes down; by hand on logarithms: factors 1.2 and 1.2^(1/3)
  it("weighted steps, a track by hand", () => {
    const start = walk(createStaircase({ start: 100, target: 0.75, steps: [0.2], highest: 140 }), [false]);
    expect(start.level).toBeCloseTo(120, 10);
    const turned = walk(start, [true, true, true]);
    expect(turned.level).toBeCloseTo(100, 10);
    expect(turned.reversals).toEqual([{ trial: 1, level: start.level, toward: "harder" }]);
  });
  // Source: the same by hand where a larger level is harder, and before the first reversal: a hit then goes as far as a miss
  it("goes up to harder, by whole steps on the way in", () => {
    const state = walk(createStaircase({ start: 100, harder: "up", steps: [0.1] }), [true, true]);
    expect(state.level).toBeCloseTo(121, 10);
    const back = walk(state, [false]);
    expect(back.level).toBeCloseTo(110, 10);
    expect(walk(back, [true]).level).toBeCloseTo(110 * 1.1 ** 0.25, 10);
  });
});

describe("stepStaircase properties", () => {
  const optionsArb: fc.Arbitrary<CreateStaircaseOptions> = fc.record(
    {
      start: fc.constant(40),
      harder: fc.constantFrom("down", "up"),
      inARow: fc.integer({ min: 1, max: 5 }),
      target: fc.constantFrom(0.5, 0.8, 0.95),
      steps: fc.constantFrom([0.1], [0.3, 0.1], [0.4, 0.2, 0.1]),
      stepReversals: fc.integer({ min: 1, max: 6 }),
      lowest: fc.constant(30),
      highest: fc.constant(55),
    },
    { requiredKeys: ["start"], noNullPrototype: true },
  );
  const hitsArb = fc.array(fc.boolean(), { maxLength: 60 });

  test.prop([optionsArb, hitsArb, fc.nat(60)])("goes on from JSON as if nothing had been between", (options, hits, where) => {
    const whole = walk(createStaircase(options), hits);
    const middle = walk(createStaircase(options), hits.slice(0, where));
    expect(walk(JSON.parse(JSON.stringify(middle)), hits.slice(where))).toEqual(whole);
    expect(structuredClone(whole)).toEqual(whole);
  });
  test.prop([optionsArb, hitsArb])("leaves the state it is given alone", (options, hits) => {
    const frozen = (state: StaircaseState): StaircaseState => {
      for (const part of [state, state.settings, state.levels, state.hits, state.reversals, state.cut]) Object.freeze(part);
      return state;
    };
    let state = frozen(createStaircase(options));
    for (const hit of hits) state = frozen(stepStaircase(state, hit));
    expect(state.levels).toHaveLength(hits.length);
  });
  test.prop([optionsArb, hitsArb])("never passes a bound, and notes each step that one cut short", (options, hits) => {
    const state = walk(createStaircase(options), hits);
    const { lowest = 0, highest = Number.POSITIVE_INFINITY } = options;
    const levels = [...state.levels, state.level];
    for (const level of levels) expect(level >= lowest && level <= highest).toBe(true);
    for (const trial of state.cut) expect([lowest, highest]).toContain(levels[trial + 1]);
  });
  test.prop([hitsArb, fc.integer({ min: 1, max: 4 })])(
    "is harder only after a full row of hits, easier after each miss",
    (hits, inARow) => {
      const { levels, level } = walk(createStaircase({ start: 40, inARow }), hits);
      const next = [...levels, level];
      let row = 0;
      hits.forEach((hit, i) => {
        row = hit ? row + 1 : 0;
        const change = Math.sign(next[i + 1]! - next[i]!);
        expect(change).toBe(hit ? (row === inARow ? -1 : 0) : 1);
        if (row === inARow) row = 0;
      });
    },
  );
  test.prop([hitsArb])("mirrors its logarithms where a larger level is harder", (hits) => {
    const down = walk(createStaircase({ start: 1 }), hits);
    const up = walk(createStaircase({ start: 1, harder: "up" }), hits);
    for (const [i, level] of up.levels.entries()) expect(level * down.levels[i]!).toBeCloseTo(1, 10);
    expect(up.reversals.map(({ trial }) => trial)).toEqual(down.reversals.map(({ trial }) => trial));
  });
});

describe("stepStaircase bad input", () => {
  const state = walk(createStaircase({ start: 40 }), [true, false]);
  it.each([
    [null, true, /stepStaircase: state must be an object, got null/],
    [{}, true, /stepStaircase: state\.settings must be an object, got undefined/],
    [{ ...state, settings: { ...state.settings, target: 2 } }, true, /state\.settings\.target must be at least 0\.5/],
    [{ ...state, level: -1 }, true, /state\.level must be finite and at least 1e-100/],
    [{ ...state, row: 1 }, true, /state\.row must be a whole number at least 0 and at most 0, got 1/],
    [{ ...state, direction: "up" }, true, /state\.direction must be one of "harder", "easier", got "up"/],
    [{ ...state, reversals: null }, true, /state\.reversals must be a list, got null/],
    [{ ...state, hits: [1] }, true, /state\.hits must have 2 entries like state\.levels, got 1/],
    [{ ...state, hits: [1, 2] }, true, /state\.hits\[1\] must be a whole number at least 0 and at most 1, got 2/],
    [{ ...state, levels: [40, 0] }, true, /state\.levels\[1\] must be finite and at least 1e-100/],
    [state, 1, /stepStaircase: hit must be true or false, got 1/],
    [state, undefined, /stepStaircase: hit must be true or false, got undefined/],
  ])("case %#", (given, hit, message) => expect(() => stepStaircase(given as never, hit as never)).toThrow(message));
});
