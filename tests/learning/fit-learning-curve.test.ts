import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { type FitLearningCurveOptions, fitLearningCurve, type LearningCurveFit } from "../../src/learning/fit-learning-curve.js";
import type { LearningLaw, LearningLawName, PracticeSeries } from "../../src/learning/types.js";
import { createRandom } from "../../src/math/random.js";

const LAWS: readonly LearningLawName[] = [
  "constant",
  "linear",
  "power2",
  "power3",
  "power4",
  "exponential2",
  "exponential3",
  "combined",
  "delayedExponential",
];

const counted = (value: readonly number[]): PracticeSeries => ({ practice: value.map((_, i) => i + 1), value });

// 30 blocks about 0.6 + 0.9 exp(-0.12 (N - 1)) with an SD of 0.04, and 8 blocks of a faster learner: reference/learning/learning-curves.json
const BLOCKS = counted([
  1.5024, 1.3274, 1.2818, 1.2805, 1.113, 1.096, 1.0345, 0.9572, 0.8895, 0.9411, 0.9349, 0.8045, 0.8393, 0.7728, 0.8003, 0.8087, 0.7153,
  0.7972, 0.7268, 0.6921, 0.6358, 0.7102, 0.6228, 0.6869, 0.6002, 0.6685, 0.6279, 0.6032, 0.6252, 0.6142,
]);
const SHORT = counted([1.3742, 1.0731, 0.8509, 0.7528, 0.6684, 0.5983, 0.6195, 0.6321]);
// 0.6 + 0.7 exp(-0.2 (N - 1)) with an SD of 0.02; the seventh is 0.5 and the fourteenth 0.3 too high
const OUTLIERS = counted([
  1.284, 1.147, 1.064, 0.993, 0.937, 0.86, 1.3, 0.757, 0.756, 0.748, 0.7, 0.653, 0.644, 0.984, 0.647, 0.6, 0.627, 0.6, 0.607, 0.606,
]);
const TRIALS = [40, 40, 40, 36, 40, 40, 36, 40, 38, 40, 38, 40, 38, 40];
const SHARES: PracticeSeries = {
  ...counted([11, 14, 19, 20, 24, 26, 25, 29, 28, 31, 30, 32, 31, 33].map((hits, i) => hits / TRIALS[i]!)),
  trials: TRIALS,
};

function figures({ parameters }: LearningCurveFit): { value: number[]; error: number[]; ends: (readonly (number | null)[])[] } {
  const all = Object.values(parameters);
  return {
    value: all.map((one) => (one.ok ? one.value : Number.NaN)),
    error: all.map((one) => one.standardError ?? Number.NaN),
    ends: all.map((one) => (one.ok ? one.interval! : one.ends!)),
  };
}

const close = (got: readonly number[], wanted: readonly number[], share: number): void => {
  expect(got.length).toBe(wanted.length);
  for (const [i, value] of got.entries()) expect(Math.abs(value - wanted[i]!)).toBeLessThanOrEqual(share * Math.abs(wanted[i]!));
};

