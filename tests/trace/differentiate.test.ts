import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/math/random.js";
import { differentiate } from "../../src/trace/differentiate.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";
import { runningTotals } from "./plain-chain.js";

const reference = readReference("kinematics/derivatives.json");
const cases = (reference?.cases ?? []).filter(({ input }) => input.t !== undefined);
const sd = (series: Float64Array): number => Math.sqrt(series.reduce((sum, value) => sum + value * value, 0) / series.length);
const timesArb = fc.array(fc.integer({ min: 1, max: 50 }), { minLength: 3, maxLength: 40 }).map((steps) => {
  return Float64Array.from(runningTotals([0, ...steps]), (ms) => ms / 1000);
});

describe("differentiate against outside values", () => {
  it.skipIf(!reference)(`has its reference table (else: ${SHARED_ABSENT})`, () => expect(cases.length).toBe(4));
  // Source: NumPy 1.24.2 gradient, edge_order 1 and 2; second derivative from the three-point formula.
  it.each(cases)("$name", ({ input, expected, tolerance }) => {
    const t = Float64Array.from(input.t as number[]);
    const x = Float64Array.from(input.x as number[]);
    for (const edgeOrder of [1, 2] as const) {
      const got = differentiate(x, { t, edgeOrder });
      for (const [i, value] of (expected[`firstEdgeOrder${edgeOrder}`] ?? []).entries()) {
        expect(within(got[i]!, value, tolerance), `edge order ${edgeOrder}, [${i}] ${got[i]} ${value}`).toBe(true);
      }
    }
    const second = differentiate(x, { t, order: 2 }).subarray(1, x.length - 1);
    for (const [i, value] of expected.secondInterior.entries()) expect(within(second[i]!, value, tolerance), `second [${i}]`).toBe(true);
  });

  // Source: closed form for white noise: SD s / (sqrt(2) dt) of first and sqrt(6) s / dt^2 of second differences. Tolerance: 5 standard errors at n = 1e5.
  it("passes on as much noise as its formula says", () => {
    const random = createRandom(7);
    const noise = Float64Array.from({ length: 1e5 }, () => random.normal());
    const first = sd(differentiate(noise, { sampleRateHz: 125 }));
    const second = sd(differentiate(noise, { sampleRateHz: 125, order: 2 }));
    expect(Math.abs(first / (125 * Math.SQRT1_2) - 1)).toBeLessThan(0.02);
    expect(Math.abs(second / (125 ** 2 * Math.sqrt(6)) - 1)).toBeLessThan(0.02);
  });

  // Source: closed form, derivatives of a parabola.
  test.prop([timesArb, fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 })])("is exact for a parabola", (t, a, b) => {
    const x = t.map((time) => a * time * time + b * time + 3);
    const first = differentiate(x, { t, edgeOrder: 2 });
    const second = differentiate(x, { t, order: 2 });
    for (let i = 0; i < t.length; i++) {
      expect(first[i]).toBeCloseTo(2 * a * t[i]! + b, 8);
      expect(Math.abs(second[i]! - 2 * a)).toBeLessThan(1e-6);
    }
  });
  // Source: closed form, second derivative of a cubic by four points at the ends.
  it("has a second derivative exact for a cubic at the ends with edge order 2", () => {
    const t = Float64Array.of(0, 0.01, 0.03, 0.04, 0.07, 0.08);
    const second = differentiate(
      t.map((time) => time ** 3),
      { t, order: 2, edgeOrder: 2 },
    );
    expect(second[0]).toBeCloseTo(0, 9);
    expect(second[5]).toBeCloseTo(6 * 0.08, 9);
  });
});

