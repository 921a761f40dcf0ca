// What is said about a fitted law: intervals of parameters, half-lives, what is left and when a value is reached, by formulas of the covariance.
import { describe, expect, it } from "vitest";
import { curveModel } from "../../../src/learning/curve/curve-model.js";
import { reachOf } from "../../../src/learning/curve/curve-reach.js";
import { halfLife } from "../../../src/learning/curve/curve-times.js";
import type { CurveParameter } from "../../../src/learning/curve/curve-types.js";
import { describeParameters } from "../../../src/learning/curve/describe-parameters.js";
import type { FittedCurve } from "../../../src/learning/curve/fitted-curve.js";
import { gradientOf, varianceAlong } from "../../../src/learning/curve/fitted-curve.js";
import { curvePredictor } from "../../../src/learning/curve/predict-value.js";
import type { Solution, Solver } from "../../../src/learning/curve/solver.js";
import { type FitLearningCurveOptions, fitLearningCurve, type LearningCurveFit } from "../../../src/learning/fit-learning-curve.js";
import type { LearningLawName } from "../../../src/learning/types.js";
import type { Estimate } from "../../../src/math/estimate.js";

const counted = (value: readonly number[]) => ({ practice: value.map((_, i) => i + 1), value });
const wiggle = (i: number): number => ((7 * i) % 5) - 2;
const OPEN = Number.POSITIVE_INFINITY;
const intervalOf = (estimate: Estimate): readonly [number, number] => {
  if (!estimate.ok || estimate.interval === undefined) throw new Error("no interval");
  return estimate.interval;
};
const numberOf = (estimate: Estimate): number => (estimate.ok ? estimate.value : Number.NaN);

/** A fitted law as far as its parameters need it: each has a standard error of 0.1, or none. */
function fitted(parameters: readonly number[], change: Partial<FittedCurve> = {}, law: LearningLawName = "exponential3"): FittedCurve {
  const all = parameters.map((_, j) => j);
  return {
    columns: { n: 9 },
    model: curveModel(law),
    solution: { parameters: Float64Array.from(parameters), residualSum: 1 },
    moving: all,
    bound: [],
    free: all,
    covariance: all.map((i) => all.map((j) => (i === j ? 0.01 : 0))),
    lower: new Float64Array(parameters.length).fill(-OPEN),
    upper: new Float64Array(parameters.length).fill(OPEN),
    runaways: [],
    reach: 2,
    variance: 0.25,
    level: 0.9,
    exact: false,
    ...change,
  } as unknown as FittedCurve;
}

/** The factor on either side of a quantity whose logarithm has these derivatives by c and d, with 20 degrees of freedom. */
function halfByShape(covariance: readonly (readonly number[])[], byC: number, byD: number): number {
  const [, , [, , cc, cd], [, , , dd]] = covariance as [
    number[],
    number[],
    [number, number, number, number],
    [number, number, number, number],
  ];
  return Math.exp(2.0859634472658364 * Math.sqrt(byC * byC * cc + 2 * byC * byD * cd + byD * byD * dd));
}

/** First steps that a profile takes, by parameter and side; every sum is far above. */
function stepsOf(curve: FittedCurve): number[][] {
  const at = curve.solution.parameters;
  const steps: number[][] = at.length === 0 ? [] : Array.from(at, () => []);
  const solver: Solver = {
    best: () => {
      throw new Error("not asked for");
    },
    from: (_start, lower, upper): Solution => {
      const j = lower.findIndex((low, k) => low === upper[k] && low !== at[k]);
      const [below, above] = [steps[j]!.length === 0, steps[j]!.length > 0];
      const away = lower[j]! - at[j]!;
      if ((below && away < 0) || (above && away > 0 && steps[j]!.length === 1)) steps[j]!.push(away);
      return { parameters: lower.slice(), residualSum: 1 + curve.variance * curve.reach ** 2, converged: true, reason: "", iterations: 1 };
    },
  };
  describeParameters(curve, () => "", solver);
  return steps;
}

