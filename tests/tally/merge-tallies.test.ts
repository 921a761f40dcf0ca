import { fc, test } from "@fast-check/vitest";
import { all, create } from "mathjs";
import { describe, expect, it } from "vitest";
import { quantile } from "../../src/math/quantile.js";
import { analyze } from "../../src/movement/analyze.js";
import type { Acquisition } from "../../src/movement/types.js";
import { mergeTallies } from "../../src/tally/merge-tallies.js";
import { readTally } from "../../src/tally/read-tally.js";
import { tally } from "../../src/tally/tally.js";
import type { MeasureReading, Tally } from "../../src/tally/types.js";
import { choiceReachPeople, convertChoiceReach } from "../data/convert-choice-reach.js";
import { deepFreeze } from "../movement/simulated.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";
import { anyRowsArb, asBinary, BOTH, rowWith, valueArb } from "./values.js";

const nist = readReference("learning/nist-univariate.json");
const people = choiceReachPeople();
const big = create(all, { number: "BigNumber", precision: 400 });

const exactly = (value: number) => {
  const { whole, exponent } = asBinary(value);
  return big.multiply(big.bignumber(whole), big.pow(big.bignumber(2), exponent));
};
const OPTIONS = { ...BOTH, by: { block: (row: Acquisition) => row.block } };
/** Rows of a part, some parts without any. */
const partsOf = <T>(list: readonly T[], parts: number): T[][] =>
  Array.from({ length: parts }, (_, part) => list.filter((_, i) => (i * 7 + (i >> 2)) % parts === part));
const merged = (values: readonly number[], parts: number): MeasureReading =>
  readTally(
    mergeTallies(
      partsOf(values, parts).map((part) =>
        tally(
          part.map((value) => rowWith(value)),
          BOTH,
        ),
      ),
    ),
  ).groups[0]!.measures.pressAfterStop!;

describe("mergeTallies against outside values", () => {
  it.skipIf(!nist)(`has NIST's nine data sets (else: ${SHARED_ABSENT})`, () => expect(nist!.cases.length).toBe(9));

  // Source: NIST Statistical Reference Datasets, univariate summary statistics, certified mean and SD; reference/learning/nist-univariate.json.
  it.each(nist?.cases ?? [])("mean and SD of $name from 1, 2 and 17 parts", ({ input, expected, tolerance }) => {
    const values = Array.from(input.values ?? [...input.digits], Number);
    for (const parts of [1, 2, 17]) {
      const { mean, sd } = merged(values, parts);
      expect(mean.ok && within(mean.value, expected.mean, tolerance)).toBe(true);
      expect(sd.ok && within(sd.value, expected.sd, tolerance)).toBe(true);
    }
  });

  // Source: mathjs 15.2.0 with 400 digits, on the whole: mean and sum of squared deviations. The bar is 1e-12 relative.
  test.prop([fc.array(valueArb, { minLength: 2, maxLength: 25 }), fc.integer({ min: 1, max: 9 })], { numRuns: 60 })(
    "moments of merged parts are those of the whole",
    (values, parts) => {
      const { n, mean, sd } = merged(values, parts);
      // sizes below 1e-140 are taken as 0
      const exact = values.map((value) => exactly(Math.abs(value) < 1e-140 ? 0 : value));
      const truth = big.mean(exact as never) as never;
      const near = (got: number, wanted: unknown): boolean => Math.abs(got - Number(wanted)) <= 1e-12 * Math.abs(Number(wanted));
      expect(n).toBe(values.length);
      expect(mean.ok && near(mean.value, truth)).toBe(true);
      const spread = big.sqrt(big.variance(exact as never) as never);
      expect(sd.ok ? near(sd.value, spread) : Number(spread) === 0).toBe(true);
    },
  );

  // Source: rule 7 of Hyndman and Fan on all values sorted (tests/math/quantile.test.ts checks it against NumPy).
  test.prop([fc.array(valueArb, { minLength: 1, maxLength: 60 }), fc.integer({ min: 1, max: 9 })])(
    "quantiles of the whole lie within the brackets",
    (values, parts) => {
      const sorted = Float64Array.from(values).sort();
      // sizes below 1e-140 are taken as 0
      const rounding = 1e-140 + 1e-15 * Math.max(...sorted.map(Math.abs));
      const { min, max, quantiles } = merged(values, parts);
      expect([min, max].map((end) => Math.abs(end!) >= 1e-140 && end)).toEqual(
        [sorted[0]!, sorted.at(-1)!].map((end) => Math.abs(end) >= 1e-140 && end),
      );
      for (const { p, within: ends } of quantiles) {
        const truth = quantile(sorted, p);
        expect(ends![0] - rounding <= truth && truth <= ends![1] + rounding).toBe(true);
      }
    },
  );

  // Source: choice-reach recordings (Kieslich and Henninger 2017): all rows at once.
  it.skipIf(people.length === 0)("real recordings tallied apart are those tallied together", () => {
    const rows = people.map((person) => analyze(convertChoiceReach(person)));
    const whole = JSON.stringify(tally(rows.flat()));
    const parts = rows.map((own) => tally(own));
    expect(rows.flat().length).toBe(304);
    expect(JSON.stringify(mergeTallies(parts))).toBe(whole);
    expect(JSON.stringify(mergeTallies([...parts].reverse()))).toBe(whole);
  });
});