describe("fitLearningCurve against outside values", () => {
  // Source: SciPy 1.10.1 least_squares and R 4.2.2 nls, computed; profile ends by R's confint.nls, which interpolates (1e-4)
  it.each([
    [
      "30 blocks",
      BLOCKS,
      [0.5832568062515648, 0.8790472989707764, 0.10861256971805108],
      [0.02369416537001387, 0.026625857524217852, 0.00963915234099296],
      [0.525938811556625, 0.627866961080674, 0.824543636237083, 0.934017875548303, 0.088879928390037, 0.129811054439614],
      [0.04128904192481228, -104.51435374512656, -102.91435374512656, -98.90956421847794],
    ],
    [
      "8 blocks",
      SHORT,
      [0.581619406395982, 0.8007631548099889, 0.5308221820756915],
      [0.021933649738523443, 0.029089832143282403, 0.05123480529123655],
      [0.518912938931311, 0.631467742512741, 0.726571069132211, 0.876049024995395, 0.412284160611011, 0.667923903075431],
      [0.0032539770769469314, -31.755534320459553, -18.422200987126217, -31.43776815374021],
    ],
  ])("is the exponential of SciPy and R for %s", (_, series, value, error, ends, criteria) => {
    const fit = fitLearningCurve(series);
    const got = figures(fit);
    close(got.value, value, 1e-7);
    close(got.error, error, 1e-7);
    close(got.ends.flat() as number[], ends, 1e-4);
    const { residualSum, aic, aicc, bic } = fit.quality!;
    close([residualSum, aic!, aicc!, bic!], criteria, 1e-12);
  });

  // Source: SciPy 1.17.1, root of the score and the information matrix; profiles by brentq on the log likelihood; log likelihood with its binomial
  // coefficients by gammaln
  it("is the greatest binomial likelihood of hit shares, with errors from the information and profiles from the likelihood", () => {
    const fit = fitLearningCurve(SHARES, { errors: "binomial", bounds: { a: [0, 2] } });
    const got = figures(fit);
    close(got.value, [0.865525940761562, -0.6001665503916472, 0.20529239282185124], 1e-8);
    close(got.error, [0.07249305155983186, 0.07370994890235737, 0.07436026729096315], 1e-8);
    close(
      got.ends.flat() as number[],
      [0.7628984874432453, 1.222021648538805, -0.8873252625197389, -0.46005481392720676, 0.07010014884854732, 0.37721402043133995],
      1e-6,
    );
    const { logLikelihood, residualSum, aic } = fit.quality!;
    close([logLikelihood!, residualSum, aic!], [-27.343428556468552, 0.22272251945821608, 2 * 3 + 2 * 27.343428556468552], 1e-10);
    expect(fit.parameters.a!.unit).toBe("1");
  });

  // Source: as above; a share cannot end above 1, so that the asymptote's interval stays open there
  it("says that a hit share may be heading for 1", () => {
    const { a } = fitLearningCurve(SHARES, { errors: "binomial" }).parameters;
    expect(a).toMatchObject({ ok: false, why: "notIdentified", ends: [expect.closeTo(0.7628984874, 6), null] });
  });

  // Source: SciPy 1.17.1 least_squares on the logarithms about the logarithm of the law; log likelihood carried to the values by their Jacobian
  it("is the least squares of logarithms for log-normal errors", () => {
    const fit = fitLearningCurve(SHORT, { errors: "lognormal" });
    const got = figures(fit);
    close(got.value, [0.5885755579985052, 0.8056148296159139, 0.5587889824930571], 1e-7);
    close(got.error, [0.021207200674428578, 0.04737947961604702, 0.06821299248791726], 1e-7);
    close([fit.quality!.residualSum, fit.quality!.logLikelihood!], [0.007215748491419541, 18.603289971107806], 1e-11);
  });

  // Source: SciPy 1.17.1 minimize (Nelder-Mead) of Huber's loss (1.345) with the scale 1.4826 median |residual| iterated to rest, then of the
  // bisquare's (4.685) with that scale
  it("is the bisquare fit beside outliers", () => {
    const fit = fitLearningCurve(OUTLIERS, { robust: true });
    close(figures(fit).value, [0.5730763827868226, 0.702840759498309, 0.17569402504031828], 1e-7);
    close([fit.robust!.scale], [0.016419074084769048], 1e-6);
    expect(fit.robust!.weights[6]).toBe(0);
    expect(fit.robust!.weights[13]).toBe(0);
    expect(fit.quality).toMatchObject({ aic: null, logLikelihood: null, r2: null });
  });

  // Source: R 4.2.2 MASS 7.3-58.2 rlm(psi.huber, k = 1.345), whose scale is the median absolute residual over 0.6745: that rounding
  // (1.5e-5) also enters the weights
  it("has the scale of R's robust line", () => {
    const series = counted([
      1.32, 1.17, 1.06, 0.98, 0.94, 0.9, 0.88, 0.8, 0.79, 0.77, 0.7, 0.69, 0.62, 0.65, 0.55, 0.52, 0.45, 1.1, 0.4, 0.33,
    ]);
    const { robust } = fitLearningCurve(series, { law: "linear", robust: true });
    close([robust!.scale], [0.0255751247116915], 3e-5);
  });

  // Source: closed forms; half-life ln 2/c, half of a power law's gain at 2^(1/c), remaining gain exp(-c (N2 - N1)) and (N2/N1)^-c
  it("has the closed forms of half-life and of the gain to come", () => {
    const practice = Array.from({ length: 20 }, (_, i) => i + 1);
    const exponential = fitLearningCurve({ practice, value: practice.map((n) => 0.6 + 0.9 * Math.exp(-0.12 * (n - 1))) });
    expect(exponential.halfLife).toMatchObject({ ok: true, value: expect.closeTo(Math.LN2 / 0.12, 9), unit: "session" });
    expect(exponential.remaining).toMatchObject({ ok: true, value: expect.closeTo(Math.exp(-0.12 * 19), 9) });
    const power = fitLearningCurve(
      { practice, value: practice.map((n) => 0.45 + 1.2 * n ** -0.6) },
      { law: "power3", practiceUnit: "day" },
    );
    expect(power.halfLife).toMatchObject({ ok: true, value: expect.closeTo(2 ** (1 / 0.6), 8), unit: "day" });
    expect(power.remaining).toMatchObject({ ok: true, value: expect.closeTo(20 ** -0.6, 8) });
    const power4 = fitLearningCurve({ practice, value: practice.map((n) => 0.5 + 6 * (n + 4) ** -0.9) }, { law: "power4" });
    expect(power4.halfLife).toMatchObject({ ok: true, value: expect.closeTo(5 * 2 ** (1 / 0.9) - 4, 6) });
    const combined = fitLearningCurve(
      { practice, value: practice.map((n) => 0.5 + 1.4 * n ** -0.3 * Math.exp(-0.04 * n)) },
      { law: "combined" },
    );
    // the root of 0.3 ln N + 0.04 (N - 1) = ln 2 by SciPy 1.17.1 brentq
    expect(combined.halfLife).toMatchObject({ ok: true, value: expect.closeTo(5.518238833248449, 6) });
    const delayed = fitLearningCurve(
      { practice, value: practice.map((n) => 0.5 + (1.4 * 6) / (5 + Math.exp(0.3 * (n - 1)))) },
      { law: "delayedExponential" },
    );
    expect(delayed.halfLife).toMatchObject({ ok: true, value: expect.closeTo(1 + Math.log(7) / 0.3, 6) });
  });

  // Source: textbook t intervals of a mean and of a regression line, by R 4.2.2 lm on the same eight values
  it("is the mean, and the regression line, for the laws that do not bend", () => {
    const mean = fitLearningCurve(SHORT, { law: "constant" });
    close(figures(mean).value, [0.8211625], 1e-12);
    close(figures(mean).ends[0] as number[], [0.592362039314597, 1.049962960685402], 1e-7);
    const line = fitLearningCurve(SHORT, { law: "linear", predict: [9] });
    close(figures(line).value, [1.1671999999999996, -0.0988678571428571], 1e-10);
    close(figures(line).error, [0.0888793522755014, 0.0212462289237579], 1e-10);
    close(figures(line).ends.flat() as number[], [0.949720059594987, 1.384679940405013, -0.150855506488539, -0.046880207797175], 1e-6);
    expect(line.predictions[0]).toMatchObject({
      ok: true,
      interval: [-0.0508649810173391, 0.803379266731624].map((end) => expect.closeTo(end, 8)),
    });
    expect(line.halfLife).toMatchObject({ ok: false, why: "notIdentified" });
  });
});

