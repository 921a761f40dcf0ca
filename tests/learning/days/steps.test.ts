// Steps between sessions, the end of a session beside its best, sums and ratios of estimates: from shapes made by hand.
import { describe, expect, it } from "vitest";
import { describeEffect, shareOf } from "../../../src/learning/days/describe-effect.js";
import { describeRatio, describeSum, unlessFew } from "../../../src/learning/days/describe-ratio.js";
import { describeSteps } from "../../../src/learning/days/describe-steps.js";
import { endToBest } from "../../../src/learning/days/end-to-best.js";

const session = (name: string, from: number, to: number) => ({ session: name, from, to, day: 0 }) as never;
const sessions = [session("a", 0, 11), session("b", 11, 22), session("c", 22, 33), session("d", 33, 44)];
const step = (kind: string, raw: number) => ({ days: 1, kind, raw }) as never;
const same = (change: number) => change;

describe("describeSteps against outside values", () => {
  // Source: by hand: levels 5, 8, 6, 4; a session of 11 trials at 0.1 a trial changes by 1
  const fitOf = (slopeTakenAs: string) => ({ slopeTakenAs, shape: { levels: Float64Array.of(5, 8, 6, 4), slope: 0.1 } }) as never;
  const steps = [step("break", 3), step("night", -2), step("break", 0.5)];
  it("takes the slope within a session out where it is fatigue, and leaves it where it is gain", () => {
    const tired = describeSteps(steps, sessions, fitOf("fatigue"), "lower", same);
    expect(tired.map(({ corrected }) => corrected)).toEqual([3, -2, -2]);
    expect(tired.map(({ warmUpRemoved }) => warmUpRemoved)).toEqual([2, -3, -3]);
    expect(tired.map(({ raw }) => raw)).toEqual([3, -2, 0.5]);
    expect(tired.map(({ from, to }) => `${from}${to}`)).toEqual(["ab", "bc", "cd"]);
    expect(describeSteps(steps, sessions, fitOf("gain"), "lower", same).map(({ corrected }) => corrected)).toEqual([2, -3, -3]);
  });
  it("counts the sessions after a break until one is as good again, whichever way is better", () => {
    const recovered = (better: "lower" | "higher") =>
      describeSteps(steps, sessions, fitOf("fatigue"), better, same).map(({ recoveredAfter }) => recoveredAfter);
    // after a: 8, 6, 4 against 5; the night is no break; after c: 4 against 6
    expect(recovered("lower")).toEqual([3, null, 1]);
    expect(recovered("higher")).toEqual([1, null, null]);
  });
  it("keeps to what was seen where nothing was fitted", () => {
    expect(describeSteps(steps, sessions, undefined, "lower", same)[0]).toEqual({
      from: "a",
      to: "b",
      days: 1,
      kind: "break",
      corrected: null,
      warmUpRemoved: null,
      raw: 3,
      recoveredAfter: null,
    });
  });
});

describe("endToBest against outside values", () => {
  const scale = (errors: "normal" | "lognormal", typical = 10) => ({ errors, typical, unit: "s", level: 0.95 });
  const zero = [
    [0, 0, 0],
    [0, 0, 0],
    [0, 0, 0],
  ];
  const shape = (size: number, rate: number, slope: number) => ({ size, rate, slope }) as never;
  // Source: by hand: no warm-up and 0.1 a trial over 11 trials: from -0.5 to 0.5 about the level
  it("is the last trial's level over the best one's", () => {
    const rising = endToBest(shape(0, 1, 0.1), zero, 11, 5, "lower", scale("normal"));
    expect(rising).toEqual({
      ok: true,
      value: expect.closeTo(10.5 / 9.5, 12),
      unit: "1",
      n: 5,
      interval: [expect.closeTo(10.5 / 9.5, 12), expect.closeTo(10.5 / 9.5, 12)],
      level: 0.95,
    });
    const higher = endToBest(shape(0, 1, -0.1), zero, 11, 5, "higher", scale("normal"));
    expect(higher.ok && higher.value).toBeCloseTo(9.5 / 10.5, 12);
    const logs = endToBest(shape(0, 1, 0.1), zero, 11, 5, "lower", scale("lognormal"));
    expect(logs.ok && logs.value).toBeCloseTo(Math.E, 12);
  });
  it("is 1 without an interval where the last is the best", () => {
    expect(endToBest(shape(0, 1, -0.1), zero, 11, 5, "lower", scale("normal"))).toEqual({ ok: true, value: 1, unit: "1", n: 5 });
  });
  // Source: delta method by hand: the slope alone is uncertain, SE 0.01, over the 10 trials between; t(4) at 97.5 % is 2.7764451 (tables)
  it("carries the error of the slope, and never crosses 1", () => {
    const slopes = [
      [0, 0, 0],
      [0, 1e-4, 0],
      [0, 0, 0],
    ];
    const found = endToBest(shape(0, 1, 0.1), slopes, 11, 5, "lower", scale("lognormal"));
    const half = 2.7764451051977987 * 0.1;
    expect(found).toMatchObject({ interval: [expect.closeTo(Math.exp(1 - half), 9), expect.closeTo(Math.exp(1 + half), 9)] });
    const wide = endToBest(shape(0, 1, 0.01), slopes, 11, 5, "lower", scale("lognormal"));
    expect(wide.ok && wide.interval![0]).toBe(1);
    const falling = endToBest(shape(0, 1, -0.01), slopes, 11, 5, "higher", scale("lognormal"));
    expect(falling.ok && falling.interval![1]).toBe(1);
    expect(falling.ok && falling.interval![0] < 1).toBe(true);
  });
  it("is not identified where the level is not above 0", () => {
    expect(endToBest(shape(0, 1, 0.1), zero, 11, 5, "lower", scale("normal", 0.5))).toEqual({
      ok: false,
      why: "notIdentified",
      unit: "1",
      n: 5,
    });
    expect(endToBest(shape(0, 1, 0.1), zero, 11, 5, "lower", scale("normal", 0.51)).ok).toBe(true);
  });
});

