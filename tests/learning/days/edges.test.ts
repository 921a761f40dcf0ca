// Sessions that are just enough, warnings at their limits, and the end of a session against its best by small steps.
import { describe, expect, it } from "vitest";
import { describeEffect, shareOf } from "../../../src/learning/days/describe-effect.js";
import { describeSessions } from "../../../src/learning/days/describe-sessions.js";
import { endToBest } from "../../../src/learning/days/end-to-best.js";
import { fitSessionShape, type SessionShape, warmUpLength } from "../../../src/learning/days/fit-session-shape.js";
import type { SessionFit } from "../../../src/learning/days/fit-sessions.js";
import { groupTrials } from "../../../src/learning/days/group-trials.js";
import { shapeCovariance } from "../../../src/learning/days/shape-covariance.js";
import type { Effect, SessionStructure } from "../../../src/learning/days/structure.js";
import { structureWarnings } from "../../../src/learning/days/structure-warnings.js";
import { sessionStructure } from "../../../src/learning/session-structure.js";
import type { Estimate } from "../../../src/math/estimate.js";
import { createRandom } from "../../../src/math/random.js";

const wiggle = (i: number): number => ((7 * i) % 5) - 2;
/** Sessions of these lengths with a warm-up. */
const sessionsOf = (lengths: readonly number[]) => {
  const all = lengths.flatMap((length, j) =>
    Array.from({ length }, (_, k) => [j, 0.8 + 0.2 * Math.exp(-0.5 * k) + 0.003 * wiggle(3 * k + j)] as const),
  );
  return { session: all.map(([j]) => j), value: all.map(([, v]) => v) };
};

describe("sessions that are enough", () => {
  // Source: the docstring of `trials`: at least three sessions of six trials or more, the longest of at least ten
  it.each([
    [[10, 6, 6], true],
    [[6, 6, 10], true],
    [[10, 6, 5], false],
    [[10, 5, 5, 5], false],
    [[10, 6, 6, 1], true],
    [[9, 9, 9], false],
    [[9, 9, 9, 10], true],
    [[10, 10], false],
  ])("are those of %j trials: %s", (lengths, enough) => {
    const { warmUp, slopeTakenAs } = sessionStructure(sessionsOf(lengths));
    expect(warmUp.decrement.share.ok).toBe(enough);
    if (!enough) expect(warmUp.decrement.share).toMatchObject({ why: "tooFew" });
    expect(slopeTakenAs === null).toBe(!enough);
  });
  // Source: the docstring of `warmUp` of a session: none of its own under six trials
  it("have a warm-up of their own from six trials on", () => {
    const { sessions } = sessionStructure(sessionsOf([20, 6, 5, 12]));
    expect(sessions.map(({ warmUp }) => warmUp === null)).toEqual([false, false, true, false]);
    expect(sessions.map(({ n }) => n)).toEqual([20, 6, 5, 12]);
  });
  it("have spread where one of them has", () => {
    const flat = { session: [0, 1, 2].flatMap((j) => new Array<number>(10).fill(j)), value: new Array<number>(30).fill(2) };
    expect(sessionStructure(flat).slope.share).toMatchObject({ why: "noSpread" });
    // levels that differ are no spread within the sessions
    expect(sessionStructure({ ...flat, value: flat.session.map((j) => 2 + j) }).slope.share).toMatchObject({ why: "noSpread" });
    const last = sessionStructure({ ...flat, value: flat.value.map((v, i) => (i > 25 ? v + wiggle(i) / 100 : v)) });
    expect(last.slope.share.ok).toBe(true);
  });
});

describe("groups of trials", () => {
  it("are runs of equal session numbers, with the day of their first trial", () => {
    expect(groupTrials("test", { session: [3, 3, 5, 9, 9, 9], value: [1, 1, 1, 1, 1, 1], day: [0, 0.5, 2, 2, 3, 3] }, true)).toEqual([
      { session: 3, day: 0, from: 0, to: 2 },
      { session: 5, day: 2, from: 2, to: 3 },
      { session: 9, day: 2, from: 3, to: 6 },
    ]);
    expect(groupTrials("test", { session: [1], value: [-1] }, false)).toEqual([{ session: 1, day: null, from: 0, to: 1 }]);
    expect(groupTrials("test", { session: [], value: [] }, true)).toEqual([]);
  });
});

