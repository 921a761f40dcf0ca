import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { type CompareOptions, compare } from "../../src/learning/compare.js";
import type { Estimate } from "../../src/math/estimate.js";
import { createRandom, type Random } from "../../src/math/random.js";
import { band } from "../math/estimate-properties.js";

const BEFORE = [0.71, 0.74, 0.69, 0.72, 0.7, 0.73, 0.7];
const AFTER = [0.68, 0.66, 0.7, 0.67, 0.69];

const given = (estimate: Estimate): number => (estimate.ok ? estimate.value : Number.NaN);
const intervalOf = (estimate: Estimate): readonly [number, number] =>
  estimate.ok && estimate.interval !== undefined ? estimate.interval : [Number.NaN, Number.NaN];

/** Session values about 1 with this spread of their logarithms. */
const period = (random: Random, k: number, sd: number, level = 1): number[] =>
  Array.from({ length: k }, () => level * Math.exp(random.normal(0, sd)));

describe("compare against outside values", () => {
  const percent = compare(BEFORE, AFTER, { unit: "s", autocorrelation: 0 });
  const difference = compare(BEFORE, AFTER, { unit: "s", kind: "difference", autocorrelation: 0 });

  // Source: SciPy 1.17.1 stats.ttest_ind(log after, log before, equal_var=False) with its confidence_interval at 0.95 and 0.9, carried to percent
  it("gives the change in percent with its Welch interval", () => {
    expect(percent.change).toEqual({
      ok: true,
      value: expect.closeTo(-4.603907610719157, 10),
      unit: "%",
      n: 12,
      interval: [expect.closeTo(-7.588077226033441, 9), expect.closeTo(-1.5233730673127843, 9)],
      level: 0.95,
    });
    expect(percent.equivalence).toEqual({
      interval: [expect.closeTo(-7.031356685307633, 9), expect.closeTo(-2.1130768538813802, 9)],
      level: 0.9,
      within: false,
    });
    expect(percent).toMatchObject({ verdict: "better", size: "worthwhile" });
  });
  // Source: SciPy 1.17.1 stats.t.cdf at (mark - change)/standard error of the same test
  it("gives the chances that follow from it", () =>
    expect(percent.chances).toEqual({
      improvement: expect.closeTo(0.9958253253291633, 11),
      worthwhileImprovement: expect.closeTo(0.9561578046566825, 11),
      worthwhileLoss: expect.closeTo(1 - 0.9995076280678337, 11),
    }));
  // Source: SciPy 1.17.1 stats.ttest_ind(equal_var=False), stats.chi2.ppf, stats.t.ppf and stats.nct (solved for a power of 0.8), pooled SD by NumPy 2.4.6
  it("gives the plain difference, the session SD and what such periods can show", () => {
    expect(difference.change).toMatchObject({
      value: expect.closeTo(-0.03285714285714281, 12),
      unit: "s",
      interval: [expect.closeTo(-0.05489513460030952, 11), expect.closeTo(-0.010819151113976092, 11)],
    });
    expect(difference.sessionSd).toMatchObject({
      value: expect.closeTo(0.01715475777403208, 12),
      interval: [expect.closeTo(0.01198632, 8), expect.closeTo(0.03010546, 8)],
    });
    expect(difference.minimalDetectable).toEqual([expect.closeTo(-0.02238120383268278, 11), expect.closeTo(0.02238120383268278, 11)]);
    expect(difference.detectable![1]).toBeCloseTo(0.031239000178333164, 9);
    expect(difference.worthwhile).toBeCloseTo(0.02 * (4.99 / 7), 12);
  });
  // Source: t(0.975, 2k - 2) sqrt(2/k) with a table of Student's t (2.776, 2.306, 2.179, 2.101): 2.27, 1.46, 1.16, 0.94 session SDs; SciPy 1.17.1
  it.each([
    [3, 2.266957935527519],
    [5, 1.4584450722024074],
    [7, 1.1646244455031742],
    [10, 0.9395608994813021],
  ])("two periods of %d sessions detect %d session SDs", (k, expected) => {
    const sessions = Array.from({ length: k }, (_, i) => i % 4);
    const { minimalDetectable, sessionSd } = compare(sessions, sessions, { kind: "difference", worthwhile: 1, autocorrelation: 0 });
    expect(minimalDetectable![1] / given(sessionSd)).toBeCloseTo(expected, 9);
  });
  // Source: SciPy 1.17.1 stats.nct, the smallest k with a power of 0.8 at alpha 0.05, for changes of 2, 1, 0.5 and 0.2 session SDs; 17 and 64 stand in textbook tables
  it.each([
    [2, 6],
    [1, 17],
    [0.5, 64],
    [0.2, 394],
  ])("a change of %d session SDs needs %d sessions", (size, needed) => {
    const sessions = [1, 2, 4, 3, 2];
    const sd = given(compare(sessions, sessions, { kind: "difference", worthwhile: 1, autocorrelation: 0 }).sessionSd);
    const { sessionsNeeded } = compare(sessions, sessions, { kind: "difference", worthwhile: size * sd, autocorrelation: 0 });
    expect(sessionsNeeded).toMatchObject({ value: needed, unit: "session" });
  });
  // Source: SciPy 1.17.1 stats.permutation_test of Welch's t (logarithms) and of the difference of medians, all 792 arrangements
  it("exchanges every session", () => {
    expect(percent.permutation).toEqual({ p: 10 / 792, exact: true, arrangements: 792, smallestP: 1 / 792 });
    expect(compare(BEFORE, AFTER, { centre: "median", kind: "difference" }).permutation!.p).toBeCloseTo(0.045454545454545456, 12);
  });
  // Source: all 12870 arrangements by SciPy 1.10.1 permutation_test: 22 are as far apart (reference table learning/resampling.json); Welch's p by the same
  it("counts eight blocks against eight", () => {
    const result = compare([0.82, 0.79, 0.91, 0.77, 0.85, 0.8, 0.88, 0.83], [0.74, 0.7, 0.81, 0.69, 0.78, 0.73, 0.76, 0.71], {
      kind: "difference",
    });
    expect(result.permutation).toEqual({ p: 22 / 12870, exact: true, arrangements: 12870, smallestP: 2 / 12870 });
    expect(given(result.change)).toBeCloseTo(-0.09125, 12);
  });
  // Source: SciPy 1.17.1 stats.ttest_rel with its confidence_interval, and stats.permutation_test(permutation_type="samples"), 64 arrangements
  it("compares conditions of the same sessions by their differences", () => {
    const paired = compare([0.71, 0.74, 0.69, 0.72, 0.7, 0.73], [0.68, 0.72, 0.69, 0.67, 0.69, 0.7], {
      kind: "difference",
      paired: true,
      autocorrelation: 0,
    });
    expect(paired.change).toMatchObject({
      value: expect.closeTo(-0.023333333333333317, 12),
      n: 6,
      interval: [expect.closeTo(-0.0417109460664132, 11), expect.closeTo(-0.004955720600253434, 11)],
    });
    expect(paired.permutation).toEqual({ p: 0.0625, exact: true, arrangements: 64, smallestP: 2 / 64 });
  });
  // Source: order statistics of a median, binomial with one half: below six differences no interval of 95 % exists, and with
  // five of six below 0 the chance that the median is below 0 is 1 - (1 + 6/2)/64, half of the case itself counted (by hand)
  it("takes the median of paired differences by their order", () => {
    const before = [10, 10, 10, 10, 10, 10];
    const paired = (after: number[]) =>
      compare(before.slice(0, after.length), after, {
        kind: "difference",
        paired: true,
        centre: "median",
        worthwhile: 1,
        autocorrelation: 0,
      });
    expect(paired([9, 8, 7, 6, 5]).change).toEqual({ ok: true, value: -3, unit: "", n: 5 });
    const six = paired([9, 8, 7, 6, 5, 11]);
    expect(six.change).toMatchObject({ value: -2.5, interval: [-5, 1] });
    expect(six.chances!.improvement).toBeCloseTo(1 - (1 + 6 / 2) / 64, 12);
    expect(six.verdict).toBe("cannotTell");
    expect(paired([9, 8, 7, 6, 5, 4])).toMatchObject({ verdict: "better", permutation: { p: 2 / 64 } });
    expect(paired([9, 9, 9, 9]).change).toMatchObject({ ok: false, why: "noSpread" });
  });
  // Source: n (1 - r)/(1 + r) for long series, textbook
  it("counts how many sessions alike ones are worth", () => {
    const long = Array.from({ length: 2000 }, (_, i) => 1 + 0.01 * Math.sin(7 * i * i));
    const { effectiveSessions } = compare(long, long, { autocorrelation: 0.4, permutations: 99 }).autocorrelation;
    expect(effectiveSessions[0] / 2000).toBeCloseTo(0.6 / 1.4, 3);
  });
  // Source: the meaning of a level, simulated: without a change 5 % of independent sessions are called one, and intervals hold the truth in 95 %; the
  // default allows for chance autocorrelation and may come out at 4 %. Binomial 99 % band of 400 runs.
  it.each([
    [5, "mean"],
    [10, "mean"],
    [6, "median"],
  ] as const)("keeps its promises, %d sessions a period, %s", (k, centre) => {
    const random = createRandom(41, k);
    const runs = centre === "mean" ? 400 : 200;
    let [alarms, held, falsely] = [0, 0, 0];
    for (let run = 0; run < runs; run++) {
      const options = { centre, seed: run, permutations: 99, worthwhile: 2 };
      const none = compare(period(random, k, 0.02), period(random, k, 0.02), options);
      if (none.verdict === "better" || none.verdict === "worse") alarms++;
      const atBorder = compare(period(random, k, 0.01), period(random, k, 0.01, 0.98), options);
      const [low, high] = intervalOf(atBorder.change);
      if (low <= -2 && -2 <= high) held++;
      if (atBorder.verdict === "equivalent") falsely++;
    }
    expect(alarms / runs).toBeLessThan(0.05 + band(0.05, runs));
    expect(held / runs).toBeGreaterThan(0.95 - band(0.95, runs));
    expect(falsely / runs).toBeLessThan(0.05 + band(0.05, runs));
  });
});

