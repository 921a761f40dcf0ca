import { fc, test } from "@fast-check/vitest";
import { mean, sampleCorrelation, sampleStandardDeviation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { planPractice } from "../../src/practice/plan-practice.js";
import { simulateTrainee } from "../../src/simulate/simulate-trainee.js";
import type { SimulateTraineeOptions, TraineeItem } from "../../src/simulate/trainee/options.js";

const PARTS = ["primary", "correction", "stopAndPress", "nextTarget"] as const;
const combined = (minutes: number): TraineeItem => ({ kind: "combined", minutes });
const drill = (part: (typeof PARTS)[number], minutes: number, movementTime?: number): TraineeItem => ({
  kind: "part",
  part,
  minutes,
  ...(movementTime === undefined ? {} : { pace: { movementTime } }),
});
const zero = { primary: 0, correction: 0, stopAndPress: 0, nextTarget: 0 };
/** Pace, fatigue, massing and nights take nothing away. */
const bare: SimulateTraineeOptions = {
  pace: { best: 0.8 },
  fatigue: { after: 1e6, massing: 1e12 },
  forgetting: 0,
};
/** Nor does anything carry over: minutes are effective minutes. */
const clean: SimulateTraineeOptions = { ...bare, transfer: Object.fromEntries(PARTS.map((part) => [part, { ...zero, [part]: 1 }])) };

describe("simulateTrainee against outside values", () => {
  // Source: closed forms, worked by hand: exp(-0.003 100) = 0.74081822; 1/(1 + 0.3) = 0.76923077; (1 + 0.3/0.5)^-0.5 = 0.79056942
  it.each([
    [{ law: "exponential" }, 0.7408182206817179],
    [{ law: "power" }, 1 / 1.3],
    [{ law: "power", exponent: 0.5 }, 0.7905694150420949],
  ] as const)("falls as %j says", (law, left) => {
    const { state } = simulateTrainee({ ...clean, ...law, days: [[drill("correction", 60)], [drill("correction", 40)]] });
    expect(state.excess.correction).toBeCloseTo(0.16 * left, 8);
    expect(state.excess.primary).toBeCloseTo(0.18, 12);
    expect(state.day).toBe(2);
  });

  // Source: SciPy 1.10.1: integrate.quad of the fading worth of minutes (71.0748 of 100), and integrate.solve_ivp of dE/dn = -rate E0 (E/E0)^(1 + 1/c) for the power law
  it.each([
    [{ law: "exponential" }, 0.16983036331233137],
    [{ law: "power" }, 0.17010818875843256],
    [{ law: "power", exponent: 0.5 }, 0.170366613482834],
  ] as const)("takes pace, fatigue, massing and the night in: %j", (law, left) => {
    const { days, state } = simulateTrainee({ ...law, days: [[combined(100)]] });
    expect(days[0]!.effective.primary).toBeCloseTo(19.465763451543445, 9);
    expect(state.excess.primary).toBeCloseTo(left, 9);
  });

  // Source: SciPy 1.10.1 stats.norm: cdf(ppf(0.8) + 4 ln(T/0.72)), 0.72 s the own movement time of an unpractised trainee
  it.each([
    [0.72, 0.8],
    [0.6, 0.5447211068178349],
    [0.8, 0.8967167833720062],
    [1, 0.9844440090702367],
  ])("hits at a movement time of %f s as the normal law says", (movementTime, share) => {
    const { days } = simulateTrainee({ days: [[drill("primary", 10, movementTime)]] });
    expect(days[0]!.hitShare).toBeCloseTo(share, 9);
  });

  // Source: the same with exp(-((share - 0.85)/0.15)^2/2): 0.126059 at 0.6 s, 0.952658 at 0.8 s, 0.669201 at 1 s
  it("learns most where the hit share is near the best, and little when much too fast", () => {
    const learned = (movementTime: number) => {
      const { days } = simulateTrainee({ fatigue: { massing: 1e12 }, days: [[drill("primary", 10, movementTime)]] });
      return days[0]!.effective.primary;
    };
    expect(learned(0.6)).toBeCloseTo(1.26059091, 7);
    expect(learned(0.8)).toBeCloseTo(9.52658232, 7);
    expect(learned(1)).toBeCloseTo(6.69200928, 7);
  });

  // Source: arithmetic: 40 minutes tire out, 5 minutes of rest take 20 off, so that 20 more are fresh again; without a rest they are worth 40 (1 - exp(-0.5))
  it("is refreshed by a rest", () => {
    const minutes = (rest: number) => {
      const items: TraineeItem[] = [combined(40), { kind: "rest", minutes: rest }, combined(20)];
      return simulateTrainee({ pace: { best: 0.8 }, fatigue: { massing: 1e9 }, days: [items] }).days[0]!.effective.primary;
    };
    expect(minutes(5)).toBeCloseTo(0.35 * 60, 5);
    expect(minutes(0)).toBeCloseTo(0.35 * (40 + 40 * (1 - Math.exp(-0.5))), 5);
  });

  // Source: arithmetic: a share of 0.1 of what was learned is lost a night; 0.5 of a minute carries over
  it("forgets and carries over", () => {
    const half = simulateTrainee({
      ...clean,
      transfer: { ...clean.transfer, primary: { ...zero, primary: 1, correction: 0.5 } },
      days: [[drill("primary", 100)]],
    });
    expect(half.state.excess.correction).toBeCloseTo(0.16 * Math.exp(-0.15), 8);
    const away = simulateTrainee({ forgetting: 0.1, from: { day: 3, excess: { ...zero, primary: 0.08 }, noise: 0 }, days: [[], []] });
    expect(away.state.excess.primary).toBeCloseTo(0.18 - 0.1 * 0.81, 12);
    expect(away.state.excess.nextTarget).toBeCloseTo(0.14 * 0.19, 12);
  });

  // Source: log-normal factors and AR(1) (textbook): mean 1, SDs as stated, correlation r^k; within 4 standard errors, n = 20,000 days
  it("scatters what is measured as stated", () => {
    const days = new Array<readonly TraineeItem[]>(20_000).fill([]);
    const { days: done } = simulateTrainee({ seed: 7, days, noise: { session: 0.05, part: 0.04, autocorrelation: 0.6 } });
    const ratio = (part: (typeof PARTS)[number]) => done.map(({ measured, level }) => measured[part] / level[part]);
    const [primary, other] = [ratio("primary"), ratio("nextTarget")];
    const sd = Math.sqrt(1.0025 * 1.0016 - 1);
    // neighbours are alike: (1 + r)/(1 - r) = 4 times the variance of the mean that the session part has
    expect(Math.abs(mean(primary) - 1)).toBeLessThan(4 * Math.sqrt((4 * 0.05 ** 2 + 0.04 ** 2) / 20_000));
    expect(Math.abs(sampleStandardDeviation(primary) / sd - 1)).toBeLessThan(0.04);
    const common = 0.05 ** 2 / sd ** 2;
    expect(Math.abs(sampleCorrelation(primary, other) - common)).toBeLessThan(0.04);
    expect(Math.abs(sampleCorrelation(primary.slice(1), primary.slice(0, -1)) - 0.6 * common)).toBeLessThan(0.04);
  });

  // Source: the contract: the items of a plan can be practised as they are
  it("follows a plan", () => {
    const { items } = planPractice({ minutes: 60 });
    const { days } = simulateTrainee({ days: [items, items] });
    expect(days[0]!.minutes).toBe(60);
    expect(days[1]!.total).toBeLessThan(days[0]!.total);
  });
});

describe("simulateTrainee properties", () => {
  const item: fc.Arbitrary<TraineeItem> = fc.oneof(
    fc.record({ kind: fc.constantFrom("test", "combined", "rest"), minutes: fc.integer({ min: 0, max: 60 }) }, { noNullPrototype: true }),
    fc.record(
      { kind: fc.constant("part"), part: fc.constantFrom(...PARTS), minutes: fc.integer({ min: 0, max: 60 }) },
      { noNullPrototype: true },
    ),
    fc.record(
      {
        kind: fc.constant("combined"),
        minutes: fc.integer({ min: 1, max: 30 }),
        pace: fc.record({ movementTime: fc.double({ min: 0.3, max: 2, noNaN: true }) }, { noNullPrototype: true }),
      },
      { noNullPrototype: true },
    ),
  );
  const options: fc.Arbitrary<SimulateTraineeOptions> = fc.record(
    {
      seed: fc.integer({ min: -(2 ** 31), max: 2 ** 32 - 1 }),
      law: fc.constantFrom("exponential", "power"),
      exponent: fc.constantFrom(0.5, 1, 3),
      forgetting: fc.constantFrom(0, 0.004, 0.1),
      noise: fc.constantFrom({}, { session: 0 }, { autocorrelation: -0.5 }),
      days: fc.array(fc.array(item, { maxLength: 4 }), { maxLength: 6 }),
    },
    { requiredKeys: ["days"], noNullPrototype: true },
  );

  test.prop([options])("is plain data, the same for the same options, and leaves them alone", (given) => {
    const before = JSON.stringify(given);
    const trainee = simulateTrainee(Object.freeze(given));
    expect(JSON.parse(JSON.stringify(trainee))).toEqual(trainee);
    expect(structuredClone(trainee)).toEqual(trainee);
    expect(simulateTrainee({ ...trainee.truth, days: given.days! })).toEqual(trainee);
    expect(JSON.stringify(given)).toBe(before);
  });

  test.prop([options, fc.integer({ min: 0, max: 6 })])("is the same at once and in two calls", (given, cut) => {
    const whole = simulateTrainee(given);
    const first = simulateTrainee({ ...given, days: given.days!.slice(0, cut) });
    const second = simulateTrainee({ ...given, from: first.state, days: given.days!.slice(cut) });
    expect([...first.days, ...second.days]).toEqual(whole.days);
    expect(second.state).toEqual(whole.state);
  });

  test.prop([options])("stays between asymptote and start, and gets no better on a day off", (given) => {
    const { days, state, truth } = simulateTrainee(given);
    for (const part of PARTS) {
      const { start, asymptote } = truth.parts[part];
      for (const { level } of days) expect(level[part] >= asymptote - 1e-12 && level[part] <= start + 1e-12).toBe(true);
      const off = simulateTrainee({ ...truth, from: state, days: [[]] }).state.excess[part];
      expect(off).toBeGreaterThanOrEqual(state.excess[part] - 1e-15);
    }
  });

  test.prop([fc.constantFrom("exponential", "power"), fc.integer({ min: 0, max: 50 }), fc.integer({ min: 1, max: 50 })])(
    "learns more from more minutes",
    (law, minutes, more) => {
      const left = (m: number) => simulateTrainee({ law, days: [[combined(m)]] }).state.excess.primary;
      expect(left(minutes + more)).toBeLessThan(left(minutes));
    },
  );

  test.prop([options, fc.integer()])("learns the same whatever the seed", (given, seed) => {
    const other = simulateTrainee({ ...given, seed: seed | 0 });
    expect(other.state.excess).toEqual(simulateTrainee(given).state.excess);
  });
});

describe("simulateTrainee bad input", () => {
  const bad = (options: unknown) => () => simulateTrainee(options as SimulateTraineeOptions);
  const state = { day: 0, noise: 0, excess: zero };
  it.each([
    [{ law: "linear" }, 'simulateTrainee: options.law must be one of "exponential", "power", got "linear"'],
    [{ seed: 0.5 }, "simulateTrainee: options.seed must be a whole number"],
    [{ exponent: 0 }, "simulateTrainee: options.exponent must be finite and above 0, got 0"],
    [{ combined: -1 }, "simulateTrainee: options.combined must be finite and at least 0, got -1"],
    [{ forgetting: 2 }, "simulateTrainee: options.forgetting must be at least 0 and at most 1, got 2"],
    [{ parts: { primary: { start: 0.1 } } }, "simulateTrainee: options.parts.primary.start must be finite and at least 0.24, got 0.1"],
    [{ parts: { correction: { rate: -1 } } }, "simulateTrainee: options.parts.correction.rate must be finite and at least 0, got -1"],
    [
      { transfer: { primary: { correction: -0.1 } } },
      "simulateTrainee: options.transfer.primary.correction must be finite and at least 0, got -0.1",
    ],
    [{ transfer: { primary: { primary: 0.5 } } }, "simulateTrainee: options.transfer.primary.primary must be 1"],
    [{ pace: { best: 1 } }, "simulateTrainee: options.pace.best must be above 0 and at most 0.999, got 1"],
    [{ fatigue: { fade: 0 } }, "simulateTrainee: options.fatigue.fade must be finite and above 0, got 0"],
    [{ noise: { autocorrelation: 1 } }, "simulateTrainee: options.noise.autocorrelation must be at least -0.999 and at most 0.999, got 1"],
    [{ days: [[{ kind: "nap", minutes: 1 }]] }, "simulateTrainee: options.days[0][0].kind must be one of"],
    [{ days: [[], [{ kind: "part", minutes: 1 }]] }, "simulateTrainee: options.days[1][0].part must be one of"],
    [{ days: [[{ kind: "rest", minutes: -1 }]] }, "simulateTrainee: options.days[0][0].minutes must be finite and at least 0, got -1"],
    [
      { days: [[{ ...combined(1), pace: { movementTime: 0 } }]] },
      "simulateTrainee: options.days[0][0].pace.movementTime must be finite and above 0, got 0",
    ],
    [{ from: { ...state, day: -1 } }, "simulateTrainee: options.from.day must be a whole number"],
    [
      { from: { ...state, excess: { ...zero, primary: -1 } } },
      "simulateTrainee: options.from.excess.primary must be finite and at least 0, got -1",
    ],
  ])("refuses %j", (options, message) => {
    expect(bad(options)).toThrow(RangeError);
    expect(bad(options)).toThrow(message);
  });
  it.each([
    [null, "simulateTrainee: options must be an object, got null"],
    [{ pace: 3 }, "simulateTrainee: options.pace must be an object, got 3"],
    [{ parts: { primary: 1 } }, "simulateTrainee: options.parts.primary must be an object, got 1"],
    [{ days: 3 }, "simulateTrainee: options.days must be a list of days, got 3"],
    [{ days: [3] }, "simulateTrainee: options.days[0] must be a list of items, got 3"],
    [{ from: 3 }, "simulateTrainee: options.from must be an object, got 3"],
  ])("refuses the kind of %j", (options, message) => {
    expect(bad(options)).toThrow(TypeError);
    expect(bad(options)).toThrow(message);
  });
});