/** Series of a person: a law of gains and losses, noise in proportion or not, repeats and gaps of practice. */
const seriesArb = fc
  .record({
    n: fc.integer({ min: 1, max: 40 }),
    seed: fc.integer(),
    a: fc.double({ min: -2, max: 5, noNaN: true }),
    b: fc.double({ min: -3, max: 3, noNaN: true }),
    c: fc.double({ min: 0.001, max: 3, noNaN: true }),
    noise: fc.constantFrom(0, 0.01, 0.3, 3),
    gap: fc.constantFrom(0.5, 1, 7),
    repeats: fc.boolean(),
    scale: fc.constantFrom(1e-6, 1, 1e6),
  })
  .map(({ n, seed, a, b, c, noise, gap, repeats, scale }): PracticeSeries => {
    const random = createRandom(seed);
    const practice: number[] = [];
    for (let i = 0, at = gap; i < n; i++) {
      practice.push(at);
      if (!repeats || random.uniform() < 0.6) at += gap * Math.ceil(random.uniform(0, 3));
    }
    return { practice, value: practice.map((at) => scale * (a + b * Math.exp((-c * (at - 1)) / gap) + noise * random.normal())) };
  });
const lawArb = fc.constantFrom(...LAWS);

const freeze = ({ practice, value }: PracticeSeries): PracticeSeries => ({
  practice: Object.freeze(Array.from(practice)),
  value: Object.freeze(Array.from(value)),
});
const OPEN = { a: [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] } as const;
const hasEnd = (law: LearningLawName): boolean => !law.endsWith("2");

