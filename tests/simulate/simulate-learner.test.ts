import { fc, test } from "@fast-check/vitest";
import { mean, sampleCorrelation, sampleStandardDeviation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import type { SimulateLearnerOptions } from "../../src/simulate/learner/options.js";
import { simulateLearner } from "../../src/simulate/simulate-learner.js";

/** Without noise of any kind. */
const still: SimulateLearnerOptions = { trialNoise: 0, sessionNoise: { sd: 0 }, sessions: 12, trialsPerSession: 6 };
const many: SimulateLearnerOptions = { seed: 11, sessions: 20_000, trialsPerSession: 1, curve: { law: "flat", a: 2 } };

const near = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-12 * Math.max(1, Math.abs(b));

describe("simulateLearner against outside values", () => {
  // Source: closed forms of the laws, worked by hand at N = 1 and N = 4 (exp(-0.3) = 0.74081822068, 4^-0.5 = 0.5)
  it.each([
    [{ law: "exponential", a: 1, b: 2, c: 0.1 }, 3, 1 + 2 * 0.7408182206817179],
    [{ law: "power", a: 1, b: 2, c: 0.5 }, 3, 2],
    [{ law: "power", a: 1, b: 2, c: 0.5, e: 5 }, 1 + 2 / Math.sqrt(6), 1 + 2 / 3],
    [{ law: "combined", a: 1, b: 2, c: 0.5, d: 0.1 }, 1 + 2 * Math.exp(-0.1), 1 + Math.exp(-0.4)],
    [{ law: "delayedExponential", a: 1, b: 2, c: 0.1, d: 9 }, 3, 1 + 20 / (9 + 1.3498588075760032)],
    [{ law: "linear", a: 3, b: -0.25 }, 3, 2.25],
    [{ law: "step", a: 1, b: 2, at: 4 }, 3, 1],
    [{ law: "flat", a: 1.5 }, 1.5, 1.5],
  ] as const)("follows the law %j", (curve, first, fourth) => {
    const { sessions, series } = simulateLearner({ ...still, curve });
    expect(sessions[0]!.level).toBeCloseTo(first, 12);
    expect(sessions[3]!.level).toBeCloseTo(fourth, 12);
    expect(series.value[3]).toBeCloseTo(fourth, 12);
  });

  // Source: mean and SD of a log-normal variable (textbook), sampling errors sd/sqrt(n) and about sd/sqrt(2 n); within 4 of them, n = 20,000
  it("scatters session means by exactly the stated share of the level when trials have no noise", () => {
    const { series } = simulateLearner({ ...many, trialNoise: 0, sessionNoise: { sd: 0.05 } });
    const values = [...series.value];
    expect(Math.abs(mean(values) / 2 - 1)).toBeLessThan((4 * 0.05) / Math.sqrt(20_000));
    expect(Math.abs(sampleStandardDeviation(values) / 0.1 - 1)).toBeLessThan(4 / Math.sqrt(40_000));
  });

  // Source: the same; the noise of trials alone
  it("scatters trials by the stated share", () => {
    const { trials } = simulateLearner({ ...many, sessions: 100, trialsPerSession: 200, sessionNoise: { sd: 0 }, trialNoise: 0.1 });
    const values = [...trials.value];
    expect(Math.abs(mean(values) / 2 - 1)).toBeLessThan((4 * 0.1) / Math.sqrt(20_000));
    expect(Math.abs(sampleStandardDeviation(values) / 0.2 - 1)).toBeLessThan(4 / Math.sqrt(40_000));
  });

  // Source: AR(1) (textbook): stationary SD as stated, correlation r^k over k sessions; first values over many learners as wide as later ones
  it("carries session noise over as a stationary AR(1)", () => {
    const sessionNoise = { sd: 0.05, autocorrelation: 0.6 };
    const { sessions } = simulateLearner({ ...many, sessionNoise });
    const logs = sessions.map(({ noise }) => Math.log(noise));
    expect(Math.abs(sampleCorrelation(logs.slice(1), logs.slice(0, -1)) - 0.6)).toBeLessThan(4 * Math.sqrt((1 - 0.36) / 20_000));
    expect(Math.abs(sampleCorrelation(logs.slice(2), logs.slice(0, -2)) - 0.36)).toBeLessThan(0.04);
    const first = Array.from(
      { length: 2000 },
      (_, seed) => simulateLearner({ seed, sessions: 1, trialsPerSession: 1, sessionNoise }).sessions[0]!.noise,
    );
    expect(Math.abs(sampleStandardDeviation(first) / 0.05 - 1)).toBeLessThan(4 / Math.sqrt(4000));
  });

  // Source: the form of the docstring, worked by hand: ln 2 a trial halves the warm-up
  it("adds warm-up and fatigue as shares of the level", () => {
    const { sessions } = simulateLearner({
      ...still,
      curve: { law: "flat", a: 10 },
      warmUp: { size: 0.08, rate: Math.LN2 },
      fatigue: 0.01,
    });
    const { value } = sessions[4]!.trials;
    [10.8, 10.5, 10.4, 10.4, 10.45].forEach((expected, k) => {
      expect(value[k]).toBeCloseTo(expected, 12);
    });
  });

  // Source: worked by hand: two nights of -10 %, a rest on the same day, then nine days away at 1 % a day beyond the first, half won back each session
  it("changes with nights, breaks and equipment", () => {
    const { sessions } = simulateLearner({
      ...still,
      sessions: 6,
      days: [0.4, 1.4, 1.8, 2.4, 11.4, 11.9],
      curve: { law: "flat", a: 1 },
      overnight: -0.1,
      forgetting: { loss: 0.01, recovery: 0.5 },
      equipmentChange: { session: 6, factor: 2 },
    });
    const expected = [1, 0.9, 0.9, 0.81, 0.729 * 1.08, 2 * 0.729 * 1.04];
    expect(sessions.every(({ level }, j) => near(level, expected[j]!))).toBe(true);
  });

  // Source: the linear law, by hand: trial N has 1 - 0.01 (N - 1)
  it("moves within a session when practice counts trials", () => {
    const { sessions, series } = simulateLearner({ ...still, curve: { law: "linear", a: 1, b: -0.01, per: "trial" } });
    expect(sessions[1]!.trials.value[0]).toBeCloseTo(0.94, 12);
    expect(sessions[1]).toMatchObject({ start: expect.closeTo(0.94, 12), end: expect.closeTo(0.89, 12), practice: 9.5 });
    expect(series.value[1]).toBeCloseTo(0.915, 12);
  });
});

describe("simulateLearner properties", () => {
  const options = fc.record({
    seed: fc.integer({ min: -(2 ** 31), max: 2 ** 32 - 1 }),
    sessions: fc.integer({ min: 1, max: 8 }),
    trialsPerSession: fc.integer({ min: 1, max: 9 }),
    sessionNoise: fc.record({ sd: fc.constantFrom(0, 0.02, 0.3), autocorrelation: fc.constantFrom(-0.5, 0, 0.9) }),
    warmUp: fc.record({ size: fc.constantFrom(-0.1, 0, 0.2), sizeSd: fc.constantFrom(0, 0.05) }),
    fatigue: fc.constantFrom(-0.001, 0, 0.002),
  });

  test.prop([options])("gives plain data that survives JSON and cloning, the same for the same options", (given) => {
    const learner = simulateLearner(Object.freeze(given));
    expect(JSON.parse(JSON.stringify(learner))).toEqual(learner);
    expect(structuredClone(learner)).toEqual(learner);
    expect(simulateLearner(given)).toEqual(learner);
    expect(simulateLearner(learner.truth)).toEqual(learner);
  });

  test.prop([options])("holds the same trials in its sessions, its columns and its series", (given) => {
    const { sessions, trials, series } = simulateLearner(given);
    expect(sessions.flatMap(({ trials }) => trials.value)).toEqual(trials.value);
    expect(trials.session.length).toBe(given.sessions * given.trialsPerSession);
    expect(series.trials).toEqual(sessions.map(({ trials }) => trials.value.length));
    expect(series.value.every((value, j) => near(value, mean([...sessions[j]!.trials.value])))).toBe(true);
  });

  it("leaves the draws of all other parts when one part changes", () => {
    const base = simulateLearner({ seed: 4 });
    const noiseOf = (options: SimulateLearnerOptions): number[] =>
      simulateLearner({ seed: 4, ...options }).sessions.map(({ noise }) => noise);
    const own = base.sessions.map(({ noise }) => noise);
    expect(noiseOf({ trialNoise: 0.3, warmUp: { size: 0.1, sizeSd: 0.2, rate: 1 }, trialsPerSession: 90 })).toEqual(own);
    // what each trial adds to the noise of its session
    const rest = (options: SimulateLearnerOptions): number[] =>
      simulateLearner({ seed: 4, ...options }).sessions.map(({ trials, noise, level }) => Math.log(trials.value[3]! / noise / level));
    const trials = rest({});
    expect(rest({ sessionNoise: { sd: 0.1, autocorrelation: 0.5 }, curve: { law: "power" } }).every((v, j) => near(v, trials[j]!))).toBe(
      true,
    );
    const lengths = Array.from({ length: 20 }, (_, j) => 5 + j);
    expect(rest({ trialsPerSession: lengths }).every((v, j) => near(v, trials[j]!))).toBe(true);
  });
});

describe("simulateLearner bad input", () => {
  it.each([
    [{ sessions: 0 }, "simulateLearner: options.sessions must be a whole number finite and at least 1, got 0"],
    [{ sessions: 2, days: [1, 0] }, "simulateLearner: options.days[1] must be at least the day before it, 1, got 0"],
    [{ sessions: 3, days: [1, 2] }, "simulateLearner: options.days must have 3 entries, one per session, got 2"],
    [{ trialsPerSession: 0.5 }, "simulateLearner: options.trialsPerSession must be a whole number finite and at least 1, got 0.5"],
    [{ sessions: 2, trialsPerSession: [3, 0] }, "options.trialsPerSession[1] must be a whole number"],
    [{ curve: { law: "cubic" as "flat" } }, "options.curve.law must be one of"],
    [{ curve: { c: -1 } }, "options.curve.c must be finite and at least 0, got -1"],
    [{ sessionNoise: { autocorrelation: 1 } }, "options.sessionNoise.autocorrelation must be"],
    [{ trialNoise: Number.NaN }, "options.trialNoise must be finite and at least 0, got NaN"],
    [{ warmUp: { rate: 0 } }, "options.warmUp.rate must be finite and above 0, got 0"],
    [{ overnight: -1 }, "options.overnight must be finite and above -1, got -1"],
    [{ forgetting: { recovery: 2 } }, "options.forgetting.recovery must be at least 0 and at most 1, got 2"],
    [{ equipmentChange: { session: 0, factor: 1 } }, "options.equipmentChange.session must be a whole number"],
    [{ seed: 0.5 }, "options.seed must be a whole number"],
    [{ curve: { law: "linear", a: 1, b: -0.2 } }, "options must keep every value above 0 and finite"],
  ] as const)("refuses %j", (options, message) => {
    expect(() => simulateLearner(options as SimulateLearnerOptions)).toThrow(RangeError);
    expect(() => simulateLearner(options as SimulateLearnerOptions)).toThrow(message);
  });

  it("refuses what is not an object", () => {
    expect(() => simulateLearner(null as unknown as SimulateLearnerOptions)).toThrow(TypeError);
    expect(() => simulateLearner({ curve: 3 as never })).toThrow("simulateLearner: options.curve must be an object, got 3");
  });
});
