import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { reliability } from "../../src/learning/reliability.js";
import type { Estimate } from "../../src/math/estimate.js";
import { createRandom } from "../../src/math/random.js";
import { band } from "../math/estimate-properties.js";

/** Six people seen by four judges, Shrout and Fleiss 1979. */
const JUDGED = [
  [9, 2, 5, 8],
  [6, 1, 3, 2],
  [8, 4, 6, 8],
  [7, 1, 2, 6],
  [10, 5, 6, 9],
  [6, 2, 4, 7],
];
const TWICE = [
  [62, 67],
  [78, 76],
  [81, 87],
  [55, 55],
  [66, 63],
];

const given = (estimate: Estimate | null): number => (estimate?.ok ? estimate.value : Number.NaN);
const FORMS = ["1,1", "1,k", "2,1", "2,k", "3,1", "3,k"] as const;

describe("reliability against outside values", () => {
  // Source: Shrout and Fleiss 1979, as printed (from memory; the data in the help page of the R package psych): .17 .44 .29 .62 .71 .91
  it("gives the six printed correlations", () => {
    const { icc } = reliability(JUDGED);
    expect(FORMS.map((form) => Math.round(100 * given(icc[form])) / 100)).toEqual([0.17, 0.44, 0.29, 0.62, 0.71, 0.91]);
  });
  // Source: R package psych 2.2.9, ICC, computed
  it("gives their intervals", () => {
    const { icc } = reliability(JUDGED);
    const ends: Readonly<Record<(typeof FORMS)[number], readonly [number, number]>> = {
      "1,1": [-0.13293232487475096, 0.7225600623281211],
      "1,k": [-0.8844421552381196, 0.9124154203407756],
      "2,1": [0.018786513374712044, 0.7610843696489529],
      "2,k": [0.07113681530250347, 0.9272320401677219],
      "3,1": [0.34246476503392614, 0.9458582599553597],
      "3,k": [0.6756747138163055, 0.9858916781690623],
    };
    for (const form of FORMS) {
      const [low, high] = ends[form];
      expect(icc[form]).toMatchObject({ n: 6, unit: "1", level: 0.95, interval: [expect.closeTo(low, 10), expect.closeTo(high, 10)] });
    }
  });
  // Source: the classical analysis of variance of these scores: 11.24, 6.26, 32.49 and 1.02 (Shrout and Fleiss 1979, from memory), digits by NumPy 1.24.2; p by SciPy stats.f.sf
  it("gives the analysis of variance", () => {
    const { variances } = reliability(JUDGED);
    expect(variances!.between).toEqual({
      sumOfSquares: expect.closeTo(56.20833333333334, 10),
      df: 5,
      meanSquare: expect.closeTo(11.241666666666669, 10),
    });
    expect(variances!.within).toMatchObject({ df: 18, meanSquare: expect.closeTo(6.2638888888888875, 10) });
    expect(variances!.sessions).toMatchObject({ df: 3, meanSquare: expect.closeTo(32.486111111111114, 10) });
    expect(variances!.error).toMatchObject({ df: 15, meanSquare: expect.closeTo(1.019444444444442, 10) });
    expect(variances!.sessionTest!.f).toBeCloseTo(32.486111111111114 / 1.019444444444442, 8);
  });
  // Source: Hopkins 2000, five people twice: SD of change 4.1, typical error 2.9 (from memory); digits by NumPy and SciPy 1.10.1
  it("gives the typical error of five people twice", () => {
    const { pairs, typicalError, minimalDetectable, worthwhile, betweenSd } = reliability(TWICE, { unit: "s" });
    expect(typicalError).toEqual({
      ok: true,
      value: expect.closeTo(2.8896366553599777, 11),
      unit: "s",
      n: 10,
      interval: [expect.closeTo(1.7312770802829032, 10), expect.closeTo(8.303531691448601, 10)],
      level: 0.95,
    });
    expect(pairs).toHaveLength(1);
    expect(given(pairs[0]!.sdOfChange)).toBeCloseTo(4.08656334834051, 11);
    expect(given(pairs[0]!.typicalErrorPercent)).toBeCloseTo(4.079351118030461, 9);
    expect(pairs[0]!.change).toMatchObject({
      value: expect.closeTo(1.2, 11),
      interval: [expect.closeTo(-3.8741385860134487, 9), expect.closeTo(6.274138586013449, 9)],
    });
    expect(given(minimalDetectable.at95)).toBeCloseTo(8.009516983288812, 9);
    expect(betweenSd).toBeCloseTo(11.64259421263148, 10);
    expect(worthwhile).toEqual({ observed: expect.closeTo(2.328518842526296, 10), pure: expect.closeTo(2.2556595487794695, 10) });
  });
  // Source: z sqrt 2 with z = 1.959964 and 1.644854 (normal tables): 2.772 and 2.326 typical errors
  it("detects 2.772 and 2.326 typical errors", () => {
    const { minimalDetectable, typicalError } = reliability(TWICE);
    expect(given(minimalDetectable.at95) / given(typicalError)).toBeCloseTo(2.772, 3);
    expect(given(minimalDetectable.at90) / given(typicalError)).toBeCloseTo(2.326, 3);
  });
  // Source: peak flow by two meters, 17 people (Bland and Altman 1986): bias -2.1, SD 38.8 (from memory); limits and interval by NumPy and SciPy 1.10.1
  it("gives the limits of agreement of a published example", () => {
    const wright = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427];
    const mini = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];
    const [pair] = reliability(mini.map((value, i) => [value, wright[i]!])).pairs;
    expect(given(pair!.change)).toBeCloseTo(-2.1176470588235294, 10);
    expect(given(pair!.sdOfChange)).toBeCloseTo(38.76512987360738, 10);
    expect(given(pair!.limits.low)).toBeCloseTo(-78.097301611094, 9);
    expect(given(pair!.limits.high)).toBeCloseTo(73.86200749344692, 9);
    // standard error of a limit 16.395..., Student's t with 16 degrees of freedom 2.119905
    const [low, high] = pair!.limits.low.ok ? pair!.limits.low.interval! : [0, 0];
    expect((high - low) / 2).toBeCloseTo(2.1199052992210112 * 16.39510798471452, 8);
  });
  // Source: NumPy and SciPy 1.10.1, five times of one person; c4(5) = 0.93999
  it("gives one person's own scatter", () => {
    const { own, icc, withinError, warnings } = reliability([[312, 298, 305, 321, 290]]);
    expect(own[0]!.cv).toBeCloseTo(3.941392957718367, 10);
    expect(own[0]!.unbiasedCv).toBeCloseTo(4.138462605604286, 10);
    expect(own[0]!.cvFromLogs).toBeCloseTo(3.942172498816829, 10);
    expect(own[0]!.unbiasedSd).toBeCloseTo(12.797144199587935, 10);
    expect(given(withinError)).toBeCloseTo(given(own[0]!.sd), 12);
    expect(icc["2,1"]).toEqual({ ok: false, why: "tooFew", unit: "1", n: 1 });
    expect(warnings).toEqual([]);
  });
  // Source: the model itself, simulated: people SD 2, sessions SD 0.5 (form 3 leaves them out), errors SD 1: ICC(2,1) = 4/5.25, ICC(3,1) = 4/5; binomial 99 % band of 500 tables
  it("holds the true correlations and errors as often as it says", () => {
    const random = createRandom(51);
    const runs = 500;
    const held = { agreement: 0, consistency: 0, error: 0 };
    const inside = (estimate: Estimate, truth: number) =>
      estimate.ok && estimate.interval![0] <= truth && truth <= estimate.interval![1] ? 1 : 0;
    for (let run = 0; run < runs; run++) {
      const sessions = Array.from({ length: 4 }, () => random.normal(0, 0.5));
      const { icc, typicalError } = reliability(
        Array.from({ length: 12 }, () => {
          const person = random.normal(10, 2);
          return sessions.map((session) => person + session + random.normal());
        }),
      );
      held.agreement += inside(icc["2,1"], 4 / 5.25);
      held.consistency += inside(icc["3,1"], 4 / 5);
      held.error += inside(typicalError, 1);
    }
    for (const share of Object.values(held)) expect(Math.abs(share / runs - 0.95)).toBeLessThan(band(0.95, runs));
  });
});

