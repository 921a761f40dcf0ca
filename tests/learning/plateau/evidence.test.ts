// Each line of evidence of a plateau by a closed form, and each warning by a series that has it and one that lacks it.
import { standardDeviation, sum } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { detectPlateau } from "../../../src/learning/detect-plateau.js";
import { fitLearningCurve } from "../../../src/learning/fit-learning-curve.js";
import { improvementScale } from "../../../src/learning/plateau/scale.js";
import { segmentEvidence } from "../../../src/learning/plateau/segment-evidence.js";
import type { DetectPlateauOptions, PlateauSeries } from "../../../src/learning/plateau/types.js";
import { createRandom } from "../../../src/math/random.js";

const daily = (n: number): number[] => Array.from({ length: n }, (_, i) => i);
const noisy = (n: number, sd: number, course: (day: number) => number, seed = 1): { day: number[]; value: number[] } => {
  const random = createRandom(seed);
  return { day: daily(n), value: daily(n).map((at) => 0.6 * Math.exp(course(at) + random.normal(0, sd))) };
};
const DIFFERENCE = { kind: "difference", better: "higher", worthwhile: 1, unit: "cm" } as const;

describe("the scale of improvements", () => {
  // Source: by hand: 20 % better is a fall to 0.8 where lower is better and a rise to 1.2 where higher is; a loss is the other
  it.each([
    ["lower", -Math.log(0.8), Math.log(1.2)],
    ["higher", Math.log(1.2), -Math.log(0.8)],
  ] as const)("is one of logarithms for percent, %s better", (better, gain, loss) => {
    const scale = improvementScale("percent", better, 20, "s");
    expect(scale).toMatchObject({ unit: "%", gain: expect.closeTo(gain, 12), loss: expect.closeTo(loss, 12) });
    expect(scale.improvement(gain)).toBeCloseTo(20, 10);
    expect(scale.improvement(-loss)).toBeCloseTo(-20, 10);
    expect(scale.of(2)).toBeCloseTo(better === "lower" ? -Math.LN2 : Math.LN2, 12);
  });
  it.each([
    ["lower", -3],
    ["higher", 3],
  ] as const)("is that of the measure for differences, %s better", (better, of) => {
    const scale = improvementScale("difference", better, 20, "cm");
    expect(scale).toMatchObject({ unit: "cm", gain: 20, loss: 20 });
    expect([scale.improvement(4), scale.improvement(-4), scale.of(3)]).toEqual([4, -4, of]);
  });
});

describe("segments", () => {
  const scale = improvementScale("difference", "higher", 1, "cm");
  // drawn errors: a pattern would look like neighbours that resemble each other
  const random = createRandom(2);
  const drawn = daily(60).map(() => random.normal(0, 0.1));
  const wiggle = (i: number): number => drawn[i]!;
  // small and even: no line through part of it beats a level
  const pattern = (i: number): number => 0.05 * (((7 * i) % 5) - 2);
  const at = (value: readonly number[], curveSum: number | undefined = undefined, from = 0, since = 0) =>
    segmentEvidence(Float64Array.from(daily(value.length)), Float64Array.from(value), from, since, 0, curveSum, scale);
  const step = (by: number) => daily(40).map((i) => (i < 20 ? 5 : 5 + by) + wiggle(i));

  // Source: the meaning of a worthwhile step: of 1 or more either way
  it.each([
    [1.2, [20]],
    [-1.2, [20]],
    [0.8, []],
    [-0.8, []],
  ])("with a step by %d are %j", (by, steps) =>
    expect(at(step(by))).toMatchObject({ steps, speaks: steps.length > 0 ? "against" : "silent" }),
  );
  it("number steps in the series, from the recent stretch on", () => {
    expect(at(step(1.2), undefined, 2, 30).steps).toEqual([50]);
    expect(at(step(1.2), undefined, 20, 30).steps).toEqual([]);
    expect(at([5, 5, 5, 9, 9, 9, 9]).steps).toEqual([]);
  });
  it("tell one worthwhile step from a small one", () => {
    const both = daily(60).map((i) => (i < 20 ? 5 : i < 40 ? 5.8 : 7) + wiggle(i));
    expect(at(both).steps).toEqual([40]);
  });

  // Source: the Bayesian criterion written out, n ln(sum of squares) + k ln n with three numbers of the curve and one of the level (simple-statistics 7.12.1
  // standardDeviation, which divides by n)
  it("compare a level with the curve by its criterion", () => {
    const flat = daily(20).map((i) => 5 + pattern(i));
    const squares = 20 * standardDeviation(flat) ** 2;
    const expected = (curve: number): number => 20 * Math.log(curve) + 3 * Math.log(20) - (20 * Math.log(squares) + Math.log(20));
    expect(at(flat, 0.9 * squares)).toMatchObject({
      levelOverCurve: expect.closeTo(expected(0.9 * squares), 8),
      levelSince: null,
      speaks: "silent",
    });
    expect(at(flat, squares)).toMatchObject({ levelOverCurve: expect.closeTo(2 * Math.log(20), 8), speaks: "silent" });
    expect(at(flat, 1.1 * squares)).toMatchObject({ levelOverCurve: expect.closeTo(expected(1.1 * squares), 8), speaks: "for" });
  });
  it("compare nothing without a curve that leaves something", () => {
    const flat = daily(20).map((i) => 5 + pattern(i));
    for (const sum of [undefined, 0])
      expect(at(flat, sum)).toEqual({ speaks: "silent", levelOverCurve: null, levelSince: null, steps: [] });
    expect(at(new Array<number>(20).fill(5), 1)).toMatchObject({ levelOverCurve: null, levelSince: null });
  });

  // Source: by construction: a line up to day 12 and a level from there on; a curve that leaves ten times as much; one that falls to the level is no gain
  it("find the day at which a line bends to a level", () => {
    const bent = daily(30).map((i) => 5 + 0.2 * Math.min(i, 12) + 0.2 * pattern(i));
    const own = sum(daily(30).map((i) => (0.2 * pattern(i)) ** 2));
    const found = at(bent, 10 * own);
    expect(found.levelSince).toBeCloseTo(12, 0);
    expect(found.levelOverCurve).toBeGreaterThan(6);
    expect(at(bent, own).levelSince).toBeNull();
    expect(
      at(
        bent.map((v) => -v),
        10 * own,
      ).levelSince,
    ).toBeNull();
  });
});

