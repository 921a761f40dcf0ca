// Laws that have a closed form: weighted lines, lines of logarithms, one share of hits; and what is said about their residuals.
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { residualCorrelation } from "../../../src/learning/curve/residual-correlation.js";
import { bestOf, type Solution } from "../../../src/learning/curve/solver.js";
import { fitLearningCurve, type LearningCurveFit } from "../../../src/learning/fit-learning-curve.js";
import { unbiasedLagOne } from "../../../src/learning/trend/unbiased-lag-one.js";
import { createRandom } from "../../../src/math/random.js";

const counted = (value: readonly number[]) => ({ practice: value.map((_, i) => i + 1), value });
const EIGHT = counted([1.3742, 1.0731, 0.8509, 0.7528, 0.6684, 0.5983, 0.6195, 0.6321]);
const HITS = [11, 14, 19, 20, 24, 26, 25, 29, 28, 31, 30, 32, 31, 33];
const TRIALS = [40, 40, 40, 36, 40, 40, 36, 40, 38, 40, 38, 40, 38, 40];
const SHARES = { ...counted(HITS.map((hits, i) => hits / TRIALS[i]!)), trials: TRIALS };
const figures = ({ parameters }: LearningCurveFit): number[] =>
  Object.values(parameters).flatMap((one) => (one.ok ? [one.value, one.standardError!] : []));
const close = (values: readonly number[], digits: number): unknown[] => values.map((value) => expect.closeTo(value, digits));
const lagOne = (fit: LearningCurveFit): number => (fit.autocorrelation.ok ? fit.autocorrelation.value : Number.NaN);

const quick = { intervals: "wald", band: 0 } as const;

describe("a weighted line", () => {
  const fit = fitLearningCurve({ ...EIGHT, trials: [1, 2, 3, 4, 5, 6, 7, 8] }, { law: "linear", predict: [9], band: 2 });
  // Source: NumPy 1.24, normal equations with the trials as weights; SciPy 1.10.1 stats.norm.logpdf with a variance over the trials, and stats.t.ppf (right to
  // nine digits)
  it("is that of the normal equations", () => {
    expect(figures(fit)).toEqual(close([1.02443, 0.09699527, -0.06827429, 0.01914546], 8));
    expect(fit.quality).toMatchObject({
      df: 6,
      residualSum: expect.closeTo(0.3079008774285714, 12),
      residualSd: expect.closeTo(Math.sqrt(0.3079008774285714 / 6), 12),
      logLikelihood: expect.closeTo(6.9804688498003715, 11),
      r2: expect.closeTo(0.6794348134023149, 11),
      aic: expect.closeTo(6 - 2 * 6.9804688498003715, 10),
      aicc: expect.closeTo(6 - 2 * 6.9804688498003715 + 24 / 4, 10),
      bic: expect.closeTo(3 * Math.log(8) - 2 * 6.9804688498003715, 10),
    });
  });
  // Source: as above; one more value of as many trials as the mean, 4.5
  it("foretells a value of the mean number of trials", () =>
    expect(fit.predictions[0]).toMatchObject({
      value: expect.closeTo(0.47823571428571476, 10),
      interval: close([0.16011867060284424, 0.7963527579685853], 8),
    }));
  it("has a band from the first value to the last", () => {
    const wide = fitLearningCurve({ ...EIGHT, trials: [1, 2, 3, 4, 5, 6, 7, 8] }, { law: "linear", band: 8 }).band;
    expect(wide.map(({ practice }) => practice)).toEqual(close([1, 2, 3, 4, 5, 6, 7, 8], 12));
    expect(wide.map(({ value }) => value)).toEqual(close(fit.fitted, 10));
    expect(fit.band.map(({ practice }) => practice)).toEqual([1, 8]);
    expect(fitLearningCurve(EIGHT, { law: "linear", band: 0 }).band).toEqual([]);
    expect(fitLearningCurve(EIGHT).band.length).toBe(41);
  });
  it("has residuals that add up to its values", () =>
    expect(fit.residuals.map((rest, i) => rest + fit.fitted[i]!)).toEqual(close(EIGHT.value, 12)));
});

