// Where the search for two shape parameters begins: the grid that is looked at, the data that are looked at, and the dips that are kept.
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { curveColumns } from "../../../src/learning/curve/columns.js";
import { type BuiltInLaw, LAWS } from "../../../src/learning/curve/curve-laws.js";
import { shapeStarts } from "../../../src/learning/curve/shape-starts.js";

const OPEN = Number.POSITIVE_INFINITY;
const close = (values: readonly number[]): unknown[] => values.map((value) => expect.closeTo(value, 9));
/** `count` even steps on a logarithmic scale. */
const steps = (from: number, to: number, count = 14): number[] =>
  Array.from({ length: count }, (_, k) => from * (to / from) ** (k / (count - 1)));

type Series = Parameters<typeof curveColumns>[1];
type Name = "power4" | "combined" | "delayedExponential";

/** What a search asks of its law: values of c, of d or e at the first and at the last c, and amounts of practice. */
function asked(name: Name, series: Series, [c, d]: readonly [readonly [number, number], readonly [number, number]]) {
  const shapes: (readonly [number, number])[] = [];
  const amounts: number[] = [];
  const law: BuiltInLaw = {
    ...LAWS[name],
    at: (practice, shape, out) => {
      const last = shapes.at(-1);
      if (last === undefined || last[0] !== shape[0] || last[1] !== shape[1]) shapes.push([shape[0]!, shape[1]!]);
      if (shapes.length === 1) amounts.push(practice);
      LAWS[name].at(practice, shape, out);
    },
  };
  shapeStarts(curveColumns("test", series), law, Float64Array.of(-OPEN, -OPEN, c[0], d[0]), Float64Array.of(OPEN, OPEN, c[1], d[1]));
  const rates = [...new Set(shapes.map(([rate]) => rate))];
  const secondOf = (rate: number): number[] => shapes.flatMap(([at, second]) => (at === rate ? [second] : []));
  return { rates, first: secondOf(rates[0]!), last: secondOf(rates.at(-1)!), secondOf, amounts };
}

const SERIES = { practice: [2, 3, 5, 6, 10], value: [5, 4, 3, 2.5, 2] };