describe("compare properties", () => {
  const sessions = (least: number) =>
    fc.array(
      fc.integer({ min: 200, max: 1200 }).map((v) => v / 1000),
      { minLength: least, maxLength: 9 },
    );
  const optionsArb: fc.Arbitrary<CompareOptions> = fc.record(
    {
      kind: fc.constantFrom("difference", "percent"),
      better: fc.constantFrom("lower", "higher"),
      centre: fc.constantFrom("mean", "mean", "mean", "median"),
      level: fc.constantFrom(0.8, 0.95, 0.99),
      worthwhile: fc.constantFrom(0.01, 0.5, 5),
      autocorrelation: fc.constantFrom(0, 0.3),
    },
    { requiredKeys: [], noNullPrototype: true },
  );
  const quick = { permutations: 99 };

  test.prop([sessions(0), sessions(0), optionsArb], { numRuns: 60 })(
    "leaves its input alone, and gives plain data that repeat with the seed",
    (one, other, options) => {
      const result = compare(Object.freeze(one), Object.freeze(other), { ...options, ...quick });
      expect(JSON.parse(JSON.stringify(result))).toEqual(result);
      expect(structuredClone(result)).toEqual(result);
      expect(compare(Float64Array.from(one), Float64Array.from(other), { ...options, ...quick })).toEqual(result);
    },
  );
  test.prop([sessions(2), sessions(2)], { numRuns: 50 })("turns over when the periods are exchanged", (one, other) => {
    const there = compare(one, other, quick);
    const back = compare(other, one, quick);
    expect({ better: "worse", worse: "better", cannotTell: "cannotTell", equivalent: back.verdict }[there.verdict]).toBe(back.verdict);
    if (!there.change.ok || !back.change.ok) return;
    expect((1 + there.change.value / 100) * (1 + back.change.value / 100)).toBeCloseTo(1, 10);
    expect(back.chances!.improvement).toBeCloseTo(1 - there.chances!.improvement, 10);
    if (there.permutation!.exact) expect(back.permutation).toEqual(there.permutation);
  });
  test.prop([sessions(2), sessions(2), fc.integer({ min: -20, max: 20 })], { numRuns: 50 })(
    "does not depend on the unit: percent with any, differences with their own",
    (one, other, power) => {
      const factor = 2 ** power;
      const scaled = (list: readonly number[]) => list.map((v) => v * factor);
      const plain = compare(one, other, quick);
      const moved = compare(scaled(one), scaled(other), quick);
      expect(moved.verdict).toBe(plain.verdict);
      if (plain.change.ok) expect(given(moved.change)).toBeCloseTo(given(plain.change), 8);
      const apart = compare(one, other, { ...quick, kind: "difference" });
      const movedApart = compare(scaled(one), scaled(other), { ...quick, kind: "difference" });
      expect(movedApart.size).toBe(apart.size);
      if (apart.change.ok) expect(given(movedApart.change) / factor).toBeCloseTo(given(apart.change), 10);
    },
  );
  test.prop([sessions(2), sessions(2)], { numRuns: 30 })("knows improvement by `better` alone", (one, other) => {
    const lower = compare(one, other, { ...quick, kind: "difference" });
    const higher = compare(one, other, { ...quick, kind: "difference", better: "higher" });
    expect(higher.change).toEqual(lower.change);
    if (!lower.chances) return;
    expect(higher.chances!.improvement).toBeCloseTo(1 - lower.chances.improvement, 12);
    expect(higher.chances!.worthwhileLoss).toBeCloseTo(lower.chances.worthwhileImprovement, 12);
  });
  test.prop([sessions(3), sessions(3)], { numRuns: 40 })("is less sure the more alike neighbouring sessions are", (one, other) => {
    const at = (autocorrelation: number) => compare(one, other, { ...quick, autocorrelation });
    const [plain, alike] = [at(0), at(0.5)];
    if (!plain.change.ok) return;
    const width = ([low, high]: readonly [number, number]) => high - low;
    expect(width(intervalOf(alike.change))).toBeGreaterThan(width(intervalOf(plain.change)));
    // no number at all: more than anyone would do
    if (alike.sessionsNeeded.ok) expect(alike.sessionsNeeded.value).toBeGreaterThanOrEqual(given(plain.sessionsNeeded));
    expect(alike.autocorrelation.effectiveSessions[0]).toBeLessThan(plain.autocorrelation.effectiveSessions[0]);
  });
  it("takes the mean or the median of each session's trials, the sessions staying the units", () => {
    const trials = [Float64Array.of(0.7, 0.72), [0.74], [0.6, 0.69, 0.9], [0.71, 0.73]];
    const after = [[0.66], [0.63, 0.69], [0.68], [0.64]];
    const meansOf = compare([0.71, 0.74, 0.73, 0.72], [0.66, 0.66, 0.68, 0.64]);
    const result = compare(trials, after);
    expect(result.change).toMatchObject({ n: 8, value: expect.closeTo(given(meansOf.change), 10) });
    expect(result.before.sessions).toBe(4);
    expect(given(compare(trials, after, { centre: "median" }).before.centre)).toBeCloseTo(Math.sqrt(0.71 * 0.72), 12);
  });
  it("says real and trivial at once where a small change is well measured", () => {
    const steady = [1, 1.001, 0.999, 1.0005, 0.9995, 1.0002];
    const result = compare(
      steady,
      steady.map((v) => v * 0.995),
    );
    expect(result).toMatchObject({ verdict: "better", size: "trivial", equivalence: { within: true } });
    expect(compare(steady, steady)).toMatchObject({ verdict: "equivalent", size: "trivial" });
    expect(
      compare(
        steady,
        steady.map((v) => v * 1.05),
      ),
    ).toMatchObject({ verdict: "worse", size: "worthwhile" });
    expect(
      compare(
        steady,
        steady.map((v) => v * 1.05),
        { better: "higher" },
      ).verdict,
    ).toBe("better");
  });
  it("is exact with clock times: a large common offset costs no digits", () => {
    const early = BEFORE.map((v) => v + 1.7e9);
    const late = AFTER.map((v) => v + 1.7e9);
    const far = compare(early, late, { kind: "difference", worthwhile: 0.01 });
    expect(given(far.change)).toBeCloseTo(-0.03285714285714281, 6);
    expect(far.verdict).toBe(compare(BEFORE, AFTER, { kind: "difference", worthwhile: 0.01 }).verdict);
  });
  it("warns of few sessions, drifts, likeness of neighbours and unequal spread", () => {
    const flat = [1, 1.02, 0.98, 1.01, 0.99, 1.02, 0.98, 1];
    expect(compare(flat, flat).warnings).toEqual([]);
    expect(compare([1, 1.02, 0.99], [0.9, 0.93, 0.91]).warnings).toEqual(["fewSessions", "smallestPTooLarge"]);
    expect(compare(flat, [1, 1.01, 1.03, 1.05, 1.06, 1.09, 1.1, 1.12]).warnings).toContain("trendWithin");
    expect(compare(flat, [1, 1.2, 0.8, 1.1, 0.85, 1.2, 0.8, 1]).warnings).toEqual(["unequalSpread"]);
    const waves = Array.from({ length: 24 }, (_, i) => 1 + 0.03 * Math.sin(i / 2) + 0.002 * (i % 3));
    const alike = compare(waves, waves);
    expect(alike.warnings).toContain("autocorrelated");
    expect(alike.autocorrelation.allowedFor).toBeGreaterThan(0.5);
    expect(compare(waves, waves, { autocorrelation: 0 }).autocorrelation).toMatchObject({ allowedFor: 0, p: null });
  });
  it("gives a median that one odd session does not move", () => {
    const plain = compare(BEFORE, AFTER, { centre: "median" });
    const odd = compare([...BEFORE.slice(0, 6), 0.7], [...AFTER.slice(0, 4), 9], { centre: "median" });
    expect(Math.abs(given(odd.change) - given(plain.change))).toBeLessThan(3);
    expect(odd.seed).toBe(1);
  });
  it("does not call where there is too little or nothing to see", () => {
    const short = compare([0.7], [0.6, 0.65]);
    expect(short).toMatchObject({
      change: { ok: false, why: "tooFew", unit: "%", n: 3 },
      verdict: "cannotTell",
      permutation: null,
      chances: null,
      minimalDetectable: null,
    });
    expect(compare([], []).change).toEqual({ ok: false, why: "tooFew", unit: "%", n: 0 });
    expect(compare([], [], { centre: "median", kind: "difference" }).before.centre.ok).toBe(false);
    expect(compare([0.7, 0.7, 0.7], [0.7, 0.7]).change).toMatchObject({ ok: false, why: "noSpread" });
    expect(compare([1, 2], [2, 3], { paired: true, kind: "difference" })).toMatchObject({
      change: { ok: false, why: "noSpread" },
      verdict: "cannotTell",
    });
  });
  it("gives no interval in percent that a double cannot hold", () => {
    const wild = compare([1, 1e5], [1e-5, 1e99], { level: 0.9999 });
    expect(wild).toMatchObject({ verdict: "cannotTell", equivalence: null, minimalDetectable: null });
    expect(JSON.parse(JSON.stringify(wild))).toEqual(wild);
  });
});