describe("fitLearningCurve properties", () => {
  test.prop([seriesArb, lawArb, fc.constantFrom("profile" as const, "wald" as const), fc.boolean()], { numRuns: 60 })(
    "leaves its input alone and returns plain data without a number that is not finite",
    (series, law, intervals, robust) => {
      const fit = fitLearningCurve(freeze(series), { law, intervals, robust, predict: [3, 1e4], reach: [0.4, -7] });
      expect(JSON.parse(JSON.stringify(fit))).toEqual(fit);
      expect(structuredClone(fit)).toEqual(fit);
      expect(fit).toMatchObject({ n: series.value.length, law, level: 0.95 });
      for (const one of Object.values(fit.parameters)) {
        if (one.ok && one.interval) expect(one.interval[0] <= one.value && one.value <= one.interval[1]).toBe(true);
      }
      for (const { value, confidence, prediction } of fit.band) {
        expect(prediction[0] <= confidence[0] && confidence[0] <= value && value <= confidence[1] && confidence[1] <= prediction[1]).toBe(
          true,
        );
      }
    },
  );

  test.prop([seriesArb, lawArb, fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 })], { numRuns: 100 })(
    "is never worse than the law at any parameters within its bounds",
    (series, law, shares) => {
      const { quality, fitted } = fitLearningCurve(series, { law, bounds: hasEnd(law) ? OPEN : {}, intervals: "wald", band: 0 });
      if (quality === null) return;
      const [p, q, r, s] = shares as [number, number, number, number];
      const values = Array.from(series.value);
      const size = Math.max(...values.map(Math.abs));
      const [a, b, c, d] = [size * (2 * p - 1), 2 * size * (2 * q - 1), 10 ** (4 * r - 3), 10 ** (4 * s - 3)];
      const at = lawAt(law, a, b, c, d);
      const sum = values.reduce((total, value, i) => total + (value - at(series.practice[i]!)) ** 2, 0);
      expect(quality.residualSum).toBeLessThanOrEqual(sum * (1 + 1e-9) + 1e-20 * size * size);
      expect(fitted.length).toBe(values.length);
    },
  );

  test.prop([seriesArb, lawArb, fc.constantFrom(1e-3, 60, 1e5)], { numRuns: 60 })(
    "scales with the unit of the measure",
    (series, law, factor) => {
      const one = fitLearningCurve(series, { law, intervals: "wald", band: 0 });
      const other = fitLearningCurve(
        { ...series, value: Array.from(series.value, (value) => factor * value) },
        { law, intervals: "wald", band: 0 },
      );
      if (one.quality === null || other.quality === null) return;
      sameSum(other.quality.residualSum, one.quality.residualSum * factor * factor, factor * factor * squares(series));
    },
  );

  test.prop([seriesArb, fc.constantFrom(0.1, 60)], { numRuns: 40 })(
    "scales with the unit of practice, the rate of an exponential with it",
    (series, factor) => {
      const { practice, value } = series;
      const one = fitLearningCurve(series, { intervals: "wald", band: 0, practiceUnit: "session" });
      const other = fitLearningCurve({ practice: Array.from(practice, (n) => factor * n), value }, { intervals: "wald", band: 0 });
      if (one.quality === null) return;
      sameSum(other.quality!.residualSum, one.quality.residualSum, squares(series));
      const [c, k] = [one.parameters.c!, other.parameters.c!];
      if (c.ok && k.ok) expect(Math.abs(k.value * factor - c.value)).toBeLessThan(1e-4 * c.value + 1e-3 * c.standardError!);
    },
  );

  test.prop([seriesArb, lawArb], { numRuns: 40 })("turns over with the sign of the measure", (series, law) => {
    const bounds = hasEnd(law) ? OPEN : {};
    const one = fitLearningCurve(series, { law, bounds, intervals: "wald", band: 0 });
    const other = fitLearningCurve(
      { ...series, value: Array.from(series.value, (value) => -value) },
      { law, bounds, intervals: "wald", band: 0 },
    );
    if (one.quality === null) return;
    sameSum(other.quality!.residualSum, one.quality.residualSum, squares(series));
  });

  test.prop([seriesArb, lawArb, fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 40, maxLength: 40 })], { numRuns: 40 })(
    "has in weights what it has in repeated values",
    (series, law, counts) => {
      const { practice, value } = series;
      const trials = counts.slice(0, value.length);
      const each = trials.flatMap((count, i) => new Array<number>(count).fill(i));
      const weighted = fitLearningCurve({ practice, value, trials }, { law, intervals: "wald", band: 0 });
      const repeated = fitLearningCurve(
        { practice: each.map((i) => practice[i]!), value: each.map((i) => value[i]!) },
        { law, intervals: "wald", band: 0 },
      );
      if (weighted.quality === null) return;
      sameSum(repeated.quality!.residualSum, weighted.quality.residualSum, squares(series));
    },
  );

  test.prop([fc.shuffledSubarray([1.31, 1.12, 0.98, 1.05], { minLength: 4 })])(
    "does not see the order of values at equal practice",
    (first) => {
      const practice = [1, 1, 1, 1, 2, 3, 4, 5, 6, 7];
      const rest = [0.95, 0.82, 0.77, 0.71, 0.7, 0.66];
      const { parameters } = fitLearningCurve({ practice, value: [...first, ...rest] }, { intervals: "wald", band: 0 });
      const sorted = fitLearningCurve(
        { practice, value: [...[...first].sort((a, b) => a - b), ...rest] },
        { intervals: "wald", band: 0 },
      ).parameters;
      for (const letter of ["a", "b", "c"]) {
        const [one, other] = [parameters[letter]!, sorted[letter]!];
        if (one.ok && other.ok) expect(Math.abs(one.value - other.value)).toBeLessThan(1e-9);
        expect(one.ok).toBe(other.ok);
      }
    },
  );

  it("widens its intervals with the level", () => {
    const width = (level: number): number[] => figures(fitLearningCurve(BLOCKS, { level })).ends.map(([low, high]) => high! - low!);
    const [narrow, wide] = [width(0.8), width(0.99)];
    expect(narrow.every((size, j) => size < wide[j]!)).toBe(true);
  });

  it("has a profile's interval about the symmetric one when the data are many", () => {
    const random = createRandom(8);
    const practice = Array.from({ length: 3000 }, (_, i) => 1 + i / 50);
    const series = { practice, value: practice.map((n) => 0.6 + 0.6 * Math.exp(-0.12 * (n - 1)) + random.normal(0, 0.02)) };
    const profile = figures(fitLearningCurve(series, { band: 0 })).ends.flat() as number[];
    close(profile, figures(fitLearningCurve(series, { band: 0, intervals: "wald" })).ends.flat() as number[], 3e-3);
  });

  it("takes a law of one's own like the built-in one", () => {
    const law: LearningLaw = {
      formula: "end + gain exp(-rate (N - 1))",
      parameters: ["end", "gain", "rate"],
      starts: [
        [0.1, 2, 2],
        [0.5, 1, 0.01],
      ],
      lower: [0, Number.NEGATIVE_INFINITY, 0],
      upper: [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 20],
      value: (n, p) => p[0]! + p[1]! * Math.exp(-p[2]! * (n - 1)),
      gradient: (n, p, out) => {
        const g = Math.exp(-p[2]! * (n - 1));
        out[0] = 1;
        out[1] = g;
        out[2] = -p[1]! * (n - 1) * g;
      },
    };
    for (const options of [{}, { errors: "lognormal" }, { robust: true }] as const) {
      const own = fitLearningCurve(BLOCKS, { law, ...options });
      const built = fitLearningCurve(BLOCKS, options);
      expect(own).toMatchObject({ law: "own", formula: law.formula });
      close(figures(own).value, figures(built).value, 1e-6);
      close(figures(own).ends.flat() as number[], figures(built).ends.flat() as number[], 1e-5);
      expect(own.quality!.residualSum).toBeCloseTo(built.quality!.residualSum, 10);
      if (!("robust" in options)) expect(own.convergence).toMatchObject({ converged: true });
    }
  });

  it("holds a parameter whose bounds are equal, and counts it as known", () => {
    const { parameters, quality } = fitLearningCurve(BLOCKS, { bounds: { c: [0.12, 0.12] } });
    expect(parameters.c).toEqual({ ok: true, value: 0.12, unit: "1/session", n: 30, standardError: null });
    expect(quality!.df).toBe(28);
  });

  it("keeps to the direction it is told", () => {
    const rising = fitLearningCurve(BLOCKS, { direction: "rising" });
    expect(rising.atBound).toContain("b");
    expect(rising.warnings).toContain("atBound");
    expect(fitLearningCurve(BLOCKS, { law: "linear", direction: "rising" }).atBound).toEqual(["b"]);
    expect(fitLearningCurve(BLOCKS, { law: "linear", direction: "falling" }).atBound).toEqual([]);
  });
});

