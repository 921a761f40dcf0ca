// Laws, their derivatives, the errors about them and the columns that they are fitted to, each by its formula.
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { curveColumns } from "../../../src/learning/curve/columns.js";
import { curveBounds } from "../../../src/learning/curve/curve-bounds.js";
import { LAWS, needsPositive } from "../../../src/learning/curve/curve-laws.js";
import { curveModel } from "../../../src/learning/curve/curve-model.js";
import { type CurveErrors, ERROR_LAWS, logLikelihood } from "../../../src/learning/curve/error-law.js";
import { type LinearPart, linearPart } from "../../../src/learning/curve/linear-part.js";
import { linearSums } from "../../../src/learning/curve/linear-sums.js";
import { fitLearningCurve } from "../../../src/learning/fit-learning-curve.js";
import type { LearningLaw, LearningLawName } from "../../../src/learning/types.js";

const NAMES = Object.keys(LAWS) as LearningLawName[];
const close = (values: readonly number[], digits = 10): unknown[] => values.map((value) => expect.closeTo(value, digits));

/** The laws by their formulas. */
const FORMULAS: Readonly<Record<LearningLawName, (n: number, a: number, b: number, c: number, d: number) => number>> = {
  constant: (_n, a) => a,
  linear: (n, a, b) => a + b * (n - 1),
  power2: (n, a, b, c) => a + b * n ** -c,
  power3: (n, a, b, c) => a + b * n ** -c,
  power4: (n, a, b, c, e) => a + b * (n + e) ** -c,
  exponential2: (n, a, b, c) => a + b * Math.exp(-c * (n - 1)),
  exponential3: (n, a, b, c) => a + b * Math.exp(-c * (n - 1)),
  combined: (n, a, b, c, d) => a + b * n ** -c * Math.exp(-d * n),
  delayedExponential: (n, a, b, c, d) => a + (b * (d + 1)) / (d + Math.exp(c * (n - 1))),
};

describe.each(NAMES)("the law %s", (law) => {
  const model = curveModel(law);
  const p = model.letters.length;
  const at = (n: number, theta: readonly number[]) => FORMULAS[law](n, theta[0]!, theta[1]!, theta[2]!, theta[3]!);
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const values = fc.tuple(number(0.1, 30), fc.tuple(number(0, 3), number(-3, 3), number(0.01, 2), number(0.01, 3)));

  // Source: the formulas of the docstring, and central differences of them
  test.prop([values], { numRuns: 60 })("has its value and its derivatives", ([n, all]) => {
    const theta = [...all.slice(0, p)];
    // a constant has a place for a gain that it does not have
    if (law === "constant") theta[1] = 0;
    const size = 1 + Math.abs(at(n, theta));
    expect(Math.abs(model.value(n, theta) - at(n, theta)) / size).toBeLessThan(1e-12);
    const gradient = new Float64Array(p);
    model.gradient(n, theta, gradient);
    const values = new Float64Array(3);
    const jacobian = new Float64Array(3 * p);
    model.fill(Float64Array.of(n, n + 1, n + 3), theta, values, jacobian);
    expect([...values]).toEqual([0, 1, 3].map((more) => expect.closeTo(model.value(n + more, theta), 9)));
    for (let j = 0; j < p; j++) {
      if (law === "constant" && j === 1) continue;
      const h = 1e-5;
      const moved = (by: number) => theta.map((v, k) => (k === j ? v + by : v));
      const difference = (at(n, moved(h)) - at(n, moved(-h))) / (2 * h);
      const scale = 1 + Math.abs(difference) + size * Math.log(2 + n) ** 3;
      expect(Math.abs(gradient[j]! - difference) / scale, model.letters[j]).toBeLessThan(1e-6);
      expect(jacobian[3 * j]! - gradient[j]!).toBeCloseTo(0, 9);
    }
  });
});