describe("an exponential to 0 with log-normal errors", () => {
  // Source: NumPy 1.24 lstsq of the logarithms on practice: ln b less c (N - 1), errors of b by its own size; SciPy 1.10.1 stats.t.ppf and stats.norm.logpdf less
  // the sum of the logarithms
  const fit = fitLearningCurve(EIGHT, { law: "exponential2", errors: "lognormal", intervals: "wald", predict: [9], band: 9 });
  it("is the line of the logarithms", () => {
    expect(figures(fit)).toEqual(close([1.163060760031138, 0.09727310199470508, 0.11141127131046412, 0.019992694864825692], 7));
    expect(fit.quality).toMatchObject({
      residualSum: expect.closeTo(0.10072637768542295, 11),
      logLikelihood: expect.closeTo(8.058722847846822, 9),
      aic: expect.closeTo(-10.117445695693643, 9),
      aicc: expect.closeTo(-4.117445695693643, 9),
      bic: expect.closeTo(-9.879121070654136, 9),
      r2: expect.closeTo(0.8380735483036843, 10),
    });
  });
  it("foretells by factors", () =>
    expect(fit.predictions[0]).toMatchObject({
      value: expect.closeTo(0.47700178112358965, 7),
      interval: close([0.3191299665422283, 0.7129719018880333], 7),
    }));
  it("has the likeness of its logarithms' residuals", () => expect(lagOne(fit)).toBeCloseTo(unbiasedLagOne(0.3613852499631426, 8, 2), 6));
});

describe("one share of hits", () => {
  // Source: closed form: all hits over all trials, with the binomial standard error; SciPy 1.10.1 stats.binom.logpmf for likelihood and deviance, residuals over
  // their binomial standard deviations for the likeness of neighbours, stats.norm.ppf for the interval of one more share of 39 trials
  const fit = fitLearningCurve(SHARES, { law: "constant", errors: "binomial", intervals: "wald", predict: [15], band: 2 });
  it("is all hits over all trials", () => {
    expect(figures(fit)).toEqual(close([0.6465201465201466, 0.020458653321298773], 8));
    expect(fit.quality).toMatchObject({
      df: 13,
      residualSum: expect.closeTo(69.66176785895608, 8),
      logLikelihood: expect.closeTo(-62.06295122621742, 8),
      aic: expect.closeTo(2 + 2 * 62.06295122621742, 8),
      aicc: expect.closeTo(2 + 2 * 62.06295122621742 + 4 / 12, 8),
      r2: expect.closeTo(0, 10),
    });
    expect(fit.predictions[0]).toMatchObject({ unit: "1", interval: close([0.49122039398750716, 0.801819899052786], 7) });
    expect(fit.band[0]!.confidence).toEqual(close([0.6064219228382102, 0.6866183702020829], 7));
  });
  it("has the likeness of its residuals over their deviations", () =>
    expect(lagOne(fit)).toBeCloseTo(unbiasedLagOne(0.7400771333260031, 14, 1), 6));
  it("is overdispersed beyond the chi-squared of 13 degrees of freedom, 22.36", () => {
    expect(fit.warnings).toContain("overdispersed");
    const even = { ...counted([0.5, 0.6, 0.4, 0.55, 0.45, 0.5]), trials: [20, 20, 20, 20, 20, 20] };
    expect(fitLearningCurve(even, { law: "constant", errors: "binomial" }).warnings).not.toContain("overdispersed");
  });
});

