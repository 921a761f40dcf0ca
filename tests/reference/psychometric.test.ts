// Source: shared reference table learning/psychometric.json: maximum likelihood by SciPy 1.10.1, the two plain logistic and normal fits also by statsmodels.
import { describe, expect, it } from "vitest";
import type { Estimate } from "../../src/math/estimate.js";
import { fitPsychometric } from "../../src/pacing/fit-psychometric.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";

const cases = readReference("learning/psychometric.json")?.cases ?? [];
const given = (estimate: Estimate): number => (estimate.ok ? estimate.value : Number.NaN);

describe.skipIf(cases.length === 0)(`psychometric functions against the table (skipped: ${SHARED_ABSENT})`, () => {
  it("holds the cases this file reads", () => expect(cases).toHaveLength(16));

  it.each(cases)("$name", (c) => {
    const { kind: shape, guess, lapse } = c.params;
    const weibull = shape === "weibull";
    const fit = fitPsychometric(
      { levels: c.input.x, trials: c.input.n, hits: c.input.k },
      { shape, guess, lapse, scale: weibull ? "log" : "linear", thresholdAt: 0.75, unit: "" },
    );
    const [location, spread] = [given(fit.location.estimate), given(fit.spread.estimate)];
    // the table's Weibull exponent is 1/spread, and its errors are of the level and of the exponent
    const got: Record<string, [number, number]> = {
      alpha: [location, c.expected.alpha],
      beta: [weibull ? 1 / spread : spread, c.expected.beta],
      "error of alpha": [fit.location.standardError! * (weibull ? location : 1), c.expected.seExpected[0]],
      "error of beta": [fit.spread.standardError! / (weibull ? spread * spread : 1), c.expected.seExpected[1]],
      logLik: [fit.logLikelihood!, c.expected.logLik],
      deviance: [fit.goodness!.deviance, c.expected.deviance],
      df: [fit.goodness!.df, c.expected.df],
      x75: [given(fit.thresholds[0]!.estimate), c.expected.x75],
    };
    fit.levels.forEach((line, i) => {
      got[`fitted ${i}`] = [line.fitted, c.expected.fitted[i]];
    });
    for (const [what, [value, expected]] of Object.entries(got)) {
      expect(within(value, expected, c.tolerance), `${c.name}: ${what} ${value} for ${expected}`).toBe(true);
    }
    // 40 trials a level are nearly enough for chi-squared: the drawn share lies near it
    expect(Math.abs(fit.goodness!.p! - c.expected.chi2P)).toBeLessThan(0.1);
  });
});