describe("the shape of sessions", () => {
  // Source: ln 20 over the rate, by definition
  it("is over when a twentieth is left", () => expect(warmUpLength(0.5)).toBeCloseTo(2 * Math.log(20), 12));
  const lists = (rate: number, lengths: readonly number[]) => {
    const y: number[] = [];
    const ranges = lengths.map((length, j) => {
      const from = y.length;
      for (let k = 0; k < length; k++) y.push(3 + j + 0.8 * Math.exp(-rate * k) + 0.02 * k);
      return { session: j, day: null, from, to: y.length };
    });
    return fitSessionShape(Float64Array.from(y), ranges);
  };
  // Source: the truth of an exact course; the range of the docstring: from a warm-up of two trials to one of two thirds of the longest session
  it("has a rate inside its range, or at an end of it", () => {
    const inside = lists(0.4, [30, 20, 24]);
    expect([inside.size, inside.slope, inside.rate]).toEqual([expect.closeTo(0.8, 6), expect.closeTo(0.02, 7), expect.closeTo(0.4, 6)]);
    expect([...inside.levels]).toEqual([3, 4, 5].map((level) => expect.closeTo(level, 6)));
    expect(Math.max(...inside.residuals.map(Math.abs))).toBeLessThan(1e-6);
    expect(inside.rateInside).toBe(true);
    const fast = lists(5, [30, 20, 24]);
    expect(fast.rateInside).toBe(false);
    expect(warmUpLength(fast.rate)).toBeCloseTo(2, 6);
    const slow = lists(0.02, [20, 30, 24]);
    expect(slow.rateInside).toBe(false);
    expect(warmUpLength(slow.rate)).toBeCloseTo(20, 5);
    expect(lists(0.16, [20, 30, 24]).rateInside).toBe(true);
    expect(lists(1.4, [20, 30, 24]).rateInside).toBe(true);
  });
  // Source: leaving out each session in turn, in one Gauss-Newton step: with one column alone and sessions of two trials it is the textbook's jackknife; here by solving
  // the three normal equations without each session, by Cramer's rule
  it("has the jackknife's covariance", () => {
    const random = createRandom(7);
    const rate = 0.4;
    const lengths = [8, 10, 9, 12];
    let from = 0;
    const ranges = lengths.map((length, j) => {
      from += length;
      return { session: j, day: null, from: from - length, to: from };
    });
    const residuals = Float64Array.from({ length: from }, () => random.normal());
    for (const range of ranges) {
      const mean = residuals.subarray(range.from, range.to).reduce((sum, v) => sum + v, 0) / (range.to - range.from);
      for (let i = range.from; i < range.to; i++) residuals[i]! -= mean;
    }
    const rows = ranges.map(({ from: first, to }) => {
      const raw = Array.from({ length: to - first }, (_, k) => [Math.exp(-rate * k), k, -rate * k * Math.exp(-rate * k)]);
      const mean = [0, 1, 2].map((a) => raw.reduce((sum, row) => sum + row[a]!, 0) / raw.length);
      return raw.map((row) => row.map((v, a) => v - mean[a]!));
    });
    const cross = (of: readonly (readonly number[])[]) =>
      [0, 1, 2].map((a) => [0, 1, 2].map((b) => of.reduce((sum, row) => sum + row[a]! * row[b]!, 0)));
    const det = (m: readonly (readonly number[])[]): number =>
      m[0]![0]! * (m[1]![1]! * m[2]![2]! - m[1]![2]! * m[2]![1]!) -
      m[0]![1]! * (m[1]![0]! * m[2]![2]! - m[1]![2]! * m[2]![0]!) +
      m[0]![2]! * (m[1]![0]! * m[2]![1]! - m[1]![1]! * m[2]![0]!);
    const changes = ranges.map(({ from: first }, left) => {
      const others = cross(rows.filter((_, j) => j !== left).flat());
      const score = [0, 1, 2].map((a) => rows[left]!.reduce((sum, row, k) => sum + row[a]! * residuals[first + k]!, 0));
      return [0, 1, 2].map((b) => det(others.map((row, a) => row.map((v, c) => (c === b ? score[a]! : v)))) / det(others));
    });
    const found = shapeCovariance(ranges, residuals, rate);
    for (let a = 0; a < 3; a++) {
      for (let b = 0; b < 3; b++) {
        const expected = changes.reduce((sum, change) => sum + (3 / 4) * change[a]! * change[b]!, 0);
        expect(found[a]![b]! / expected).toBeCloseTo(1, 7);
      }
    }
  });
});