describe("parameters", () => {
  const say = (curve: FittedCurve) => describeParameters(curve, (letter) => `unit of ${letter}`, undefined);
  // Source: by definition: value and standard error times the quantile, here 2 x 0.1
  it("have Wald's interval without a profile", () => {
    const { a, b, c } = say(fitted([1, 2, 0.5]));
    expect(a).toEqual({
      ok: true,
      value: 1,
      unit: "unit of a",
      n: 9,
      interval: [0.8, 1.2].map((end) => expect.closeTo(end, 12)),
      level: 0.9,
      standardError: expect.closeTo(0.1, 12),
    });
    expect([b!.unit, c!.unit]).toEqual(["unit of b", "unit of c"]);
  });
  it("have no end where a bound lies within the interval, and are not told then", () => {
    const ends = (lower: number, upper: number) =>
      say(fitted([1, 2, 0.5], { lower: Float64Array.of(lower, -OPEN, 0), upper: Float64Array.of(upper, OPEN, 20) })).a!;
    expect(ends(0.79, 1.21).ok).toBe(true);
    expect(ends(0.81, 1.21)).toEqual({
      ok: false,
      why: "notIdentified",
      unit: "unit of a",
      n: 9,
      standardError: null,
      ends: [null, expect.closeTo(1.2, 12)],
    });
    // an end on the bound is not inside it
    expect(ends(1 - 2 * 0.1, 1.3).ok).toBe(false);
    expect(ends(0.7, 1 + 2 * 0.1).ok).toBe(false);
    expect(ends(0.79, 1.19)).toMatchObject({ ok: false, ends: [expect.closeTo(0.8, 12), null] });
  });
  it("are not told on a bound, without a covariance, or where a bound of the search decides them", () => {
    expect(
      say(
        fitted([1, 2, 0.5], {
          bound: [1],
          free: [0, 2],
          covariance: [
            [0.01, 0],
            [0, 0.01],
          ],
        }),
      ),
    ).toMatchObject({
      a: { ok: true },
      b: { ok: false, why: "notIdentified", standardError: null, ends: [null, null] },
      c: { ok: true, standardError: expect.closeTo(0.1, 12) },
    });
    expect(say(fitted([1, 2, 0.5], { covariance: undefined })).c).toMatchObject({ ok: false, ends: [null, null] });
    const runaways = [{ place: 2, bound: 20, takes: [1] }];
    expect(say(fitted([1, 2, 20], { runaways }))).toMatchObject({ a: { ok: true }, b: { ok: false, ends: [null, null] }, c: { ok: true } });
  });
  it("that are held are given as they are", () =>
    expect(say(fitted([1, -0, 0.5], { moving: [0, 2], free: [0, 2] })).b).toEqual({
      ok: true,
      value: 0,
      unit: "unit of b",
      n: 9,
      standardError: null,
    }));
  it("are those of the law alone", () =>
    expect(Object.keys(say(fitted([0, 2, 0.5], { moving: [1, 2], free: [1, 2] }, "exponential2")))).toEqual(["b", "c"]));
  // Source: the docstring of the first step: the interval's half width by the standard error; without one a tenth of the value, or of the gain, or of 1
  it("are followed from a first step of their own size", () => {
    const tenths = (...parameters: number[]) => stepsOf(fitted(parameters, { covariance: undefined })).map(([, up]) => up!);
    expect(stepsOf(fitted([1, 2, 0.5]))).toEqual([0, 1, 2].map(() => [-0.2, 0.2].map((step) => expect.closeTo(step, 12))));
    expect(tenths(5, -2, 0.5)).toEqual([0.5, 0.2, 0.05].map((step) => expect.closeTo(step, 12)));
    expect(tenths(0, -2, 0)).toEqual([0.2, 0.2, 0.2].map((step) => expect.closeTo(step, 12)));
    expect(tenths(0, 0, 3)).toEqual([0.1, 0.1, 0.3].map((step) => expect.closeTo(step, 12)));
  });
  it("of an exact law are not followed", () => expect(stepsOf(fitted([1, 2, 0.5], { exact: true }))).toEqual([[], [], []]));
  // Source: the docstring: what runs away with one rate still has its ends looked for; of two shape parameters it does not
  it("that ran away are followed for laws of one rate alone", () => {
    const runaways = [{ place: 2, bound: 20, takes: [0] }];
    expect(stepsOf(fitted([1, 2, 20], { runaways })).map(({ length }) => length)).toEqual([2, 2, 2]);
    expect(stepsOf(fitted([1, 2, 20, 5], { runaways }, "combined")).map(({ length }) => length)).toEqual([0, 2, 2, 2]);
  });
});

