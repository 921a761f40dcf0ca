import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import type { Estimate } from "../../src/math/estimate.js";
import { type FitPsychometricOptions, fitPsychometric } from "../../src/pacing/fit-psychometric.js";

const WIDTHS = { levels: [12, 18, 27, 40, 60], trials: [30, 30, 30, 30, 30], hits: [3, 8, 15, 26, 30] };
const quick = { resamples: 0 } as const;
const given = (estimate: Estimate): number => (estimate.ok ? estimate.value : Number.NaN);

describe("fitPsychometric against outside values", () => {
  // Source: R 4.2.2 glm(cbind(k, n - k) ~ log(x), binomial(link)), errors by the delta rule from vcov; ends where the deviance of a glm with the slope, or the place by
  // an offset, held fixed has risen by qchisq(0.95, 1) (uniroot)
  it.each([
    [
      "weibull",
      [30.10094368, 0.4010194282, 0.05815357538, 0.05791641842, 0.4627017776],
      [0.3039875141, 0.5437274073],
      [36.43011077, 32.40755834, 42.08278573],
    ],
    [
      "logistic",
      [24.38068081, 0.2739901577, 0.06216336201, 0.04132743671, 3.674167769],
      [0.2067400943, 0.3757747421],
      [35.64546961, 30.80893291, 42.94089507],
    ],
    [
      "normal",
      [24.18502891, 0.4689794366, 0.06059286429, 0.06257108426, 3.113430181],
      [0.3663244751, 0.62442589],
      [35.88921576, 31.19403503, 42.92098286],
    ],
  ] as const)("%s on logarithms, with profile intervals", (shape, [location, spread, se, spreadSe, deviance], ends, [x80, low, high]) => {
    const fit = fitPsychometric(WIDTHS, { ...quick, shape, lapse: 0 });
    expect(given(fit.location.estimate) / location).toBeCloseTo(1, 7);
    expect(given(fit.spread.estimate) / spread).toBeCloseTo(1, 7);
    expect(fit.location.standardError! / se).toBeCloseTo(1, 6);
    expect(fit.spread.standardError! / spreadSe).toBeCloseTo(1, 6);
    expect(fit.goodness!.deviance / deviance).toBeCloseTo(1, 7);
    expect(given(fit.thresholds[0]!.estimate) / x80).toBeCloseTo(1, 7);
    // ends are searched to 1e-7 of the last step
    expect(fit.spread.within[0]! / ends[0]).toBeCloseTo(1, 5);
    expect(fit.spread.within[1]! / ends[1]).toBeCloseTo(1, 5);
    expect(fit.thresholds[0]!.within[0]! / low).toBeCloseTo(1, 5);
    expect(fit.thresholds[0]!.within[1]! / high).toBeCloseTo(1, 5);
  });
  // Source: SciPy 1.10.1 optimize.minimize (L-BFGS-B from three starts, then Nelder-Mead), the lapse free in [0, 0.06]
  it("fits a lapse", () => {
    const data = { levels: [10, 15, 22, 33, 50, 75, 110], trials: Array(7).fill(40), hits: [2, 7, 15, 28, 37, 38, 38] };
    const fit = fitPsychometric(data, quick);
    expect(given(fit.location.estimate)).toBeCloseTo(29.25376978, 5);
    expect(given(fit.spread.estimate)).toBeCloseTo(0.39992965, 6);
    expect(given(fit.lapse.estimate)).toBeCloseTo(0.05106704, 6);
    expect(fit.logLikelihood).toBeCloseTo(-104.01233426, 7);
    expect(given(fit.thresholds[0]!.estimate)).toBeCloseTo(37.42868557, 5);
  });
  // Source: closed form of the Rayleigh distribution: a round target is hit with 1 - exp(-W^2/(8 s^2)), a Weibull function with exponent 2 and scale s sqrt 8
  it("finds scatter and exponent of a round target in shares without noise", () => {
    const levels = [8, 16, 24, 32, 48];
    const trials = levels.map(() => 1e6);
    const hits = levels.map((w) => Math.round(1e6 * -Math.expm1(-(w ** 2) / (8 * 81))));
    const fit = fitPsychometric({ levels, trials, hits }, { ...quick, lapse: 0 });
    expect(given(fit.location.estimate) / Math.sqrt(8)).toBeCloseTo(9, 2);
    expect(given(fit.spread.estimate)).toBeCloseTo(0.5, 3);
  });
});