describe("the end of a session against its best", () => {
  const shape = { size: 0.3, rate: 0.25, slope: 0.01 } as SessionShape;
  const covariance = [
    [4e-4, 1e-5, 2e-5],
    [1e-5, 4e-6, -1e-5],
    [2e-5, -1e-5, 9e-4],
  ];
  const of = (errors: "normal" | "lognormal", better: "lower" | "higher", given = shape, typical = 2, length = 30, spread = covariance) =>
    endToBest(given, spread, length, 6, better, { errors, typical, unit: "s", level: 0.95 });
  const T5 = 2.5705818356363146;
  /** The best trial, the distance of the last from it and its error, with the derivatives by small steps; the third number is size times log rate. */
  function byHand(given: SessionShape, sign: number, length = 30) {
    const at = (k: number, size = given.size, slope = given.slope, rate = given.rate) => size * Math.exp(-rate * k) + slope * k;
    let best = 0;
    for (let k = 1; k < length; k++) if (sign * at(k) <= sign * at(best)) best = k;
    const gap = (size: number, slope: number, rate: number) => at(length - 1, size, slope, rate) - at(best, size, slope, rate);
    const h = 1e-6;
    const { size, slope, rate } = given;
    const gradient = [
      (gap(size + h, slope, rate) - gap(size - h, slope, rate)) / (2 * h),
      (gap(size, slope + h, rate) - gap(size, slope - h, rate)) / (2 * h),
      (gap(size, slope, rate * Math.exp(h)) - gap(size, slope, rate * Math.exp(-h))) / (2 * h * size),
    ];
    const variance = gradient.reduce((sum, a, i) => sum + gradient.reduce((part, b, j) => part + a * b * covariance[i]![j]!, 0), 0);
    return { gap: gap(size, slope, rate), half: T5 * Math.sqrt(variance), level: at(best) - (slope * (length - 1)) / 2 };
  }
  // Source: the delta method with derivatives by small steps; t with five degrees of freedom by SciPy 1.17.1
  it("is the exponential of their distance on logarithms, not below 1", () => {
    const { gap, half } = byHand(shape, 1);
    expect(of("lognormal", "lower")).toEqual({
      ok: true,
      value: expect.closeTo(Math.exp(gap), 12),
      unit: "1",
      n: 6,
      interval: [expect.closeTo(Math.max(1, Math.exp(gap - half)), 7), expect.closeTo(Math.exp(gap + half), 7)],
      level: 0.95,
    });
    const wide = of(
      "lognormal",
      "lower",
      shape,
      2,
      30,
      covariance.map((row) => row.map((v) => 100 * v)),
    );
    expect(wide).toMatchObject({ interval: [1, expect.closeTo(Math.exp(gap + 10 * half), 6)] });
  });
  it("is their ratio about the middle of the session on the scale of the values", () => {
    const { gap, half, level } = byHand(shape, 1);
    expect(of("normal", "lower")).toMatchObject({
      value: expect.closeTo(1 + gap / (2 + level), 12),
      interval: [expect.closeTo(1 + (gap - half) / (2 + level), 7), expect.closeTo(1 + (gap + half) / (2 + level), 7)],
    });
  });
  it("is not above 1 where higher is better", () => {
    const turned = { ...shape, size: -0.3, slope: -0.01 } as SessionShape;
    const { gap, half, level } = byHand(turned, -1);
    expect(gap).toBeLessThan(0);
    expect(of("normal", "higher", turned)).toMatchObject({
      value: expect.closeTo(1 + gap / (2 + level), 12),
      interval: [expect.closeTo(1 + (gap - half) / (2 + level), 6), expect.closeTo(Math.min(1, 1 + (gap + half) / (2 + level)), 6)],
    });
    const wide = of(
      "normal",
      "higher",
      turned,
      2,
      30,
      covariance.map((row) => row.map((v) => 100 * v)),
    );
    expect(wide.ok && wide.interval![1]).toBe(1);
  });
  it("is 1 where the last is the best, and not told of a best that is not above 0", () => {
    expect(of("normal", "higher")).toMatchObject({ ok: true });
    expect(of("normal", "lower", { ...shape, slope: -0.01 } as SessionShape)).toEqual({ ok: true, value: 1, unit: "1", n: 6 });
    expect(of("normal", "lower", shape, 0.01)).toEqual({ ok: false, why: "notIdentified", unit: "1", n: 6 });
    expect(of("lognormal", "lower", shape, 0.01).ok).toBe(true);
    // one trial is the last and the best
    expect(of("normal", "lower", shape, 2, 1)).toEqual({ ok: true, value: 1, unit: "1", n: 6 });
  });
});