describe("a law", () => {
  // Source: the formulas: what an exponential falls over, the logarithm of practice or the steps since its first unit
  it("names what it falls over, and whether it needs practice above 0", () => {
    expect(NAMES.map((name) => [name, LAWS[name].lag, LAWS[name].shape.join(""), needsPositive(name)])).toEqual([
      ["constant", undefined, "", false],
      ["linear", undefined, "", false],
      ["power2", "log", "c", true],
      ["power3", "log", "c", true],
      ["power4", undefined, "ce", true],
      ["exponential2", "steps", "c", false],
      ["exponential3", "steps", "c", false],
      ["combined", undefined, "cd", true],
      ["delayedExponential", undefined, "cd", false],
    ]);
  });
  // Source: the limit of a fall that is over: its asymptote, whatever the gain at practice 1 comes to
  it("is at its asymptote where the rest of the gain is below all numbers, even of an endless gain", () => {
    const model = curveModel("exponential3");
    const theta = [0.5, Number.POSITIVE_INFINITY, 2];
    expect(model.value(1000, theta)).toBe(0.5);
    const gradient = new Float64Array(3);
    model.gradient(1000, theta, gradient);
    expect([...gradient]).toEqual([1, 0, 0]);
    const values = new Float64Array(2);
    const jacobian = new Float64Array(6);
    model.fill(Float64Array.of(1000, 1001), theta, values, jacobian);
    expect([...values]).toEqual([0.5, 0.5]);
    expect([...jacobian].map((v) => v + 0)).toEqual([1, 1, 0, 0, 0, 0]);
  });
});