describe("mergeTallies properties", () => {
  test.prop([
    anyRowsArb,
    fc.array(fc.nat({ max: 6 }), { minLength: 40, maxLength: 40 }),
    fc.array(fc.nat(), { minLength: 7, maxLength: 7 }),
  ])("is byte for byte the tally of the whole, in any order and grouping, empty parts included", (rows, places, order) => {
    const whole = JSON.stringify(tally(rows, OPTIONS));
    const parts = Array.from({ length: 7 }, (_, part) =>
      tally(
        rows.filter((_, i) => places[i] === part),
        OPTIONS,
      ),
    );
    const shuffled = parts
      .map((part, i) => ({ part, at: order[i]! }))
      .sort((a, b) => a.at - b.at)
      .map(({ part }) => part);
    const byFile = (list: Tally[]): Tally[] => list.map((part) => JSON.parse(JSON.stringify(part)));
    expect(JSON.stringify(mergeTallies(deepFreeze(shuffled)))).toBe(whole);
    const halves = [mergeTallies(byFile(shuffled.slice(0, 3))), mergeTallies(byFile(shuffled.slice(3)))];
    expect(JSON.stringify(mergeTallies(halves.reverse()))).toBe(whole);
    expect(JSON.stringify(shuffled.reduce((sum, part) => mergeTallies([sum, part])))).toBe(whole);
  });

  test.prop([anyRowsArb])("leaves one tally, and one beside an empty one, as it is", (rows) => {
    const one = tally(rows, OPTIONS);
    expect(mergeTallies([one])).toEqual(one);
    expect(mergeTallies([tally([], OPTIONS), one])).toEqual(one);
  });

  it("reads an iterator, and groups stand beside each other", () => {
    function* parts() {
      for (const person of ["b", "a", "b"]) yield tally([rowWith(1)], { ...BOTH, by: { person } });
    }
    expect(mergeTallies(parts()).groups.map(({ labels, n }) => [labels.person, n])).toEqual([
      ["a", 1],
      ["b", 2],
    ]);
  });
});

// biome-ignore lint/suspicious/noExplicitAny: broken on purpose, anywhere
type Broken = any;

describe("mergeTallies bad input", () => {
  const one = tally([rowWith(1), rowWith(2)], BOTH);
  const other = (change: (copy: Broken) => void): Tally => {
    const copy = JSON.parse(JSON.stringify(one));
    change(copy);
    return copy;
  };
  const measure = (copy: Broken) => copy.groups[0].measures.pressAfterStop;

  it.each([
    [[one, tally([], { ...BOTH, unit: "deg" })], 'options.unit is "deg" in tallies[1] and "px" in tallies[0]'],
    [[one, tally([])], 'options.measures is ["acquisitionTime",'],
    [[one, tally([], { ...BOTH, covariances: [] })], "options.covariances is [] in tallies[1]"],
    [[one, tally([], { ...BOTH, edges: {} })], "options.edges is {} in tallies[1]"],
    [[one, one, tally([], { ...BOTH, by: { person: "a" } })], 'options.labels is ["person"] in tallies[2] and [] in tallies[0]'],
    [
      [
        one,
        other((copy) => {
          copy.header.version = "0.4.9";
        }),
      ],
      `the library's version is "0.4.9" in tallies[1] and "${one.header.version}" in tallies[0]`,
    ],
    [
      [
        other((copy) => {
          copy.header.schema = 2;
        }),
      ],
      "tallies[0].header.schema must be 1, got 2",
    ],
    [
      [
        other((copy) => {
          copy.header.library = "x";
        }),
      ],
      'tallies[0].header.library must be "aimed-movement", got "x"',
    ],
    [
      [
        other((copy) => {
          copy.header.bins.perOctave = 64;
        }),
      ],
      "tallies[0].header.bins.perOctave must be 128, got 64",
    ],
    [
      [
        other((copy) => {
          measure(copy).n = 3;
        }),
      ],
      "measures.pressAfterStop.n + missing must be 2, got 3",
    ],
    [
      [
        other((copy) => {
          measure(copy).n = -1;
        }),
      ],
      "measures.pressAfterStop.n must be a whole number",
    ],
    [
      [
        other((copy) => {
          measure(copy).sum = [null];
        }),
      ],
      "measures.pressAfterStop.sum[0] must be a number, got null",
    ],
    [
      [
        other((copy) => {
          measure(copy).bins.pop();
        }),
      ],
      "the values in tallies[0].groups[0].measures.pressAfterStop.bins must be 2, got 1",
    ],
    [
      [
        other((copy) => {
          measure(copy).bins.reverse();
        }),
      ],
      "pressAfterStop.bins[1][0] must be a whole number",
    ],
    [
      [
        other((copy) => {
          measure(copy).histogram = [2];
        }),
      ],
      "the length of tallies[0].groups[0].measures.pressAfterStop.histogram must be 4, got 1",
    ],
    [
      [
        other((copy) => {
          measure(copy).min = null;
        }),
      ],
      "measures.pressAfterStop.min must be a number, got null",
    ],
    [
      [
        other((copy) => {
          delete copy.groups[0].measures.peakSpeed;
        }),
      ],
      "measures.peakSpeed must be an object, got undefined",
    ],
    [
      [
        other((copy) => {
          copy.groups[0].joint.sums.pop();
        }),
      ],
      "the length of tallies[0].groups[0].joint.sums must be 2, got 1",
    ],
    [
      [
        other((copy) => {
          copy.groups[0].outcomes.hit = 0.5;
        }),
      ],
      "outcomes.hit must be a whole number",
    ],
    [
      [
        other((copy) => {
          copy.groups = {};
        }),
      ],
      "tallies[0].groups must be a list, got an object of type Object",
    ],
    [[null as never], "tallies[0] must be an object, got null"],
    [[], "tallies must hold at least one tally, got none"],
    [one as never, "tallies must be a list or an iterator of tallies, got an object of type Object"],
    [undefined as never, "got undefined"],
  ])("%#", (tallies: Tally[], message: string) => expect(() => mergeTallies(tallies)).toThrow(message));
});