describe("a quantity of the parameters", () => {
  const curve = fitted([1, 2, 0.5], {
    free: [0, 2],
    covariance: [
      [0.04, -0.01],
      [-0.01, 0.09],
    ],
  });
  // Source: the delta method, g' V g over the free parameters, by hand
  it("has the variance of its gradient", () => {
    expect(varianceAlong(curve, [3, 100, 2])).toBeCloseTo(9 * 0.04 - 2 * 3 * 2 * 0.01 + 4 * 0.09, 12);
    expect(varianceAlong({ ...curve, covariance: undefined }, [1, 1, 1])).toBeNaN();
    expect(
      varianceAlong(
        {
          ...curve,
          covariance: [
            [-1, 0],
            [0, 0],
          ],
        },
        [1, 1, 1],
      ),
    ).toBe(0);
  });
  // Source: derivatives by hand of a b c + c^2
  it("has a gradient by the free ones", () => {
    const gradient = gradientOf(curve, ([a, b, c]) => a! * b! * c! + c! * c!);
    expect([...gradient]).toEqual([expect.closeTo(1, 7), 0, expect.closeTo(3, 7)]);
    expect([...curve.solution.parameters]).toEqual([1, 2, 0.5]);
    const bare = gradientOf({ ...curve, covariance: undefined }, ([a, , c]) => 2 * a! - c!);
    expect([...bare]).toEqual([expect.closeTo(2, 6), 0, expect.closeTo(-1, 6)]);
  });
});

const LEARNER = counted(Array.from({ length: 16 }, (_, i) => 0.6 + 0.9 * Math.exp(-0.25 * i) + 0.01 * wiggle(i)));
const POWER = counted(Array.from({ length: 16 }, (_, i) => 0.3 + 0.9 * (i + 1) ** -1.2 + 0.003 * wiggle(i)));
const QUICK = { intervals: "wald", band: 0 } as const;
const T13 = 2.1603686564627913;

describe("half of the gain", () => {
  const fitOf = (law: LearningLawName, series = LEARNER, options: FitLearningCurveOptions = {}) =>
    fitLearningCurve(series, { law, ...QUICK, ...options });
  // Source: ln 2/c and 2^(1/c) fall with c: their interval is that of c, turned round
  it.each([
    ["exponential3", (c: number) => Math.LN2 / c],
    ["exponential2", (c: number) => Math.LN2 / c],
    ["power3", (c: number) => 2 ** (1 / c)],
    ["power2", (c: number) => 2 ** (1 / c)],
  ] as const)("of %s has the interval of the rate, turned round", (law, of) => {
    const signed = counted(LEARNER.value.map((v) => v - 0.3));
    const { halfLife, parameters } = fitOf(law, signed);
    const [low, high] = intervalOf(parameters.c!);
    expect(halfLife).toEqual({
      ok: true,
      value: expect.closeTo(of(numberOf(parameters.c!)), 10),
      unit: "session",
      n: 16,
      interval: [expect.closeTo(of(high), 10), expect.closeTo(of(low), 8)],
      level: 0.95,
    });
  });
  // Source: as above: exp(-c 15) and 16^-c
  it.each([
    ["exponential3", (c: number) => Math.exp(-15 * c)],
    ["power3", (c: number) => 16 ** -c],
  ] as const)("and what of %s is left", (law, of) => {
    const signed = law === "power3" ? POWER : counted(LEARNER.value.map((v) => v - 0.3));
    const { remaining, parameters } = fitOf(law, signed, { bounds: { a: [-OPEN, OPEN] } });
    const [low, high] = intervalOf(parameters.c!);
    expect(remaining).toMatchObject({
      value: expect.closeTo(of(numberOf(parameters.c!)), 10),
      unit: "1",
      interval: [expect.closeTo(of(high), 10), expect.closeTo(of(low), 10)],
    });
  });
  // Source: the delta method on the logarithm, derivatives by hand: h = 1 + ln(d + 2)/c; ln h by c is -ln(d + 2)/(c^2 h), by d 1/((d + 2) c h); quantile of t with
  // 24 - 4 degrees of freedom by SciPy 1.17.1
  it("of a late fall is unsure by its covariance", () => {
    const late = counted(Array.from({ length: 24 }, (_, i) => 0.5 + (1.4 * 9) / (8 + Math.exp(0.4 * i)) + 0.004 * wiggle(i)));
    const { halfLife, parameters, covariance } = fitOf("delayedExponential", late);
    const [c, d] = [numberOf(parameters.c!), numberOf(parameters.d!)];
    const h = 1 + Math.log(d + 2) / c;
    const [byC, byD] = [-Math.log(d + 2) / (c * c * h), 1 / ((d + 2) * c * h)];
    const half = halfByShape(covariance!, byC, byD);
    expect(halfLife).toMatchObject({ value: expect.closeTo(h, 9), unit: "session", n: 24, level: 0.95 });
    const [low, high] = intervalOf(halfLife);
    expect([low / (h / half), high / (h * half)]).toEqual([expect.closeTo(1, 5), expect.closeTo(1, 5)]);
  });
  // Source: as above; what is left of a + b N^-c exp(-d N) from 1 to 24 is 24^-c exp(-23 d), whose logarithm has the derivatives -ln 24 and -23
  it("and what of a combined law is left", () => {
    const mixed = counted(Array.from({ length: 24 }, (_, i) => 0.5 + 1.4 * (i + 1) ** -0.4 * Math.exp(-0.1 * (i + 1)) + 0.001 * wiggle(i)));
    const { remaining, parameters, covariance } = fitOf("combined", mixed);
    const [c, d] = [numberOf(parameters.c!), numberOf(parameters.d!)];
    const [byC, byD] = [-Math.log(24), -23];
    const half = halfByShape(covariance!, byC, byD);
    const left = 24 ** -c * Math.exp(-23 * d);
    expect(numberOf(remaining) / left).toBeCloseTo(1, 9);
    const [low, high] = intervalOf(remaining);
    expect([low / (left / half), high / (left * half)]).toEqual([expect.closeTo(1, 5), expect.closeTo(1, 5)]);
  });
});