describe("compare bad input", () => {
  const message =
    (before: never | readonly number[], options: object, after: readonly number[] = AFTER) =>
    () =>
      compare(before, after, options);
  it("names the bad value", () => {
    expect(message([1, Number.NaN], {})).toThrow(/compare: before\[1\] must be finite, got NaN/);
    expect(message([1, 0], {})).toThrow(/compare: before\[1\] must be above 0 where options\.kind is "percent", got 0/);
    expect(message([1, 1e200], {})).toThrow(/before\[1\] must lie within -1e100 and 1e100, got 1e\+200/);
    expect(() => compare([[1, 2], 3] as never, AFTER)).toThrow(/before\[1\] must be a list of trials like those before it, got 3/);
    expect(() => compare(BEFORE, [[1], []])).toThrow(/after\[1\] must hold at least one trial, got none/);
    expect(() => compare(BEFORE, [[1], ["x"]] as never)).toThrow(/after\[1\]\[0\] must be a number, got "x"/);
    expect(() => compare("text" as never, AFTER)).toThrow(/before must be a list of numbers, got "text"/);
  });
  it("names the bad option", () => {
    expect(message(BEFORE, { kind: "ratio" })).toThrow(/options\.kind must be one of "difference", "percent", got "ratio"/);
    expect(message(BEFORE, { better: "more" })).toThrow(/options\.better must be one of "lower", "higher"/);
    expect(message(BEFORE, { centre: "mode" })).toThrow(/options\.centre must be one of "mean", "median"/);
    expect(message(BEFORE, { worthwhile: 0 })).toThrow(/options\.worthwhile must be above 0 and at most 99, got 0/);
    expect(message(BEFORE, { worthwhile: 100 })).toThrow(/options\.worthwhile/);
    expect(message(BEFORE, { level: 0.5 })).toThrow(/options\.level must be at least 0\.6 and at most 0\.9999, got 0\.5/);
    expect(message(BEFORE, { autocorrelation: -0.1 })).toThrow(/options\.autocorrelation must be at least 0 and at most 0\.95, got -0\.1/);
    expect(message(BEFORE, { permutations: 10 })).toThrow(
      /options\.permutations must be a whole number at least 99 and at most 100000, got 10/,
    );
    expect(message(BEFORE, { seed: 0.5 })).toThrow(/options\.seed must be a whole number/);
    expect(message(BEFORE, { paired: "yes" })).toThrow(/options\.paired must be true or false, got yes/);
    expect(message(BEFORE, { paired: true })).toThrow(/after must have 7 sessions like before where options\.paired is true, got 5/);
  });
});