describe("fitPsychometric properties", () => {
  const rows = fc.array(
    fc.record({
      level: fc.integer({ min: 1, max: 60 }),
      n: fc.integer({ min: 0, max: 25 }),
      share: fc.double({ min: 0, max: 1, noNaN: true }),
    }),
    { minLength: 0, maxLength: 9 },
  );
  const dataOf = (list: readonly { level: number; n: number; share: number }[]) => ({
    levels: list.map((row) => row.level),
    trials: list.map((row) => row.n),
    hits: list.map((row) => Math.round(row.n * row.share)),
  });
  const optionsArb: fc.Arbitrary<FitPsychometricOptions> = fc.record(
    {
      shape: fc.constantFrom("weibull", "logistic", "normal", "gumbel"),
      harder: fc.constantFrom("down", "up"),
      guess: fc.constantFrom(0, 0.1, 0.5),
      lapse: fc.constantFrom<"fit" | number>("fit", 0, 0.02),
      spread: fc.constantFrom<NonNullable<FitPsychometricOptions["spread"]>>("fit", 0.5, [0.3, 1]),
      thresholdAt: fc.constantFrom<number | number[]>(0.75, [0.6, 0.99]),
    },
    { requiredKeys: [], noNullPrototype: true },
  );

  test.prop([rows, optionsArb], { numRuns: 150 })(
    "gives finite plain data for any counts, values inside their intervals",
    (list, options) => {
      const data = dataOf(list);
      for (const column of Object.values(data)) Object.freeze(column);
      const fit = fitPsychometric(data, { ...options, resamples: 9 });
      expect(JSON.parse(JSON.stringify(fit))).toEqual(fit);
      for (const { estimate, within } of [fit.location, fit.spread, fit.lapse, ...fit.thresholds]) {
        if (!estimate.ok || estimate.interval === undefined) continue;
        const hair = 1e-6 * Math.abs(estimate.value);
        expect(estimate.interval).toEqual(within);
        expect(estimate.interval[0]).toBeLessThanOrEqual(estimate.value + hair);
        expect(estimate.interval[1]).toBeGreaterThanOrEqual(estimate.value - hair);
      }
      for (const point of fit.curve) expect(point.share >= 0 && point.share <= 1).toBe(true);
    },
  );
  test.prop([rows, optionsArb], { numRuns: 60 })("takes single trials, in any order, like counts", (list, options) => {
    const data = dataOf(list);
    const single = data.levels.flatMap((level, i) =>
      Array.from({ length: data.trials[i]! }, (_, j) => ({ level, hit: j < data.hits[i]! ? 1 : 0 })),
    );
    single.reverse();
    const apart = { levels: Float64Array.from(single, (t) => t.level), hits: single.map((t) => t.hit) };
    expect(fitPsychometric(apart, { ...options, ...quick })).toEqual(fitPsychometric(data, { ...options, ...quick }));
  });
  test.prop([rows, fc.integer({ min: -8, max: 8 })], { numRuns: 40 })("scales with the unit", (list, power) => {
    const data = dataOf(list);
    const moved = { ...data, levels: data.levels.map((level) => level * 2 ** power) };
    const [one, other] = [fitPsychometric(data, quick), fitPsychometric(moved, quick)];
    expect(other.warnings).toEqual(one.warnings);
    if (!one.location.estimate.ok || !other.location.estimate.ok) return;
    expect(other.location.estimate.value / one.location.estimate.value / 2 ** power).toBeCloseTo(1, 5);
    expect(given(other.spread.estimate)).toBeCloseTo(given(one.spread.estimate), 4);
  });
  test.prop(
    [
      rows,
      fc.double({ min: 0, max: 5, noNaN: true }),
      fc.double({ min: 0.02, max: 5, noNaN: true }),
      fc.double({ min: 0, max: 0.06, noNaN: true }),
    ],
    { numRuns: 150 },
  )("is at least as likely as any other curve", (list, location, spread, lapse) => {
    const data = dataOf(list);
    const fit = fitPsychometric(data, { ...quick, shape: "logistic" });
    if (fit.logLikelihood === null) return;
    let other = 0;
    for (const [i, level] of data.levels.entries()) {
      const p = (1 - lapse) / (1 + Math.exp((location - Math.log(level)) / spread));
      if (data.hits[i]! > 0) other += data.hits[i]! * Math.log(p);
      if (data.hits[i]! < data.trials[i]!) other += (data.trials[i]! - data.hits[i]!) * Math.log1p(-p);
    }
    expect(fit.logLikelihood).toBeGreaterThanOrEqual(other - 1e-6);
  });
  it("mirrors where a larger level is harder", () => {
    const speeds = { ...WIDTHS, levels: WIDTHS.levels.map((w) => 1 / w) };
    const [down, up] = [fitPsychometric(WIDTHS, quick), fitPsychometric(speeds, { ...quick, harder: "up" })];
    expect(given(up.location.estimate) * given(down.location.estimate)).toBeCloseTo(1, 8);
    expect(given(up.spread.estimate)).toBeCloseTo(given(down.spread.estimate), 8);
    expect(up.thresholds[0]!.within[0]! * down.thresholds[0]!.within[1]!).toBeCloseTo(1, 5);
    expect(up.levels.map((line) => line.level)).toEqual([...speeds.levels].sort((a, b) => a - b));
  });
  it("repeats with the seed, and its resamples bracket the value", () => {
    const fit = fitPsychometric(WIDTHS, { seed: 4, resamples: 299 });
    expect(fitPsychometric(WIDTHS, { seed: 4, resamples: 299 })).toEqual(fit);
    expect(fitPsychometric(WIDTHS, { seed: 5, resamples: 299 }).location.resampled).not.toEqual(fit.location.resampled);
    const [low, high] = fit.thresholds[0]!.resampled!;
    expect(low! < given(fit.thresholds[0]!.estimate) && given(fit.thresholds[0]!.estimate) < high!).toBe(true);
    expect(fit.curve).toHaveLength(41);
    for (const point of fit.curve) expect(point.low! <= point.share + 0.02 && point.share <= point.high! + 0.02).toBe(true);
    expect(fitPsychometric(WIDTHS, quick)).toMatchObject({ goodness: { p: null }, location: { resampled: null } });
  });
  it("gives the bounds of separated data, not a slope without end", () => {
    const fit = fitPsychometric({ ...WIDTHS, hits: [0, 0, 0, 30, 30] });
    expect(fit.warnings).toEqual(["separated"]);
    expect(fit.location.estimate).toEqual({ ok: false, why: "notIdentified", unit: "px", n: 150 });
    expect(fit.spread.estimate).toMatchObject({ ok: false, why: "notIdentified" });
    const [low, high] = fit.location.within;
    expect(low! > 26 && low! < 27.5 && high! > 39.5 && high! < 41).toBe(true);
    expect(fit.spread.within[0]).toBeNull();
    expect(fit.spread.within[1]! < Math.log(40 / 27)).toBe(true);
    // a spread that is known places the threshold between the levels
    const known = fitPsychometric({ ...WIDTHS, hits: [0, 0, 0, 30, 30] }, { ...quick, spread: 0.05 });
    expect(given(known.location.estimate) > 27 && given(known.location.estimate) < 40).toBe(true);
  });
  it("bounds the threshold from one side where all hit, or all miss", () => {
    const all = fitPsychometric({ ...WIDTHS, hits: WIDTHS.trials }, quick).thresholds[0]!;
    expect(all).toMatchObject({ estimate: { ok: false, why: "notIdentified" }, within: [null, expect.any(Number)] });
    expect(all.within[1]! < 12.5).toBe(true);
    const none = fitPsychometric({ ...WIDTHS, hits: [0, 0, 0, 0, 0] }, quick).thresholds[0]!;
    expect(none).toMatchObject({ estimate: { ok: false, why: "notIdentified" }, within: [expect.any(Number), null] });
    expect(none.within[0]! > 59).toBe(true);
  });
  it("calls hits that fall toward easier levels flat", () => {
    const fit = fitPsychometric({ ...WIDTHS, hits: [20, 15, 15, 15, 10] }, quick);
    expect(fit.warnings).toContain("flat");
    expect(fit.spread.estimate).toMatchObject({ ok: false, why: "notIdentified" });
  });
  it("puts a share above what lapses leave out of reach", () => {
    const fit = fitPsychometric(WIDTHS, { ...quick, lapse: 0.05, thresholdAt: [0.8, 0.97] });
    expect(fit.thresholds.map(({ estimate }) => estimate.ok)).toEqual([true, false]);
    expect(fit.thresholds[1]!.estimate).toMatchObject({ why: "outOfReach" });
  });
  it("warns of few data, poor fits, lapses and spreads at their limits, and extrapolation", () => {
    expect(fitPsychometric({ levels: [10, 20], trials: [20, 20], hits: [4, 16] }, { ...quick, thresholdAt: 0.5 }).warnings).toEqual([
      "fewLevels",
      "fewTrials",
    ]);
    const odd = { levels: [10, 15, 22, 33, 50], trials: Array(5).fill(60), hits: [5, 45, 10, 50, 55] };
    expect(fitPsychometric(odd).warnings).toContain("poorFit");
    const careless = { ...WIDTHS, trials: Array(5).fill(60), hits: [5, 20, 40, 50, 50] };
    expect(fitPsychometric(careless, quick).warnings).toContain("lapseAtLimit");
    expect(fitPsychometric(WIDTHS, { ...quick, spread: [0.6, 0.9] }).warnings).toEqual(["spreadAtLimit"]);
    expect(fitPsychometric(WIDTHS, { ...quick, lapse: 0, thresholdAt: 0.05 }).warnings).toEqual(["extrapolated"]);
    expect(fitPsychometric({ levels: [20, 30], hits: [1, 0] })).toMatchObject({
      goodness: null,
      curve: [],
      location: { estimate: { why: "tooFew" } },
    });
    expect(fitPsychometric({ levels: [20], trials: [50], hits: [30] }, { lapse: 0.02, spread: 0.5 })).toMatchObject({
      location: { estimate: { why: "notIdentified" } },
      spread: { estimate: { ok: true, value: 0.5 } },
      lapse: { estimate: { ok: true, value: 0.02 } },
    });
  });
});