describe("half of the gain of a law that is hardly known", () => {
  const none = { ok: false, why: "notIdentified", unit: "day", n: 9 };
  const fitOf = (law: LearningLawName, parameters: readonly number[], change: Partial<FittedCurve> = {}) =>
    halfLife(fitted(parameters, change, law), { c: rate([0.3, 0.7]) }, "day");
  const rate = (interval: readonly [number, number] | undefined, ends?: readonly [number | null, number | null]): CurveParameter =>
    ends === undefined
      ? { ok: true, value: 0.5, unit: "1", n: 9, standardError: 0.1, ...(interval === undefined ? {} : { interval, level: 0.9 }) }
      : { ok: false, why: "notIdentified", unit: "1", n: 9, standardError: null, ends };
  const covariance = (size: number) => [0, 1, 2, 3].map((i) => [0, 1, 2, 3].map((j) => (i === j ? size : 0)));
  // Source: 1 + ln(d + 2)/c has no value at c = 0; an error of a thousand in a rate of 0.5 leaves more than the 1e12 either side that say nothing
  it("is told with an interval of any use alone", () => {
    expect(fitOf("delayedExponential", [1, 2, 0.5, 3], { covariance: covariance(1e-4) })).toMatchObject({
      ok: true,
      value: expect.closeTo(1 + Math.log(5) / 0.5, 12),
      unit: "day",
      n: 9,
      level: 0.9,
    });
    expect(fitOf("delayedExponential", [1, 2, 0.5, 3], { covariance: covariance(1e6) })).toEqual(none);
    expect(fitOf("delayedExponential", [1, 2, 0.5, 3], { covariance: undefined })).toEqual(none);
    expect(fitOf("delayedExponential", [1, 2, 0, 3], { free: [], covariance: [] })).toEqual(none);
    expect(fitOf("combined", [1, 2, 0, 0], { free: [], covariance: [] })).toEqual(none);
  });
  // Source: closed forms: c = 0.5 alone is half at N = 4; d = 0.5 alone at 1 + 2 ln 2
  it("of a combined law is that of its parts where the other is none", () => {
    const alone = (c: number, d: number) => numberOf(fitOf("combined", [1, 2, c, d], { free: [], covariance: [] }));
    expect(alone(0.5, 0)).toBeCloseTo(4, 10);
    expect(alone(0, 0.5)).toBeCloseTo(1 + 2 * Math.LN2, 10);
    expect(alone(0.01, 0) / 2 ** 100).toBeCloseTo(1, 10);
  });
  // Source: ln 2/c turned round: for a rate that may be any larger, from 0 on; for one that may be none it has no upper end
  it("is open where the rate is", () => {
    const of = (c: CurveParameter, change: Partial<FittedCurve> = {}) => halfLife(fitted([1, 2, 0.5], change), { c }, "day");
    expect(of(rate([0.4, 0.8]))).toMatchObject({ ok: true, interval: [Math.LN2 / 0.8, Math.LN2 / 0.4], level: 0.9 });
    expect(of(rate([0, 0.8]))).toEqual(none);
    expect(of(rate(undefined, [0.4, null]))).toMatchObject({ ok: true, value: Math.LN2 / 0.5, interval: [0, Math.LN2 / 0.4] });
    expect(of(rate(undefined, [null, 0.8]))).toEqual(none);
    expect(of(rate(undefined))).toEqual({ ok: true, value: Math.LN2 / 0.5, unit: "day", n: 9 });
    expect(of(rate([0.4, 0.8]), { bound: [2] })).toEqual(none);
    expect(halfLife(fitted([1, 2, 0]), { c: rate([0.4, 0.8]) }, "day")).toEqual(none);
  });
  it("is none of a law whose constant or gain is not known", () => {
    const lost: CurveParameter = { ok: false, why: "notIdentified", unit: "s", n: 9, standardError: null };
    const known = rate([0.1, 0.9]);
    const of = (a: CurveParameter, b: CurveParameter) =>
      halfLife(fitted([1, 2, 0.5, 3], { covariance: covariance(1e-4) }, "power4"), { a, b }, "day");
    expect(of(known, known)).toMatchObject({ ok: true, value: expect.closeTo(4 * 4 - 3, 10) });
    expect(of(lost, known)).toEqual(none);
    expect(of(known, lost)).toEqual(none);
  });
});