describe("effects", () => {
  const scale = (errors: "normal" | "lognormal", typical: number) => ({ errors, typical, unit: "cm", level: 0.95 }) as const;
  // Source: t with four degrees of freedom by SciPy 1.17.1: 2.7764451051977934; shares by division, or exp - 1
  it("are shares and amounts with their intervals", () => {
    const change = { value: -0.1, variance: 0.0009, df: 4 };
    const half = 2.7764451051977934 * 0.03;
    const plain = describeEffect(change, 5, scale("normal", 2), "/trial");
    const ends = [-0.1, -0.1 - half, -0.1 + half];
    const said = (estimate: Estimate) => (estimate.ok ? [estimate.value, ...estimate.interval!] : []);
    const close = (values: readonly number[]) => values.map((v) => expect.closeTo(v, 8));
    expect(said(plain.amount)).toEqual(close(ends));
    expect(said(plain.share)).toEqual(close(ends.map((v) => v / 2)));
    expect([plain.share.unit, plain.amount.unit, plain.share.n]).toEqual(["1/trial", "cm/trial", 5]);
    const logs = describeEffect(change, 5, scale("lognormal", 2));
    expect(said(logs.share)).toEqual(close(ends.map(Math.expm1)));
    expect(said(logs.amount)).toEqual(close(ends.map((v) => 2 * Math.expm1(v))));
  });
  it("have no share of a level that is not above 0", () => {
    expect(describeEffect({ value: 1, variance: 1, df: 4 }, 5, scale("normal", 0))).toMatchObject({
      share: { ok: false, why: "notIdentified", unit: "1", n: 5 },
      amount: { ok: true, value: 1, unit: "cm" },
    });
    expect(shareOf(scale("normal", -1))(2)).toBeNull();
    expect(shareOf(scale("normal", 4))(2)).toBe(0.5);
    expect(shareOf(scale("lognormal", -1))(0)).toBe(0);
    expect(describeEffect(undefined, 5, scale("normal", 2)).share).toEqual({ ok: false, why: "tooFew", unit: "1", n: 5 });
    expect(describeEffect("noSpread", 5, scale("normal", 2)).amount).toEqual({ ok: false, why: "noSpread", unit: "cm", n: 5 });
  });
});

describe("the figures of a session", () => {
  const value = [5, 4, 3, 2, 2, 2, 2, 9];
  const of = (warmUpTrials: number | null, shape?: SessionShape) =>
    describeSessions([{ session: 4, day: 1, from: 0, to: 8 }], {
      value,
      y: Float64Array.from(value),
      errors: "normal",
      shape,
      warmUpTrials,
    })[0]!;
  // Source: by hand: means of all, and of those past the warm-up, its length rounded up
  it("are means of all trials and of those after the warm-up", () => {
    expect(of(3)).toEqual({ session: 4, day: 1, n: 8, mean: 29 / 8, start: null, end: null, afterWarmUp: 17 / 5, warmUp: null });
    expect(of(2.1).afterWarmUp).toBe(17 / 5);
    expect(of(7).afterWarmUp).toBe(9);
    expect(of(8).afterWarmUp).toBeNull();
    expect(of(30).afterWarmUp).toBeNull();
    expect(of(null).afterWarmUp).toBeNull();
  });
  // Source: an exact course at the common rate: its excess of 1 over the level without it, 3 and half of 0.5 for each trial but one
  it("are its own warm-up as a share, where the level is above 0", () => {
    const shape = { levels: Float64Array.of(2), slope: 0.5, rate: 0.4, size: 7 } as unknown as SessionShape;
    const own = (level: number, errors: "normal" | "lognormal" = "normal") => {
      const y = Float64Array.from({ length: 8 }, (_, k) => level + Math.exp(-0.4 * k) + 0.5 * k);
      return describeSessions([{ session: 4, day: 1, from: 0, to: 8 }], { value: y, y, errors, shape, warmUpTrials: 3 })[0]!;
    };
    expect(own(3)).toMatchObject({ start: 2, end: 5.5, warmUp: expect.closeTo(1 / (3 + 0.5 * 3.5), 9) });
    expect(own(-20).warmUp).toBeNull();
    expect(own(-20, "lognormal")).toMatchObject({ start: expect.closeTo(Math.exp(2), 12), warmUp: expect.closeTo(Math.expm1(1), 8) });
  });
});