describe("the likeness of neighbouring residuals", () => {
  const residuals = [0.3, -0.1, 0.2, 0.25, -0.4, -0.2, 0.1, 0.05];
  const weight = [1, 2, 1, 3, 1, 2, 4, 1];
  // Source: by hand: products of neighbours, each times the root of its weight, over the sum of squares; normal interval with (1 - r^2)/n
  it("weighs residuals by the root of their trials", () => {
    const rooted = residuals.map((rest, i) => rest * Math.sqrt(weight[i]!));
    const found = rooted.slice(1).reduce((sum, v, i) => sum + v * rooted[i]!, 0) / rooted.reduce((sum, v) => sum + v * v, 0);
    const value = unbiasedLagOne(found, 8, 2);
    const half = 1.6448536269514722 * Math.sqrt((1 - value * value) / 8);
    expect(residualCorrelation(residuals, weight, 2, 0.9, false).estimate).toEqual({
      ok: true,
      value: expect.closeTo(value, 12),
      unit: "1",
      n: 8,
      interval: close([Math.max(-1, value - half), Math.min(1, value + half)], 9),
      level: 0.9,
    });
  });
  it("needs four values more than parameters, and some spread", () => {
    const of = (list: readonly number[], p: number, exact = false) =>
      residualCorrelation(
        list,
        list.map(() => 1),
        p,
        0.95,
        exact,
      );
    expect(of(residuals, 5)).toEqual({ estimate: { ok: false, why: "tooFew", unit: "1", n: 8 }, shown: false });
    expect(of(residuals, 4).estimate.ok).toBe(true);
    expect(of(residuals, 2, true)).toEqual({ estimate: { ok: false, why: "noSpread", unit: "1", n: 8 }, shown: false });
    expect(of([0, 0, 0, 0, 0, 0, 0, 0], 2)).toEqual({ estimate: { ok: false, why: "noSpread", unit: "1", n: 8 }, shown: false });
  });
  // Source: normal theory: with 16 residuals of a line, r + 2/16 above 1.645/4, that is r above 0.286, is shown
  test.prop([fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 16, maxLength: 16 })])("is shown beyond chance", (list) => {
    const squares = list.reduce((sum, v) => sum + v * v, 0);
    if (squares === 0) return;
    const found = list.slice(1).reduce((sum, v, i) => sum + v * list[i]!, 0) / squares;
    if (Math.abs(found - 0.28621) < 1e-3) return;
    expect(
      residualCorrelation(
        list,
        list.map(() => 1),
        2,
        0.95,
        false,
      ).shown,
    ).toBe(found > 0.28621);
  });
});

describe("the best of several searches", () => {
  const at = (residualSum: number, iterations: number): Solution => ({
    parameters: Float64Array.of(residualSum),
    residualSum,
    converged: true,
    reason: `ended at ${residualSum}`,
    iterations,
  });
  it("is the lowest, with all looks counted and those that got there", () => {
    expect(bestOf([at(3, 2), at(1, 5), at(1 + 1e-10, 7), at(1.1, 1)])).toMatchObject({
      residualSum: 1,
      reason: "ended at 1",
      iterations: 15,
      starts: 4,
      startsReachingBest: 2,
    });
    expect(bestOf([at(0, 1), at(0, 1)])).toMatchObject({ starts: 2, startsReachingBest: 2 });
    expect(bestOf([at(Number.NaN, 1), at(2, 1)]).residualSum).toBe(2);
    expect(bestOf([at(2, 1), at(Number.NaN, 1)]).residualSum).toBe(2);
  });
});