/** What the law is at amounts of practice, by its formula. */
function lawAt(law: LearningLawName, a: number, b: number, c: number, d: number): (practice: number) => number {
  const laws: Record<LearningLawName, (n: number) => number> = {
    constant: () => a,
    linear: (n) => a + b * (n - 1),
    power2: (n) => b * n ** -c,
    power3: (n) => a + b * n ** -c,
    power4: (n) => a + b * (n + d) ** -c,
    exponential2: (n) => b * Math.exp(-c * (n - 1)),
    exponential3: (n) => a + b * Math.exp(-c * (n - 1)),
    combined: (n) => a + b * n ** -c * Math.exp(-d * n),
    delayedExponential: (n) => a + (b * (d + 1)) / (d + Math.exp(c * (n - 1))),
  };
  return laws[law];
}

const squares = ({ value }: PracticeSeries): number => Array.from(value).reduce((sum, v) => sum + v * v, 0);

// the least sums of two searches, to the rounding of the values
function sameSum(got: number, wanted: number, total: number): void {
  expect(Math.abs(got - wanted)).toBeLessThanOrEqual(1e-6 * wanted + 1e-20 * total);
}

describe("fitLearningCurve with little to go by", () => {
  const SHORTEST = [1.3, 1.1, 0.95, 0.9, 0.87];

  it("fits nothing with fewer values than parameters and one", () => {
    for (const [law, least] of [
      ["constant", 2],
      ["power2", 3],
      ["exponential3", 4],
      ["power4", 5],
    ] as const) {
      const few = fitLearningCurve(counted(SHORTEST.slice(0, least - 1)), { law, predict: [9], reach: [0.7] });
      expect(Object.values(few.parameters).every((one) => !one.ok && one.why === "tooFew")).toBe(true);
      expect(few).toMatchObject({ quality: null, covariance: null, fitted: [], band: [], effectiveN: null });
      expect([few.predictions[0], few.reach[0], few.halfLife, few.remaining]).toEqual(
        ["s", "session", "session", "1"].map((unit) => ({ ok: false, why: "tooFew", unit, n: least - 1 })),
      );
      expect(fitLearningCurve(counted(SHORTEST.slice(0, least)), { law }).quality).not.toBeNull();
    }
  });

  it("fits a constant to equal values, and nothing that bends", () => {
    const flat = counted([0.7, 0.7, 0.7, 0.7, 0.7]);
    expect(fitLearningCurve(flat, { law: "constant" }).parameters.a).toMatchObject({ ok: true, value: 0.7 });
    const bent = fitLearningCurve(flat);
    expect(bent.parameters.a).toMatchObject({ ok: false, why: "noSpread" });
    expect(bent.fitted).toEqual(flat.value);
  });

  it("needs as many amounts of practice as parameters", () => {
    const { parameters } = fitLearningCurve({ practice: [1, 1, 1, 2, 2, 2], value: [1.3, 1.2, 1.25, 1, 1.02, 0.97] });
    expect(parameters.c).toMatchObject({ ok: false, why: "notIdentified" });
  });

  it("does not tell an asymptote whose interval reaches the floor", () => {
    const { parameters, warnings } = fitLearningCurve(counted([1.21, 1.07, 0.93, 0.88, 0.82, 0.77, 0.77, 0.74]), { law: "power3" });
    expect(parameters.a).toMatchObject({ ok: false, why: "notIdentified", standardError: null, ends: [null, expect.any(Number)] });
    expect(warnings).toContain("asymptoteNotIdentified");
  });

  it("says which values the law reaches when", () => {
    const { reach, warnings } = fitLearningCurve(BLOCKS, { reach: [1.2, 0.7, 0.55, 0.6, 2] });
    expect(reach[0]).toMatchObject({ ok: true, unit: "session" });
    const [low, high] = reach[1]!.ok ? reach[1]!.interval! : [0, 0];
    expect(low < 19.6 && high > 19.6 && high - low < 10).toBe(true);
    // below the asymptote; then between it and the end of its interval; then above the first value
    expect(reach[2]).toMatchObject({ ok: false, why: "outOfReach" });
    expect(reach[3]).toMatchObject({ ok: false, why: "notIdentified" });
    expect(reach[4]).toMatchObject({ ok: true, value: 1 });
    expect(warnings).toEqual([]);
  });

  it("warns of what its results rest on", () => {
    const random = createRandom(4);
    let error = 0;
    const wander = counted(
      Array.from({ length: 40 }, (_, i) => {
        error = 0.8 * error + random.normal(0, 0.03);
        return 0.6 + 0.6 * Math.exp(-0.12 * i) + error;
      }),
    );
    const drifting = fitLearningCurve(wander);
    expect(drifting.warnings).toContain("autocorrelated");
    expect(drifting.effectiveN!).toBeLessThan(25);
    expect(fitLearningCurve(SHORT, { predict: [9] }).warnings).toEqual([]);
    expect(fitLearningCurve(SHORT, { predict: [30] }).warnings).toEqual(["extrapolated"]);
    expect(fitLearningCurve(counted([1.3, 1.1, 0.95, 0.9, 0.87])).warnings).toContain("fewSessions");
    const noise = fitLearningCurve(counted([0.7, 0.72, 0.69, 0.71, 0.7, 0.73, 0.69, 0.7, 0.72, 0.71]));
    expect(noise.warnings).toContain("noGain");
    const proportional = counted(Array.from({ length: 60 }, (_, i) => (0.3 + 1.2 * Math.exp(-0.1 * i)) * Math.exp(random.normal(0, 0.05))));
    expect(fitLearningCurve(proportional).warnings).toContain("unequalSpread");
    expect(fitLearningCurve(proportional, { errors: "lognormal" }).warnings).toEqual([]);
    const uneven: PracticeSeries = { ...SHARES, value: Array.from(SHARES.value, (share, i) => share + (i % 2 === 0 ? 0.12 : -0.12)) };
    expect(fitLearningCurve(uneven, { errors: "binomial" }).warnings).toContain("overdispersed");
    expect(fitLearningCurve(SHARES, { errors: "binomial" }).warnings).not.toContain("overdispersed");
  });

  it("gives no far prediction where the end is not known", () => {
    const series = counted([1.21, 1.07, 0.93, 0.88, 0.82, 0.77, 0.77, 0.74]);
    const { predictions } = fitLearningCurve(series, { law: "power3", predict: [9, 100] });
    expect(predictions.map(({ ok }) => ok)).toEqual([true, false]);
  });

  it("has no parameters when practice is counted from so far off that the gain at 1 is beyond all numbers", () => {
    const value = Array.from(BLOCKS.value);
    const dated = fitLearningCurve({ practice: value.map((_, i) => 45_000 + i), value });
    expect(dated.parameters.b).toMatchObject({ ok: false, why: "notIdentified" });
  });
});

