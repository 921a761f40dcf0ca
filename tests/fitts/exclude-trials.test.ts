import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { type ExclusionRule, excludeTrials } from "../../src/fitts/exclude-trials.js";
import type { PointingTrials } from "../../src/fitts/types.js";
import { trialsArb } from "./simulated-trials.js";

const RULES: readonly ExclusionRule[] = ["doublePress", "travelledTooLittle", "travelledTooFar", "beyondThreeSd"];
const rulesArb = fc.subarray([...RULES]);

function oneCondition(along: readonly number[], time = 0.6): PointingTrials {
  return {
    amplitude: new Float64Array(along.length).fill(200),
    width: new Float64Array(along.length).fill(20),
    movementTime: new Float64Array(along.length).fill(time),
    along: Float64Array.from(along),
  };
}

describe("excludeTrials against outside values", () => {
  // Source: closed form: among n values none lies farther than (n - 1)/sqrt(n) sample standard deviations from their mean: 2.846 at n = 10, 3.015 at 11
  it("can tell a trial beyond three SD from eleven trials on", () => {
    const outlier = (n: number) => [...Array.from({ length: n - 1 }, (_, i) => (i % 2) / 1e6), 90];
    expect(excludeTrials(oneCondition(outlier(10)), RULES).excluded.beyondThreeSd).toEqual([]);
    expect(excludeTrials(oneCondition(outlier(11)), RULES).excluded.beyondThreeSd).toEqual([10]);
  });
  // Source: Soukoreff and MacKenzie 2004 (recalled): less than half or more than twice the distance is no aimed movement; 0.1 s: common practice, no source
  it("tells by distance and time at the limits", () => {
    const trials = { ...oneCondition([-101, -100, 200, 201, 0, 0]), movementTime: Float64Array.of(1, 1, 1, 1, 0.099, 0.1) };
    expect(excludeTrials(trials, RULES).excluded).toEqual({
      doublePress: [4],
      travelledTooLittle: [0],
      travelledTooFar: [3],
      beyondThreeSd: [],
    });
  });
});

describe("excludeTrials properties", () => {
  test.prop([trialsArb, rulesArb])("loses nothing: kept and told trials make up all, in order, each told once", (trials, rules) => {
    const { trials: kept, excluded } = excludeTrials(trials, rules);
    const told = RULES.flatMap((rule) => excluded[rule]);
    expect(new Set(told).size).toBe(told.length);
    const stay = Array.from(trials.along.keys()).filter((i) => !told.includes(i));
    expect([...kept.along]).toEqual(stay.map((i) => trials.along[i]));
    expect(kept.person).toEqual(stay.map((i) => trials.person![i]));
    for (const rule of RULES) if (!rules.includes(rule)) expect(excluded[rule]).toEqual([]);
  });

  test.prop([trialsArb])("does nothing without rules and tells by distance and time no more the second time", (trials) => {
    expect(excludeTrials(trials, []).trials).toEqual(trials);
    const plain: readonly ExclusionRule[] = ["doublePress", "travelledTooLittle", "travelledTooFar"];
    const again = excludeTrials(excludeTrials(trials, plain).trials, plain).excluded;
    expect(plain.map((rule) => again[rule])).toEqual([[], [], []]);
  });

  test.prop([trialsArb, rulesArb])("applies rules in its own order, whatever the order asked for", (trials, rules) => {
    expect(excludeTrials(trials, [...rules].reverse())).toEqual(excludeTrials(trials, rules));
  });

  it("keeps other columns, and judges by the distance given", () => {
    const trials = { ...oneCondition([0, 0]), travelled: Float64Array.of(50, 210), hit: Float64Array.of(1, 0) };
    const { trials: kept, excluded } = excludeTrials(trials, ["travelledTooLittle"]);
    expect(excluded.travelledTooLittle).toEqual([0]);
    expect(kept).toMatchObject({ travelled: Float64Array.of(210), hit: Float64Array.of(0) });
  });
});

describe("excludeTrials bad input", () => {
  it("names a rule that is none", () => {
    expect(() => excludeTrials(oneCondition([0]), ["outlier" as never])).toThrow(/rules\[0\] must be one of "doublePress".*got "outlier"/);
    expect(() => excludeTrials(oneCondition([0]), "doublePress" as never)).toThrow(/rules must be an array, got "doublePress"/);
  });
  it("names a column of another length or kind, and an entry out of range", () => {
    expect(() => excludeTrials({ ...oneCondition([0, 1]), along: Float64Array.of(1) }, [])).toThrow(
      /trials\.amplitude must have 1 entries/,
    );
    expect(() => excludeTrials({ ...oneCondition([0]), width: Float64Array.of(0) }, [])).toThrow(
      /trials\.width\[0\] must be above 0, got 0/,
    );
    expect(() => excludeTrials({ ...oneCondition([0]), hit: Float64Array.of(2) }, [])).toThrow(/trials\.hit\[0\] must be 0 or 1, got 2/);
    expect(() => excludeTrials({ ...oneCondition([0]), person: [7 as never] }, [])).toThrow(/trials\.person\[0\] must be a name, got 7/);
    expect(() => excludeTrials(null as never, [])).toThrow(/trials\.along must be a Float64Array, got undefined/);
    expect(() => excludeTrials({ ...oneCondition([0]), along: [0] as never }, [])).toThrow(/trials\.along must be a Float64Array/);
  });
});
