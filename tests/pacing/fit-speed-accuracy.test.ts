import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/math/random.js";
import { fitSpeedAccuracy } from "../../src/pacing/fit-speed-accuracy.js";
import type { PaceTrials } from "../../src/pacing/types.js";
import { NINETY } from "./ninety-presses.js";
import { LINEAR, pacedTrials } from "./paced-person.js";

const given = (estimate: { ok: boolean; value?: number } | undefined): number => (estimate?.ok ? estimate.value! : Number.NaN);

describe("fitSpeedAccuracy against outside values", () => {
  const fit = fitSpeedAccuracy(NINETY, { speed: "trial", lapse: 0 });
  const free = Math.sqrt(90 / 88);

  // Source: SciPy 1.10.1, optimize.minimize (Nelder-Mead, four restarts) of the sum of -stats.norm.logpdf of the same 90 presses; scatter times sqrt(90/88)
  it.each([
    ["along", 1.28739939, 0.0109909348, 0.00240277238, -12.0720993, -327.4228880042302],
    ["across", 0.96665489, 0.01151528, 0.39110095, 5.87794633, -327.8260114007184],
  ] as const)("has the linear law of most likelihood %s", (axis, floor, slope, level, biasSlope, likelihood) => {
    const { law, logLikelihood } = fit.laws.linear[axis]!;
    expect(law.scatter).toMatchObject({ form: "linear", floor: expect.closeTo(free * floor, 5), slope: expect.closeTo(free * slope, 8) });
    expect(law.bias).toMatchObject({ level: expect.closeTo(level, 5), slope: expect.closeTo(biasSlope, 4) });
    expect(logLikelihood).toBeCloseTo(likelihood, 9);
  });
  // Source: the same search for s = k A^alpha T^-beta
  it.each([
    ["along", -1.39931155, 0.494338979, 1.10365141, -326.4180459820835],
    ["across", -4.18710716, 0.99691068, 0.75529302, -327.6837632916468],
  ] as const)("has the power law of most likelihood %s", (axis, logFactor, alpha, beta, likelihood) => {
    const { law, logLikelihood } = fit.laws.power[axis]!;
    expect(law.scatter.form === "power" && Math.log(law.scatter.factor / free)).toBeCloseTo(logFactor, 5);
    expect(law.scatter).toMatchObject({ amplitudeExponent: expect.closeTo(alpha, 5), timeExponent: expect.closeTo(beta, 5) });
    expect(logLikelihood).toBeCloseTo(likelihood, 9);
  });
  // Source: AICc = 2 nll + 2 k + 2 k (k + 1)/(n - k - 1) of those likelihoods, k = 4 and 5, both axes
  it("chooses by AICc", () => {
    expect(fit.laws.linear.aicc).toBeCloseTo(1327.4389752804857, 7);
    expect(fit.laws.power.aicc).toBeCloseTo(1329.632189976032, 7);
    expect(fit.chosen).toBe("linear");
  });
  // Source: R 4.2.2 glm(hit ~ log(T) + log(A/W), binomial(probit)): coefficients, standard error 1.04582446756, logLik
  it("has the probit of hits", () => {
    const { slope, level, difficulty, lapse, logLikelihood } = fit.probit;
    expect(slope).toMatchObject({
      value: expect.closeTo(3.52018968908, 6),
      interval: [
        expect.closeTo(3.52018968908 - 1.959963984540054 * 1.04582446756, 5),
        expect.closeTo(3.52018968908 + 1.959963984540054 * 1.04582446756, 5),
      ],
    });
    expect(level).toBeCloseTo(8.14048910634, 5);
    expect(difficulty).toBeCloseTo(-2.0034979771, 6);
    expect(lapse).toBe(0);
    expect(logLikelihood).toBeCloseTo(-27.1604919331, 9);
  });

  /** Six paces of 50 presses with these hits; offsets on or off the target. */
  const counted = (hits: readonly number[]): PaceTrials => {
    const times = [0.25, 0.3, 0.36, 0.44, 0.55, 0.7];
    const cells = times.flatMap((t, k) => Array.from({ length: 50 }, (_, i) => ({ t, hit: i < hits[k]! ? 1 : 0 })));
    const column = (value: number): Float64Array => new Float64Array(300).fill(value);
    return {
      movementTime: Float64Array.from(cells, ({ t }) => t),
      amplitude: column(400),
      width: column(40),
      along: Float64Array.from(cells, (_, i) => Math.sin(i * i)),
      hit: Float64Array.from(cells, ({ hit }) => hit),
      pace: cells.map(({ t }) => String(t)),
    };
  };
  // Source: SciPy 1.10.1, optimize.minimize of the binomial likelihood of L (1 - exp(-r (t - d))), and the expected information inverted by NumPy
  it("has the rise of hits over time", () => {
    const { asymptote, rate, intercept, logLikelihood } = fitSpeedAccuracy(counted([6, 19, 30, 38, 42, 44])).overTime;
    expect(given(asymptote)).toBeCloseTo(0.89755457, 5);
    expect(given(rate)).toBeCloseTo(8.74134577, 3);
    expect(given(intercept)).toBeCloseTo(0.23397305, 6);
    expect(logLikelihood).toBeCloseTo(-153.12165131831793, 7);
    const half = (estimate: typeof rate): number =>
      estimate.ok ? (estimate.interval![1] - estimate.interval![0]) / 2 / 1.959963984540054 : Number.NaN;
    expect(half(asymptote)).toBeCloseTo(0.04961769, 5);
    expect(half(rate)).toBeCloseTo(2.04986752, 3);
    expect(half(intercept)).toBeCloseTo(0.0082033, 5);
  });
  // Source: SciPy 1.10.1, optimize.minimize of the binomial likelihood of (1 - l) Phi(a + b ln t), 0 <= l <= 0.05: the first at the bound, the second inside
  it.each([
    [[6, 19, 30, 38, 42, 44], 3.05718809, 2.82604328, 0.05, -155.4720538179201],
    [[6, 19, 30, 38, 45, 48], 3.65541914, 3.34753629, 0.04090018, -138.1066652434253],
  ])("has the probit with a lapse of %j", (hits, level, slope, lapse, likelihood) => {
    const { probit } = fitSpeedAccuracy(counted(hits));
    expect(probit.level).toBeCloseTo(level, 4);
    expect(given(probit.slope)).toBeCloseTo(slope, 4);
    expect(probit.lapse).toBeCloseTo(lapse, 4);
    expect(probit.logLikelihood).toBeCloseTo(likelihood, 8);
  });
  // Source: the law that made the presses; a standard error of 1.5 % at the outer paces with 6000 presses (sqrt((1 + z^2)/(2 n))), four of them allowed
  it("finds the law that was drawn from", () => {
    const { law } = fitSpeedAccuracy(pacedTrials(createRandom(3), LINEAR, [0.4, 0.55, 0.75], 2000), { law: "linear" });
    const at = (t: number): number =>
      law?.along.scatter.form === "linear" ? law.along.scatter.floor + (law.along.scatter.slope * 400) / t : Number.NaN;
    for (const t of [0.4, 0.55, 0.75]) expect(Math.abs(at(t) / LINEAR.scatter(t) - 1)).toBeLessThan(0.06);
  });
});