describe("differentiate properties", () => {
  const optionsArb = fc.record({ order: fc.constantFrom(1 as const, 2 as const), edgeOrder: fc.constantFrom(1 as const, 2 as const) });
  /** Equal but for rounding, measured by the largest entry. */
  const near = (got: Float64Array, expected: Float64Array): void => {
    const scale = expected.reduce((most, value) => Math.max(most, Math.abs(value)), 1);
    for (let i = 0; i < expected.length; i++) expect(Math.abs(got[i]! - expected[i]!)).toBeLessThan(1e-9 * scale);
  };
  const valuesFor = (t: Float64Array): Float64Array => t.map((_, i) => ((i * 7919) % 211) - 90);

  test.prop([timesArb, optionsArb, fc.integer({ min: -9, max: 9 })])(
    "scales with its input and does not see an offset",
    (t, options, factor) => {
      const x = valuesFor(t);
      const base = differentiate(x, { ...options, t });
      const got = differentiate(
        x.map((value) => factor * value + 1024),
        { ...options, t },
      );
      near(
        got,
        base.map((value) => factor * value),
      );
    },
  );
  test.prop([timesArb, optionsArb])("does not depend on the zero of time", (t, options) => {
    const x = valuesFor(t);
    const later = t.map((time) => time + 1.7e9);
    // the same steps as the rounded late times, counted from 0: every difference is the same number
    const sameSteps = later.map((time) => time - later[0]!);
    expect(differentiate(x, { ...options, t: later })).toEqual(differentiate(x, { ...options, t: sameSteps }));
  });
  test.prop([fc.array(fc.integer({ min: -2000, max: 2000 }), { minLength: 4, maxLength: 40 }), optionsArb])(
    "gives the same with a rate as with the times of that rate",
    (values, options) => {
      const x = Float64Array.from(values);
      const even = differentiate(x, { ...options, sampleRateHz: 128 });
      const uneven = differentiate(x, { ...options, t: x.map((_, i) => i / 128) });
      near(even, uneven);
    },
  );
  test.prop([timesArb, optionsArb])("changes sign with the direction of time, once for each order", (t, options) => {
    const x = valuesFor(t);
    const end = t[t.length - 1]!;
    const turned = { t: t.map((_, i) => end - t[t.length - 1 - i]!), x: x.slice().reverse() };
    const backward = differentiate(turned.x, { ...options, t: turned.t }).reverse();
    const sign = options.order === 1 ? -1 : 1;
    near(
      backward.map((value) => sign * value),
      differentiate(x, { ...options, t }),
    );
  });
  it("leaves its input and its options as they were", () => {
    const x = Float64Array.of(1, 5, 2);
    const t = Float64Array.of(0, 1, 3);
    differentiate(x, Object.freeze({ t }));
    expect([x, t]).toEqual([Float64Array.of(1, 5, 2), Float64Array.of(0, 1, 3)]);
  });
});

describe("differentiate bad input", () => {
  const series = Float64Array.of(1, 2, 4);
  it("names what is wrong and what is allowed", () => {
    expect(() => differentiate(series, {})).toThrow(
      new TypeError("differentiate: options must have either sampleRateHz or t, got neither"),
    );
    expect(() => differentiate(series, { sampleRateHz: 1, t: series })).toThrow(
      new TypeError("differentiate: options must have either sampleRateHz or t, got both"),
    );
    expect(() => differentiate(Float64Array.of(1), { sampleRateHz: 1 })).toThrow(
      new RangeError("differentiate: series must have at least 2 entries, got 1"),
    );
    expect(() => differentiate(series, { sampleRateHz: 1, order: 2, edgeOrder: 2 })).toThrow(/series must have at least 4 entries, got 3/);
    expect(() => differentiate(series, { t: Float64Array.of(0, 1, 1) })).toThrow(
      new RangeError("differentiate: options.t must increase, got options.t[2] = 1 after 1"),
    );
    expect(() => differentiate(series, { t: Float64Array.of(0, 1) })).toThrow(
      /options\.t must have 3 entries like the other columns, got 2/,
    );
    expect(() => differentiate(series, { sampleRateHz: Number.NaN })).toThrow(/options\.sampleRateHz must be finite and above 0, got NaN/);
    // @ts-expect-error no third derivative
    expect(() => differentiate(series, { sampleRateHz: 1, order: 3 })).toThrow(/options\.order must be 1 or 2, got 3/);
    // @ts-expect-error no third order
    expect(() => differentiate(series, { sampleRateHz: 1, edgeOrder: 3 })).toThrow(/options\.edgeOrder must be 1 or 2, got 3/);
    expect(() => differentiate(Float64Array.of(1, Number.NaN), { sampleRateHz: 1 })).toThrow(/series\[1\] must be finite, got NaN/);
  });
});