describe("the grid of a search for two shape parameters", () => {
  // Source: the docstrings: exponents from 0.03 to the upper bound in 14 even steps of the logarithm, and the lower bound; earlier practice from a fiftieth of
  // the last practice to its upper bound
  it("is of exponents and earlier practice", () => {
    const { rates, first, last } = asked("power4", SERIES, [
      [0.001, 20],
      [0, 100],
    ]);
    expect(rates).toEqual(close([0.001, ...steps(0.03, 20)]));
    expect(first).toEqual(close([0, ...steps(0.2, 100)]));
    expect(last).toEqual(first);
  });
  // Source: as above; rates from a tenth over the range of practice (8) to ten over its smallest step (1)
  it("is of exponents and rates", () => {
    const { rates, first, last } = asked("combined", SERIES, [
      [0, 20],
      [0, 20],
    ]);
    expect(rates).toEqual(close([0, ...steps(0.03, 20)]));
    expect(first).toEqual(close([0, ...steps(0.1 / 8, 10)]));
    expect(last).toEqual(first);
  });
  // Source: as above; three times as many rates; the fall in full swing at u = ln(d + 1)/c after the first value, from 0 to 1.7 ranges in squares of even steps
  it("is of rates and delays", () => {
    const { rates, secondOf } = asked("delayedExponential", SERIES, [
      [0.001, 20],
      [0, 1e6],
    ]);
    expect(rates).toEqual(close([0.001, ...steps(0.1 / 8, 10, 42)]));
    for (const rate of [rates[0]!, rates[9]!, rates[42]!]) {
      expect(secondOf(rate).map((d) => Math.log1p(d))).toEqual(
        // equal neighbours are counted once
        close([...new Set(Array.from({ length: 14 }, (_, k) => Math.min(1.7 * rate * 8 * (k / 13) ** 2, Math.log1p(1e6))))]),
      );
    }
  });
  // Source: as above: where the smallest step is below a two-hundredth of the range, that takes its place
  it("does not follow steps that are far shorter than the range", () => {
    const near = { practice: [2, 2.001, 5, 6, 10], value: [5, 4, 3, 2.5, 2] };
    expect(
      asked("combined", near, [
        [0, 20],
        [0, 1e9],
      ]).first.at(-1),
    ).toBeCloseTo(10 / 0.04, 9);
    const apart = { practice: [2, 2.05, 5, 6, 10], value: [5, 4, 3, 2.5, 2] };
    expect(
      asked("combined", apart, [
        [0, 20],
        [0, 1e9],
      ]).first.at(-1),
    ).toBeCloseTo(10 / 0.05, 9);
  });
  it("keeps within the bounds, ascending, each value once", () => {
    for (const name of ["power4", "combined", "delayedExponential"] as const) {
      const narrow = asked(name, SERIES, [
        [0.5, 0.9],
        [1.5, 2.5],
      ]);
      for (const [list, low, high] of [
        [narrow.rates, 0.5, 0.9],
        [narrow.first, 1.5, 2.5],
      ] as const) {
        expect(list[0]).toBe(low);
        expect(list.every((v) => v >= low && v <= high)).toBe(true);
        expect(list.slice(1).every((v, i) => v > list[i]!)).toBe(true);
      }
      const held = asked(name, SERIES, [
        [0.7, 0.7],
        [2, 2],
      ]);
      expect([held.rates, held.first]).toEqual([[0.7], [2]]);
      // both bounds beyond the usual grid
      const beyond = asked(name, SERIES, [
        [30, 40],
        [2e6, 3e6],
      ]);
      expect([beyond.rates[0], beyond.first[0]]).toEqual([30, 2e6]);
      expect(Math.max(...beyond.rates)).toBeLessThanOrEqual(40);
      const before = asked(name, SERIES, [
        [1e-6, 1e-5],
        [1e-6, 1e-5],
      ]);
      expect(Math.max(...before.rates, ...before.first)).toBeLessThanOrEqual(1e-5);
      expect(Math.min(...before.rates, ...before.first)).toBe(1e-6);
    }
  });
});

describe("the data that the grid is laid over", () => {
  const counted = (n: number, trials?: number[]): Series => ({
    practice: Array.from({ length: n }, (_, i) => i + 1),
    value: Array.from({ length: n }, (_, i) => 1 + 1 / (i + 1)),
    ...(trials === undefined ? {} : { trials }),
  });
  const BOUNDS = [
    [0, 20],
    [0, 20],
  ] as const;
  it("are all of forty values", () => expect(asked("combined", counted(40), BOUNDS).amounts).toEqual(counted(40).practice));
  // Source: edges at 1 to 10 and at 100^(k/40), rounded (Python): of 100 values the first eleven alone, then growing groups, by their means
  it("are growing groups of more", () => {
    const means = [
      1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12.5, 14, 15.5, 17.5, 19.5, 21.5, 24, 27, 30.5, 34, 38, 43, 48, 53.5, 60, 67.5, 75.5, 84.5, 95,
    ];
    expect(asked("combined", counted(100), BOUNDS).amounts).toEqual(close(means));
    expect(asked("combined", counted(41), BOUNDS).amounts.length).toBeLessThan(41);
  });
  // Source: by hand: the twelfth and thirteenth with weights 1 and 3 lie at 12.75 on average
  it("are weighed within a group", () =>
    expect(
      asked(
        "combined",
        counted(
          100,
          Array.from({ length: 100 }, (_, i) => (i === 12 ? 3 : 1)),
        ),
        BOUNDS,
      ).amounts[11],
    ).toBeCloseTo(12.75, 12));
});