describe("errors about a law", () => {
  const { normal, lognormal, binomial } = ERROR_LAWS;
  // Source: by definition: weighted differences of values, and of logarithms
  it("are differences, or differences of logarithms, times the root of the weight", () => {
    expect([normal.residual(5, 3, 4), normal.slope(5, 3, 4), normal.information(3, 4)]).toEqual([4, -2, 4]);
    expect([lognormal.residual(Math.E ** 2, Math.E, 9), lognormal.slope(1, 0.5, 9), lognormal.information(0.5, 9)]).toEqual(
      close([3, -6, 36]),
    );
  });
  // Source: the binomial deviance 2 n [s ln(s/p) + (1 - s) ln((1 - s)/(1 - p))], 0 ln 0 taken as 0, by its signed root; slope by central differences of that
  const deviance = (s: number, p: number, n: number) =>
    2 * n * ((s > 0 ? s * Math.log(s / p) : 0) + (s < 1 ? (1 - s) * Math.log((1 - s) / (1 - p)) : 0));
  test.prop([fc.constantFrom(0, 0.1, 0.5, 0.75, 1), fc.double({ min: 0.01, max: 0.99, noNaN: true }), fc.integer({ min: 1, max: 60 })])(
    "are signed roots of the deviance for hit shares",
    (share, fitted, trials) => {
      const root = (p: number) => Math.sign(share - p) * Math.sqrt(Math.max(0, deviance(share, p, trials)));
      expect(binomial.residual(share, fitted, trials)).toBeCloseTo(root(fitted), 8);
      expect(binomial.information(fitted, trials)).toBeCloseTo(trials / (fitted * (1 - fitted)), 8);
      const h = 1e-4 * fitted * (1 - fitted);
      if (Math.abs(share - fitted) < 2 * h) return;
      const slope = (root(fitted + h) - root(fitted - h)) / (2 * h);
      expect(binomial.slope(share, fitted, trials) / slope).toBeCloseTo(1, 4);
    },
  );
  // Source: the limit of the root at the share itself: a line with the binomial standard deviation
  it("are a line about the share itself", () => {
    expect(binomial.slope(0.3, 0.3, 50)).toBeCloseTo(-Math.sqrt(50 / 0.21), 10);
    expect(binomial.residual(0.3, 0.3, 50)).toBeCloseTo(0, 12);
    expect(binomial.slope(0.3, 0.3 + 1e-8, 50)).toBeCloseTo(-Math.sqrt(50 / 0.21), 4);
    expect(binomial.slope(0.3, 0.3 + 1e-5, 50)).toBeCloseTo(-Math.sqrt(50 / 0.21), 1);
  });
  // Source: the docstring: beyond 1e-7 from 0 and from 1 the root goes on as a straight line with the slope that it has there
  it.each([0, 0.4, 1])("go on straight beyond 0 and 1 for a share of %d", (share) => {
    for (const [edge, out] of [
      [1e-7, -1],
      [1 - 1e-7, 1],
    ] as const) {
      const slope = binomial.slope(share, edge, 40);
      for (const away of [1e-7, 0.05, 0.5]) {
        const fitted = edge + out * away;
        expect(binomial.slope(share, fitted, 40)).toBe(slope);
        expect(binomial.residual(share, fitted, 40)).toBeCloseTo(binomial.residual(share, edge, 40) + slope * (fitted - edge), 6);
        expect(binomial.information(fitted, 40)).toBe(40 / (edge * (1 - edge)));
      }
    }
    expect(binomial.slope(share, 2e-7, 40)).not.toBe(binomial.slope(share, 1e-7, 40));
    expect(binomial.slope(share, 1 - 2e-7, 40)).not.toBe(binomial.slope(share, 1 - 1e-7, 40));
  });

  const columns = curveColumns("test", { practice: [1, 2, 3], value: [2, 4, 3], trials: [1, 4, 2] });
  const of = (errors: CurveErrors, sum: number, given = columns) => logLikelihood(errors, given, sum, () => 0);
  // Source: the normal density written out, its variance the residual sum over n; a value of w trials has a w-th of the variance; of logarithms, the density of a
  // value is that of its logarithm over the value
  it("have their likelihood", () => {
    const density = (sum: number) => -1.5 * (Math.log((2 * Math.PI * sum) / 3) + 1);
    expect(of("normal", 0.6)).toBeCloseTo(density(0.6) + Math.log(8) / 2, 12);
    expect(of("lognormal", 0.6)).toBeCloseTo(density(0.6) + Math.log(8) / 2 - Math.log(24), 12);
    const even = curveColumns("test", { practice: [1, 2, 3], value: [2, 4, 3] });
    expect(of("normal", 0.6, even)).toBeCloseTo(density(0.6), 12);
    expect(of("normal", 0)).toBeNull();
    expect(of("lognormal", 0)).toBeNull();
  });
  // Source: the binomial likelihood written out: of shares 0, 0.25 and 1 of 5, 8 and 3 trials about themselves only the second has a factor, 0.25^2 0.75^6; less
  // half of the deviance
  it("have the likelihood of hits, all and none among them", () => {
    const shares = curveColumns("test", { practice: [1, 2, 3], value: [0, 0.25, 1], trials: [5, 8, 3] });
    const own = 2 * Math.log(0.25) + 6 * Math.log(0.75);
    expect(of("binomial", 3, shares)).toBeCloseTo(own - 1.5, 12);
    expect(of("binomial", 0, shares)).toBeCloseTo(own, 12);
    expect(logLikelihood("binomial", shares, 0, (n, k) => 100 * n + k)).toBeCloseTo(own + 1600 + 0 + 2 + 3, 10);
  });
});

describe("columns of a series", () => {
  // Source: by hand
  it("are described by their counts, steps and ends", () => {
    expect(curveColumns("test", { practice: [1, 1, 2.5, 3, 3, 7], value: [5, 4, 9, 2, 3, 4], trials: [1, 2, 3, 1, 1, 2] })).toMatchObject({
      n: 6,
      weighted: true,
      weightSum: 10,
      distinct: 4,
      step: 0.5,
      low: 2,
      high: 9,
      practice: Float64Array.of(1, 1, 2.5, 3, 3, 7),
      value: Float64Array.of(5, 4, 9, 2, 3, 4),
      weight: Float64Array.of(1, 2, 3, 1, 1, 2),
    });
    expect(curveColumns("test", { practice: [4, 4], value: [1, 2] })).toMatchObject({
      weighted: false,
      weightSum: 2,
      distinct: 1,
      step: 0,
      weight: Float64Array.of(1, 1),
    });
    expect(curveColumns("test", { practice: [], value: [] })).toMatchObject({ n: 0, distinct: 0, step: 0, weightSum: 0 });
    expect(curveColumns("test", { practice: [-2, 0], value: [1, 2] }, -3).n).toBe(2);
    expect(() => curveColumns("test", { practice: [0, 1], value: [1, 2] }, 0)).toThrow(
      new RangeError("test: series.practice[0] must be above 0 for this law, got 0"),
    );
  });
  it("copy what they are given", () => {
    const practice = Float64Array.of(1, 2);
    const columns = curveColumns("test", { practice, value: practice });
    practice[0] = 9;
    expect(columns.practice[0]).toBe(1);
  });
});