describe("the asymptote", () => {
  const learner = { day: daily(24), value: daily(24).map((i) => 5 - 3 * Math.exp(-0.15 * i) + 0.02 * (((7 * i) % 5) - 2)) };
  // Source: the fitted curve itself (checked in fit-learning-curve.test.ts): a - b exp(-c u) promises b exp(-c u) (1 - exp(-c h)) over h more days, and
  // exp(-c 23) of its gain is left
  it.each([5, 14])("promises what the curve still gains in %d days", (horizon) => {
    const { asymptote } = detectPlateau(learner, { ...DIFFERENCE, horizon }).evidence;
    const fit = fitLearningCurve(
      { practice: daily(24).map((i) => i + 1), value: learner.value },
      { intervals: "wald", level: 0.9, bounds: { a: [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] } },
    );
    const { b, c } = fit.parameters;
    if (!b!.ok || !c!.ok || !asymptote.projected.ok) throw new Error("not fitted");
    const left = Math.exp(-c!.value * 23);
    const gain = -b!.value * left * (1 - Math.exp(-c!.value * horizon));
    expect(asymptote.projected).toMatchObject({ value: expect.closeTo(gain, 8), unit: "cm", n: 24, level: 0.9 });
    expect(asymptote.remaining).toMatchObject({ value: expect.closeTo(left, 8), unit: "1", n: 24, level: 0.9 });
    // error propagation by small steps in place of derivatives; z of 90 %
    const promise = (vb: number, vc: number): number => -vb * (Math.exp(-vc * 23) - Math.exp(-vc * (23 + horizon)));
    const byB = promise(1, c!.value);
    const byC = (promise(b!.value, c!.value + 1e-6) - promise(b!.value, c!.value - 1e-6)) / 2e-6;
    const [, [, bb, bc], [, , cc]] = fit.covariance as [number[], [number, number, number], [number, number, number]];
    const half = 1.6448536269514722 * Math.sqrt(byB * byB * bb + 2 * byB * byC * bc + byC * byC * cc);
    const [low, high] = asymptote.projected.interval!;
    expect([low, high]).toEqual([expect.closeTo(gain - half, 6), expect.closeTo(gain + half, 6)]);
  });
  it("speaks for, against, or not at all, by what it promises", () => {
    const speaks = (options: DetectPlateauOptions, series: PlateauSeries = learner) =>
      detectPlateau(series, { ...DIFFERENCE, ...options }).evidence.asymptote.speaks;
    // some 0.08 to come in a fortnight, of 3
    expect(speaks({ worthwhile: 0.5 })).toBe("for");
    expect(speaks({ worthwhile: 0.01 })).toBe("against");
    const early = { day: daily(9), value: learner.value.slice(0, 9) };
    expect(speaks({ worthwhile: 0.01 }, early)).toBe("against");
    expect(speaks({ worthwhile: 50 }, early)).toBe("silent");
  });
});