describe("fitPsychometric bad input", () => {
  it.each([
    [null, /fitPsychometric: data must be an object, got null/],
    [{ levels: "x", hits: [] }, /data\.levels must be a list of numbers, got "x"/],
    [{ levels: [1], hits: [1, 0] }, /data\.hits must have 1 entries like data\.levels, got 2/],
    [{ levels: [1], hits: [1], trials: [1, 2] }, /data\.trials must have 1 entries like data\.levels, got 2/],
    [{ levels: [1], hits: [2] }, /data\.hits\[0\] must be a whole number at least 0 and at most 1, got 2/],
    [{ levels: [1], hits: [3], trials: [2] }, /data\.hits\[0\] must be a whole number at least 0 and at most 2, got 3/],
    [{ levels: [1], hits: [0], trials: [-1] }, /data\.trials\[0\] must be a whole number at least 0/],
    [{ levels: [0], hits: [0] }, /data\.levels\[0\] must be finite and at least 1e-100/],
    [{ levels: [Number.NaN], hits: [0] }, /data\.levels\[0\] must be finite, got NaN/],
  ])("data, case %#", (data, message) => expect(() => fitPsychometric(data as never)).toThrow(message));
  it.each([
    [null, /fitPsychometric: options must be an object, got null/],
    [{ shape: "cauchy" }, /options\.shape must be one of "weibull", "logistic", "normal", "gumbel", got "cauchy"/],
    [{ scale: "linear" }, /options\.scale must be "log" where options\.shape is "weibull", got "linear"/],
    [{ scale: "root", shape: "normal" }, /options\.scale must be one of "log", "linear"/],
    [{ harder: "left" }, /options\.harder must be one of "down", "up"/],
    [{ guess: 1 }, /options\.guess must be at least 0 and at most 0\.9, got 1/],
    [{ lapse: 0.07 }, /options\.lapse must be at least 0 and at most 0\.06, got 0\.07/],
    [{ lapse: "free" }, /options\.lapse must be a number or "fit", got "free"/],
    [{ spread: 0 }, /options\.spread must be/],
    [{ spread: [1, 0.5] }, /options\.spread\[1\] must be/],
    [{ spread: [1] }, /options\.spread must be a number, two of them or "fit", got an array of 1/],
    [{ thresholdAt: 1 }, /options\.thresholdAt must be below 1, got 1/],
    [{ thresholdAt: [0.5, 0] }, /options\.thresholdAt\[1\] must be above 0 and at most 1, got 0/],
    [{ thresholdAt: "half" }, /options\.thresholdAt must be a share or a list of shares, got "half"/],
    [{ resamples: -1 }, /options\.resamples must be a whole number at least 0/],
    [{ seed: 0.5 }, /options\.seed must be a whole number/],
    [{ level: 0 }, /options\.level must be above 0 and below 1, got 0/],
  ])("option, case %#", (options, message) => expect(() => fitPsychometric(WIDTHS, options as never)).toThrow(message));
});