describe("sums, ratios and effects against outside values", () => {
  const label = { unit: "s", n: 9, level: 0.95 };
  // Source: by hand and tables: 2 * 3 - 1 = 5 with variance 4 * 0.25 + 0.5 = 1.5; Welch and Satterthwaite: 1.5^2/(1/4 + 0.25/8) = 8
  it("add up with their factors and share their degrees of freedom", () => {
    const sum = describeSum(
      [
        { estimate: { value: 3, variance: 0.25, df: 4 }, factor: 2 },
        { estimate: { value: 1, variance: 0.5, df: 8 }, factor: -1 },
      ],
      label,
    );
    // t(8) at 97.5 % is 2.3060041
    const half = 2.306004135204166 * Math.sqrt(1.5);
    expect(sum).toMatchObject({ ok: true, value: 5, interval: [expect.closeTo(5 - half, 9), expect.closeTo(5 + half, 9)] });
    expect(describeSum([{ estimate: { value: 3, variance: 0, df: 4 }, factor: 1 }], label)).toMatchObject({ value: 3, interval: [3, 3] });
  });
  it("have no ratio where the part below does not exceed its error", () => {
    const above = [{ estimate: { value: 3, variance: 1e-6, df: 9 }, factor: 1 }];
    const below = (value: number) => [{ estimate: { value, variance: 1, df: 9 }, factor: 1 }];
    expect(describeRatio(above, below(0.9), 1, label)).toEqual({ ok: false, why: "notIdentified", unit: "s", n: 9 });
    expect(describeRatio(above, below(6), 100, label)).toMatchObject({ ok: true, value: expect.closeTo(50, 9) });
    const turned = describeRatio(above, below(6), -100, label);
    expect(turned.ok && turned.value).toBeCloseTo(-50, 9);
    expect(turned.ok && turned.interval![0] < turned.interval![1]).toBe(true);
  });
  it("need two values", () => {
    const describe = () => ({ ok: true, value: 1, unit: "s", n: 2 }) as const;
    expect(unlessFew({ ...label, n: 1 }, describe)).toEqual({ ok: false, why: "tooFew", unit: "s", n: 1 });
    expect(unlessFew({ ...label, n: 2 }, describe).ok).toBe(true);
  });
  // Source: by hand; t(10) at 97.5 % is 2.2281389
  it("are told as a share and as an amount", () => {
    const change = { value: 0.1, variance: 0.0004, df: 10 };
    const half = 2.2281388519649385 * 0.02;
    const plain = describeEffect(change, 9, { errors: "normal", typical: 0.5, unit: "s", level: 0.95 }, " per night");
    expect(plain.amount).toMatchObject({
      value: 0.1,
      unit: "s per night",
      interval: [expect.closeTo(0.1 - half, 12), expect.closeTo(0.1 + half, 12)],
    });
    expect(plain.share).toMatchObject({ value: 0.2, unit: "1 per night", n: 9 });
    const logs = describeEffect(change, 9, { errors: "lognormal", typical: 0.5, unit: "s", level: 0.95 });
    expect(logs.share).toMatchObject({ value: expect.closeTo(Math.expm1(0.1), 12), unit: "1" });
    expect(logs.amount).toMatchObject({ value: expect.closeTo(0.5 * Math.expm1(0.1), 12), unit: "s" });
    const none = describeEffect(change, 9, { errors: "normal", typical: 0, unit: "s", level: 0.95 });
    expect(none.share).toEqual({ ok: false, why: "notIdentified", unit: "1", n: 9 });
    expect(none.amount.ok).toBe(true);
    expect(describeEffect(undefined, 2, { errors: "normal", typical: 1, unit: "s", level: 0.95 })).toEqual({
      share: { ok: false, why: "tooFew", unit: "1", n: 2 },
      amount: { ok: false, why: "tooFew", unit: "s", n: 2 },
    });
    expect(describeEffect("noSpread", 2, { errors: "normal", typical: 1, unit: "s", level: 0.95 }, "/d").amount).toMatchObject({
      why: "noSpread",
      unit: "s/d",
    });
    expect(shareOf({ errors: "normal", typical: -1, unit: "s", level: 0.95 })(1)).toBeNull();
  });
});