describe("a band of shares", () => {
  // Source: a share lies within 0 and 1, whatever the law says
  it("is cut to 0 and 1, where the law itself is beyond, too", () => {
    const at = (level: number, size: number) =>
      curvePredictor(
        fitted([level], { errors: "binomial", columns: { n: 4, weightSum: 80 } as never, covariance: [[size]], variance: 1 }, "constant"),
      )(3)!;
    expect(at(0.5, 1e-4).confidence).toEqual([0.48, 0.52].map((end) => expect.closeTo(end, 12)));
    // binomial scatter of the mean of 20 trials
    expect(at(0.5, 1e-4).prediction[1]).toBeCloseTo(0.5 + 2 * Math.sqrt(1e-4 + 0.25 / 20), 12);
    expect(at(0.5, 9)).toMatchObject({ confidence: [0, 1], prediction: [0, 1] });
    expect(at(1.4, 1e-4)).toMatchObject({ value: 1.4, confidence: [1, 1], prediction: [1, 1] });
    expect(at(-0.4, 1e-4)).toMatchObject({ value: -0.4, confidence: [0, 0], prediction: [0, 0] });
    expect(
      curvePredictor(fitted([1], { columns: { n: 4, weightSum: 4 } as never, covariance: undefined, errors: "normal" }, "constant"))(3),
    ).toBeUndefined();
  });
});

