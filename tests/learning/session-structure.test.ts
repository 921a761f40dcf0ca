import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import type { PracticeTrials } from "../../src/learning/days/group-trials.js";
import type { SessionStructure } from "../../src/learning/days/structure.js";
import { type SessionStructureOptions, sessionStructure } from "../../src/learning/session-structure.js";
import type { Estimate } from "../../src/math/estimate.js";
import type { SimulateLearnerOptions } from "../../src/simulate/learner/options.js";
import { simulateLearner } from "../../src/simulate/simulate-learner.js";
import { estimatesIn } from "./estimates-in.js";

// four invented sessions of twelve trials, seconds
const VALUE = [
  [0.93, 0.85, 0.83, 0.8, 0.82, 0.78, 0.81, 0.79, 0.8, 0.82, 0.8, 0.81],
  [0.88, 0.84, 0.79, 0.8, 0.77, 0.78, 0.76, 0.79, 0.77, 0.78, 0.79, 0.78],
  [0.9, 0.82, 0.8, 0.76, 0.78, 0.77, 0.75, 0.77, 0.76, 0.78, 0.76, 0.77],
  [0.84, 0.8, 0.77, 0.76, 0.74, 0.76, 0.73, 0.75, 0.75, 0.74, 0.76, 0.75],
];
const invented: PracticeTrials = {
  session: VALUE.flatMap((list, j) => list.map(() => j + 1)),
  day: VALUE.flatMap((list, j) => list.map(() => j)),
  value: VALUE.flat(),
};

/** Value and interval in one list. */
function figuresOf(estimate: Estimate): number[] {
  if (!estimate.ok) throw new Error(estimate.why);
  return [estimate.value, ...(estimate.interval ?? [])];
}
const close = (values: readonly number[], digits: number): unknown[] => values.map((value) => expect.closeTo(value, digits));

const learner = (options: SimulateLearnerOptions): PracticeTrials =>
  simulateLearner({ sessions: 10, curve: { law: "flat", a: 0.8 }, sessionNoise: { sd: 0.01 }, ...options }).trials;