describe("a warning about sessions", () => {
  const sessions = Array.from({ length: 5 }, (_, j) => ({ session: j, day: j, from: 20 * j, to: 20 * (j + 1) }));
  const effect = (interval?: readonly [number, number]): Effect => {
    const share: Estimate =
      interval === undefined
        ? { ok: false, why: "tooFew", unit: "1", n: 5 }
        : { ok: true, value: (interval[0] + interval[1]) / 2, unit: "1", n: 5, interval, level: 0.95 };
    return { share, amount: share };
  };
  const overnight = (raw?: readonly [number, number], corrected?: readonly [number, number]): SessionStructure["overnight"] => ({
    nights: 4,
    raw: effect(raw),
    corrected: effect(corrected),
    warmUpRemoved: effect(corrected),
  });
  const fitWith = (p?: number, change: object = {}) =>
    ({
      warmUpShown: true,
      shape: { rateInside: true },
      slopeTakenAs: "fatigue",
      corrected: { autocorrelation: p === undefined ? undefined : { p } },
      ...change,
    }) as unknown as SessionFit;
  const NONE: readonly [number, number] = [-1, 1];
  const said = (
    raw?: readonly [number, number],
    corrected?: readonly [number, number],
    better: "lower" | "higher" = "lower",
    of: SessionFit | undefined = fitWith(),
  ) => structureWarnings(sessions, of, overnight(raw, corrected), better);

  // Source: what the names say; an interval that ends at 0 does not exclude it
  it("of a false gain or loss comes where first and last blocks say another thing", () => {
    expect(said([-2, -1], NONE)).toEqual(["fatigueMistakenForGain"]);
    expect(said([1, 2], NONE)).toEqual(["warmUpMistakenForLoss"]);
    expect(said([1, 2], NONE, "higher")).toEqual(["fatigueMistakenForGain"]);
    expect(said([-2, -1], NONE, "higher")).toEqual(["warmUpMistakenForLoss"]);
    expect(said([-2, -1], [1, 2])).toEqual(["fatigueMistakenForGain"]);
    expect(said([-2, -1], [-3, -2])).toEqual([]);
    expect(said([1, 2], [3, 4])).toEqual([]);
    expect(said(NONE, [-2, -1])).toEqual([]);
    expect(said([-2, 0], NONE)).toEqual([]);
    expect(said([0, 2], NONE)).toEqual([]);
    expect(said([-2, -1], [-2, 0])).toEqual(["fatigueMistakenForGain"]);
  });
  it("of a false gain needs something to compare with", () => {
    expect(said([-2, -1], undefined)).toEqual([]);
    expect(said(undefined, [-2, -1])).toEqual([]);
    expect(structureWarnings(sessions, undefined, overnight([-2, -1], NONE), "lower")).toEqual([]);
  });
  it("of likeness comes at 5 % and below", () => {
    expect(said(NONE, NONE, "lower", fitWith(0.05))).toEqual(["autocorrelated"]);
    expect(said(NONE, NONE, "lower", fitWith(0.0501))).toEqual([]);
    expect(said(NONE, NONE, "lower", fitWith(undefined, { corrected: undefined }))).toEqual([]);
  });
  it("comes for each thing that was found, in their order", () => {
    const all = fitWith(0.01, { warmUpShown: false, shape: { rateInside: false }, slopeTakenAs: "gain" });
    const few = sessions.slice(1).map((range) => ({ ...range, day: null, to: range.to - 1 }));
    expect(structureWarnings(few, all, overnight([1, 2], NONE), "lower")).toEqual([
      "noDays",
      "fewSessions",
      "fewTrials",
      "noWarmUp",
      "rateAtLimit",
      "gainWithinSession",
      "warmUpMistakenForLoss",
      "autocorrelated",
    ]);
    expect(structureWarnings(sessions, undefined, overnight(), "lower")).toEqual([]);
  });
});
