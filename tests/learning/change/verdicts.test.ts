// Verdict, size, chances and warnings of a comparison, by relations that hold exactly and by cases made for one of them.
import { fc, test } from "@fast-check/vitest";
import { cumulativeStdNormalProbability, linearRegression, linearRegressionLine, mean } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { type CompareOptions, compare } from "../../../src/learning/compare.js";
import { unbiasedLagOne } from "../../../src/learning/trend/unbiased-lag-one.js";

const QUICK = { permutations: 99, autocorrelation: 0 } as const;
const PLAIN = { kind: "difference", worthwhile: 1, ...QUICK } as const;
const periods = (least: number) =>
  fc.array(
    fc.integer({ min: -40, max: 40 }).map((v) => v / 8),
    { minLength: least, maxLength: 9 },
  );
const centres = fc.constantFrom("mean" as const, "mean" as const, "median" as const);

describe("a comparison turned round", () => {
  // Source: the meaning of the options: what is better the lower for x is better the higher for -x
  test.prop([periods(3), periods(3), centres, fc.boolean()], { numRuns: 60 })(
    "says the same of negated values, the other way better",
    (one, other, centre, paired) => {
      const k = paired ? Math.min(one.length, other.length) : undefined;
      const [before, after] = [one.slice(0, k), other.slice(0, k ?? other.length)];
      const plain = compare(before, after, { ...PLAIN, centre, paired });
      const turned = compare(
        before.map((v) => -v),
        after.map((v) => -v),
        { ...PLAIN, centre, paired, better: "higher" },
      );
      expect(turned.permutation).toEqual(plain.permutation);
      expect(turned.warnings).toEqual(plain.warnings);
      if (!plain.change.ok || !turned.change.ok) return expect(turned.change).toEqual(plain.change);
      expect(turned.change.value).toBeCloseTo(-plain.change.value, 10);
      // the resamples of a median are drawn, and fall out otherwise
      if (centre === "median" && !paired) return;
      expect([turned.verdict, turned.size]).toEqual([plain.verdict, plain.size]);
      const { improvement, worthwhileImprovement, worthwhileLoss } = plain.chances!;
      expect(turned.chances!.improvement).toBeCloseTo(improvement, 10);
      expect(turned.chances!.worthwhileImprovement).toBeCloseTo(worthwhileImprovement, 10);
      expect(turned.chances!.worthwhileLoss).toBeCloseTo(worthwhileLoss, 10);
    },
  );

  // Source: what the words mean: equivalent and trivial, the interval at 2 level - 1 within the margin; better and worse, that at the level clear of 0
  test.prop([periods(2), periods(2), centres, fc.constantFrom(0.8, 0.95), fc.constantFrom(0.2, 1, 4), fc.boolean()], { numRuns: 100 })(
    "judges by its own intervals",
    (before, after, centre, level, worthwhile, lower) => {
      const better = lower ? "lower" : "higher";
      const { change, equivalence, verdict, size } = compare(before, after, { ...PLAIN, centre, level, worthwhile, better });
      if (!change.ok || change.interval === undefined || equivalence === null) return;
      const [low, high] = equivalence.interval;
      const within = -worthwhile <= low && high <= worthwhile;
      expect(equivalence).toMatchObject({ level: level === 0.8 ? 0.6 : 0.9, within });
      expect(size).toBe(within ? "trivial" : high < -worthwhile || low > worthwhile ? "worthwhile" : "unclear");
      const [least, most] = change.interval;
      expect(verdict).toBe(
        most < 0 ? (lower ? "better" : "worse") : least > 0 ? (lower ? "worse" : "better") : within ? "equivalent" : "cannotTell",
      );
    },
  );

  // Source: a chance with a flat prior and an interval of the same kind agree: the chance beyond an end of the interval at 0.9 is 5 %
  test.prop([periods(3), periods(3)], { numRuns: 40 })("has chances that fit its intervals", (before, after) => {
    const { equivalence } = compare(before, after, PLAIN);
    if (equivalence === null) return;
    const [low, high] = equivalence.interval;
    if (!(high > 1e-6 && low < -1e-6)) return;
    expect(compare(before, after, { ...PLAIN, worthwhile: high }).chances!.worthwhileLoss).toBeCloseTo(0.05, 9);
    expect(compare(before, after, { ...PLAIN, worthwhile: -low }).chances!.worthwhileImprovement).toBeCloseTo(0.05, 9);
  });

  // Source: order statistics of six differences, binomial with one half, by hand: below -1.5 lie three (-4, -3, -2), so that the chance of a median below it
  // is the mean of the chances of fewer than three and fewer than four heads in six: (22 + 42)/128; above 1.5 lies none
  it("takes the chances of a paired median from its order", () => {
    const { chances } = compare([9, 9, 9, 9, 9, 9], [5, 6, 7, 8, 9, 10], { ...PLAIN, worthwhile: 1.5, paired: true, centre: "median" });
    expect(chances!.worthwhileImprovement).toBeCloseTo((22 + 42) / 128, 12);
    // all six below 1.5: the mean of the chances of fewer than six, and of fewer than seven, heads of six
    expect(chances!.worthwhileLoss).toBeCloseTo(1 - (63 / 64 + 1) / 2, 12);
    // four below 0 and one at it: fewer than four, and fewer than six, heads of six
    expect(chances!.improvement).toBeCloseTo((42 + 63) / 128, 12);
  });
});

