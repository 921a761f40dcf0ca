import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { lowpass } from "../../src/trace/lowpass.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";
import { designFor, plainLowpass } from "./plain-chain.js";

const reference = readReference("kinematics/butterworth.json");
const zeroLag = (reference?.cases ?? []).filter(({ name }) => name.startsWith("zero-lag"));
const sine = (hz: number, sampleRateHz: number, n: number): Float64Array =>
  Float64Array.from({ length: n }, (_, i) => Math.sin((2 * Math.PI * hz * i) / sampleRateHz + 0.4));
const amplitude = (series: Float64Array): number => Math.sqrt((2 * series.reduce((sum, value) => sum + value * value, 0)) / series.length);

const seriesArb = fc.array(fc.integer({ min: -2000, max: 2000 }), { minLength: 2, maxLength: 120 });

describe("lowpass against outside values", () => {
  it.skipIf(!reference)(`has its reference table (else: ${SHARED_ABSENT})`, () => expect(zeroLag.length).toBe(24));
  // Source: SciPy 1.10.1 signal.butter with filtfilt and sosfiltfilt, which do not correct for the two passes.
  it.each(zeroLag)("$name", ({ input, params, expected, tolerance }) => {
    const { sampleRateHz, cutoffHz, orderPerPass: order, padType: padding, padLength } = params;
    const got = lowpass(Float64Array.from(input.x as number[]), {
      sampleRateHz,
      cutoffHz,
      order,
      padding,
      padLength,
      correctForPasses: false,
    });
    expect(got.length).toBe(expected.y.length);
    for (const [i, value] of expected.y.entries()) expect(within(got[i]!, value, tolerance), `y[${i}] ${got[i]} ${value}`).toBe(true);
  });

  // Source: closed form, amplitude gain of both passes 1/sqrt(2) at the cutoff. Tolerance: the measured sine leaves 1e-4 at its ends.
  it.each([
    [20, 1000, 2],
    [20, 60, 2],
    [12, 60, 2],
    [10, 125, 4],
    [6, 250, 1],
    [40, 1000, 3],
  ])("is 3 dB down at %i Hz for %i samples per second, order %i", (cutoffHz, sampleRateHz, order) => {
    const n = 4 * sampleRateHz;
    const passed = lowpass(sine(cutoffHz, sampleRateHz, n), { sampleRateHz, cutoffHz, order });
    expect(amplitude(passed.subarray(sampleRateHz, 3 * sampleRateHz))).toBeCloseTo(Math.SQRT1_2, 6);
  });

  // Source: closed form, 1 / (1 + (tan(pi f/fs)/w)^4) with w = tan(pi fc/fs) / (sqrt(2) - 1)^(1/4).
  it.each([5, 10, 40, 100])("passes %i Hz as its formula says", (hz) => {
    const w = Math.tan((Math.PI * 20) / 500) / (Math.SQRT2 - 1) ** 0.25;
    const gain = 1 / (1 + (Math.tan((Math.PI * hz) / 500) / w) ** 4);
    const passed = lowpass(sine(hz, 500, 2000), { sampleRateHz: 500 });
    expect(amplitude(passed.subarray(500, 1500))).toBeCloseTo(gain, 6);
  });

  // Source: the same filter written out by its definition (second implementation), direct form 1.
  test.prop([seriesArb, fc.constantFrom(60, 125, 1000), fc.constantFrom(6, 12, 20)])(
    "agrees with a plain second implementation",
    (values, sampleRateHz, cutoffHz) => {
      const pad = Math.min(values.length - 1, Math.ceil((3 * sampleRateHz) / cutoffHz));
      const expected = plainLowpass(values, sampleRateHz, designFor(cutoffHz, sampleRateHz), pad);
      const got = lowpass(Float64Array.from(values), { sampleRateHz, cutoffHz });
      for (let i = 0; i < values.length; i++) expect(Math.abs(got[i]! - expected[i]!)).toBeLessThan(1e-8 * 2000);
    },
  );
});

