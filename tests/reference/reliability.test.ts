// Source: shared reference table learning/reliability.json: NumPy and SciPy 1.10.1, correlations also by the R package psych 2.2.9; data of Shrout and Fleiss 1979,
// Hopkins 2000 and Bland and Altman 1986 among them.
import { describe, expect, it } from "vitest";
import { reliability } from "../../src/learning/reliability.js";
import { c4 } from "../../src/math/c4.js";
import type { Estimate } from "../../src/math/estimate.js";
import { studentQuantile } from "../../src/math/student-quantile.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const cases = readReference("learning/reliability.json")?.cases ?? [];
const named = (word: string) => cases.filter((c) => c.name.includes(word));
const tables = cases.filter((c) => c.expected.icc !== undefined);
const twice = cases.filter((c) => c.input.trial1 !== undefined && c.expected.typicalError !== undefined);

const given = (estimate: Estimate | null): number => (estimate?.ok ? estimate.value : Number.NaN);
const ends = (estimate: Estimate): readonly [number, number] => (estimate.ok && estimate.interval) || [Number.NaN, Number.NaN];
const rows = (one: number[], other: number[]): number[][] => one.map((value, i) => [value, other[i]!]);

function expectSame(c: ReferenceCase, pairs: Readonly<Record<string, readonly [number, number]>>): void {
  for (const [what, [got, expected]] of Object.entries(pairs)) {
    expect(within(got, expected, c.tolerance), `${c.name}: ${what} ${got} for ${expected}`).toBe(true);
  }
}

