// Formula, unit, count, level and reason of everything that a fitted law gives or refuses.
import { describe, expect, it } from "vitest";
import { fitLearningCurve } from "../../src/learning/fit-learning-curve.js";
import type { LearningLawName } from "../../src/learning/types.js";
import { estimatesIn } from "./estimates-in.js";
import { hyperbola } from "./hyperbola.js";

const counted = (value: readonly number[]) => ({ practice: value.map((_, i) => i + 1), value });
const OPTIONS = { unit: "cm", practiceUnit: "day", level: 0.9, predict: [11, 100], reach: [0.5, -5], band: 3 } as const;

/** Formula, and the unit of each parameter for a measure in cm and practice in days: what an exponent of practice is raised to has none. */
const LAWS: readonly (readonly [LearningLawName, string, Readonly<Record<string, string>>])[] = [
  ["constant", "a", { a: "cm" }],
  ["linear", "a + b (N - 1)", { a: "cm", b: "cm/day" }],
  ["power2", "b N^-c", { b: "cm", c: "1" }],
  ["power3", "a + b N^-c", { a: "cm", b: "cm", c: "1" }],
  ["power4", "a + b (N + e)^-c", { a: "cm", b: "cm", c: "1", e: "day" }],
  ["exponential2", "b exp(-c (N - 1))", { b: "cm", c: "1/day" }],
  ["exponential3", "a + b exp(-c (N - 1))", { a: "cm", b: "cm", c: "1/day" }],
  ["combined", "a + b N^-c exp(-d N)", { a: "cm", b: "cm", c: "1", d: "1/day" }],
  ["delayedExponential", "a + b (d + 1)/(d + exp(c (N - 1)))", { a: "cm", b: "cm", c: "1/day", d: "1" }],
];

const labelsOf = (parameters: Readonly<Record<string, string>>): Record<string, string> => ({
  ...Object.fromEntries(Object.entries(parameters).map(([letter, unit]) => [`parameters/${letter}`, unit])),
  autocorrelation: "1",
  halfLife: "day",
  remaining: "1",
  "predictions/0": "cm",
  "predictions/1": "cm",
  "reach/0": "day",
  "reach/1": "day",
});

const unitsIn = (result: unknown): Record<string, string> =>
  Object.fromEntries(estimatesIn(result).map(([path, { unit }]) => [path, unit]));
const refused = (result: unknown): string[] => estimatesIn(result).flatMap(([path, one]) => (one.ok ? [] : [`${path}: ${one.why}`]));

/** A bend that is plain, a straight line with little scatter, and what cannot be fitted. */
const BENT = counted([1.31, 1.12, 0.98, 0.91, 0.83, 0.8, 0.77, 0.73, 0.74, 0.7, 0.71, 0.69]);
const STRAIGHT = counted([1, 0.9, 0.81, 0.69, 0.61, 0.5, 0.39, 0.31, 0.2, 0.1]);
const REPEATED = { practice: [1, 1, 1, 1, 1, 1], value: [1.3, 1.2, 1.25, 1, 1.02, 0.97] };

describe.each(LAWS)("the law %s", (law, formula, parameters) => {
  const fitted = (series: Parameters<typeof fitLearningCurve>[0]) => fitLearningCurve(series, { law, ...OPTIONS });

  // Source: dimensions: N counts days, an exponent and the inside of exp() have no unit
  it.each([
    ["a bend", BENT],
    ["a straight line", STRAIGHT],
    ["one value", counted([1])],
    ["none", counted([])],
    ["equal values", counted([2, 2, 2, 2, 2, 2])],
    ["one amount of practice", REPEATED],
  ])("has its formula, and units, counts and levels of %s", (_, series) => {
    const found = fitted(series);
    expect(found).toMatchObject({ law, formula, errors: "normal", level: 0.9, n: series.value.length });
    expect(unitsIn(found)).toEqual(labelsOf(parameters));
    for (const [path, one] of estimatesIn(found)) {
      expect(one.n, path).toBe(series.value.length);
      if (one.ok && one.interval !== undefined) expect(one.level, path).toBe(0.9);
    }
  });

  it("says of too few values that they are too few, whatever was asked for", () => {
    const short = fitted(counted([1.3, 1.1, 1, 0.9].slice(0, Object.keys(parameters).length)));
    expect(refused(short)).toEqual(Object.keys(unitsIn(short)).map((path) => `${path}: tooFew`));
    expect(short).toMatchObject({
      law,
      atBound: [],
      covariance: null,
      convergence: { converged: false, reason: "tooFew", starts: 0, startsReachingBest: 0, iterations: 0 },
      quality: null,
      fitted: [],
      residuals: [],
      effectiveN: null,
      band: [],
      robust: null,
      warnings: [],
    });
  });

  it.skipIf(law === "constant")("says of equal values that they do not spread, and meets them all the same", () => {
    const flat = fitted(counted([2, 2, 2, 2, 2, 2]));
    expect(refused(flat)).toEqual(Object.keys(unitsIn(flat)).map((path) => `${path}: noSpread`));
    expect(flat).toMatchObject({ fitted: [2, 2, 2, 2, 2, 2], residuals: [0, 0, 0, 0, 0, 0], convergence: { reason: "noSpread" } });
  });

  it.skipIf(law === "constant")("says of one amount of practice that it identifies nothing", () => {
    const same = fitted(REPEATED);
    expect(refused(same)).toEqual(Object.keys(unitsIn(same)).map((path) => `${path}: notIdentified`));
    expect(same).toMatchObject({ fitted: [], residuals: [], convergence: { reason: "notIdentified" } });
  });
});