describe("sessionStructure against outside values", () => {
  const found = sessionStructure(invented);

  // Source: R 4.2.2: lm on logarithms with a factor for the session at a fixed rate, the rate by optimize and then Gauss-Newton steps to rounding; errors
  // by leaving out each session of the linearised model in turn (jackknife), Student's t with 3 degrees of freedom
  it("has warm-up, slope and length of R", () => {
    expect(figuresOf(found.warmUp.decrement.share)).toEqual(close([0.1823505017, 0.171225042, 0.1935816421], 7));
    expect(figuresOf(found.slope.share)).toEqual(close([0.0034665615, 0.0008737637, 0.0060660759], 8));
    const [value, low, high] = figuresOf(found.warmUp.length);
    expect([value, low, high]).toEqual(close([5.2694048217, 3.5390746695, 7.8457308104], 5));
  });

  // Source: R 4.2.2: lm and confint of the fitted session levels on the number of nights; t.test of the raw differences
  it("has the overnight changes of R", () => {
    expect(figuresOf(found.overnight.corrected.share)).toEqual(close([-0.0226577241, -0.0336324835, -0.0115583275], 8));
    expect(figuresOf(found.overnight.warmUpRemoved.share)[0]).toBeCloseTo(-0.0591622613522, 8);
    expect(figuresOf(found.overnight.raw.share)).toEqual(close([0.0225371339, -0.0074321589, 0.0534113104], 9));
    expect(found.overnight.nights).toBe(3);
  });

  // Source: the same fit of R: levels, typical level, each session's own warm-up at the common rate, ratio of end to best with its delta-method interval
  it("has the levels of R", () => {
    expect(found.sessions.map(({ start }) => start)).toEqual(close([0.778305433756, 0.753940294047, 0.744952238755, 0.723949914049], 8));
    expect(found.sessions.map(({ warmUp }) => warmUp)).toEqual(close([0.200391321951, 0.168599376262, 0.20823650533, 0.1530403605], 7));
    expect(figuresOf(found.slope.amount)[0]! / figuresOf(found.slope.share)[0]!).toBeCloseTo(0.764446276694, 8);
    expect(figuresOf(found.endToBest)).toEqual(close([1.01216993228, 1.00497059844, 1.01942084016], 7));
  });

  // Source: closed form: trials that follow the law exactly
  it("recovers an exact course on the scale of the values", () => {
    const at = (j: number, k: number): number => 5 - 0.2 * j + 1.5 * Math.exp(-0.4 * k) + 0.01 * k;
    const lists = Array.from({ length: 5 }, (_, j) => Array.from({ length: 20 + j }, (_, k) => at(j, k)));
    const exact = sessionStructure(
      { session: lists.flatMap((list, j) => list.map(() => j)), value: lists.flat() },
      { errors: "normal", unit: "cm" },
    );
    expect(figuresOf(exact.warmUp.decrement.amount)[0]).toBeCloseTo(1.5, 9);
    expect(figuresOf(exact.warmUp.length)[0]).toBeCloseTo(Math.log(20) / 0.4, 7);
    expect(figuresOf(exact.slope.amount)[0]).toBeCloseTo(0.01, 10);
    expect(figuresOf(exact.overnight.corrected.amount)[0]).toBeCloseTo(-0.2, 9);
    // start of the next day less the end of this one, with the slope in it: sessions of 20 to 24 trials, weights of a trend over five levels .2 .3 .3 .2
    const slopes = 0.01 * (0.2 * 19 + 0.3 * 20 + 0.3 * 21 + 0.2 * 22);
    expect(figuresOf(exact.overnight.warmUpRemoved.amount)[0]).toBeCloseTo(-0.2 - slopes, 9);
    expect(exact.steps.map(({ kind }) => kind)).toEqual(["night", "night", "night", "night"]);
    expect(exact.warnings).toEqual(["noDays", "warmUpMistakenForLoss"]);
  });

  // Source: the simulator's truth: no night changes anything, and each session ends 2 to 3 % slower than it began
  it("sees through a false overnight gain that fatigue makes", () => {
    const trials = learner({ seed: 21, sessions: 20, trialsPerSession: 60, fatigue: 0.0005, trialNoise: 0.04 });
    const { overnight, slopeTakenAs, warnings } = sessionStructure(trials);
    expect(figuresOf(overnight.raw.share)[2]).toBeLessThan(0);
    const [, low, high] = figuresOf(overnight.corrected.share);
    expect(low! < 0 && high! > 0).toBe(true);
    expect(slopeTakenAs).toBe("fatigue");
    expect(warnings).toContain("fatigueMistakenForGain");
  });

  // Source: the same with a warm-up of 10 % and no fatigue
  it("sees through a false overnight loss that warm-up makes", () => {
    const trials = learner({ seed: 22, trialsPerSession: 60, warmUp: { size: 0.1 }, trialNoise: 0.04 });
    const { overnight, warnings } = sessionStructure(trials);
    expect(figuresOf(overnight.raw.share)[1]).toBeGreaterThan(0);
    const [, low, high] = figuresOf(overnight.corrected.share);
    expect(low! < 0 && high! > 0).toBe(true);
    expect(warnings).toContain("warmUpMistakenForLoss");
  });

  // Source: the simulator's truth: half a percent better with every trial of a session, nothing overnight
  it("leaves what was gained within a session out of the overnight change", () => {
    const trials = learner({ seed: 23, trialsPerSession: 40, trialNoise: 0.02, curve: { law: "linear", a: 5, b: -0.008, per: "trial" } });
    const { overnight, slopeTakenAs, warnings } = sessionStructure(trials, { errors: "normal" });
    expect(slopeTakenAs).toBe("gain");
    expect(warnings).toContain("gainWithinSession");
    const [, low, high] = figuresOf(overnight.corrected.amount);
    // one trial's step lies between the last of a session and the first of the next
    expect(low! < -0.008 && high! > -0.008).toBe(true);
    expect(figuresOf(sessionStructure(trials, { errors: "normal", slope: "fatigue" }).overnight.corrected.amount)[2]).toBeLessThan(-0.2);
  });

  // Source: the simulator's truth: ten days away cost 9 x 1 %, half of it won back each session
  it("tells a break from a night and how long its loss lasts", () => {
    const days = [0, 1, 2, 3, 4, 14, 15, 16, 17, 18, 18.4, 19];
    const forgetting = { loss: 0.01, recovery: 0.5 };
    const curve = { law: "linear", a: 0.8, b: -0.004 } as const;
    const trials = learner({ seed: 24, sessions: 12, days, forgetting, trialNoise: 0.01, sessionNoise: { sd: 0.002 }, curve });
    const { steps, afterBreak, overnight } = sessionStructure(trials);
    expect(steps.map(({ kind }) => kind)).toEqual([
      ...["night", "night", "night", "night", "break", "night", "night", "night", "night", "rest", "night"],
    ]);
    expect(afterBreak.breaks).toBe(1);
    expect(overnight.nights).toBe(9);
    const [, low, high] = figuresOf(afterBreak.change.share);
    const truth = (1.09 * (0.8 - 0.02)) / (0.8 - 0.016) - 1;
    expect(low! < truth && high! > truth).toBe(true);
    // levels without noise: 0.784 before; 0.850, 0.810, 0.786, 0.777 after
    expect(steps[4]!.recoveredAfter).toBe(4);
    expect(steps.filter(({ recoveredAfter }) => recoveredAfter !== null).length).toBe(1);
    expect(sessionStructure(trials, { breakDays: 30 }).afterBreak).toMatchObject({
      breaks: 0,
      change: { share: { ok: false, why: "tooFew" } },
    });
  });
});

