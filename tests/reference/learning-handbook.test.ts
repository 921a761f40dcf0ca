import { describe, expect, it } from "vitest";
import { fitLearningCurve } from "../../src/learning/fit-learning-curve.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";

// Source: reference/learning/learning-handbook.json: unit and cumulative-average tables of textbooks and a handbook, as quoted on public pages, beside
// their closed forms. A percentage curve is the power law b N^-c with c = -log2(rate). The library has no names of its own for them, and needs none.
const table = readReference("learning/learning-handbook.json");
const cases = table?.cases ?? [];
const named = (start: string) => cases.filter(({ name }) => name.startsWith(start));

/** First value, rate per doubling of practice and standard error of the exponent, by the power law. */
function powerLaw(practice: readonly number[], value: readonly number[]): { first: number; rate: number; exponentError: number } {
  const { b, c } = fitLearningCurve({ practice, value }, { law: "power2", intervals: "wald", band: 0 }).parameters;
  if (!b!.ok || !c!.ok) throw new Error("not identified");
  return { first: b!.value, rate: 2 ** -c!.value, exponentError: c!.standardError! };
}

describe.skipIf(table === undefined)(`percentage curves${table === undefined ? `: ${SHARED_ABSENT}` : ""}`, () => {
  it("are all there", () => expect([named("unit (Crawford)").length, named("exponent for rate").length]).toEqual([5, 6]));

  it.each(named("unit (Crawford)"))("$name: its exact unit times are a power law of its rate", ({ input, params, expected }) => {
    const { first, rate } = powerLaw(input.units, expected.unitExact);
    expect(within(first, params.firstUnit, { rel: 1e-9, abs: 0 })).toBe(true);
    expect(within(rate, params.rate, { rel: 1e-9, abs: 0 })).toBe(true);
  });

  // the printed times have three decimals: half a unit of the last moves the rate by less than that
  it.each(named("unit (Crawford)"))("$name: its printed unit times give the rate to their rounding", ({ input, params, expected }) => {
    expect(Math.abs(powerLaw(input.units, expected.unit).rate - params.rate)).toBeLessThan(5e-4);
  });

  it.each(named("unit (Crawford)"))("$name: its law has the printed times and totals", ({ input, expected, tolerance }) => {
    const { fitted } = fitLearningCurve({ practice: input.units, value: expected.unitExact }, { law: "power2", band: 0 });
    let total = 0;
    for (const [i, time] of fitted.entries()) {
      total += time;
      expect(within(time, expected.unit[i], tolerance)).toBe(true);
      expect(within(total, expected.total[i], tolerance)).toBe(true);
    }
  });

  it("have the cumulative averages of the other reading of the same rate", () => {
    const [one] = named("cumulative-average");
    const { input, params, expected, tolerance } = one!;
    const { first, rate } = powerLaw(input.units, expected.cumulativeAverage);
    expect(within(first, params.firstUnit, tolerance)).toBe(true);
    expect(within(rate, params.rate, tolerance)).toBe(true);
  });

  it("have the handbook's savings of the 75 % curve", () => {
    const [one] = named("project-management handbook");
    const { input, expected } = one!;
    const practice = Array.from({ length: 250 }, (_, i) => i + 1);
    const value = practice.map((unit) => input.firstUnit * unit ** Math.log2(input.rate));
    const { fitted } = fitLearningCurve({ practice, value }, { law: "power2", band: 0 });
    const exact = { rel: 1e-9, abs: 0 };
    expect(within(fitted[0]! - fitted[1]!, expected.dropUnit1to2Exact, exact)).toBe(true);
    expect(within(fitted[99]! - fitted[199]!, expected.dropUnit100to200Exact, exact)).toBe(true);
    const total = fitted.reduce((sum, time) => sum + time, 0);
    expect(within(total, expected.cumulative250Exact, exact)).toBe(true);
    expect(within(total / 250, expected.average250Exact, exact)).toBe(true);
  });

  it.each(named("exponent for rate"))(
    "$name is that of the power law, and halves what is left in the practice it says",
    ({ input, expected, tolerance }) => {
      const practice = [1, 2, 4, 8, 16];
      const value = practice.map((_, doublings) => input.rate ** doublings);
      const { parameters, halfLife } = fitLearningCurve({ practice, value }, { law: "power2", band: 0 });
      const { c } = parameters;
      if (!c!.ok || !halfLife.ok) throw new Error("not identified");
      // the fit adds a few roundings to the closed form's
      expect(within(c!.value, -expected.exponent, { rel: Math.max(tolerance.rel, 1e-12), abs: 0 })).toBe(true);
      expect(within(halfLife.value, 2 ** (-1 / expected.exponent), { rel: 1e-10, abs: 0 })).toBe(true);
    },
  );
});