describe("fitSpeedAccuracy properties", () => {
  const seedArb = fc.integer({ min: 1, max: 100000 });

  test.prop([seedArb, fc.double({ min: 0.1, max: 10, noNaN: true })], { numRuns: 15 })("goes with the unit of length", (seed, factor) => {
    const trials = pacedTrials(createRandom(seed), LINEAR, [0.4, 0.55, 0.7], 20);
    const grown = { ...trials };
    for (const name of ["amplitude", "width", "along", "across"] as const) grown[name] = trials[name].map((value) => factor * value);
    const [one, other] = [fitSpeedAccuracy(trials, { law: "linear" }), fitSpeedAccuracy(grown, { law: "linear" })];
    const floor = (fit: typeof one): number => given(fit.laws.linear.along!.estimates.floor);
    expect(floor(other)).toBeCloseTo(factor * floor(one), 4);
    expect(given(other.laws.linear.along!.estimates.slope)).toBeCloseTo(given(one.laws.linear.along!.estimates.slope), 7);
    expect(other.curve.map((point) => point.scatter!)).toEqual(one.curve.map((point) => expect.closeTo(point.scatter!, 6)));
  });
  test.prop([seedArb], { numRuns: 15 })("does not mind the order, the side, or being asked again, and gives plain data", (seed) => {
    const trials = pacedTrials(createRandom(seed), LINEAR, [0.4, 0.55, 0.7], 20);
    const copy = structuredClone(trials);
    const fit = fitSpeedAccuracy(trials);
    expect(trials).toEqual(copy);
    expect(JSON.parse(JSON.stringify(fit))).toEqual(fit);
    const reversed: PaceTrials = {
      movementTime: trials.movementTime.slice().reverse(),
      amplitude: trials.amplitude,
      width: trials.width,
      along: trials.along.slice().reverse(),
      across: trials.across.map((value) => -value).reverse(),
      pace: [...trials.pace].reverse(),
    };
    expect(fitSpeedAccuracy(reversed).curve.map(({ scatter }) => scatter)).toEqual(
      fit.curve.map(({ scatter }) => expect.closeTo(scatter!, 6)),
    );
  });

  const labelled = pacedTrials(createRandom(8), LINEAR, [0.4, 0.55, 0.7], 20);
  // SPEC trap: missing deadline trials treated as fast
  it("keeps timeouts as misses that are slow, and out of the laws", () => {
    const n = labelled.along.length;
    // every second trial of the fastest pace ran out of time at .45 s
    const pressed = Float64Array.from({ length: n }, (_, i) => (i % 6 === 0 ? 0 : 1));
    const late = {
      ...labelled,
      pressed,
      movementTime: labelled.movementTime.map((t, i) => (pressed[i] === 0 ? 0.1 : t)),
      along: labelled.along.map((x, i) => (pressed[i] === 0 ? 0 : x)),
      across: labelled.across.map((x, i) => (pressed[i] === 0 ? 0 : x)),
    };
    const fit = fitSpeedAccuracy(late);
    expect(fit).toMatchObject({ n: 60, timeouts: 10, lacking: null });
    expect(fit.warnings).toContain("timeouts");
    const fastest = fit.paces[0]!;
    expect(fastest).toMatchObject({ n: 20, timeouts: 10 });
    expect(given(fastest.hitShare)).toBeCloseTo(given(fastest.hitSharePressed) / 2, 12);
    const presses = { ...labelled, pressed };
    expect(fit.laws.linear.along!.law).toEqual(fitSpeedAccuracy(presses).laws.linear.along!.law);
    // half of the fastest pace is as slow as its slowest press
    expect(fastest.movementTime).toBeGreaterThan(fitSpeedAccuracy(labelled).paces[0]!.movementTime);
  });
  it("says what is lacking", () => {
    const few = pacedTrials(createRandom(8), LINEAR, [0.4, 0.55, 0.7], 19);
    expect(fitSpeedAccuracy(few).lacking).toBe("tooFew");
    expect(fitSpeedAccuracy(pacedTrials(createRandom(8), LINEAR, [0.4, 0.7], 40)).lacking).toBe("notIdentified");
    expect(fitSpeedAccuracy(pacedTrials(createRandom(8), LINEAR, [0.5, 0.55, 0.6], 40)).lacking).toBe("notIdentified");
    expect(fitSpeedAccuracy(labelled).lacking).toBeNull();
    const { pace: _, ...unlabelled } = labelled;
    const fit = fitSpeedAccuracy(unlabelled);
    expect([fit.lacking, fit.speed]).toEqual([null, "trial"]);
    expect(fit.warnings).toContain("pacesUnlabelled");
    // one instruction, whose natural spread is not a change of pace
    const { pace: __, ...one } = pacedTrials(createRandom(8), LINEAR, [0.5], 200);
    expect(fitSpeedAccuracy(one).lacking).toBe("notIdentified");
  });
  it("goes by the paces, not by slow trials within one", () => {
    const [over, within] = (["pace", "trial"] as const).map((speed) => fitSpeedAccuracy(labelled, { speed }));
    expect(over!.law!.times![0]).toBeCloseTo(0.4, 1);
    expect(within!.law!.times![0]).toBeLessThan(over!.law!.times![0]);
  });
  it("takes the amplitude exponent as the time exponent where one distance was used", () => {
    const { along } = fitSpeedAccuracy(labelled).laws.power;
    expect(along!.estimates.amplitudeExponent).toMatchObject({ ok: false, why: "notIdentified" });
    expect(along!.law.scatter).toMatchObject({ amplitudeExponent: given(along!.estimates.timeExponent) });
  });
  it("prefers the count where endpoints are far from normal", () => {
    const n = 300;
    const random = createRandom(4);
    const pace = Array.from({ length: n }, (_, i) => ["a", "b", "c"][i % 3]!);
    // nearly all within 4 px, one in ten far out
    const off = (): Float64Array =>
      Float64Array.from({ length: n }, () => (random.uniform() < 0.1 ? random.normal(0, 90) : random.normal(0, 2)));
    const column = (value: number): Float64Array => new Float64Array(n).fill(value);
    const movementTime = Float64Array.from(pace, (label) => ({ a: 0.4, b: 0.55, c: 0.75 })[label]!);
    const fit = fitSpeedAccuracy({ movementTime, amplitude: column(400), width: column(40), along: off(), across: off(), pace });
    expect(fit.agrees).toBe(false);
    expect(fit.warnings).toContain("preferObserved");
  });
  it("has no law without scatter or without presses", () => {
    const column = new Float64Array(60).fill(0.5);
    const flat = fitSpeedAccuracy({ movementTime: column, amplitude: column, width: column, along: new Float64Array(60) });
    expect(flat).toMatchObject({ law: null, chosen: null, agrees: null });
    const none = fitSpeedAccuracy({
      movementTime: new Float64Array(0),
      amplitude: new Float64Array(0),
      width: new Float64Array(0),
      along: new Float64Array(0),
    });
    expect(none).toMatchObject({ n: 0, law: null, lacking: "tooFew", curve: [], paces: [] });
    expect(JSON.parse(JSON.stringify(none))).toEqual(none);
  });
});

