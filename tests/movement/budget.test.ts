import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { budgetOf } from "../../src/movement/acquisition/budget.js";
import { readReference, SHARED_ABSENT } from "../shared.js";

const cases = (readReference("kinematics/segmentation.json")?.cases ?? []).filter(({ name }) => name.startsWith("time budget"));
const sum = (budget: object): number => Object.values(budget).reduce((total, part) => total + part, 0);
const secondsArb = fc.integer({ min: 0, max: 3000 }).map((ms) => ms / 1000);

describe("budgetOf against outside values", () => {
  it.skipIf(cases.length === 0)(`has its reference table (else: ${SHARED_ABSENT})`, () => expect(cases.length).toBe(3));

  // Source: reference/kinematics/segmentation.json, worked by hand from the true instants. Tolerance: rounding.
  it.each(cases)("$name", ({ input, expected }) => {
    const [primary, ...rest] = input.components;
    const end = (component: { onset: number; duration: number }): number => component.onset + component.duration;
    const times = {
      go: input.tGo,
      onset: primary.onset,
      primaryEnd: end(primary),
      stop: end(rest.at(-1) ?? primary),
      press: input.press.t,
      end: input.press.t,
    };
    const budget = budgetOf(times, input.press.t, expected.pressedInMotion ?? false, []);
    for (const part of ["latency", "primary", "correction", "verification"] as const)
      expect(budget[part], part).toBeCloseTo(expected[part], 12);
    expect(sum(budget)).toBeCloseTo(expected.sum, 12);
  });

  // Source: worked by hand. Clutches of 0.1 s before the primary's end and of 0.05 s after it; second press 0.4 s after the first.
  it("takes clutches out of the parts they lie in, and gives what follows the first press to recovery", () => {
    const times = { go: 1, onset: 1.25, primaryEnd: 1.75, stop: 2, press: 2.125, end: 2.5 };
    const clutches = [
      { from: 1.375, to: 1.5 },
      { from: 1.75, to: 1.8125 },
    ];
    expect(budgetOf(times, 2.125, false, clutches)).toEqual({
      latency: 0.25,
      primary: 0.375,
      correction: 0.1875,
      clutch: 0.1875,
      verification: 0.125,
      recovery: 0.375,
    });
  });
});

describe("budgetOf properties", () => {
  test.prop([secondsArb, secondsArb, secondsArb, secondsArb, secondsArb, fc.boolean(), fc.tuple(secondsArb, secondsArb)])(
    "adds up to end - go whatever the instants and clutches",
    (latency, a, b, c, recovery, moving, [from, to]) => {
      const go = 5;
      const onset = go + latency - 1;
      const [primaryEnd, stop, until] = moving ? [onset + a, onset + a + b, onset + c] : [onset + a, onset + a + b, onset + a + b + c];
      const clutches = from < to ? [{ from: 4 + from, to: 4 + to }] : [];
      const budget = budgetOf({ go, onset, primaryEnd, stop, press: until, end: until + recovery }, until, moving, clutches);
      expect(sum(budget)).toBeCloseTo(until + recovery - go, 12);
      for (const part of ["primary", "correction", "clutch", "verification", "recovery"] as const)
        expect(budget[part]).toBeGreaterThanOrEqual(-1e-12);
      if (moving) expect(budget.verification).toBe(0);
    },
  );
});

describe("budgetOf without a movement", () => {
  it("is all verification when pressed, all latency when not", () => {
    expect(budgetOf({ go: 1, press: 1.5, end: 2 }, 1.5, false, [])).toMatchObject({ latency: 0, verification: 0.5, recovery: 0.5 });
    expect(budgetOf({ go: 1, end: 2 }, 2, false, [])).toMatchObject({ latency: 1, verification: 0, recovery: 0 });
  });
});