describe("what a law that was fitted does not tell", () => {
  const refusals = (law: LearningLawName, series = STRAIGHT, options = {}) =>
    refused(fitLearningCurve(series, { law, ...OPTIONS, ...options }));

  // Source: the meaning of the laws: a line and a constant have no end of which half could be made, a constant reaches its own value only, and a law that
  // falls to 0 does not reach -5
  it("is what the law does not have", () => {
    expect(refusals("constant")).toEqual([
      "halfLife: notIdentified",
      "remaining: notIdentified",
      "reach/0: outOfReach",
      "reach/1: outOfReach",
    ]);
    expect(refusals("linear")).toEqual(["halfLife: notIdentified", "remaining: notIdentified"]);
    expect(refusals("exponential2")).toEqual(["reach/1: outOfReach"]);
    expect(refusals("power2")).toEqual(["reach/1: outOfReach"]);
  });

  // Source: a straight line has no end: its bend, its asymptote and what rests on them cannot be known from it
  it("is where a straight line would end", () => {
    const open = ["parameters/a: notIdentified", "remaining: notIdentified", "predictions/1: notIdentified", "reach/1: outOfReach"];
    for (const law of ["power3", "exponential3", "power4", "combined", "delayedExponential"] as const)
      expect(refusals(law), law).toEqual(expect.arrayContaining(open));
    for (const law of ["power4", "combined", "delayedExponential"] as const)
      expect(refusals(law), law).toContain("halfLife: notIdentified");
  });

  // Source: noise about a level: no rate is shown, so that its interval has no lower end and a half-life no upper one
  it("is the half-life of noise", () => {
    const noise = counted([0.7, 0.72, 0.69, 0.71, 0.7, 0.73, 0.69, 0.7, 0.72, 0.71]);
    const { halfLife, remaining, parameters } = fitLearningCurve(noise, { ...OPTIONS });
    expect(parameters.c!.ok).toBe(false);
    expect(halfLife).toEqual({ ok: false, why: "notIdentified", unit: "day", n: 10 });
    expect(remaining).toEqual({ ok: false, why: "notIdentified", unit: "1", n: 10 });
  });

  // Source: closed forms with the rate held, so that nothing about them is unsure: ln 2/c, 2^(1/c), exp(-c (N2 - N1)) and (N2/N1)^-c
  it("is no interval of what follows from a rate that is held", () => {
    const held = fitLearningCurve(BENT, { ...OPTIONS, bounds: { c: [0.4, 0.4] } });
    expect(held.halfLife).toEqual({ ok: true, value: expect.closeTo(Math.LN2 / 0.4, 12), unit: "day", n: 12 });
    expect(held.remaining).toEqual({ ok: true, value: expect.closeTo(Math.exp(-0.4 * 11), 12), unit: "1", n: 12 });
    const power = fitLearningCurve(BENT, { ...OPTIONS, law: "power2", bounds: { c: [0.4, 0.4] } });
    expect(power.halfLife).toEqual({ ok: true, value: expect.closeTo(2 ** (1 / 0.4), 12), unit: "day", n: 12 });
    expect(power.remaining).toEqual({ ok: true, value: expect.closeTo(12 ** -0.4, 12), unit: "1", n: 12 });
  });

  it("is the likeness of neighbours in a series too short for it, or without errors", () => {
    const five = fitLearningCurve(counted([1.3, 1.1, 0.95, 0.9, 0.87, 0.86]));
    expect(five.autocorrelation).toEqual({ ok: false, why: "tooFew", unit: "1", n: 6 });
    expect(fitLearningCurve(counted([1.3, 1.1, 0.95, 0.9, 0.87, 0.86, 0.84])).autocorrelation.ok).toBe(true);
    const exact = fitLearningCurve(counted(Array.from({ length: 9 }, (_, i) => 0.5 + Math.exp(-0.3 * i))));
    expect(exact.autocorrelation).toEqual({ ok: false, why: "noSpread", unit: "1", n: 9 });
    expect(exact.effectiveN).toBe(9);
  });
});

describe("labels by default", () => {
  it("are seconds, sessions, and shares for hit shares", () => {
    const { parameters, halfLife, level } = fitLearningCurve(BENT);
    expect([parameters.a!.unit, parameters.c!.unit, halfLife.unit, level]).toEqual(["s", "1/session", "session", 0.95]);
    const shares = { ...counted([0.3, 0.4, 0.5, 0.55, 0.6, 0.62, 0.65]), trials: [40, 40, 40, 40, 40, 40, 40] };
    const hits = fitLearningCurve(shares, { errors: "binomial", predict: [8] });
    expect([hits.parameters.a!.unit, hits.predictions[0]!.unit]).toEqual(["1", "1"]);
  });
  it("are none for a law of one's own", () => {
    const own = fitLearningCurve(BENT, { law: hyperbola, predict: [13] });
    expect(own).toMatchObject({ law: "own", formula: hyperbola.formula });
    expect(Object.values(own.parameters).map(({ unit }) => unit)).toEqual(hyperbola.parameters.map(() => ""));
    expect(own.halfLife).toEqual({ ok: false, why: "notIdentified", unit: "session", n: 12 });
    expect(own.remaining).toEqual({ ok: false, why: "notIdentified", unit: "1", n: 12 });
    expect(own.predictions[0]!.unit).toBe("s");
  });
});