describe("fitLearningCurve bad input", () => {
  const bad =
    (series: unknown, options: unknown = {}): (() => LearningCurveFit) =>
    () =>
      fitLearningCurve(series as PracticeSeries, options as FitLearningCurveOptions);

  it.each([
    [null, /^fitLearningCurve: series must be an object of columns, got null/],
    [{ practice: [1, 2], value: [1] }, /series\.value must have 2 entries like practice, got 1/],
    [{ practice: [1, 2, Number.NaN], value: [1, 2, 3] }, /series\.practice\[2\] must be finite, got NaN/],
    [{ practice: [1, 3, 2], value: [1, 2, 3] }, /series\.practice\[2\] must be at least the entry before, 3, got 2/],
    [{ practice: [1, 2], value: [1, "2"] }, /series\.value\[1\] must be a number, got "2"/],
    [{ practice: [1, 2], value: [1, 2], trials: [1] }, /series\.trials must have 2 entries like practice, got 1/],
    [{ practice: [1, 2], value: [1, 2], trials: [1, 0] }, /series\.trials\[1\] must be above 0, got 0/],
  ])("names what is wrong in the series %j", (series, message) => expect(bad(series)).toThrow(message));

  it.each([
    [{ law: "cubic" }, /options\.law must be one of "constant", .*, got "cubic"/],
    [{ law: 3 }, /options\.law must be a name or a law, got 3/],
    [{ errors: "gamma" }, /options\.errors must be one of/],
    [{ direction: "up" }, /options\.direction must be one of/],
    [{ intervals: "bootstrap" }, /options\.intervals must be one of/],
    [{ level: 1 }, /options\.level must be above 0 and below 1, got 1/],
    [{ robust: 1 }, /options\.robust must be true or false, got 1/],
    [{ bounds: { d: [0, 1] } }, /options\.bounds must name parameters of the law \(a, b, c\), got "d"/],
    [{ bounds: { c: [-1, 1] } }, /options\.bounds\.c\[0\] must be finite and at least 0, got -1/],
    [{ bounds: { a: [1, 0] } }, /options\.bounds\.a\[1\] must be finite and at least 1, got 0/],
    [{ bounds: { a: 1 } }, /options\.bounds\.a must be a pair of numbers, got 1/],
    [{ band: 1 }, /options\.band must be 0 or a whole number from 2 to 10000, got 1/],
    [{ predict: [1, Number.NaN] }, /options\.predict\[1\] must be finite, got NaN/],
    [{ law: "power3", predict: [0] }, /options\.predict\[0\] must be above 0 for this law, got 0/],
    [{ reach: "soon" }, /options\.reach must be a list of numbers, got "soon"/],
    [{ law: { formula: "", parameters: [], starts: [], lower: [], upper: [] } }, /options\.law\.parameters must be a list of names/],
  ])("names what is wrong in the options %j", (options, message) => expect(bad(SHORT, options)).toThrow(message));

  it("names practice that a power law does not take", () => {
    expect(bad({ practice: [0, 1], value: [1, 2] }, { law: "power2" })).toThrow(
      /series\.practice\[0\] must be above 0 for this law, got 0/,
    );
    expect(bad({ practice: [0, 1, 2, 3, 4], value: [2, 1.5, 1.2, 1.1, 1] })).not.toThrow();
  });

  it("names values that the errors do not take", () => {
    expect(bad(counted([1, 0, 2]), { errors: "lognormal" })).toThrow(/series\.value\[1\] must be above 0 with lognormal errors, got 0/);
    expect(bad(counted([0.5, 1.2]), { errors: "binomial" })).toThrow(/series\.trials must be given with binomial errors, got undefined/);
    expect(bad({ ...counted([0.5, 1.2]), trials: [9, 9] }, { errors: "binomial" })).toThrow(/series\.value\[1\] must be within 0 and 1/);
    expect(bad(SHARES, { errors: "binomial", robust: true })).toThrow(/options\.robust must be false with binomial errors, got true/);
  });

  it("names what a law of one's own lacks", () => {
    const law = { formula: "k", parameters: ["k"], starts: [[1]], lower: [0], upper: [9], value: () => 1, gradient: () => {} };
    expect(bad(SHORT, { law: { ...law, value: 1 } })).toThrow(/options\.law\.value must be a function, got 1/);
    expect(bad(SHORT, { law: { ...law, gradient: undefined } })).toThrow(/options\.law\.gradient must be a function/);
    expect(bad(SHORT, { law: { ...law, starts: [] } })).toThrow(/options\.law\.starts must be one or more lists/);
    expect(bad(SHORT, { law: { ...law, starts: [[1, 2]] } })).toThrow(/options\.law\.starts\[0\] must have 1 entries, got 2/);
    expect(bad(SHORT, { law: { ...law, lower: [] } })).toThrow(/options\.law\.lower must have 1 entries, got 0/);
    expect(bad(SHORT, { law: { ...law, lower: [10] } })).toThrow(/options\.law\.lower\[0\] must be at most its upper bound, got 10/);
  });
});
