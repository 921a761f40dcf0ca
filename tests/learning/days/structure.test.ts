// sessionStructure by closed forms: exact courses with nights, rests and breaks, either direction, either scale; labels and warnings.
import { fc, test } from "@fast-check/vitest";
import { mean } from "simple-statistics";
import { describe, expect, it } from "vitest";
import type { PracticeTrials } from "../../../src/learning/days/group-trials.js";
import { type SessionStructureOptions, sessionStructure } from "../../../src/learning/session-structure.js";
import type { Estimate } from "../../../src/math/estimate.js";
import { createRandom } from "../../../src/math/random.js";
import { labelsIn } from "../estimates-in.js";

const amountOf = (estimate: Estimate): number => (estimate.ok ? estimate.value : Number.NaN);

interface Course {
  readonly days: readonly number[];
  readonly levels: readonly number[];
  readonly lengths: readonly number[];
  readonly size: number;
  readonly rate: number;
  readonly slope: number;
}

/** Trials that follow level + size exp(-rate k) + slope k, by `to` on another scale, with an error of each. */
function trialsOf(
  { days, levels, lengths, size, rate, slope }: Course,
  to: (y: number) => number = (y) => y,
  error: (i: number) => number = () => 0,
): PracticeTrials {
  const at = lengths.flatMap((length, j) => Array.from({ length }, (_, k) => [j, k] as const));
  return {
    session: at.map(([j]) => 10 * j),
    day: at.map(([j]) => days[j]!),
    value: at.map(([j, k], i) => to(levels[j]! + size * Math.exp(-rate * k) + slope * k + error(i))),
  };
}

// two sessions on the third day; a break before the last two; sessions of unequal length
const COURSE: Course = {
  days: [0, 1, 2, 2.4, 3, 4, 10, 11],
  levels: [5, 4.8, 4.6, 4.5, 4.3, 4.1, 4.6, 4.4],
  lengths: [20, 24, 18, 22, 30, 20, 26, 20],
  size: 1.5,
  rate: 0.4,
  slope: 0.01,
};