describe("the practice at which a value is reached", () => {
  const fit = fitLearningCurve(LEARNER, { ...QUICK, reach: [1.2, 0.8] });
  const { a, b, c } = fit.parameters;
  // Source: closed form N = 1 + ln(b/(y - a))/c; the delta method on ln N: error of the law there over its slope and N; t with 13 degrees of freedom by SciPy 1.17.1
  it.each([
    [0, 1.2],
    [1, 0.8],
  ])("is that of the law's inverse, with its error over the slope (%d)", (place, target) => {
    const [av, bv, cv] = [numberOf(a!), numberOf(b!), numberOf(c!)];
    const at = 1 + Math.log(bv / (target - av)) / cv;
    const g = Math.exp(-cv * (at - 1));
    const gradient = [1, g, -bv * (at - 1) * g];
    const variance = gradient.reduce(
      (sum, one, i) => sum + gradient.reduce((part, other, j) => part + one * other * fit.covariance![i]![j]!, 0),
      0,
    );
    const half = Math.exp((T13 * Math.sqrt(variance)) / (bv * cv * g * at));
    expect(fit.reach[place]).toEqual({
      ok: true,
      value: expect.closeTo(at, 9),
      unit: "session",
      n: 16,
      interval: [expect.closeTo(at / half, 6), expect.closeTo(at * half, 6)],
      level: 0.95,
    });
  });

  /** When a line from 5 on reaches a value: it falls by 0.5 with each of four sessions from the first at 2. */
  const line = (target: number, slope = -0.5, asymptote?: Parameters<typeof reachOf>[1], change: Partial<FittedCurve> = {}) =>
    reachOf(
      fitted(
        [5 - slope, slope],
        {
          columns: { n: 4, practice: Float64Array.of(2, 3, 4, 6) } as never,
          covariance: [
            [0, 0],
            [0, 0],
          ],
          ...change,
        },
        "linear",
      ),
      asymptote,
      target,
      "day",
    );
  // Source: by hand: 5 - 0.5 (N - 2)
  it("is where a line meets it", () => {
    expect(line(4)).toEqual({
      ok: true,
      value: expect.closeTo(4, 12),
      unit: "day",
      n: 4,
      interval: [4, 4].map((end) => expect.closeTo(end, 12)),
      level: 0.9,
    });
    expect(line(-95)).toMatchObject({ value: expect.closeTo(202, 9) });
    expect(line(6, 0.5)).toMatchObject({ value: expect.closeTo(4, 12) });
  });
  it("is the first session where the line starts there, or beyond it", () => {
    const first = { ok: true, value: 2, unit: "day", n: 4 };
    expect(line(5)).toEqual(first);
    expect(line(5.5)).toEqual(first);
    expect(line(4.5, 0.5)).toEqual(first);
  });
  // Source: the docstring: up to a million ranges (of 4) from the first value
  it("is out of reach beyond a million ranges of practice", () => {
    expect(line(5 - 0.5 * 4e6)).toMatchObject({ ok: true });
    expect(line(5 - 0.5 * 4.3e6)).toEqual({ ok: false, why: "outOfReach", unit: "day", n: 4 });
    expect(line(4, 0)).toEqual({ ok: false, why: "outOfReach", unit: "day", n: 4 });
  });
  // Source: what an asymptote's interval means: a law that comes from above may end before a value that lies below the upper end
  it("is not told where the law may end before it", () => {
    const unsure = { ok: false, why: "notIdentified", unit: "day", n: 4 };
    const end = (low: number, high: number) =>
      ({ ok: true, value: (low + high) / 2, unit: "s", n: 4, interval: [low, high], level: 0.9, standardError: 0.1 }) as const;
    expect(line(4, -0.5, end(3, 3.9)).ok).toBe(true);
    expect(line(4, -0.5, end(3, 4))).toEqual(unsure);
    expect(line(4, -0.5, end(3, 4.1))).toEqual(unsure);
    expect(line(6, 0.5, end(6.1, 7)).ok).toBe(true);
    expect(line(6, 0.5, end(6, 7))).toEqual(unsure);
    expect(line(6, 0.5, end(5.9, 7))).toEqual(unsure);
    const open = (low: number | null, high: number | null) =>
      ({ ok: false, why: "notIdentified", unit: "s", n: 4, ends: [low, high], standardError: null }) as const;
    expect(line(4, -0.5, open(null, 3.9)).ok).toBe(true);
    expect(line(4, -0.5, open(3, null))).toEqual(unsure);
    expect(line(6, 0.5, open(6.1, null)).ok).toBe(true);
    expect(line(6, 0.5, open(null, 7))).toEqual(unsure);
    expect(line(4, -0.5, { ok: false, why: "notIdentified", unit: "s", n: 4, standardError: null })).toEqual(unsure);
    // held, and so known
    expect(line(4, -0.5, { ok: true, value: 3, unit: "s", n: 4, standardError: null }).ok).toBe(true);
  });
  it("is not told where the law is not known, or for practice at or below 0", () => {
    expect(line(4, -0.5, undefined, { covariance: undefined })).toEqual({ ok: false, why: "notIdentified", unit: "day", n: 4 });
    const early = { columns: { n: 2, practice: Float64Array.of(-9, -5) } as never };
    expect(line(8, -0.5, undefined, early)).toEqual({ ok: false, why: "notIdentified", unit: "day", n: 2 });
  });
});

describe("the covariance that is shown", () => {
  // Source: the docstring of `covariance`: 0 for what is held at a bound, and only the law's own parameters
  it("has a row for each parameter of the law", () => {
    const of = (fit: LearningCurveFit) => fit.covariance!;
    const held = of(fitLearningCurve(LEARNER, { ...QUICK, bounds: { c: [0.25, 0.25] } }));
    expect(held.map((row) => row[2])).toEqual([0, 0, 0]);
    expect(held[2]).toEqual([0, 0, 0]);
    expect(held[0]![0]).toBeGreaterThan(0);
    expect(of(fitLearningCurve(LEARNER, { ...QUICK, law: "exponential2" })).map(({ length }) => length)).toEqual([2, 2]);
    const free = of(fitLearningCurve(LEARNER, QUICK));
    free.forEach((row, i) => {
      row.forEach((entry, j) => {
        expect(entry).toBeCloseTo(free[j]![i]!, 12);
      });
    });
  });
});