describe("lowpass properties", () => {
  const options = { sampleRateHz: 250, cutoffHz: 15 } as const;
  const filter = (values: readonly number[]): Float64Array => lowpass(Float64Array.from(values), options);
  const near = (a: ArrayLike<number>, b: ArrayLike<number>, tolerance = 1e-8): void => {
    expect(a.length).toBe(b.length);
    for (let i = 0; i < a.length; i++) expect(Math.abs(a[i]! - b[i]!)).toBeLessThan(tolerance);
  };

  test.prop([seriesArb, fc.integer({ min: -9, max: 9 }), fc.integer({ min: -5000, max: 5000 })])(
    "scales and shifts with its input",
    (values, factor, shift) => {
      const got = filter(values.map((value) => factor * value + shift));
      near(
        got,
        filter(values).map((value) => factor * value + shift),
        1e-7,
      );
    },
  );
  test.prop([seriesArb, fc.integer({ min: 0, max: 999 })])("is additive", (values, start) => {
    const other = values.map((_, i) => ((start + i) * 7919) % 257);
    const sum = filter(values.map((value, i) => value + other[i]!));
    const second = filter(other);
    near(
      sum,
      filter(values).map((value, i) => value + second[i]!),
    );
  });
  // the reflection of 3 / cutoff seconds leaves less than a millionth of a step of the start-up at the ends
  test.prop([fc.integer({ min: -100, max: 100 }), fc.integer({ min: -2000, max: 2000 }), fc.integer({ min: 51, max: 400 })])(
    "leaves a straight line as it is, its ends included",
    (slope, offset, n) => {
      const line = Float64Array.from({ length: n }, (_, i) => offset + slope * i);
      near(lowpass(line, options), line, 1e-6 * (1 + Math.abs(slope)));
    },
  );
  it("does not care about the direction of time far from the ends", () => {
    const values = Array.from({ length: 800 }, (_, i) => ((i * 7919) % 101) + 50 * Math.sin(i / 20));
    const forward = filter(values).subarray(250, 550);
    const backward = filter([...values].reverse())
      .reverse()
      .subarray(250, 550);
    near(forward, backward, 1e-10 * 150);
  });
  it("hands back an empty or single series", () => {
    expect(lowpass(new Float64Array(0), options)).toEqual(new Float64Array(0));
    expect(lowpass(Float64Array.of(7), options)[0]).toBeCloseTo(7, 12);
  });
  it("leaves its input and its options as they were", () => {
    const input = Float64Array.of(1, 5, 2, 8);
    lowpass(input, Object.freeze({ ...options }));
    expect(input).toEqual(Float64Array.of(1, 5, 2, 8));
  });
});

describe("lowpass bad input", () => {
  const series = Float64Array.of(1, 2, 3);
  it("names what is wrong and what is allowed", () => {
    // @ts-expect-error a plain list is no column
    expect(() => lowpass([1, 2], { sampleRateHz: 100 })).toThrow(
      new TypeError("lowpass: series must be a Float64Array, got an array of 2"),
    );
    expect(() => lowpass(Float64Array.of(1, Number.NaN), { sampleRateHz: 100 })).toThrow(
      new RangeError("lowpass: series[1] must be finite, got NaN"),
    );
    expect(() => lowpass(series, { sampleRateHz: 0 })).toThrow(
      new RangeError("lowpass: options.sampleRateHz must be finite and above 0, got 0"),
    );
    expect(() => lowpass(series, { sampleRateHz: 30 })).toThrow(
      new RangeError("lowpass: options.cutoffHz must be below half the sampling rate (15), got 20"),
    );
    expect(() => lowpass(series, { sampleRateHz: 100, order: 1.5 })).toThrow(
      new RangeError("lowpass: options.order must be a whole number at least 1 and at most 10, got 1.5"),
    );
    expect(() => lowpass(series, { sampleRateHz: 100, padLength: -1 })).toThrow(
      /options\.padLength must be a whole number .*at least 0, got -1/,
    );
    // @ts-expect-error no such padding
    expect(() => lowpass(series, { sampleRateHz: 100, padding: "zero" })).toThrow(
      new RangeError('lowpass: options.padding must be one of "odd", "even", "constant", "none", got "zero"'),
    );
  });
});