describe("an exact course", () => {
  const normal = { errors: "normal", unit: "cm" } as const;
  const exact = sessionStructure(trialsOf(COURSE), normal);

  // Source: closed form: 0.2 better over each night, 0.1 over the rest, 0.5 worse over the break; the slope is a loss, gone by the next session
  it("has its nights, rests and breaks", () => {
    expect(exact.overnight.nights).toBe(5);
    expect(amountOf(exact.overnight.corrected.amount)).toBeCloseTo(-0.2, 8);
    expect(amountOf(exact.afterBreak.change.amount)).toBeCloseTo(0.5, 8);
    expect(exact.afterBreak.breaks).toBe(1);
    expect(exact.slopeTakenAs).toBe("fatigue");
    expect(exact.steps.map(({ kind }) => kind)).toEqual(["night", "night", "rest", "night", "night", "break", "night"]);
    expect(exact.steps.map(({ from, to, days }) => [from, to, days])).toEqual(
      COURSE.days.slice(1).map((day, j) => [10 * j, 10 * (j + 1), expect.closeTo(day - COURSE.days[j]!, 12)]),
    );
  });

  // Source: by hand: start of the next less the end of this one, with the slope of all its trials but one; shares of the middle of all sessions
  it("has its steps and levels", () => {
    const typical = mean(COURSE.levels.map((level, j) => level + (0.01 * (COURSE.lengths[j]! - 1)) / 2));
    exact.steps.forEach((step, j) => {
      const change = COURSE.levels[j + 1]! - COURSE.levels[j]!;
      expect(step.corrected).toBeCloseTo(change / typical, 7);
      expect(step.warmUpRemoved).toBeCloseTo((change - 0.01 * (COURSE.lengths[j]! - 1)) / typical, 7);
    });
    exact.sessions.forEach(({ session, day, n, start, end, warmUp, mean: own, afterWarmUp }, j) => {
      const level = COURSE.levels[j]!;
      const length = COURSE.lengths[j]!;
      expect([session, day, n]).toEqual([10 * j, COURSE.days[j], length]);
      expect(start).toBeCloseTo(level, 7);
      expect(end).toBeCloseTo(level + 0.01 * (length - 1), 7);
      const at = (k: number): number => level + 1.5 * Math.exp(-0.4 * k) + 0.01 * k;
      const all = Array.from({ length }, (_, k) => at(k));
      expect(own).toBeCloseTo(mean(all), 10);
      // ln 20/0.4 is 7.5 trials: from the ninth on it is over
      expect(afterWarmUp).toBeCloseTo(mean(all.slice(8)), 10);
      const decay = mean(all.map((_, k) => Math.exp(-0.4 * k)));
      expect(warmUp).toBeCloseTo(1.5 / (mean(all) - 1.5 * decay), 6);
    });
    expect(amountOf(exact.warmUp.decrement.share)).toBeCloseTo(1.5 / typical, 7);
    expect(amountOf(exact.slope.share)).toBeCloseTo(0.01 / typical, 8);
  });

  // Source: closed form: after the break 4.6 against 4.1: not again within two sessions; a return to 4.0 in the second is its recovery
  it("counts sessions until a break is made good, in either direction", () => {
    expect(exact.steps.map(({ recoveredAfter }) => recoveredAfter)).toEqual([null, null, null, null, null, null, null]);
    const back = { ...COURSE, levels: [...COURSE.levels.slice(0, 7), 4] };
    expect(sessionStructure(trialsOf(back), normal).steps[5]!.recoveredAfter).toBe(2);
    const better = { ...normal, better: "higher" } as const;
    expect(sessionStructure(trialsOf(back), better).steps[5]!.recoveredAfter).toBe(1);
    expect(sessionStructure(trialsOf({ ...COURSE, levels: [...COURSE.levels.slice(0, 6), 3, 4.2] }), better).steps[5]!.recoveredAfter).toBe(
      2,
    );
  });

  // Source: closed form: the best of a session of median length (20, 20, 20, 22, 24 ...: the upper of the two middle ones, 22) is where the warm-up falls as
  // fast as the slope rises, in whole trials; ratio of the last to it
  it("has the ratio of its end to its best", () => {
    const middle = mean(COURSE.levels.map((level, j) => level + (0.01 * (COURSE.lengths[j]! - 1)) / 2));
    const at = (k: number): number => middle + 1.5 * Math.exp(-0.4 * k) + 0.01 * (k - 21 / 2);
    const best = Math.min(...Array.from({ length: 22 }, (_, k) => at(k)));
    expect(amountOf(exact.endToBest)).toBeCloseTo(at(21) / best, 6);
    // no slope and no gain: the last trial is the best, and nothing is unsure about it
    const still = sessionStructure(trialsOf({ ...COURSE, slope: -0.01 }), normal);
    expect(still.endToBest).toEqual({ ok: true, value: 1, unit: "1", n: 8 });
  });

  // Source: the same course on logarithms: shares are exp(change) - 1, amounts that of the typical level, the exponential of the mean of logarithms
  it("has on logarithms the shares of its exponentials", () => {
    const logs = { ...COURSE, levels: COURSE.levels.map((level) => level / 10), size: 0.15, slope: 0.001 };
    const found = sessionStructure(trialsOf(logs, Math.exp), { unit: "cm" });
    const typical = Math.exp(mean(logs.levels.map((level, j) => level + (0.001 * (logs.lengths[j]! - 1)) / 2)));
    expect(amountOf(found.overnight.corrected.share)).toBeCloseTo(Math.expm1(-0.02), 8);
    expect(amountOf(found.overnight.corrected.amount)).toBeCloseTo(typical * Math.expm1(-0.02), 8);
    expect(amountOf(found.afterBreak.change.share)).toBeCloseTo(Math.expm1(0.05), 8);
    expect(amountOf(found.warmUp.decrement.share)).toBeCloseTo(Math.expm1(0.15), 7);
    expect(found.steps[5]!.corrected).toBeCloseTo(Math.expm1(0.05), 7);
    expect(found.sessions[0]!.start).toBeCloseTo(Math.exp(0.5), 7);
    expect(found.sessions[0]!.warmUp).toBeCloseTo(Math.expm1(0.15), 6);
  });

  // Source: closed form: taken as a gain, the slope of this one stays in the end level, so that a night is 0.2 and the mean of the slopes better
  it("takes the slope as it is told", () => {
    const even = {
      ...COURSE,
      days: [0, 1, 2, 3, 4, 5, 6, 7],
      levels: [8, 7, 6, 5, 4, 3, 2, 1].map((v) => 5 + v / 5),
      lengths: new Array(8).fill(20),
    };
    const as = (slope: "fatigue" | "gain" | "judge", course = even) => sessionStructure(trialsOf(course), { ...normal, slope });
    expect(amountOf(as("fatigue").overnight.corrected.amount)).toBeCloseTo(-0.2, 8);
    expect(amountOf(as("gain").overnight.corrected.amount)).toBeCloseTo(-0.2 - 0.19, 8);
    expect(as("gain").steps[0]!.corrected).toBe(as("gain").steps[0]!.warmUpRemoved);
    expect([as("fatigue").slopeTakenAs, as("gain").slopeTakenAs, as("judge").slopeTakenAs]).toEqual(["fatigue", "gain", "fatigue"]);
    expect(as("judge", { ...even, slope: -0.01 }).slopeTakenAs).toBe("gain");
    expect(sessionStructure(trialsOf(even), { ...normal, better: "higher" }).slopeTakenAs).toBe("gain");
  });

  // Source: the meaning of the scale: a course of logarithms negated is that of inverse values, for which the other way is better
  test.prop([fc.integer({ min: 1, max: 1e6 })], { numRuns: 15 })("is turned round by inverse values", (seed) => {
    const random = createRandom(seed);
    const errors = Array.from({ length: 180 }, () => random.normal(0, 0.02));
    const course = { ...COURSE, size: 0.3 };
    const one = sessionStructure(
      trialsOf(
        course,
        (y) => Math.exp(y / 10),
        (i) => errors[i]!,
      ),
    );
    const other = sessionStructure(
      trialsOf(
        course,
        (y) => Math.exp(-y / 10),
        (i) => errors[i]!,
      ),
      { better: "higher" },
    );
    expect(other.warnings).toEqual(one.warnings);
    expect(other.slopeTakenAs).toBe(one.slopeTakenAs);
    expect(other.steps.map(({ recoveredAfter }) => recoveredAfter)).toEqual(one.steps.map(({ recoveredAfter }) => recoveredAfter));
    if (one.endToBest.ok && other.endToBest.ok) expect(1 / amountOf(other.endToBest)).toBeCloseTo(amountOf(one.endToBest), 5);
    expect(1 / (1 + amountOf(other.overnight.raw.share)) - 1).toBeCloseTo(amountOf(one.overnight.raw.share), 9);
    expect(1 / (1 + amountOf(other.overnight.warmUpRemoved.share)) - 1).toBeCloseTo(amountOf(one.overnight.warmUpRemoved.share), 5);
  });
});

