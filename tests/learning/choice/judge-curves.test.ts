// Criteria by which laws are compared, from fits made by hand.
import { describe, expect, it } from "vitest";
import { judgeCurves } from "../../../src/learning/choice/judge-curves.js";

interface Made {
  readonly letters: string;
  readonly logLikelihood: number | null;
  readonly bic?: number | null;
  readonly errors?: string;
  readonly effectiveN?: number;
}

function fitOf({ letters, logLikelihood, bic = null, errors = "normal", effectiveN }: Made) {
  return {
    errors,
    parameters: Object.fromEntries([...letters].map((letter) => [letter, {}])),
    quality: { logLikelihood, bic },
    warnings: effectiveN === undefined ? [] : ["autocorrelated"],
    effectiveN,
  } as never;
}
const none = { errors: "normal", parameters: { a: {} }, quality: null, warnings: ["autocorrelated"] } as never;

describe("judgeCurves against outside values", () => {
  // Source: Schwarz 1978 and Hurvich and Tsai 1989 (recalled): BIC = k ln n - 2 ln L, AICc = 2 k - 2 ln L + 2 k (k + 1)/(n - k - 1), the variance counted where there is one
  it("are Schwarz's and Akaike's, with the variance as a parameter", () => {
    const { criteria, effectiveN } = judgeCurves([fitOf({ letters: "abc", logLikelihood: 30, bic: -40 })], 20);
    expect(effectiveN).toBe(20);
    expect(criteria[0]!.bic).toBeCloseTo(4 * Math.log(20) - 60, 12);
    expect(criteria[0]!.aicc).toBeCloseTo(8 - 60 + 40 / 15, 12);
    const binomial = judgeCurves([fitOf({ letters: "abc", logLikelihood: 30, bic: -40, errors: "binomial" })], 20).criteria[0]!;
    expect(binomial.bic).toBeCloseTo(3 * Math.log(20) - 60, 12);
    expect(binomial.aicc).toBeCloseTo(6 - 60 + 24 / 16, 12);
  });
  it("have no AICc where nothing is left over", () => {
    const of = (n: number) => judgeCurves([fitOf({ letters: "abc", logLikelihood: 1, bic: 0 })], n).criteria[0]!.aicc;
    expect(of(5)).toBeNull();
    expect(of(6)).toBeCloseTo(8 - 2 + 40, 12);
  });
  it("are absent for a fit that failed, and boundless for one without residuals", () => {
    const { criteria } = judgeCurves(
      [none, fitOf({ letters: "ab", logLikelihood: null }), fitOf({ letters: "a", logLikelihood: 3, bic: -5 })],
      9,
    );
    expect(criteria[0]).toEqual({ bic: null, aicc: null });
    expect(criteria[1]).toEqual({ bic: Number.NEGATIVE_INFINITY, aicc: null });
    expect(criteria[2]!.bic).toBeCloseTo(2 * Math.log(9) - 6, 12);
  });
  // Source: quasi-likelihood (Lebreton et al. 1992, recalled): the log-likelihood shrinks with the share of values that count
  it("count autocorrelated values as fewer, where the best law shows it", () => {
    const best = (effectiveN: number) => fitOf({ letters: "ab", logLikelihood: 30, bic: -50, effectiveN });
    const other = fitOf({ letters: "abc", logLikelihood: 31, bic: -48 });
    const found = judgeCurves([other, best(20)], 40);
    expect(found.effectiveN).toBe(20);
    expect(found.criteria[1]!.bic).toBeCloseTo(3 * Math.log(20) - 30, 12);
    expect(found.criteria[0]!.bic).toBeCloseTo(4 * Math.log(20) - 31, 12);
    // never fewer than a quarter and six, nor more than there are
    expect(judgeCurves([best(2)], 40).effectiveN).toBe(10);
    expect(judgeCurves([best(2)], 12).effectiveN).toBe(6);
    expect(judgeCurves([best(2)], 5).effectiveN).toBe(5);
    expect(judgeCurves([best(90)], 40).effectiveN).toBe(40);
    // that of another law does not count, nor of one without residuals
    expect(
      judgeCurves(
        [fitOf({ letters: "abc", logLikelihood: 31, bic: -48, effectiveN: 20 }), fitOf({ letters: "ab", logLikelihood: 30, bic: -50 })],
        40,
      ).effectiveN,
    ).toBe(40);
    expect(judgeCurves([fitOf({ letters: "ab", logLikelihood: null, effectiveN: 20 })], 40).effectiveN).toBe(40);
    expect(judgeCurves([none], 40).effectiveN).toBe(40);
  });
});