describe("weighted sums about their means", () => {
  // Source: by hand: weights 1, 1 and 2 give means of 6 and 2.5
  it("are those of a column and values", () => {
    const value = [1, 5, 9];
    const basis = [4, 2, 2];
    const weight = [1, 1, 2];
    const sums = linearSums(Float64Array.from(value), Float64Array.from(basis), Float64Array.from(weight));
    expect(sums).toMatchObject({ weight: 4, meanData: 6, meanBasis: 2.5 });
    expect(sums.basisSquare).toBeCloseTo(1.5 ** 2 + 0.5 ** 2 + 2 * 0.5 ** 2, 12);
    expect(sums.product).toBeCloseTo(1.5 * -5 + -0.5 * -1 + 2 * -0.5 * 3, 12);
  });
  const part = (
    sums: Partial<Parameters<typeof linearPart>[0]>,
    [loA, hiA]: readonly [number, number],
    [loB, hiB]: readonly [number, number],
  ) => {
    const out: LinearPart = { a: 0, b: 0, aFree: false, bFree: false };
    const all = { weight: 4, meanData: 6, meanBasis: 2.5, basisSquare: 3, product: -10, ...sums };
    linearPart(all, Float64Array.of(loA, loB), Float64Array.of(hiA, hiB), out);
    return out;
  };
  const OPEN = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] as const;
  // Source: by hand: b = -10/3, a = 6 + 25/3; with a held at 6: b = (4 x 2.5 x 0 - 10)/(4 x 2.5^2 + 3); with b held at 1: a = 6 - 2.5; a column that does not vary
  // leaves b at 0, or at its bound next to 0
  it("give the best constant and gain, and which of them are free", () => {
    expect(part({}, OPEN, OPEN)).toEqual({ a: expect.closeTo(6 + 25 / 3, 12), b: expect.closeTo(-10 / 3, 12), aFree: true, bFree: true });
    expect(part({}, [6, 6], OPEN)).toEqual({ a: 6, b: expect.closeTo(-10 / 28, 12), aFree: false, bFree: true });
    expect(part({}, OPEN, [1, 1])).toEqual({ a: 3.5, b: 1, aFree: true, bFree: false });
    expect(part({}, OPEN, [1, 9])).toEqual({ a: 3.5, b: 1, aFree: true, bFree: false });
    expect(part({}, OPEN, [-9, -4])).toEqual({ a: 16, b: -4, aFree: true, bFree: false });
    expect(part({}, [6, 6], [1, 9])).toEqual({ a: 6, b: 1, aFree: false, bFree: false });
    expect(part({}, [-9, 6], OPEN)).toEqual({ a: 6, b: expect.closeTo(-10 / 28, 12), aFree: false, bFree: true });
    expect(part({ basisSquare: 0, product: 0 }, OPEN, OPEN)).toEqual({ a: 6, b: 0, aFree: true, bFree: false });
    expect(part({ basisSquare: 0, product: 0 }, OPEN, [2, 9])).toEqual({ a: 1, b: 2, aFree: true, bFree: false });
    expect(part({ basisSquare: 0, product: 0 }, OPEN, [-9, -2])).toEqual({ a: 11, b: -2, aFree: true, bFree: false });
    // no column at all, and no constant: nothing is free
    expect(part({ meanBasis: 0, basisSquare: 0, product: 0 }, [0, 0], OPEN)).toEqual({ a: 0, b: 0, aFree: false, bFree: false });
  });
});

