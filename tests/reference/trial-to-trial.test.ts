import { describe, expect, it } from "vitest";
import { axisErrors } from "../../src/endpoints/axis-errors.js";
import { meanAndSd } from "../../src/math/mean-and-sd.js";
import { observedGain, unbiasedGain } from "../../src/movement/correction/gain-bias.js";
import { summarizeErrors } from "../../src/movement/error-summary.js";
import { filterErrors } from "../../src/movement/repetition/filter-errors.js";
import { lagOne } from "../../src/movement/repetition/lag-one.js";
import { fitLearner } from "../../src/movement/repetition/learner-fit.js";
import { bestRate, errorAutocorrelation, errorVariance, type Learner, planVariance } from "../../src/movement/repetition/learner-model.js";
import { prepareErrors, takeOutRegressors } from "../../src/movement/repetition/prepare-errors.js";
import type { Acquisition } from "../../src/movement/types.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const table = readReference("kinematics/trial-to-trial.json");
const cases = (start: string): [string, ReferenceCase][] =>
  (table?.cases ?? []).filter((c) => c.name.startsWith(start)).map((c) => [c.name, c]);
const learnerOf = ({ B, planningSd, executionSd }: { B: number; planningSd: number; executionSd: number }): Learner => ({
  rate: B,
  planningSd,
  executionSd,
});

/** The table's integer generator. */
function series(start: number, n: number, B: number, q: number, r: number): Float64Array {
  let s = start;
  const bell = (): number => {
    let sum = 0;
    for (let i = 0; i < 12; i++) {
      s = (Math.imul(1664525, s) + 1013904223) >>> 0;
      sum += s / 2 ** 32;
    }
    return sum - 6;
  };
  let plan = 0;
  return Float64Array.from({ length: n }, () => {
    const e = plan + r * bell();
    plan = plan - B * e + q * bell();
    return e;
  });
}

/** Lag `k` autocorrelation about the mean: the kernel's at 1, the definition beyond. */
function autocorrelation(values: ArrayLike<number>, k: number): number {
  const column = Float64Array.from(values);
  const known = new Uint8Array(column.length).fill(1);
  const left = takeOutRegressors(prepareErrors(column, known).aboutMean)!;
  if (k === 1) return lagOne(left.rest, left.basis, known).value;
  const squares = left.rest.reduce((sum, d) => sum + d * d, 0);
  return left.rest.reduce((sum, d, i) => sum + (i >= k ? d * left.rest[i - k]! : 0), 0) / squares;
}

/** The table holds twelve significant digits: at a tolerance of 1e-12 an irrational number has to be rounded as it was. */
const stored = (value: number): number => Number(value.toPrecision(12));
const number = (estimate: { ok: boolean; value?: number }): number => (estimate.ok ? estimate.value! : Number.NaN);