describe("other measures", () => {
  const flat = noisy(20, 0.01, () => 0, 8);
  const rising = daily(20).map((i) => 5 + 0.1 * i + 0.3 * (((7 * i) % 5) - 2));
  const judged = (alongside: PlateauSeries["alongside"], n = 20) =>
    detectPlateau({ day: flat.day.slice(0, n), value: flat.value.slice(0, n), ...(alongside === undefined ? {} : { alongside }) }).evidence
      .alongside;
  it("speak against a plateau where they get better, whichever way that is", () => {
    const of = (value: number[], better: "lower" | "higher") => judged({ pace: { value, better } })[0]!;
    expect(of(rising, "higher")).toMatchObject({ name: "pace", speaks: "against" });
    expect(of(rising, "lower")).toMatchObject({ name: "pace", speaks: "silent" });
    expect(of(rising, "lower").chanceBetter! + of(rising, "higher").chanceBetter!).toBeCloseTo(1, 12);
    expect(
      of(
        rising.map((v) => -v),
        "lower",
      ).chanceBetter!,
    ).toBeCloseTo(of(rising, "higher").chanceBetter!, 10);
  });
  // Source: Bonferroni: one of m measures speaks from a chance of 1 - 0.025/m on
  it("must be surer the more there are", () => {
    const faint = (slope: number) => daily(20).map((i) => 5 + slope * i + 0.5 * (((7 * i) % 5) - 2));
    const still = daily(20).map((i) => 5 + (((7 * i) % 5) - 2));
    for (const slope of [0.02, 0.04, 0.05, 0.06, 0.08]) {
      for (const others of [0, 1, 9]) {
        const named = Object.fromEntries(daily(others).map((i) => [`m${i}`, { value: still, better: "higher" } as const]));
        const [one] = judged({ pace: { value: faint(slope), better: "higher" }, ...named });
        expect(one!.speaks).toBe(one!.chanceBetter! >= 1 - 0.025 / (others + 1) ? "against" : "silent");
      }
    }
  });
  it("say nothing of three sessions, of one day, or without scatter", () => {
    const silent = { name: "pace", speaks: "silent", chanceBetter: null };
    const pace = (value: number[]) => ({ pace: { value, better: "higher" } as const });
    expect(judged(pace(rising.slice(0, 3)), 3)).toEqual([silent]);
    expect(judged(pace(rising.slice(0, 4)), 4)[0]!.chanceBetter).not.toBeNull();
    expect(judged(pace(new Array<number>(20).fill(5)))).toEqual([silent]);
    expect(
      detectPlateau({ day: new Array<number>(6).fill(1), value: flat.value.slice(0, 6), alongside: pace(rising.slice(0, 6)) }).evidence
        .alongside,
    ).toEqual([silent]);
    expect(judged(undefined)).toEqual([]);
  });
});

