// The permutation test of a comparison, every arrangement written out.
import { fc, test } from "@fast-check/vitest";
import { mean, median, variance } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { compare } from "../../../src/learning/compare.js";

const lists = (min: number, max: number) =>
  fc.array(
    fc.integer({ min: 1, max: 12 }).map((v) => v / 4),
    { minLength: min, maxLength: max },
  );

/** Every way to choose `k` of the values, with those left over. */
function* splits(values: readonly number[], k: number): Generator<[number[], number[]]> {
  for (let bits = 0; bits < 2 ** values.length; bits++) {
    const chosen = values.filter((_, i) => (bits >> i) & 1);
    if (chosen.length === k) yield [chosen, values.filter((_, i) => !((bits >> i) & 1))];
  }
}

/** Share of sizes that are at least the observed one, but for rounding. */
const shareFrom = (sizes: readonly number[], observed: number): number =>
  sizes.filter((size) => size >= observed - 1e-9 * Math.max(1, observed)).length / sizes.length;

// Welch's t without its sign; without any spread means that differ are infinitely far apart
function welch(one: readonly number[], other: readonly number[]): number {
  const apart = Math.abs(mean([...one]) - mean([...other]));
  const error = Math.sqrt(
    (variance([...one]) * one.length) / (one.length - 1) / one.length +
      (variance([...other]) * other.length) / (other.length - 1) / other.length,
  );
  return error > 1e-12 ? apart / error : apart > 1e-12 ? Number.POSITIVE_INFINITY : 0;
}

describe("the permutation test against every arrangement written out", () => {
  // Source: simple-statistics 7.12.1 median and mean of every arrangement of the sessions between the periods
  test.prop([lists(2, 5), lists(2, 4)], { numRuns: 40 })("of medians", (before, after) => {
    const { permutation } = compare(before, after, { kind: "difference", centre: "median", worthwhile: 1 });
    const size = (one: readonly number[], other: readonly number[]): number => Math.abs(median([...one]) - median([...other]));
    if (permutation === null) return;
    const sizes = [...splits([...before, ...after], before.length)].map(([one, other]) => size(one, other));
    expect(permutation).toMatchObject({ exact: true, arrangements: sizes.length });
    expect(permutation.p).toBeCloseTo(shareFrom(sizes, size(before, after)), 12);
  });

  // Source: as above; means by Welch's t
  test.prop([lists(2, 5), lists(2, 4)], { numRuns: 40 })("of means", (before, after) => {
    const { permutation } = compare(before, after, { kind: "difference", worthwhile: 1 });
    if (permutation === null) return;
    const sizes = [...splits([...before, ...after], before.length)].map(([one, other]) => welch(one, other));
    expect(permutation.p).toBeCloseTo(shareFrom(sizes, welch(before, after)), 12);
  });

  // Source: every choice of signs; a mean by the sum of the differences, a median by how many more rise than fall (the sign test)
  test.prop([fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 2, maxLength: 7 })], { numRuns: 60 })("of pairs", (differences) => {
    const before = differences.map(() => 20);
    const after = differences.map((change) => 20 + change);
    const signed = (bits: number): number[] => differences.map((change, i) => ((bits >> i) & 1 ? -change : change));
    const all = Array.from({ length: 2 ** differences.length }, (_, bits) => signed(bits));
    const sizes = {
      mean: (list: readonly number[]): number => Math.abs(list.reduce((sum, v) => sum + v, 0)),
      median: (list: readonly number[]): number => Math.abs(list.reduce((sum, v) => sum + Math.sign(v), 0)),
    };
    for (const centre of ["mean", "median"] as const) {
      const { permutation } = compare(before, after, { kind: "difference", worthwhile: 1, paired: true, centre });
      if (permutation === null) continue;
      expect(permutation.p, centre).toBeCloseTo(shareFrom(all.map(sizes[centre]), sizes[centre](differences)), 12);
    }
  });

  // Source: by hand: 3, 4, 5, -1 sum to 11; of 16 choices of signs only those without the -1, or with it and no other turned, reach it, and their
  // opposites: 4 of 16. Three of four rise: 2 x (1 + 4) of 16 choices have three or more of one sign
  it("tells sums from signs", () => {
    const p = (centre: "mean" | "median") =>
      compare([9, 9, 9, 9], [12, 13, 14, 8], { kind: "difference", worthwhile: 1, paired: true, centre }).permutation!.p;
    expect(p("mean")).toBe(4 / 16);
    expect(p("median")).toBe(10 / 16);
  });

  // Source: 24 over 12 is 2704156, 26 signs 67108864; the chance of as much by random rearrangements counts the observed one among them: (1 + 0)/(1 + 99)
  it("draws where there are too many to count, and says how many there are", () => {
    const low = Array.from({ length: 12 }, (_, i) => 1 + i / 100);
    const high = low.map((v) => v + 1);
    const drawn = compare(low, high, { kind: "difference", worthwhile: 1, permutations: 99 }).permutation;
    expect(drawn).toEqual({ p: 0.01, exact: false, arrangements: 2704156, smallestP: 0.01 });
    const pairs = Array.from({ length: 26 }, (_, i) => 1 + i);
    const turned = compare(
      pairs,
      pairs.map((v, i) => v + 1 + i / 50),
      { kind: "difference", worthwhile: 1, permutations: 99, paired: true },
    );
    expect(turned.permutation).toEqual({ p: 0.01, exact: false, arrangements: 67108864, smallestP: 0.01 });
    const many = Array.from({ length: 60 }, (_, i) => 1 + i / 100);
    const uncounted = compare(
      many,
      many.map((v) => v + 9),
      { kind: "difference", worthwhile: 1, permutations: 99 },
    ).permutation;
    expect(uncounted).toMatchObject({ exact: false, arrangements: null });
  });
});
