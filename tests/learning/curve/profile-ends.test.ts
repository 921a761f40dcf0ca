// Ends of profile intervals, found on sums of squares that are written down.
import { describe, expect, it } from "vitest";
import type { Runaway } from "../../../src/learning/curve/curve-bounds.js";
import { hasRunAway, profileEnds } from "../../../src/learning/curve/profile-ends.js";
import type { Solution, Solver } from "../../../src/learning/curve/solver.js";

const OPEN = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] as const;
const solution = (residualSum: number, ...parameters: number[]): Solution => ({
  parameters: Float64Array.from(parameters),
  residualSum,
  converged: true,
  reason: "step",
  iterations: 1,
});

interface Setting {
  /** Bounds of the parameter that is followed, and of the other one. */
  readonly bounds?: readonly [number, number];
  readonly others?: readonly [number, number];
  readonly runaways?: readonly Runaway[];
  readonly rise?: number;
}

/** Two parameters, 10 and 3 at the best: with the second held at 3 + d the first goes to 10 + 5 d, and the sum rises by `sum(d)`. */
function follow(sum: (d: number) => number, firstStep: number, { bounds = OPEN, others = OPEN, runaways = [], rise = 1 }: Setting = {}) {
  const starts: number[][] = [];
  const solver: Solver = {
    best: () => {
      throw new Error("a profile starts from what is known");
    },
    from: (start, lower, upper) => {
      starts.push([...start]);
      expect(lower[1]).toBe(upper[1]);
      const d = lower[1]! - 3;
      return solution(2 + sum(d), Math.min(Math.max(10 + 5 * d, lower[0]!), upper[0]!), lower[1]!);
    },
  };
  const lower = Float64Array.of(others[0], bounds[0]);
  const upper = Float64Array.of(others[1], bounds[1]);
  const ends = profileEnds({ solver, best: solution(2, 10, 3), lower, upper, rise, runaways }, 1, firstStep);
  expect([...lower, ...upper]).toEqual([others[0], bounds[0], others[1], bounds[1]]);
  return { ends, starts };
}

describe("the ends of a profile", () => {
  // Source: closed form: 9 d^2 is 4 at d = 2/3; the root of the rise is met to 1e-7
  it.each([0.001, 0.3, 1, 40])("of a parabola are where it says, from a first step of %d", (step) => {
    const { ends } = follow((d) => 9 * d * d, step, { rise: 4 });
    expect(Math.abs(ends[0]! - (3 - 2 / 3))).toBeLessThan(7e-8);
    expect(Math.abs(ends[1]! - (3 + 2 / 3))).toBeLessThan(7e-8);
  });
  // Source: SciPy 1.17.1 optimize.brentq of exp(d) - 1 - d = 0.5
  it("of a sum that is not even are not even", () => {
    const { ends } = follow((d) => Math.exp(d) - 1 - d, 0.2, { rise: 0.5 });
    expect(ends).toEqual([expect.closeTo(3 - 1.198290437315664, 6), expect.closeTo(3 + 0.8576766739458992, 6)]);
  });
  // Source: by hand: the root of a parabola rises in proportion, so that a right first step is the end, and a step of half the way goes 5 % beyond next and
  // then to the end between the two
  it("take few fits where the sum is a parabola", () => {
    expect(follow((d) => d * d, 1).starts.length).toBe(2);
    expect(follow((d) => d * d, 0.5).starts.map(([, at]) => at)).toEqual([2.5, 1.95, 2, 3.5, 4.05, 4].map((at) => expect.closeTo(at, 12)));
    // twice too far: straight back
    expect(follow((d) => d * d, 2).starts.map(([, at]) => at)).toEqual([1, 2, 5, 4].map((at) => expect.closeTo(at, 12)));
    // steps grow by at most 4
    expect(
      follow((d) => d * d, 0.01)
        .starts.slice(0, 4)
        .map(([, at]) => at),
    ).toEqual([2.99, 2.96, 2.84, 2.36].map((at) => expect.closeTo(at, 12)));
  });
  // Source: by hand: the other parameter goes 5 for each 1, so that from the second fit on its place is known beforehand
  it("start each fit where the last two point to", () => {
    const { starts } = follow((d) => d * d, 0.5);
    const places = (list: number[][]) => list.map(([other, at]) => [other, at].map((v) => expect.closeTo(v!, 12)));
    expect(starts).toEqual(
      places([
        [10, 2.5],
        [10 + 5 * -1.05, 1.95],
        [5, 2],
        [10, 3.5],
        [10 + 5 * 1.05, 4.05],
        [15, 4],
      ]),
    );
    for (const [other] of follow((d) => d * d, 0.5, { others: [8, 12] }).starts) expect(other! >= 8 && other! <= 12).toBe(true);
  });
  // Source: by construction: where the sum jumps over the limit, the end is the place of the jump
  it("are at a jump over the limit", () => {
    const { ends } = follow((d) => (Math.abs(d) < 0.7 ? 0.25 : 9), 0.1);
    expect(ends).toEqual([expect.closeTo(2.3, 6), expect.closeTo(3.7, 6)]);
  });
  // Source: a sum that stays below the limit has no end: x^2/(1 + x^2) is below 1 for all x
  it("are none where the sum never gets there", () => expect(follow((d) => (d * d) / (1 + d * d), 0.1).ends).toEqual([null, null]));
  it("are found up to 100 000 first steps away, and not much beyond", () => {
    const far = (end: number) => follow((d) => (d / end) ** 2, 1).ends[1];
    expect(far(60000)! / 60003).toBeCloseTo(1, 6);
    expect(far(200000)! / 200003).toBeCloseTo(1, 6);
    expect(far(300000)).toBeNull();
  });
});

