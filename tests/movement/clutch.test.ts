import { describe, expect, it } from "vitest";
import { clutchStretches, overlap } from "../../src/movement/acquisition/clutch.js";
import type { Submovement } from "../../src/movement/types.js";

const aim = { axis: { ux: 1, uy: 0 }, amplitude: 100, width: 10 };
const stroke = (start: number, end: number, dx: number, dy = 0): Submovement => ({
  start,
  peak: (start + end) / 2,
  end,
  peakSpeed: 1,
  dx,
  dy,
});

// Source of all: worked by hand from the rule: a stop of 80 ms or more on the way, with more than half of the distance ahead, followed by
// motion of a quarter of it or more in the same direction (common practice, no source).
describe("clutchStretches against outside values", () => {
  it.each([
    ["a stop on the way", [stroke(0, 0.2, 40), stroke(0.3, 0.5, 60)], [{ from: 0.2, to: 0.3 }]],
    [
      "two of them",
      [stroke(0, 0.2, 20), stroke(0.3, 0.5, 25), stroke(0.6, 0.8, 55)],
      [
        { from: 0.2, to: 0.3 },
        { from: 0.5, to: 0.6 },
      ],
    ],
    ["too short a stop", [stroke(0, 0.2, 40), stroke(0.279, 0.5, 60)], []],
    ["a stop past the half", [stroke(0, 0.2, 51), stroke(0.3, 0.5, 49)], []],
    ["a small stroke after it", [stroke(0, 0.2, 40), stroke(0.3, 0.5, 24)], []],
    ["a stroke aside", [stroke(0, 0.2, 40), stroke(0.3, 0.5, 30, 31)], []],
    ["a stroke back", [stroke(0, 0.2, 40), stroke(0.3, 0.5, -30)], []],
    ["one stroke", [stroke(0, 0.2, 40)], []],
    ["none", [], []],
  ])("%s", (_, strokes, expected) => {
    expect(clutchStretches(strokes, aim, [])).toEqual(expected);
  });

  it("believes a mark of a lift between two strokes, whatever they look like", () => {
    const strokes = [stroke(0, 0.2, 90), stroke(0.25, 0.5, 10)];
    expect(clutchStretches(strokes, aim, [{ t: 0.21, tEnd: 0.24, kind: "lift" }])).toEqual([{ from: 0.2, to: 0.25 }]);
    expect(clutchStretches(strokes, { amplitude: 0, width: 10 }, [{ t: 0.22, kind: "lift" }])).toEqual([{ from: 0.2, to: 0.25 }]);
    expect(clutchStretches(strokes, aim, [{ t: 0.6, tEnd: 0.7, kind: "lift" }])).toEqual([]);
    expect(clutchStretches(strokes, aim, [{ t: 0.21, tEnd: 0.24, kind: "edge" }])).toEqual([]);
  });
});

describe("overlap", () => {
  it("adds up what lies within", () => {
    const stretches = [
      { from: 1, to: 2 },
      { from: 3, to: 5 },
    ];
    expect(overlap(stretches, 0, 6)).toBe(3);
    expect(overlap(stretches, 1.5, 4)).toBe(1.5);
    expect(overlap(stretches, 2, 3)).toBe(0);
    expect(overlap([], 0, 9)).toBe(0);
  });
});