describe("reliability properties", () => {
  const table = (least: number) =>
    fc.tuple(fc.integer({ min: least, max: 8 }), fc.integer({ min: least, max: 5 })).chain(([people, sessions]) =>
      fc.array(
        fc.array(
          fc.integer({ min: 1, max: 900 }).map((v) => v / 10),
          { minLength: Math.max(1, sessions), maxLength: Math.max(1, sessions) },
        ),
        { minLength: people, maxLength: people },
      ),
    );
  const near = (a: Estimate, b: Estimate, factor = 1, digits = 7): void => {
    expect(b.ok).toBe(a.ok);
    if (a.ok && b.ok) expect(b.value / factor).toBeCloseTo(a.value, digits);
  };

  test.prop([table(0)])("leaves its input alone and gives plain data", (scores) => {
    for (const row of scores) Object.freeze(row);
    const result = reliability(Object.freeze(scores));
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(structuredClone(result)).toEqual(result);
    expect(reliability(scores.map((row) => Float64Array.from(row)))).toEqual(result);
  });
  test.prop([table(2)])("splits the whole scatter into people, sessions and errors", (scores) => {
    const { variances, sd, people, sessions } = reliability(scores);
    const { between, within, error } = variances!;
    const total = sd! ** 2 * (people * sessions - 1);
    expect(Math.abs(between.sumOfSquares + within.sumOfSquares - total)).toBeLessThanOrEqual(1e-9 * (1 + total));
    expect(variances!.sessions.sumOfSquares + error.sumOfSquares).toBeCloseTo(within.sumOfSquares, 6);
    expect(between.df + within.df).toBe(people * sessions - 1);
  });
  test.prop([table(2), fc.integer({ min: -20, max: 20 }), fc.integer({ min: 0, max: 1000 })])(
    "keeps correlations and scales errors with level and unit",
    (scores, power, offset) => {
      const factor = 2 ** power;
      const plain = reliability(scores);
      const moved = reliability(scores.map((row) => row.map((v) => (v + offset) * factor)));
      // what is all rounding in one may be none in the other
      if (plain.variances!.error.meanSquare < 1e-6 || plain.variances!.between.meanSquare < 1e-6) return;
      for (const form of FORMS) near(plain.icc[form], moved.icc[form]);
      near(plain.typicalError, moved.typicalError, factor);
      near(plain.withinError, moved.withinError, factor);
    },
  );
  test.prop([table(2)])("does not depend on the order of the people", (scores) => {
    const plain = reliability(scores);
    const turned = reliability(scores.slice().reverse());
    if (plain.variances!.error.meanSquare < 1e-6) return;
    near(plain.icc["2,1"], turned.icc["2,1"]);
    near(plain.typicalError, turned.typicalError);
    expect(turned.own.slice().reverse()).toEqual(plain.own);
  });
  test.prop([table(2), fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 5, maxLength: 5 })])(
    "takes what is common to a session out of form 3 and of the typical error",
    (scores, added) => {
      const plain = reliability(scores);
      const shifted = reliability(scores.map((row) => row.map((v, j) => v + added[j]!)));
      if (plain.variances!.error.meanSquare < 1e-6) return;
      near(plain.icc["3,1"], shifted.icc["3,1"]);
      near(plain.typicalError, shifted.typicalError);
    },
  );
  it("is the same with clock times: a large common offset costs no digits", () => {
    const far = reliability(TWICE.map((row) => row.map((v) => v + 1.7e9)));
    expect(given(far.typicalError)).toBeCloseTo(2.8896366553599777, 6);
    expect(given(far.icc["3,1"])).toBeCloseTo(given(reliability(TWICE).icc["3,1"]), 6);
  });
  it("does not call a difference that all share an error", () => {
    const exact = reliability([
      [1, 3],
      [2, 4],
      [5, 7],
    ]);
    expect(exact.icc["3,1"]).toMatchObject({ ok: true, value: 1 });
    expect(exact.typicalError).toMatchObject({ ok: false, why: "noSpread" });
    expect(exact.variances!.sessionTest).toBeNull();
    const same = reliability([
      [4, 4],
      [4, 4],
    ]);
    for (const form of FORMS) expect(same.icc[form]).toMatchObject({ ok: false, why: "noSpread" });
  });
  it("warns of practice between sessions, errors that grow, few people, and that a group is no person", () => {
    expect(reliability(TWICE).warnings).toEqual(["fewPeople", "groupNotPerson"]);
    const learned = TWICE.map(([one, other]) => [one!, other! - 20]);
    expect(reliability(learned).warnings).toContain("learningBetweenSessions");
    const growing = Array.from({ length: 12 }, (_, i) => [
      10 * (i + 1) * (i % 2 ? 1.04 : 0.97),
      10 * (i + 1),
      10 * (i + 1) * (i % 3 ? 0.97 : 1.05),
    ]);
    expect(reliability(growing).warnings).toEqual(["proportionalError", "groupNotPerson"]);
    expect(reliability(growing.map((row) => row.map(Math.log))).warnings).not.toContain("proportionalError");
    // the same errors about means that fall: those with the largest means err least
    const shrinking = growing.map((row, i) => row.map((score) => 1000 - 20 * 10 * (i + 1) + 3 * score));
    expect(reliability(shrinking).warnings).not.toContain("proportionalError");
  });
  it("says what it can of no people, one session, and scores that have no logarithm", () => {
    expect(reliability([])).toMatchObject({
      people: 0,
      sessions: 0,
      mean: null,
      own: [],
      pairs: [],
      typicalError: { ok: false, why: "tooFew" },
    });
    expect(reliability([[3], [5]])).toMatchObject({
      mean: 4,
      variances: null,
      withinError: { ok: false, why: "tooFew" },
      worthwhile: null,
    });
    const signed = reliability([
      [-1, 2],
      [3, 4],
      [0, 2],
    ]);
    expect(signed.typicalErrorPercent).toBeNull();
    expect(signed.pairs[0]!.typicalErrorPercent).toBeNull();
    expect(signed.own[0]!.cv).toBeNull();
  });
});

describe("reliability bad input", () => {
  it("names the bad row, score and option", () => {
    expect(() => reliability("text" as never)).toThrow(/reliability: scores must be an array of rows, got "text"/);
    expect(() => reliability([[1, 2], 3] as never)).toThrow(/scores\[1\] must be a list of numbers, got 3/);
    expect(() => reliability([[1, 2], [1]])).toThrow(/scores\[1\] must have 2 sessions like the first row, got 1/);
    expect(() => reliability([[]])).toThrow(/scores\[0\] must hold at least one session, got none/);
    expect(() => reliability([[1, Number.NaN]])).toThrow(/scores\[0\]\[1\] must be finite, got NaN/);
    expect(() => reliability([[1, -1e200]])).toThrow(/scores\[0\]\[1\] must lie within -1e100 and 1e100, got -1e\+200/);
    expect(() => reliability(TWICE, { level: 1 })).toThrow(/options\.level must be above 0 and below 1, got 1/);
  });
});