describe("a profile within bounds", () => {
  // Source: closed form: the ends of d^2 = 1 are 2 and 4
  it("closes inside them and not beyond", () => {
    expect(follow((d) => d * d, 0.5, { bounds: [1.9, 4.1] }).ends).toEqual([expect.closeTo(2, 6), expect.closeTo(4, 6)]);
    expect(follow((d) => d * d, 0.5, { bounds: [2.1, 4.1] }).ends).toEqual([null, expect.closeTo(4, 6)]);
    expect(follow((d) => d * d, 0.5, { bounds: [1.9, 3.9] }).ends).toEqual([expect.closeTo(2, 6), null]);
    // a first step beyond the bound is cut to it
    expect(follow((d) => d * d, 50, { bounds: [1.9, 4.1] }).ends).toEqual([expect.closeTo(2, 6), expect.closeTo(4, 6)]);
    expect(follow((d) => d * d, 50, { bounds: [2.1, 3.9] }).ends).toEqual([null, null]);
    expect(follow((d) => d * d, 50, { bounds: [2.1, 3.9] }).starts.map(([, at]) => at)).toEqual([2.1, 3.9]);
  });
  it("has no end on a side where the best lies on the bound, and makes no fit there", () => {
    const low = follow((d) => d * d, 1, { bounds: [3, 9] });
    expect(low.ends).toEqual([null, expect.closeTo(4, 6)]);
    expect(low.starts.length).toBe(1);
    const high = follow((d) => d * d, 1, { bounds: [-9, 3] });
    expect(high.ends).toEqual([expect.closeTo(2, 6), null]);
    expect(high.starts.length).toBe(1);
  });
  // Source: the docstring of `runaways`: an end at which another parameter is held by a bound of the search alone is none
  it("has no end where another parameter has run away", () => {
    const runaways = [{ place: 0, bound: 15, takes: [1] }];
    expect(follow((d) => d * d, 0.5, { others: [0, 15], runaways }).ends).toEqual([expect.closeTo(2, 6), null]);
    expect(follow((d) => d * d, 0.5, { others: [0, 15.1], runaways: [{ ...runaways[0]!, bound: 15.1 }] }).ends).toEqual([
      expect.closeTo(2, 6),
      expect.closeTo(4, 6),
    ]);
    expect(follow((d) => (Math.abs(d) < 1 ? 0.25 : 9), 0.1, { others: [0, 14], runaways: [{ ...runaways[0]!, bound: 14 }] }).ends).toEqual([
      expect.closeTo(2, 6),
      null,
    ]);
  });
});

describe("a parameter has run away", () => {
  const away = (value: number, bound: number, j: number, takes = [0, 1]) =>
    hasRunAway([{ place: 2, bound, takes }], Float64Array.of(1, 1, value), j);
  // Source: the docstring: within 1e-9 of the bound, for the parameters that it takes along
  it("where another one lies on its bound, up to rounding", () => {
    expect(away(20, 20, 0)).toBe(true);
    expect(away(20 * (1 - 0.9e-9), 20, 1)).toBe(true);
    expect(away(20 * (1 - 1.1e-9), 20, 1)).toBe(false);
    expect(away(20 * (1 + 1.1e-9), 20, 1)).toBe(false);
    expect(away(20, 20, 2)).toBe(false);
    expect(away(-5, -5, 0)).toBe(true);
    expect(away(0, 0, 0)).toBe(true);
    expect(away(1e-9, 0, 0)).toBe(false);
    expect(hasRunAway([], Float64Array.of(1, 1, 20), 0)).toBe(false);
    expect(
      hasRunAway(
        [
          { place: 0, bound: 9, takes: [2] },
          { place: 1, bound: 1, takes: [2] },
        ],
        Float64Array.of(1, 1, 20),
        2,
      ),
    ).toBe(true);
  });
});