describe("sessionStructure properties", () => {
  const given = fc.record({
    seed: fc.integer({ min: 0, max: 1e6 }),
    sessions: fc.integer({ min: 1, max: 7 }),
    trialsPerSession: fc.integer({ min: 1, max: 30 }),
    trialNoise: fc.constantFrom(0, 0.05),
    warmUp: fc.record({ size: fc.constantFrom(0, 0.1) }),
    fatigue: fc.constantFrom(0, 0.001),
  });
  const options = fc.record({
    errors: fc.constantFrom("normal" as const, "lognormal" as const),
    better: fc.constantFrom("lower" as const, "higher" as const),
    slope: fc.constantFrom("judge" as const, "fatigue" as const, "gain" as const),
    block: fc.integer({ min: 1, max: 9 }),
  });

  test.prop([given, options])("leaves its input alone and returns plain data that survives JSON and cloning", (settings, how) => {
    const { session, day, value } = simulateLearner(settings).trials;
    const trials = Object.freeze({
      session: Object.freeze(session.slice()),
      day: Object.freeze(day.slice()),
      value: Object.freeze(value.slice()),
    });
    const result = sessionStructure(trials, Object.freeze(how));
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(structuredClone(result)).toEqual(result);
    expect(result.sessions.length).toBe(settings.sessions);
    expect(result.steps.length).toBe(settings.sessions - 1);
    for (const [path, estimate] of estimatesIn(result)) {
      if (!estimate.ok) continue;
      const ends = estimate.interval ?? [estimate.value, estimate.value];
      const hair = 1e-9 * Math.max(1, Math.abs(estimate.value));
      expect(ends[0] - hair <= estimate.value && estimate.value <= ends[1] + hair, path).toBe(true);
    }
  });

  const shares = (result: SessionStructure): number[] =>
    [
      result.warmUp.decrement.share,
      result.slope.share,
      result.overnight.corrected.share,
      result.overnight.raw.share,
      result.endToBest,
    ].flatMap(figuresOf);
  const settings: SimulateLearnerOptions = { seed: 31, trialsPerSession: 30, warmUp: { size: 0.1 } };

  it.each([
    ["lognormal", 1024],
    ["lognormal", 1 / 512],
    ["normal", 1024],
  ] as const)("gives the same shares in any unit (%s, times %d)", (errors, factor) => {
    const { session, day, value } = simulateLearner(settings).trials;
    const one = sessionStructure({ session, day, value }, { errors });
    const other = sessionStructure({ session, day, value: value.map((v) => v * factor) }, { errors });
    // the search ends where the residual sum moves by no more than 1e-15 of itself, which leaves about seven digits of the rate
    expect(shares(other)).toEqual(close(shares(one), 6));
    expect(figuresOf(other.overnight.corrected.amount)[0]! / factor).toBeCloseTo(figuresOf(one.overnight.corrected.amount)[0]!, 8);
  });

  it("does not depend on the names of sessions nor on the first day, 1.7e9 included", () => {
    const { session, day, value } = simulateLearner(settings).trials;
    const one = sessionStructure({ session, day, value });
    const other = sessionStructure({ session: session.map((s) => 3 * s - 100), day: day.map((d) => d + 1.7e9), value });
    expect(shares(other)).toEqual(shares(one));
    expect(other.steps.map(({ kind }) => kind)).toEqual(one.steps.map(({ kind }) => kind));
  });

  it("turns round with the measure: inverse values, higher better", () => {
    const { session, day, value } = simulateLearner({ ...settings, fatigue: -0.004, trialNoise: 0.02 }).trials;
    const one = sessionStructure({ session, day, value });
    const other = sessionStructure({ session, day, value: value.map((v) => 1 / v) }, { better: "higher" });
    expect([one.slopeTakenAs, other.slopeTakenAs]).toEqual(["gain", "gain"]);
    const [share] = figuresOf(one.overnight.corrected.share);
    expect(figuresOf(other.overnight.corrected.share)[0]).toBeCloseTo(1 / (1 + share!) - 1, 9);
    expect(other.warnings).toEqual(one.warnings);
  });

  it("says when no warm-up was found and gives no length then", () => {
    const { warmUp, warnings } = sessionStructure(learner({ seed: 33, trialsPerSession: 40 }));
    expect(warnings).toContain("noWarmUp");
    expect(warmUp.length).toMatchObject({ ok: false, why: "notIdentified" });
  });
});