describe("fitSpeedAccuracy bad input", () => {
  it.each([
    [{ ...NINETY, along: new Float64Array(3) }, {}, "fitSpeedAccuracy: trials.along must have 90 entries like the other columns, got 3"],
    [{ ...NINETY, movementTime: new Float64Array(90) }, {}, "fitSpeedAccuracy: trials.movementTime[0] must be above 0, got 0"],
    [{ ...NINETY, hit: new Float64Array(90).fill(2) }, {}, "fitSpeedAccuracy: trials.hit[0] must be 0 or 1, got 2"],
    [{ ...NINETY, pace: ["a"] }, {}, "fitSpeedAccuracy: trials.pace must have 90 entries like the other columns, got 1"],
    [NINETY, { lapse: 0.1 }, "fitSpeedAccuracy: options.lapse must be at least 0 and at most 0.05, got 0.1"],
    [NINETY, { speed: "both" as never }, 'fitSpeedAccuracy: options.speed must be one of "pace", "trial", got "both"'],
    [NINETY, { level: 1 }, "fitSpeedAccuracy: options.level must be above 0 and below 1, got 1"],
    [
      { ...NINETY, across: undefined as never },
      { shape: "circle" as const },
      'fitSpeedAccuracy: options.shape must be "strip" where trials.across is absent, got "circle"',
    ],
  ])("refuses %#", (trials, options, message) => expect(() => fitSpeedAccuracy(trials, options)).toThrow(message));
  it("refuses what is no object", () => expect(() => fitSpeedAccuracy(null as never)).toThrow(TypeError));
});