describe("how a search ended", () => {
  // Source: the docstring of `convergence`: a law without a shape is solved for at once; a search over one rate takes several looks and ends at its step
  it("is told of each kind of law", () => {
    expect(fitLearningCurve(EIGHT, { law: "linear" }).convergence).toEqual({
      converged: true,
      reason: "linear",
      starts: 1,
      startsReachingBest: 1,
      iterations: 1,
    });
    const rate = fitLearningCurve(EIGHT).convergence;
    expect(rate).toMatchObject({ converged: true, reason: "step", starts: 1, startsReachingBest: 1 });
    expect(rate.iterations > 1 && rate.iterations < 20).toBe(true);
  });
  // Source: dips of a sum of squares over drawn values have the same depth with a chance of 0, so that one search alone ends at the least
  test.prop([fc.integer({ min: 1, max: 1e9 })], { numRuns: 40 })("counts the searches that got to the least", (seed) => {
    const random = createRandom(seed);
    const { starts, startsReachingBest } = fitLearningCurve(counted(Array.from({ length: 10 }, () => random.normal())), quick).convergence;
    expect(starts).toBeGreaterThanOrEqual(1);
    expect(startsReachingBest).toBe(1);
  });
  // Source: two errors of opposite sign leave two dips, one for each bend that meets one of them
  it("counts more than one search where there are several dips", () =>
    expect(
      fitLearningCurve(counted([0.26, -1.91, -0.46, 1.35, 0.19, 0.32, 0.66, -0.48, -0.82, -0.41]), quick).convergence.starts,
    ).toBeGreaterThan(1));
  // Source: plain data hold finite numbers or null, wherever practice is counted from
  test.prop([fc.double({ min: 1, max: 1e5, noNaN: true })], { numRuns: 40 })(
    "leaves no number that is not finite, from any first day",
    (first) => {
      const far = fitLearningCurve(
        { practice: EIGHT.practice.map((at) => first + at), value: EIGHT.value },
        { ...quick, predict: [first + 9] },
      );
      expect(JSON.parse(JSON.stringify(far))).toEqual(far);
    },
  );
  it("is told of robust fits, which settle in more looks than one fit takes", () => {
    const robust = fitLearningCurve(EIGHT, { robust: true });
    expect(robust.convergence).toMatchObject({ converged: true, reason: "step" });
    expect(robust.convergence.iterations).toBeGreaterThan(fitLearningCurve(EIGHT).convergence.iterations);
    expect(robust.warnings).not.toContain("notConverged");
    expect(fitLearningCurve(EIGHT).robust).toBeNull();
  });
  // Source: without outliers the robust line has all weights near 1; a spread that grows with the level is what its weights answer already
  it("says nothing of unequal spread after a robust fit", () => {
    const spread = counted(Array.from({ length: 40 }, (_, i) => 10 - i / 5 + ((10 - i / 5) / 30) * (((7 * i) % 5) - 2)));
    expect(fitLearningCurve(spread, { law: "linear" }).warnings).toContain("unequalSpread");
    expect(fitLearningCurve(spread, { law: "linear", robust: true }).warnings).not.toContain("unequalSpread");
    // the same pattern with a spread that falls with the level is no reason for logarithms
    const turned = counted(spread.value.map((v) => -v));
    expect(fitLearningCurve(turned, { law: "linear" }).warnings).not.toContain("unequalSpread");
  });
});

describe("the warning", () => {
  const law = (n: number) => 0.5 + Math.exp(-0.3 * (n - 1));
  const series = (n: number) => counted(Array.from({ length: n }, (_, i) => law(i + 1) + 0.01 * (((3 * i) % 4) - 1.5)));
  // Source: the docstring of `fewSessions`: under 2, 4, 6 or 10 sessions for one, two, three or four parameters
  it.each([
    ["linear", 4],
    ["exponential2", 4],
    ["exponential3", 6],
    ["power4", 10],
    ["delayedExponential", 10],
  ] as const)("of few sessions comes with %s below %d", (name, least) => {
    const warned = (n: number) => fitLearningCurve(series(n), { law: name, intervals: "wald" }).warnings.includes("fewSessions");
    expect([warned(least - 1), warned(least)]).toEqual([true, false]);
  });
  // Source: the docstring of `extrapolated`: from 1 to 9 one and a half ranges end at 13, and half a range before the first at -3
  it.each([
    [13, false],
    [13.1, true],
    [-3, false],
    [-3.1, true],
  ])("of extrapolation at %d is %s", (at, expected) =>
    expect(fitLearningCurve(series(9), { law: "linear", predict: [5, at] }).warnings.includes("extrapolated")).toBe(expected),
  );
  it("of a gain that is not shown comes where its interval holds 0, not for a law of one's own", () => {
    const noise = counted([0.7, 0.72, 0.69, 0.71, 0.7, 0.73, 0.69, 0.7, 0.72, 0.71]);
    expect(fitLearningCurve(noise, { law: "linear" }).warnings).toContain("noGain");
    expect(fitLearningCurve(series(9), { law: "linear" }).warnings).not.toContain("noGain");
    expect(fitLearningCurve(counted(series(9).value.map((v) => -v)), { law: "linear" }).warnings).not.toContain("noGain");
    expect(fitLearningCurve(noise, { law: "constant" }).warnings).not.toContain("noGain");
  });
  it("of an unknown end comes where the asymptote is not told", () => {
    expect(fitLearningCurve(series(14)).warnings).not.toContain("asymptoteNotIdentified");
    const line = counted([1, 0.9, 0.81, 0.69, 0.61, 0.5, 0.39, 0.31, 0.2, 0.1]);
    expect(fitLearningCurve(line).warnings).toContain("asymptoteNotIdentified");
    expect(fitLearningCurve(line, { law: "linear" }).warnings).not.toContain("asymptoteNotIdentified");
  });
});