describe("bounds without a range of practice", () => {
  const lowerOf = (law: LearningLawName, practice: number[]) => {
    const columns = curveColumns("test", { practice, value: practice.map((_, i) => 3 - i) });
    return curveBounds("test", curveModel(law), undefined, columns, { bounds: {}, direction: "either", errors: "normal" }).lower[2];
  };
  // Source: the docstring: a bend of at least 1e-5 over the range of practice or of its logarithm; over 1 where there is none
  it("ask for a bend over one unit of practice", () => {
    expect(lowerOf("exponential3", [4, 4])).toBe(1e-5);
    expect(lowerOf("power3", [4, 4])).toBe(1e-5);
    expect(lowerOf("exponential3", [])).toBe(1e-5);
    expect(lowerOf("exponential3", [4, 8])).toBeCloseTo(1e-5 / 4, 15);
    expect(lowerOf("power3", [4, 8])).toBeCloseTo(1e-5 / Math.LN2, 15);
  });
});

describe("a law of one's own that is no number", () => {
  const series = { practice: [1, 2, 3, 4, 5, 6], value: [3, 2.5, 2, 1.8, 1.7, 1.6] };
  const law = (value: LearningLaw["value"]): LearningLaw => ({
    formula: "a",
    parameters: ["a"],
    starts: [[1]],
    lower: [Number.NEGATIVE_INFINITY],
    upper: [Number.POSITIVE_INFINITY],
    value,
    gradient: (_at, _p, out) => {
      out[0] = 1;
    },
  });
  it("is not fitted", () => {
    for (const errors of ["normal", "lognormal"] as const) {
      const { parameters, quality, convergence } = fitLearningCurve(series, { law: law(() => Number.NaN), errors });
      expect(parameters.a).toEqual({ ok: false, why: "notIdentified", unit: "", n: 6, standardError: null });
      expect(quality).toBeNull();
      expect(convergence.reason).toBe("notIdentified");
    }
    expect(fitLearningCurve(series, { law: law((_at, p) => p[0]!) }).parameters.a).toMatchObject({
      ok: true,
      value: expect.closeTo(2.1, 9),
    });
  });
});

describe("an exact law", () => {
  const counted = (of: (n: number) => number) => {
    const practice = Array.from({ length: 9 }, (_, i) => i + 1);
    return { practice, value: practice.map(of) };
  };
  const likelihood = (...given: Parameters<typeof fitLearningCurve>) => fitLearningCurve(...given).quality!.logLikelihood;
  // Source: values of the law itself leave rounding alone, of the largest value or of a logarithm near 1, which says nothing of the scatter
  it("has no likelihood, however small some of its values are", () => {
    expect(
      likelihood(
        counted((n) => 0.7 * (n - 1)),
        { law: "linear" },
      ),
    ).toBeNull();
    expect(
      likelihood(
        counted((n) => -0.7 * (n - 1)),
        { law: "linear" },
      ),
    ).toBeNull();
    expect(
      likelihood(
        counted((n) => 1e-12 * Math.exp(-0.3 * (n - 1))),
        { law: "exponential2", errors: "lognormal" },
      ),
    ).toBeNull();
    expect(
      likelihood(
        counted((n) => 0.7 * n + 1e-6 * (n % 2)),
        { law: "linear" },
      ),
    ).not.toBeNull();
  });
});

describe("a law that least squares would take below 0", () => {
  // Source: SciPy 1.17.1 optimize.minimize (Nelder-Mead) of the squared differences of logarithms about a + b (N - 1) above 0
  it("is found for log-normal errors all the same", () => {
    const value = [100, 9, 1.1, 0.1, 0.011];
    const { quality, parameters } = fitLearningCurve({ practice: [1, 2, 3, 4, 5], value }, { law: "linear", errors: "lognormal" });
    expect(quality!.residualSum).toBeCloseTo(16.758531071347885, 5);
    expect(parameters.b!.ok ? parameters.b!.value : 0).toBeLessThan(0);
  });
});
