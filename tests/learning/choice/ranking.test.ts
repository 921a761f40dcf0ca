// The order of laws, their rivals, their criteria and the cuts from which they foretell.
import { describe, expect, it } from "vitest";
import type { ComparedLearningCurve } from "../../../src/learning/choice/compared-curve.js";
import { futureErrors } from "../../../src/learning/choice/future-errors.js";
import { judgeCurves } from "../../../src/learning/choice/judge-curves.js";
import { hasRival, rankCurves } from "../../../src/learning/choice/rank-curves.js";
import type { LearningCurveFit } from "../../../src/learning/fit-learning-curve.js";
import type { LearningLawName } from "../../../src/learning/types.js";

const compared = (law: string, parameterCount: number, bicDifference: number | null, worse = false): ComparedLearningCurve =>
  ({ fit: { law, quality: bicDifference === null ? null : {} }, parameterCount, bicDifference, worse }) as unknown as ComparedLearningCurve;
const names = (curves: readonly ComparedLearningCurve[]) => curves.map(({ fit }) => fit.law);

describe("the order of laws", () => {
  // Source: the docstring: not worse by parameters and then BIC, worse by BIC, those without a fit last, in the order given
  it("is by parameters, then criterion, then what could be fitted", () => {
    const given = [
      compared("power4", 4, null),
      compared("constant", 1, 30, true),
      compared("combined", 4, 0),
      compared("linear", 2, 9, true),
      compared("exponential3", 3, 1.5),
      compared("power3", 3, 0.5),
      compared("delayedExponential", 4, null),
      compared("power2", 2, 1.9),
    ];
    const order = ["power2", "power3", "exponential3", "combined", "linear", "constant", "power4", "delayedExponential"];
    expect(names(rankCurves(given))).toEqual(order);
    expect(names(given)[0]).toBe("power4");
    expect(names(rankCurves(given.slice().reverse())).slice(0, 6)).toEqual(order.slice(0, 6));
  });
});

describe("a rival of the first law", () => {
  // Source: the formulas: a law is a form of another where that becomes it for certain parameters, or comes as near as one likes: a = 0, b = 0, d = 0 or e = 0; a straight
  // line is a bend without end; exp(-c (N - 1)) is the limit of a power (1 + N/e)^(-c e) for large e
  const RICHER: Readonly<Record<LearningLawName, readonly LearningLawName[]>> = {
    constant: ["linear", "power2", "power3", "power4", "exponential2", "exponential3", "combined", "delayedExponential"],
    linear: ["power4", "exponential3", "combined", "delayedExponential"],
    power2: ["power3", "power4", "combined"],
    power3: ["power4", "combined"],
    power4: [],
    exponential2: ["power4", "exponential3", "combined", "delayedExponential"],
    exponential3: ["power4", "combined", "delayedExponential"],
    combined: [],
    delayedExponential: [],
  };
  const all = Object.keys(RICHER) as LearningLawName[];
  it.each(all)("is none that %s is a form of", (law) => {
    for (const other of all) {
      if (other === law) continue;
      expect(hasRival([compared(law, 2, 0), compared(other, 3, 1)]), other).toBe(!RICHER[law].includes(other));
    }
    expect(hasRival([compared(law, 2, 0), compared("own", 3, 1)])).toBe(true);
    expect(hasRival([compared("own", 2, 0), compared(law, 3, 1)])).toBe(true);
  });
  it("is none that is worse, or has no fit, nor of a law without one", () => {
    const first = compared("power3", 3, 0);
    expect(hasRival([first, compared("exponential3", 3, 1, true)])).toBe(false);
    expect(hasRival([first, compared("exponential3", 3, null)])).toBe(false);
    expect(hasRival([first, compared("power4", 4, 1), compared("exponential3", 3, 1)])).toBe(true);
    expect(hasRival([compared("power3", 3, null), compared("exponential3", 3, 1)])).toBe(false);
    expect(hasRival([first])).toBe(false);
    expect(hasRival([])).toBe(false);
  });
});