describe("sessionStructure bad input", () => {
  it("is not ok with too few sessions or trials, and still gives means and raw steps", () => {
    const { session, day, value } = invented as { session: number[]; day: number[]; value: number[] };
    const two = sessionStructure({ session: session.slice(0, 24), day: day.slice(0, 24), value: value.slice(0, 24) });
    expect(two.warmUp.decrement.share).toEqual({ ok: false, why: "tooFew", unit: "1", n: 2 });
    expect(two.overnight.corrected.amount).toEqual({ ok: false, why: "tooFew", unit: "s", n: 2 });
    expect(two.sessions[0]).toMatchObject({ start: null, end: null, afterWarmUp: null, warmUp: null, n: 12 });
    expect(two.steps[0]!.raw).not.toBeNull();
    expect(two.warnings).toEqual(["fewSessions", "fewTrials"]);
    expect(sessionStructure({ session: [], value: [] })).toMatchObject({ n: 0, sessions: [], steps: [], slopeTakenAs: null });
  });

  it("is not ok when nothing varies", () => {
    const session = Array.from({ length: 40 }, (_, i) => Math.floor(i / 10));
    const flat = sessionStructure({ session, value: session.map(() => 2) });
    expect(flat.slope.share).toEqual({ ok: false, why: "noSpread", unit: "1/trial", n: 4 });
  });

  it.each([
    ["trials.value must have 2 entries like trials.session, got 1", RangeError, { session: [1, 1], value: [1] }],
    ["trials.session[1] must be at least the entry before it, 2, got 1", RangeError, { session: [2, 1], value: [1, 1] }],
    ["trials.day must have 1 entries like trials.session, got 0", RangeError, { session: [1], value: [1], day: [] }],
    ['trials.value[1] must be above 0 with options.errors "lognormal", got 0', RangeError, { session: [1, 1], value: [1, 0] }],
    ["trials.value[0] must be finite, got NaN", RangeError, { session: [1], value: [Number.NaN] }],
    ['trials.session must be a list of numbers, got "1"', TypeError, { session: "1", value: [1] }],
    ["trials must be an object of columns, got null", TypeError, null],
  ] as const)("refuses trials: %s", (message, kind, trials) => {
    const run = (): unknown => sessionStructure(trials as unknown as PracticeTrials);
    expect(run).toThrow(kind);
    expect(run).toThrow(`sessionStructure: ${message}`);
  });

  it.each([
    ["block must be a whole number finite and at least 1, got 0", { block: 0 }],
    ["breakDays must be finite and above 0, got 0", { breakDays: 0 }],
    ["level must be above 0 and below 1, got 1", { level: 1 }],
    ['slope must be one of "judge", "fatigue", "gain", got "none"', { slope: "none" as "gain" }],
    ['better must be one of "lower", "higher", got "less"', { better: "less" as "lower" }],
    ['errors must be one of "normal", "lognormal", got "binomial"', { errors: "binomial" as "normal" }],
  ] as const)("refuses options: %s", (message, options: SessionStructureOptions) => {
    const run = (): unknown => sessionStructure(invented, options);
    expect(run).toThrow(RangeError);
    expect(run).toThrow(`sessionStructure: options.${message}`);
  });
});