// Source: kinematics/trial-to-trial.json: closed form, dense normal density and worked by hand.
describe.skipIf(table === undefined)(`trial-to-trial table (${table === undefined ? SHARED_ABSENT : "present"})`, () => {
  it("has the 21 cases that are tested here", () => expect(table!.cases).toHaveLength(21));

  it.each(cases("state-space model in closed form"))("%s", (_, { params, expected, tolerance }) => {
    const learner = learnerOf(params);
    expect(within(planVariance(learner), expected.planVariance, tolerance)).toBe(true);
    expect(within(errorVariance(learner), expected.errorVariance, tolerance)).toBe(true);
    for (const [i, rho] of expected.autocorrelation.entries()) {
      expect(within(errorAutocorrelation(learner, i + 1), rho, tolerance)).toBe(true);
    }
    expect(within(bestRate(learner), expected.bestRate, tolerance)).toBe(true);
    expect(within(errorAutocorrelation(learner, 1), expected.slopeOfNextOnThis, tolerance)).toBe(true);
    expect(within(1 - errorAutocorrelation(learner, 1), expected.naiveRate, tolerance)).toBe(true);
    if (expected.errorVarianceAtBestRate !== undefined) {
      const best = { ...learner, rate: bestRate(learner) };
      expect(within(errorVariance(best), expected.errorVarianceAtBestRate, tolerance)).toBe(true);
      expect(Math.abs(errorAutocorrelation(best, 1))).toBeLessThan(1e-12);
    }
  });

  it.each(cases("state-space model, simulated"))("%s", (_, { params, expected, tolerance }) => {
    const learner = learnerOf(params);
    const { theory, simulated } = expected;
    // the theory is stored to twelve digits, the simulation to its own accuracy
    expect(within(errorVariance(learner), theory.errorVariance, { rel: 1e-10, abs: 1e-12 })).toBe(true);
    expect(within(errorVariance(learner), simulated.errorVariance, tolerance)).toBe(true);
    for (const [i, rho] of theory.autocorrelation.entries()) {
      expect(within(errorAutocorrelation(learner, i + 1), rho, { rel: 1e-10, abs: 1e-12 })).toBe(true);
      expect(within(errorAutocorrelation(learner, i + 1), simulated.autocorrelation[i], tolerance)).toBe(true);
    }
  });

  it.each(cases("fixed series"))("%s", (_, { input, params, expected }) => {
    // the case's note: sums, autocorrelations and likelihoods to 1e-9, the likeliest parameters to 1e-4, their log-likelihood to 1e-8
    const exact = { rel: 1e-9, abs: 1e-9 };
    const errors = series(input.start, input.n, params.B, params.q, params.r);
    for (const [i, e] of expected.first5.entries()) expect(within(errors[i]!, e, exact)).toBe(true);
    expect(within(errors.at(-1)!, expected.last, exact)).toBe(true);
    const { mean, sd } = meanAndSd(errors);
    expect(within(mean, expected.mean, exact)).toBe(true);
    expect(within(mean * input.n, expected.sum, exact)).toBe(true);
    expect(within((sd * sd * (input.n - 1)) / input.n, expected.varianceN, exact)).toBe(true);
    for (const [i, rho] of expected.autocorrelation.entries()) expect(within(autocorrelation(errors, i + 1), rho, exact)).toBe(true);
    const known = new Uint8Array(input.n).fill(1);
    for (const point of expected.logLikelihood) {
      const { logDeterminant, products } = filterErrors([errors], known, learnerOf(point));
      expect(within(-(input.n * Math.log(2 * Math.PI) + logDeterminant + products[0]!) / 2, point.value, exact)).toBe(true);
    }
    if (expected.maximumLikelihood === undefined) return;
    const best = expected.maximumLikelihood;
    const fit = fitLearner({ errors, known, regressors: [] });
    const noise = Math.sqrt(fit.scale);
    expect(within(fit.rate, best.B, { rel: 1e-4, abs: 0 })).toBe(true);
    expect(within(noise * fit.bestRate, best.planningSd, { rel: 1e-4, abs: 0 })).toBe(true);
    expect(within(noise * Math.sqrt(1 - fit.bestRate), best.executionSd, { rel: 1e-4, abs: 0 })).toBe(true);
    expect(within(-fit.deviance / 2, best.logLikelihood, { rel: 1e-8, abs: 0 })).toBe(true);
  });

  it.each(cases("lag-1 autocorrelation by hand"))("%s", (_, { input, expected, tolerance }) => {
    const { e } = input;
    expect(within(meanAndSd(e).mean, expected.mean, tolerance)).toBe(true);
    expect(within(autocorrelation(e, 1), expected.lag1, tolerance)).toBe(true);
    expect(within(autocorrelation(e, 2), expected.lag2, tolerance)).toBe(true);
    const known = new Uint8Array(e.length).fill(1);
    const left = takeOutRegressors(prepareErrors(Float64Array.from(e), known).aboutMean)!;
    const found = lagOne(left.rest, left.basis, known);
    expect(within(found.expectedIfIndependent, expected.meanOfLag1IfExchangeable, tolerance)).toBe(true);
    // 1/sqrt(n) is the limit for long series; the exact deviation is (n - 2)/(n sqrt(n - 1))
    expect(within(1 / Math.sqrt(e.length), expected.standardErrorIfWhite, tolerance)).toBe(true);
    expect(within(found.standardErrorIfIndependent, 4 / (6 * Math.sqrt(5)), tolerance)).toBe(true);
  });

  it.each(cases("lag-1 autocorrelation over all orders"))("%s", (_, { input, expected, tolerance }) => {
    const orders = permutations(input.e as number[]).map((order) => autocorrelation(order, 1));
    expect(orders).toHaveLength(720);
    const { mean, sd } = meanAndSd(orders);
    expect(within(mean, expected.mean, tolerance)).toBe(true);
    expect(within(sd * Math.sqrt(719 / 720), expected.sd, tolerance)).toBe(true);
    const observed = autocorrelation(input.e, 1) + 1e-12;
    expect(within(orders.filter((r) => r <= observed).length / 720, expected.shareAtOrBelowObserved, tolerance)).toBe(true);
  });

  it.each([...cases("constant, variable"), ...cases("identical errors")])("%s", (_, { input, expected, tolerance }) => {
    const n = input.e.length;
    const found = axisErrors(input.e, "px", 0.95);
    const { mean, sd } = meanAndSd(input.e);
    expect(within(number(found.constant), expected.constantError, tolerance)).toBe(true);
    expect(within(number(found.absolute), expected.absoluteError, tolerance)).toBe(true);
    expect(within(number(found.total), expected.totalError, tolerance)).toBe(true);
    expect(within(sd, expected.sampleSd, tolerance)).toBe(true);
    // without spread the estimate of the spread is a reason, not a zero
    if (expected.variableError > 0) expect(within(number(found.variable), expected.variableError, tolerance)).toBe(true);
    else expect(found.variable).toMatchObject({ ok: false, why: "noSpread" });
    const variance = (sd * sd * (n - 1)) / n;
    const [square, spread, total] = expected.identity ?? [mean * mean, 0, mean * mean];
    expect(within(mean * mean, square, tolerance)).toBe(true);
    expect(within(variance, spread, tolerance)).toBe(true);
    expect(within(number(found.total) ** 2, total, tolerance)).toBe(true);
  });

  it.each(cases("two-dimensional errors"))("%s", (_, { input, expected, tolerance }) => {
    const rows = input.e.map(([along, across]: [number, number]) => ({ along, across, radial: Math.hypot(along, across), inside: true }));
    const { radial } = summarizeErrors(
      rows.map((offset: object) => ({ width: 10, errors: { press: offset } }) as unknown as Acquisition),
      (row) => row.errors.press,
      "px",
      0.95,
    );
    expect(within(number(radial.mean), expected.meanRadialError, tolerance)).toBe(true);
    expect(within(stored(number(radial.centroid)), expected.centroidRadialError, tolerance)).toBe(true);
    expect(within(stored(number(radial.bivariateVariable)), expected.bivariateVariableError, tolerance)).toBe(true);
    expect(within(stored(number(radial.total)), expected.rootMeanSquareRadialError, tolerance)).toBe(true);
    const squares = [number(radial.centroid) ** 2, number(radial.bivariateVariable) ** 2, number(radial.total) ** 2];
    for (const [i, square] of squares.entries()) expect(within(square, expected.identity[i], tolerance)).toBe(true);
    const middle = [0, 1].map((axis) => meanAndSd(input.e.map((e: number[]) => e[axis])).mean);
    for (const [axis, value] of middle.entries()) expect(within(value, expected.centroid[axis], tolerance)).toBe(true);
  });

  it.each(cases("circular normal scatter"))("%s", (_, { expected, tolerance }) => {
    // moments of a bivariate normal by quadrature over its radius, r exp(-r^2/2)
    const steps = 400_000;
    const h = 40 / steps;
    const moment = (power: number): number => {
      let sum = 0;
      for (let i = 1; i < steps; i++) sum += (i * h) ** (power + 1) * Math.exp(-((i * h) ** 2) / 2);
      return sum * h;
    };
    expect(within(Math.sqrt(moment(2)), expected.bivariateVariableError, { ...tolerance, rel: 1e-9 })).toBe(true);
    expect(within(moment(1), expected.meanRadius, { ...tolerance, rel: 1e-9 })).toBe(true);
    expect(1 - Math.exp(-(expected.medianRadius ** 2) / 2)).toBeCloseTo(0.5, 10);
    expect(within(stored(Math.sqrt(2)), expected.bivariateVariableError, tolerance)).toBe(true);
    expect(within(stored(Math.sqrt(Math.PI / 2)), expected.meanRadius, tolerance)).toBe(true);
    expect(within(stored(Math.sqrt(2 * Math.LN2)), expected.medianRadius, tolerance)).toBe(true);
    expect(within(stored(Math.sqrt(2 / Math.PI)), expected.meanAbsoluteOneAxis, tolerance)).toBe(true);
  });

  it.each(cases("corrective gain"))("%s", (_, { expected, tolerance }) => {
    for (const { lambda, gain, observedSlope } of expected.table) {
      expect(within(observedGain(gain, lambda), observedSlope, tolerance)).toBe(true);
      expect(within(unbiasedGain(observedSlope, lambda), gain, tolerance)).toBe(true);
    }
  });
});

function permutations(values: readonly number[]): number[][] {
  if (values.length < 2) return [[...values]];
  return values.flatMap((value, i) => permutations([...values.slice(0, i), ...values.slice(i + 1)]).map((rest) => [value, ...rest]));
}
