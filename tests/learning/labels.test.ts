// Unit, count and level of every number of a full comparison and of a full table of reliability.
import { describe, expect, it } from "vitest";
import { compare } from "../../src/learning/compare.js";
import { reliability } from "../../src/learning/reliability.js";
import { labelsIn, refusalsIn } from "./estimates-in.js";

const BEFORE = [0.7, 0.9, 0.8, 0.75, 0.82, 0.9];
const AFTER = [0.7, 0.66, 0.8, 0.9, 0.7, 0.8];

describe("a full comparison", () => {
  it("labels means in percent, by count of both periods", () => {
    const result = compare(BEFORE, AFTER.slice(1), { unit: "s", level: 0.9, autocorrelation: 0.1 });
    expect(refusalsIn(result)).toEqual([]);
    expect(labelsIn(result)).toEqual([
      'before/centre: unit "s", n 6, level 0.9',
      'before/sd: unit "%", n 6, level 0.9',
      'after/centre: unit "s", n 5, level 0.9',
      'after/sd: unit "%", n 5, level 0.9',
      'change: unit "%", n 11, level 0.9',
      'sessionSd: unit "%", n 11, level 0.9',
      'sessionsNeeded: unit "session", n 11, level 0.9',
      'autocorrelation/r: unit "1", n 11',
    ]);
    expect(result.equivalence!.level).toBe(0.8);
    expect(result).toMatchObject({ kind: "percent", centre: "mean", paired: false, better: "lower", level: 0.9, seed: 1, worthwhile: 2 });
  });
  // Source: the interval of a median by order has the level of its binomial tails: of six values the first to the last holds 1 - 2/2^6, 0.96875
  it("labels medians of pairs in the unit of the measure, by count of pairs", () => {
    const options = {
      unit: "s",
      level: 0.9,
      kind: "difference",
      paired: true,
      centre: "median",
      better: "higher",
      seed: 7,
      worthwhile: 1,
    } as const;
    const result = compare(BEFORE, AFTER, options);
    expect(refusalsIn(result)).toEqual([]);
    expect(labelsIn(result)).toEqual([
      'before/centre: unit "s", n 6, level 0.96875',
      'before/sd: unit "s", n 6, level 0.9',
      'after/centre: unit "s", n 6, level 0.96875',
      'after/sd: unit "s", n 6, level 0.9',
      'change: unit "s", n 6, level 0.9',
      'sessionSd: unit "s", n 6, level 0.9',
      'sessionsNeeded: unit "session", n 6, level 0.9',
      'autocorrelation/r: unit "1", n 6',
    ]);
    expect(result).toMatchObject({
      kind: "difference",
      centre: "median",
      paired: true,
      better: "higher",
      level: 0.9,
      seed: 7,
      worthwhile: 1,
    });
  });
  it("has no unit by default", () => expect(compare(BEFORE, AFTER, { kind: "difference" }).change.unit).toBe(""));
});

describe("a full table of reliability", () => {
  const table = reliability(
    [
      [62, 67, 66],
      [78, 76, 79],
      [81, 87, 85],
      [55, 56, 57],
    ],
    { unit: "cm", level: 0.9 },
  );
  it("labels correlations by people, errors by scores, pairs by people and persons by sessions", () => {
    expect(refusalsIn(table)).toEqual([]);
    const line = (path: string, unit: string, n: number): string => `${path}: unit "${unit}", n ${n}, level 0.9`;
    expect(labelsIn(table)).toEqual([
      ...["1,1", "1,k", "2,1", "2,k", "3,1", "3,k"].map((form) => line(`icc/${form}`, "1", 4)),
      line("typicalError", "cm", 12),
      line("typicalErrorPercent", "%", 12),
      line("withinError", "cm", 12),
      line("minimalDetectable/at95", "cm", 12),
      line("minimalDetectable/at90", "cm", 12),
      ...[0, 1].flatMap((pair) => [
        ...["change", "sdOfChange", "typicalError"].map((path) => line(`pairs/${pair}/${path}`, "cm", 4)),
        line(`pairs/${pair}/typicalErrorPercent`, "%", 4),
        ...["low", "high"].map((end) => line(`pairs/${pair}/limits/${end}`, "cm", 4)),
      ]),
      ...[0, 1, 2, 3].map((person) => line(`own/${person}/sd`, "cm", 3)),
    ]);
    expect(table).toMatchObject({ unit: "cm", level: 0.9, people: 4, sessions: 3 });
    expect(table.pairs.map(({ sessions }) => sessions)).toEqual([
      [0, 1],
      [1, 2],
    ]);
    expect(reliability([[1, 2]])).toMatchObject({ unit: "", level: 0.95 });
  });
  it("has nulls where there is one score or none", () => {
    expect(reliability([])).toMatchObject({
      mean: null,
      sd: null,
      betweenSd: null,
      pureBetweenSd: null,
      worthwhile: null,
      errorFromIcc: null,
    });
    expect(reliability([[3]])).toMatchObject({ mean: 3, sd: null, variances: null, betweenSd: null, pairs: [], warnings: [] });
    expect(reliability([[3]]).own[0]).toMatchObject({ mean: 3, unbiasedSd: null, cv: null, unbiasedCv: null, cvFromLogs: null });
    expect(reliability([[3], [5]])).toMatchObject({
      mean: 4,
      sd: expect.closeTo(Math.SQRT2, 12),
      betweenSd: expect.closeTo(Math.SQRT2, 12),
      pureBetweenSd: null,
    });
  });
});