describe("labels and warnings of a session structure", () => {
  const random = createRandom(3);
  const noise = Array.from({ length: 400 }, () => random.normal(0, 0.01));
  const noisy = (course: Course): PracticeTrials =>
    trialsOf(
      course,
      (y) => Math.exp(y / 5),
      (i) => noise[i]!,
    );

  it("are complete", () => {
    const full = sessionStructure(noisy(COURSE), { unit: "cm", level: 0.9 });
    const effect = (path: string, n: number, per = ""): string[] => [
      `${path}/share: unit "1${per}", n ${n}, level 0.9`,
      `${path}/amount: unit "cm${per}", n ${n}, level 0.9`,
    ];
    expect(labelsIn(full)).toEqual([
      ...effect("warmUp/decrement", 8),
      'warmUp/length: unit "trial", n 8, level 0.9',
      ...effect("slope", 8, "/trial"),
      'endToBest: unit "1", n 8, level 0.9',
      ...effect("overnight/corrected", 8),
      ...effect("overnight/warmUpRemoved", 8),
      ...effect("overnight/raw", 5),
      ...effect("afterBreak/change", 8),
      'sessionSd: unit "1", n 8',
      'autocorrelation: unit "1", n 8',
    ]);
    expect(full).toMatchObject({
      unit: "cm",
      level: 0.9,
      better: "lower",
      errors: "lognormal",
      n: 180,
      warnings: ["fewTrials", "warmUpMistakenForLoss"],
    });
  });

  const even: Course = {
    ...COURSE,
    days: [0, 1, 2, 3, 4, 5, 6, 7],
    levels: [5.04, 5, 5.03, 4.98, 5.02, 5.01, 4.97, 5.03],
    lengths: new Array(8).fill(25),
    slope: 0,
  };
  const warned = (course: Course, options: SessionStructureOptions = {}) => sessionStructure(noisy(course), options).warnings;
  it("name what the sessions lack", () => {
    const { session, value } = noisy(even);
    expect(sessionStructure({ session, value }).warnings).toContain("noDays");
    expect(warned(even)).not.toContain("noDays");
    const first = (count: number): Course => ({ ...even, levels: even.levels.slice(0, count), lengths: even.lengths.slice(0, count) });
    expect(warned(first(4))).toContain("fewSessions");
    expect(warned(first(5))).not.toContain("fewSessions");
    const length = (trials: number): Course => ({ ...even, lengths: [25, 25, 25, trials, 25, 25, 25, 25] });
    expect(warned(length(19))).toContain("fewTrials");
    expect(warned(length(20))).not.toContain("fewTrials");
  });
  it("name what was found or not", () => {
    expect(warned({ ...even, size: 0 })).toContain("noWarmUp");
    expect(warned(even)).not.toContain("noWarmUp");
    // one bad first trial: the rate runs into the end of its range
    expect(warned({ ...even, rate: 9 })).toContain("rateAtLimit");
    expect(warned(even)).not.toContain("rateAtLimit");
    expect(warned({ ...even, slope: -0.01 })).toContain("gainWithinSession");
    expect(warned({ ...even, slope: -0.01 }, { better: "higher" })).not.toContain("gainWithinSession");
    expect(warned({ ...even, slope: 0.01 }, { better: "higher" })).toContain("gainWithinSession");
  });
  // Source: what the names say: without warm-up and fatigue first and last blocks mislead nobody; a warm-up makes a false loss, a fatigue a false gain; where
  // higher is better, a first block that lies high is a false gain and one that lies low a false loss
  it("name a night that first and last blocks take for what it is not", () => {
    const both = (course: Course, options: SessionStructureOptions = {}) =>
      warned(course, options).filter((name) => name.includes("Mistaken"));
    expect(both({ ...even, size: 0 })).toEqual([]);
    expect(both({ ...even, size: 0.8 })).toEqual(["warmUpMistakenForLoss"]);
    expect(both({ ...even, size: 0, slope: 0.02 })).toEqual(["fatigueMistakenForGain"]);
    expect(both({ ...even, size: -0.8 }, { better: "higher" })).toEqual(["warmUpMistakenForLoss"]);
    expect(both({ ...even, size: 0, slope: -0.02 }, { better: "higher" })).toEqual(["fatigueMistakenForGain"]);
  });
  // Source: levels that wander in waves resemble their neighbours; levels that go up and down in turn do the opposite
  it("name levels that resemble their neighbours", () => {
    const long = (level: (j: number) => number): Course => {
      const days = Array.from({ length: 16 }, (_, j) => j);
      return { ...even, days, levels: days.map((j) => 5 + 0.2 * level(j)), lengths: new Array(16).fill(25) };
    };
    expect(warned(long((j) => Math.sin(j / 1.5)))).toContain("autocorrelated");
    expect(warned(long((j) => (j % 2 === 0 ? 1 : -1)))).not.toContain("autocorrelated");
  });
});