describe("a warning of a comparison", () => {
  const FLAT = [1, 1.02, 0.98, 1.01, 0.99, 1.02, 0.98, 1];
  const warned = (before: readonly number[], after: readonly number[], options: CompareOptions = {}) =>
    compare(before, after, { permutations: 99, ...options }).warnings;
  const rising = FLAT.map((v, i) => v + 0.02 * i);

  it("of few sessions comes below five", () => {
    expect(warned(FLAT.slice(0, 4), FLAT)).toContain("fewSessions");
    expect(warned(FLAT, FLAT.slice(0, 4))).toContain("fewSessions");
    expect(warned(FLAT.slice(0, 5), FLAT)).not.toContain("fewSessions");
  });
  // Source: the smallest share of arrangements: 2 of 6 over 3 (20) are 10 %; 1 of 792, 0.1 %
  it("of a test that cannot tell goes with the level", () => {
    expect(warned([1, 2, 3], [2, 4, 3])).toContain("smallestPTooLarge");
    expect(warned([1, 2, 3], [2, 4, 3], { level: 0.8 })).not.toContain("smallestPTooLarge");
    expect(warned(FLAT.slice(1), FLAT.slice(0, 5))).not.toContain("smallestPTooLarge");
  });
  it("of a trend comes with one in either period, or in the differences of pairs", () => {
    expect(warned(rising, FLAT)).toContain("trendWithin");
    expect(warned(FLAT, rising)).toContain("trendWithin");
    expect(warned(FLAT, FLAT)).not.toContain("trendWithin");
    // both periods rise, their differences do not
    expect(
      warned(
        rising,
        rising.map((v, i) => v + FLAT[i]!),
        { paired: true, kind: "difference" },
      ),
    ).not.toContain("trendWithin");
    expect(warned(FLAT, rising, { paired: true })).toContain("trendWithin");
    // four points on a line are too few to call
    expect(warned([1, 2, 3, 4], FLAT)).not.toContain("trendWithin");
    // without scatter about the line it is certain
    expect(warned([1, 2, 3, 4, 5], FLAT)).toContain("trendWithin");
    expect(warned([1, 1, 1, 1, 1], FLAT)).not.toContain("trendWithin");
  });
  // Source: SciPy 1.10.1 stats.f.sf((s1/s2)^2, 7, 7): a ratio of variances of 4.99 has a two-sided p of 0.05; here 9 and 2.25, either way round
  it("of unequal spread comes either way round, of five sessions on", () => {
    const times = (factor: number) => FLAT.map((v) => 1 + (v - 1) * factor);
    const plain = { kind: "difference" } as const;
    expect(warned(FLAT, times(3), plain)).toContain("unequalSpread");
    expect(warned(times(3), FLAT, plain)).toContain("unequalSpread");
    expect(warned(times(1.5), FLAT, plain)).not.toContain("unequalSpread");
    expect(warned(times(3).slice(0, 4), FLAT, plain)).not.toContain("unequalSpread");
    expect(
      warned(
        FLAT.map(() => 1),
        FLAT,
        plain,
      ),
    ).toContain("unequalSpread");
    expect(
      warned(
        FLAT.map(() => 1),
        FLAT.map(() => 2),
        plain,
      ),
    ).not.toContain("unequalSpread");
    expect(warned(FLAT, times(3), { ...plain, paired: true })).not.toContain("unequalSpread");
  });
  it("of alike neighbours comes with waves, unless their likeness was given", () => {
    const waves = Array.from({ length: 24 }, (_, i) => 1 + 0.03 * Math.sin(i / 2));
    expect(warned(waves, waves)).toContain("autocorrelated");
    expect(warned(waves, waves, { autocorrelation: 0.3 })).not.toContain("autocorrelated");
    expect(warned(FLAT, FLAT)).not.toContain("autocorrelated");
  });
});