describe("a warning or a reason of a plateau", () => {
  const flat = noisy(30, 0.01, () => 0, 8);
  const warned = (series: PlateauSeries, options: DetectPlateauOptions = {}) => detectPlateau(series, options).warnings;
  it("of equipment comes with another name before, and the sessions on it are left out", () => {
    const named = (names: readonly string[]) => detectPlateau({ ...flat, equipment: flat.day.map((at) => names[Math.floor(at / 10)]!) });
    expect(named(["a", "a", "a"]).warnings).not.toContain("equipmentChanged");
    expect(named(["a", "b", "b"])).toMatchObject({ recent: { from: 10, sessions: 20, days: 19 }, n: 30, warnings: ["equipmentChanged"] });
    // back on the first equipment: only the sessions since then
    expect(named(["a", "b", "a"]).recent).toEqual({ from: 20, sessions: 10, days: 9 });
    expect(named(["a", "b", "a"])).toMatchObject({ verdict: "cannotTell", why: "tooShort" });
  });
  it("of too easy a task comes above 97 % of the recent presses", () => {
    const share = (recent: number) => ({ ...flat, hitShare: flat.day.map(() => recent) });
    expect(warned(share(0.98))).toContain("taskTooEasy");
    expect(warned(share(0.96))).not.toContain("taskTooEasy");
    const easy = {
      ...flat,
      equipment: flat.day.map((at) => (at < 15 ? "a" : "b")),
      hitShare: flat.day.map((at) => (at < 15 ? 0.5 : 0.99)),
    };
    expect(warned(easy)).toContain("taskTooEasy");
  });
  it("of a break comes after more than seven days between recent sessions", () => {
    const gap = (days: number) => ({ ...flat, day: flat.day.map((at) => (at < 15 ? at : at - 1 + days)) });
    expect(warned(gap(7.5))).toContain("break");
    expect(warned(gap(7))).not.toContain("break");
  });
  it("of likeness comes above 0.3", () => {
    const waves = { day: daily(30), value: daily(30).map((i) => 0.6 + 0.02 * Math.sin(i / 2) + 0.001 * ((7 * i) % 5)) };
    const found = detectPlateau(waves);
    expect(found.evidence.trend.autocorrelation!).toBeGreaterThan(0.3);
    expect(found.warnings).toContain("autocorrelated");
    const zigzag = { day: daily(30), value: daily(30).map((i) => 0.6 + 0.01 * (i % 2) + 0.001 * ((7 * i) % 5)) };
    expect(warned(zigzag)).not.toContain("autocorrelated");
  });
  it("of a real but small trend comes either way, within what matters", () => {
    const drift = (slope: number) => noisy(40, 0.001, (at) => slope * at, 4);
    expect(warned(drift(0.0003))).toContain("realButSmall");
    expect(warned(drift(-0.0003))).toContain("realButSmall");
    expect(warned(drift(0.01))).not.toContain("realButSmall");
    expect(warned(flat)).not.toContain("realButSmall");
  });
  it("of an earlier course comes with one", () => {
    expect(warned(noisy(50, 0.01, (at) => 0.5 * Math.exp(-0.3 * at), 3))).toContain("earlierCourse");
    expect(warned(flat)).not.toContain("earlierCourse");
  });
  it("is too few, too short, too noisy or without scatter", () => {
    const why = (series: PlateauSeries, options: DetectPlateauOptions = {}) => detectPlateau(series, options).why;
    const first = (n: number, spacing = 1) => ({ day: daily(n).map((at) => spacing * at), value: flat.value.slice(0, n) });
    expect(why(first(7, 10))).toBe("tooFewSessions");
    expect(why(first(8))).toBe("tooShort");
    expect(why(first(8, 1.5))).not.toBe("tooShort");
    expect(why(noisy(12, 0.05, () => 0, 2))).toBe("tooNoisy");
    expect(why({ day: daily(12), value: new Array<number>(12).fill(2) })).toBe("noScatter");
    expect(detectPlateau(flat)).toMatchObject({
      verdict: "plateau",
      why: null,
      sessionsNeeded: null,
      better: "lower",
      kind: "percent",
      worthwhile: 2,
      horizon: 14,
    });
  });
  it("comes without a forecast from fewer than five sessions", () => {
    const first = (n: number) => detectPlateau({ day: daily(n), value: flat.value.slice(0, n) });
    expect(first(4)).toMatchObject({ detectable: null, sessionsNeeded: null });
    expect(first(5).detectable).toBeGreaterThan(0);
    expect(first(5).sessionsNeeded).toBeGreaterThanOrEqual(11 - 5);
    expect(detectPlateau(noisy(20, 0.01, (at) => -0.01 * at))).toMatchObject({ verdict: "improving", why: null, sessionsNeeded: null });
  });
  it("labels the trend, and doubles with the horizon", () => {
    const one = detectPlateau(flat, { ...DIFFERENCE, horizon: 10 }).evidence.trend;
    const other = detectPlateau(flat, { ...DIFFERENCE, horizon: 20 }).evidence.trend;
    if (!one.improvement.ok || !other.improvement.ok) throw new Error("no trend");
    expect(one.improvement).toMatchObject({ unit: "cm", n: 30, level: 0.9 });
    expect(other.improvement.value).toBeCloseTo(2 * one.improvement.value, 10);
    expect(other.improvement.interval).toEqual(one.improvement.interval!.map((end) => expect.closeTo(2 * end, 9)));
    expect(other.independent!.improvement).toBeCloseTo(2 * one.independent!.improvement, 10);
    expect(one.chances.gain + one.chances.loss).toBeCloseTo(1, 12);
    // the ends are those of 5 % either side: a worthwhile size just there has that chance
    const [low, high] = one.improvement.interval!;
    const at = (worthwhile: number) => detectPlateau(flat, { ...DIFFERENCE, horizon: 10, worthwhile }).evidence.trend.chances;
    expect(at(Math.abs(high)).worthwhileGain).toBeCloseTo(0.05, 6);
    expect(at(Math.abs(low)).worthwhileLoss).toBeCloseTo(0.05, 6);
  });
});