describe("the criteria of laws", () => {
  const fitWith = (count: number, logLikelihood: number | null, change: object = {}): LearningCurveFit =>
    ({
      parameters: Object.fromEntries(["a", "b", "c", "d"].slice(0, count).map((letter) => [letter, {}])),
      errors: "normal",
      warnings: [],
      effectiveN: 12,
      quality: { logLikelihood, bic: logLikelihood === null ? null : (count + 1) * Math.log(20) - 2 * logLikelihood },
      ...change,
    }) as unknown as LearningCurveFit;

  // Source: by definition: -2 ln L + k ln n, and -2 ln L + 2 k + 2 k (k + 1)/(n - k - 1), the variance counted among the k, of shares not
  it("are those of all values where errors are independent", () => {
    const { criteria, effectiveN } = judgeCurves([fitWith(3, 10), fitWith(2, 8), fitWith(3, 9, { errors: "binomial" })], 20);
    expect(effectiveN).toBe(20);
    const of = (k: number, l: number) => ({
      bic: expect.closeTo(k * Math.log(20) - 2 * l, 12),
      aicc: expect.closeTo(2 * k - 2 * l + (2 * k * (k + 1)) / (19 - k), 12),
    });
    expect(criteria).toEqual([of(4, 10), of(3, 8), of(3, 9)]);
  });
  it("have no AICc without a value to spare, and nothing without a fit", () => {
    const { criteria } = judgeCurves([fitWith(3, 10), fitWith(3, 10, { quality: null })], 5);
    expect(criteria[0]!.aicc).toBeNull();
    expect(criteria[0]!.bic).toBeCloseTo(4 * Math.log(5) - 20, 12);
    expect(criteria[1]).toEqual({ bic: null, aicc: null });
    expect(judgeCurves([fitWith(3, 10)], 6).criteria[0]!.aicc).toBeCloseTo(8 - 20 + 40, 12);
    expect(judgeCurves([fitWith(3, null)], 6)).toEqual({ criteria: [{ bic: Number.NEGATIVE_INFINITY, aicc: null }], effectiveN: 6 });
  });
  // Source: the docstring: as many values as the series is worth by the law with the least BIC, at least a quarter of them and six, at most all
  it("count fewer values where the best law's errors are alike", () => {
    const alike = (effectiveN: number, logLikelihood: number | null = 10) =>
      fitWith(3, logLikelihood, { warnings: ["autocorrelated"], effectiveN });
    const counted = (fits: readonly LearningCurveFit[], n = 20) => judgeCurves(fits, n).effectiveN;
    expect(counted([alike(12), fitWith(2, 1)])).toBe(12);
    expect(counted([fitWith(2, 1), alike(12)])).toBe(12);
    expect(counted([alike(12), fitWith(2, 30)])).toBe(20);
    expect(counted([alike(3)])).toBe(6);
    expect(counted([alike(3)], 40)).toBe(10);
    expect(counted([alike(30)])).toBe(20);
    expect(counted([alike(3)], 5)).toBe(5);
    // of an exact law only rounding is alike
    expect(counted([alike(12, null), fitWith(2, 1)])).toBe(20);
    expect(counted([fitWith(2, 1, { quality: null }), alike(12)])).toBe(12);
    const { criteria } = judgeCurves([alike(12)], 20);
    expect(criteria[0]).toEqual({ bic: expect.closeTo(-12 + 4 * Math.log(12), 12), aicc: expect.closeTo(-12 + 8 + 40 / 15, 12) });
  });
});

describe("the values foretold", () => {
  const series = (n: number) => ({
    practice: Array.from({ length: n }, (_, i) => i + 1),
    value: Array.from({ length: n }, (_, i) => (i * i) % 7),
  });
  const foretold = (n: number, richest: number, origins = 8, laws: readonly LearningLawName[] = ["constant"]) =>
    futureErrors("test", { series: series(n), laws, errors: "normal", direction: "either", origins, richest });
  // Source: by hand: cuts from half of the series, or the richest law's parameters and two, to a quarter before its end; from each a quarter of the series
  it.each([
    // cuts at 4, 5, 6 of 8, two values each
    [8, 1, 8, 6],
    // at 4 and 6; at 6 alone
    [8, 1, 2, 4],
    [8, 1, 1, 2],
    // from 5 = 3 + 2 on, cuts at 5 and 6
    [8, 3, 8, 4],
    // one cut at 6 of 8 by the richest
    [8, 4, 8, 2],
    // at 7 of 8, one value
    [8, 5, 8, 1],
    [8, 6, 8, 0],
    [8, 1, 0, 0],
    // at 5 of 6: one and a half values round to two, one is there
    [6, 3, 8, 1],
    [5, 3, 8, 0],
    // at 2 of 3, one value: a quarter of three is not less than one
    [3, 0, 8, 1],
    [0, 0, 8, 0],
  ])("of %d values by laws of up to %d parameters from %d cuts are %d", (n, richest, origins, count) => {
    const found = foretold(n, richest, origins);
    expect(found.foretold).toBe(count);
    expect(found.errors).toEqual([count === 0 ? null : expect.any(Number)]);
  });
  // Source: by hand: after 4 and 6 of 8 the means so far, weighted by trials, against the two values after each
  it("are off by their root mean square, weighted by trials", () => {
    const value = [1, 2, 3, 4, 5, 6, 7, 8];
    const trials = [1, 1, 2, 4, 1, 3, 1, 5];
    const task = { laws: ["constant"], direction: "either", origins: 2, richest: 1 } as const;
    const practice = series(8).practice;
    const normal = futureErrors("test", { ...task, series: { practice, value, trials }, errors: "normal" });
    const mean = (to: number, of: readonly number[]) => {
      const weight = trials.slice(0, to).reduce((sum, w) => sum + w, 0);
      return of.slice(0, to).reduce((sum, v, i) => sum + (trials[i]! * v) / weight, 0);
    };
    const rms = (of: readonly number[]) => {
      const terms = [4, 6].flatMap((cut) => [cut, cut + 1].map((i) => [trials[i]!, (of[i]! - mean(cut, of)) ** 2] as const));
      const weight = terms.reduce((sum, [w]) => sum + w, 0);
      return Math.sqrt(terms.reduce((sum, [w, square]) => sum + (w * square) / weight, 0));
    };
    expect(normal).toEqual({ foretold: 4, errors: [expect.closeTo(rms(value), 10)] });
    const logs = futureErrors("test", { ...task, series: { practice, value, trials }, errors: "lognormal" });
    expect(logs.errors).toEqual([expect.closeTo(rms(value.map(Math.log)), 7)]);
    const { errors } = futureErrors("test", { ...task, series: { practice, value }, errors: "normal" });
    expect(errors[0]).not.toBeCloseTo(rms(value), 3);
  });
  it("are none of a law that a cut is too short for", () => {
    const { errors, foretold: count } = foretold(8, 1, 8, ["constant", "power4"]);
    expect(count).toBe(6);
    expect(errors).toEqual([expect.any(Number), null]);
  });
});