describe("how alike neighbours are", () => {
  // Source: simple-statistics 7.12.1: residuals of each period about its own line, their lag-one sums over the sums of squares, and the mean of both; the
  // correction for the bias of a fit is checked in trend/lag-one.test.ts
  it("is measured about each period's own line where one rises", () => {
    const before = [1, 1.05, 1.08, 1.19, 1.2, 1.31, 1.28, 1.42, 1.5, 1.55];
    const after = [2.02, 1.98, 2.05, 2, 1.97, 2.03, 2.01, 1.99, 2.04, 1.96];
    const { autocorrelation, warnings } = compare(before, after, { kind: "difference" });
    expect(warnings).toContain("trendWithin");
    const lagOne = (values: readonly number[]): number => {
      const line = linearRegressionLine(linearRegression(values.map((v, i) => [i, v])));
      const rest = values.map((v, i) => v - line(i));
      return rest.slice(1).reduce((sum, v, i) => sum + v * rest[i]!, 0) / rest.reduce((sum, v) => sum + v * v, 0);
    };
    const found = mean([lagOne(before), lagOne(after)]);
    const r = autocorrelation.r.ok ? autocorrelation.r.value : Number.NaN;
    expect(autocorrelation.r).toMatchObject({ ok: true, unit: "1", n: 20 });
    expect(r).toBeCloseTo(unbiasedLagOne(found, 10, 2), 10);
    // the chance of it among independent errors about a line, which lies about -2/n: normal with a variance of 1 over the number of values; the
    // library looks up z to a hundredth, which is 0.002 of a chance
    expect(autocorrelation.p).toBeCloseTo(1 - cumulativeStdNormalProbability((found + 2 / 10) * Math.sqrt(20)), 2);
  });

  // Source: the docstring of `allowedFor`: the option's; else the measured one below a p of 0.2; never below 0
  it("is allowed for where it was given or is likely", () => {
    const waves = Array.from({ length: 24 }, (_, i) => 1 + 0.03 * Math.sin(i / 2));
    const measured = compare(waves, waves, { permutations: 99 }).autocorrelation;
    expect(measured.r).toMatchObject({ ok: true, value: measured.allowedFor });
    const told = compare(waves, waves, { permutations: 99, autocorrelation: 0.3 }).autocorrelation;
    expect(told).toMatchObject({ p: null, allowedFor: 0.3, r: measured.r });
    const zigzag = Array.from({ length: 12 }, (_, i) => 1 + (i % 2) / 50);
    const opposite = compare(zigzag, zigzag, { permutations: 99 }).autocorrelation;
    expect(opposite.r.ok && opposite.r.value).toBeLessThan(0);
    expect(opposite).toMatchObject({ allowedFor: 0, effectiveSessions: [expect.closeTo(12, 10), expect.closeTo(12, 10)] });
    expect(opposite.p).toBeGreaterThan(0.9);
  });

  // Source: variance of the mean of k values whose correlation falls as r^lag, written out: k independent values are worth k^2 over the sum of all r^|i - j|
  it.each([
    [3, 0.5],
    [6, 0.3],
    [9, 0.9],
  ])("leaves %d sessions at %d their worth", (k, r) => {
    const values = Array.from({ length: k }, (_, i) => 1 + (i % 3));
    let sum = 0;
    for (let i = 0; i < k; i++) for (let j = 0; j < k; j++) sum += r ** Math.abs(i - j);
    const { effectiveSessions } = compare(values, [1, 2], { permutations: 99, autocorrelation: r }).autocorrelation;
    expect(effectiveSessions[0]).toBeCloseTo(k ** 2 / sum, 10);
    expect(effectiveSessions[1]).toBeCloseTo(4 / (2 + 2 * r), 10);
    expect(compare([], [1, 2]).autocorrelation.effectiveSessions[0]).toBe(0);
  });
});