describe("the starts of a search", () => {
  // values and a column at right angles to them and to a constant: the farther a basis leans toward the second, the more squares it leaves
  const VALUE = [3, 1, -1, -3];
  const ASIDE = [1, -3, 3, -1];
  /** A made-up law that leaves a sum of squares in order of `lean` at each place of the grid, and what becomes of it. */
  function startsOf(lean: (i: number, j: number) => number) {
    const rates: number[] = [];
    const seconds: number[] = [];
    const place = (list: number[], value: number): number => (list.includes(value) ? list.indexOf(value) : list.push(value) - 1);
    const law: BuiltInLaw = {
      ...LAWS.combined,
      at: (practice, shape, out) => {
        const here = lean(place(rates, shape[0]!), place(seconds, shape[1]!));
        out[0] = VALUE[practice - 1]! + here * ASIDE[practice - 1]!;
      },
    };
    const columns = curveColumns("test", { practice: [1, 2, 3, 4], value: VALUE });
    const starts = shapeStarts(columns, law, Float64Array.of(-OPEN, -OPEN, 0, 0), Float64Array.of(OPEN, OPEN, 20, 20));
    return starts.map(([a, b, c, d]) => {
      expect([a, b]).toEqual([0, 0]);
      return `${rates.indexOf(c!)},${seconds.indexOf(d!)}`;
    });
  }
  // Source: brute force: the places that no neighbour, the diagonal ones among them, lies below; of equal neighbours the first in reading order
  test.prop([fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 225, maxLength: 225 }), fc.boolean()], { numRuns: 60 })(
    "are all dips of the grid",
    (levels, holes) => {
      // a level of 5 may stand for a law that is no number there
      const at = (i: number, j: number): number => (holes && levels[15 * i + j] === 5 ? Number.NaN : levels[15 * i + j]!);
      const expected: string[] = [];
      for (let i = 0; i < 15; i++) {
        for (let j = 0; j < 15; j++) {
          const here = at(i, j);
          let dip = !Number.isNaN(here);
          for (let k = 0; k < 225; k++) {
            const [p, q] = [Math.floor(k / 15), k % 15];
            if (k === 15 * i + j || Math.abs(p - i) > 1 || Math.abs(q - j) > 1) continue;
            if (at(p, q) < here || (at(p, q) === here && k < 15 * i + j)) dip = false;
          }
          if (dip) expected.push(`${i},${j}`);
        }
      }
      expect(startsOf(at)).toEqual(expected.length > 0 ? expected : ["0,0"]);
    },
  );
  it("are one where the law says nothing anywhere, or in one place alone", () => {
    expect(startsOf(() => Number.NaN)).toEqual(["0,0"]);
    expect(startsOf((i, j) => (i === 7 && j === 9 ? 1 : Number.NaN))).toEqual(["7,9"]);
  });
  // Source: the truth of values without noise: some start lies within a step of the grid, a factor of 1.65 in c and 2.1 in d (500 values, 13 steps between ends)
  it("are near the truth in a long series, whose gain may only be above 0", () => {
    const practice = Array.from({ length: 500 }, (_, i) => i + 1);
    const columns = curveColumns("test", { practice, value: practice.map((at) => 2 + 3 * at ** -0.5 * Math.exp(-0.02 * at)) });
    const starts = shapeStarts(columns, LAWS.combined, Float64Array.of(0, 0, 0, 0), Float64Array.of(OPEN, OPEN, 20, 20));
    const near = starts.filter(
      ([, , c, d]) => Math.abs(Math.log(c! / 0.5)) < Math.log(1.7) && Math.abs(Math.log(d! / 0.02)) < Math.log(2.1),
    );
    expect(near.length).toBeGreaterThan(0);
  });
  it("are one without parameters of a law without shape", () =>
    expect(
      shapeStarts(
        curveColumns("test", { practice: [1, 2, 3, 4], value: VALUE }),
        LAWS.linear,
        Float64Array.of(-OPEN, -OPEN),
        Float64Array.of(OPEN, OPEN),
      ).map((start) => start.length),
    ).toEqual([2]));
});