describe.skipIf(cases.length === 0)(`reliability against the table (skipped: ${SHARED_ABSENT})`, () => {
  it("holds the cases this file reads", () => {
    expect([tables.length, twice.length, named("over three").length, named("Bland").length, named("repeatability").length]).toEqual([
      2, 2, 1, 1, 1,
    ]);
    expect([named("coefficient of variation").length, named("c4").length, named("from sd and ICC").length]).toEqual([2, 1, 1]);
  });

  it.each(tables)("$name", (c) => {
    const { icc, variances, typicalError, withinError, minimalDetectable, errorFromIcc, sd } = reliability(c.input.scores);
    const { anova, ...e } = c.expected;
    const { between, within: inside, sessions, error } = variances!;
    expectSame(c, {
      "between mean square": [between.meanSquare, anova.betweenMs],
      "within mean square": [inside.meanSquare, anova.withinMs],
      "session mean square": [sessions.meanSquare, anova.judgesMs],
      "error mean square": [error.meanSquare, anova.errorMs],
      "between sum": [between.sumOfSquares, anova.ssBetween],
      "within sum": [inside.sumOfSquares, anova.ssWithin],
      "session sum": [sessions.sumOfSquares, anova.ssJudges],
      "error sum": [error.sumOfSquares, anova.ssError],
      "typical error": [given(typicalError), e.semFromError],
      "within error": [given(withinError), e.semFromWithin],
      "minimal detectable": [given(minimalDetectable.at95), e.mdc95FromError],
      "sd of all": [sd!, e.sdAllScores],
      "error from icc": [errorFromIcc!, e.semFromIcc2],
      // Cronbach's alpha is ICC(3,k)
      alpha: [given(icc["3,k"]), e.cronbachAlpha],
    });
    for (const [key, { value, low95, high95 }] of Object.entries<{ value: number; low95: number; high95: number }>(e.icc)) {
      const form = `${key[3]},${key[5]}` as keyof typeof icc;
      const [low, high] = ends(icc[form]);
      expectSame(c, { [key]: [given(icc[form]), value], [`${key} low`]: [low, low95], [`${key} high`]: [high, high95] });
    }
  });

  it.each(twice)("$name", (c) => {
    const { pairs, typicalError, minimalDetectable, worthwhile, betweenSd, mean } = reliability(rows(c.input.trial1, c.input.trial2));
    const [pair] = pairs;
    const e = c.expected;
    const [low, high] = ends(pair!.typicalError);
    const change = ends(pair!.change);
    const n = c.input.trial1.length;
    expectSame(c, {
      change: [given(pair!.change), e.changeMean],
      "change low": [change[0], e.changeMeanCi[0]],
      "change high": [change[1], e.changeMeanCi[1]],
      "sd of change": [given(pair!.sdOfChange), e.sdOfChange],
      "typical error": [given(pair!.typicalError), e.typicalError],
      "typical error, from the table of variances": [given(typicalError), e.typicalError],
      "typical error low": [low, e.typicalErrorCi[0]],
      "typical error high": [high, e.typicalErrorCi[1]],
      "percent from logs": [given(pair!.typicalErrorPercent), e.typicalErrorPercentFromLogs],
      "percent of mean": [(100 * given(typicalError)) / mean!, e.typicalErrorPercentOfMean],
      "limits by Student's t": [studentQuantile(0.975, n - 1) * given(pair!.sdOfChange), e.limitsOfAgreementHalfWidth],
      "minimal detectable": [given(minimalDetectable.at95), e.mdc95],
      "between sd": [betweenSd!, e.betweenSd],
      worthwhile: [worthwhile!.observed, e.smallestWorthwhileChange],
      "worthwhile, pure": [worthwhile!.pure, e.smallestWorthwhileChangePureBetween],
      "signal to noise": [worthwhile!.observed / given(typicalError), e.signalToNoise],
    });
  });

  it.each(named("over three"))("$name", (c) => {
    const { typicalError, variances, pairs } = reliability(c.input.scores);
    expect(variances!.error.df).toBe(c.expected.df);
    expectSame(c, { "typical error": [given(typicalError), c.expected.typicalError] });
    for (const [i, pair] of pairs.entries()) {
      expectSame(c, {
        [`pair ${i}`]: [given(pair.typicalError), c.expected.pairwise[i]],
        [`change ${i}`]: [given(pair.change), c.expected.meanChange[i]],
      });
    }
  });

  it.each(named("Bland"))("$name", (c) => {
    const e = c.expected;
    // the table takes a - b, the function later less earlier
    const [pair] = reliability(rows(c.input.b, c.input.a)).pairs;
    const bias = ends(pair!.change);
    const low = ends(pair!.limits.low);
    const t = studentQuantile(0.975, c.input.a.length - 1);
    expectSame(c, {
      bias: [given(pair!.change), e.bias],
      "bias low": [bias[0], e.biasCi95[0]],
      "bias high": [bias[1], e.biasCi95[1]],
      sd: [given(pair!.sdOfChange), e.sd],
      low: [given(pair!.limits.low), e.low196],
      high: [given(pair!.limits.high), e.high196],
      "standard error of a limit": [(low[1] - low[0]) / 2 / t, e.seLimit],
    });
  });

  it.each(named("repeatability"))("$name", (c) => {
    for (const [meter, one, other] of [
      ["wright", c.input.w1, c.input.w2],
      ["mini", c.input.m1, c.input.m2],
    ]) {
      const { withinError, pairs } = reliability(rows(one, other));
      const e = c.expected[meter];
      expectSame(c, {
        // the table divides the squared differences by n, as the variance about each person's own mean does
        [`${meter}, within`]: [given(withinError), e.withinSubjectSd],
        [`${meter}, sd`]: [given(pairs[0]!.sdOfChange), e.sdOfDifferences],
      });
    }
  });

  it.each(named("from sd and ICC"))("$name: the factors are those of this library", (c) => {
    const { minimalDetectable, typicalError } = reliability([
      [1, 3],
      [2, 5],
      [4, 4],
    ]);
    const per = c.expected.sem / given(typicalError);
    expectSame(c, {
      mdc95: [per * given(minimalDetectable.at95), c.expected.mdc95],
      mdc90: [per * given(minimalDetectable.at90), c.expected.mdc90],
    });
  });

  it.each(named("coefficient of variation"))("$name", (c) => {
    const [own] = reliability([c.input.x]).own;
    const e = c.expected;
    expectSame(c, {
      cv: [own!.cv! / 100, e.cv],
      unbiased: [own!.unbiasedCv! / 100, e.cvSmallSample],
      "from logs": [own!.cvFromLogs! / 100, e.cvFromLogSd],
      "unbiased sd": [own!.unbiasedSd!, e.unbiasedSd],
      c4: [c4(c.input.x.length), e.c4],
    });
  });

  it.each(named("c4"))("$name", (c) => {
    for (const [i, n] of (c.input.n as number[]).entries()) expectSame(c, { [`n = ${n}`]: [c4(n), c.expected[i]] });
  });
});
