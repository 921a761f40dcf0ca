import { fc, test } from "@fast-check/vitest";
import { pinv } from "mathjs";
import { describe, expect, it } from "vitest";
import { savitzkyGolayWeights } from "../../src/trace/condition/savitzky-golay-weights.js";
import { savitzkyGolay } from "../../src/trace/savitzky-golay.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";

const reference = readReference("kinematics/savitzky-golay.json");
const cases = (start: string) => (reference?.cases ?? []).filter(({ name }) => name.startsWith(start));
const edgesOf = { interp: "polynomial", mirror: "mirror", nearest: "nearest", constant: "constant", wrap: "wrap" } as const;
const allEdges = Object.values(edgesOf);
const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));

/** Weights by the textbook: derivative of the least-squares polynomial from the pseudoinverse of its matrix of powers. */
function plainWeights(window: number, degree: number, derivative: number, at: number): number[] {
  const half = (window - 1) / 2;
  const powers = Array.from({ length: window }, (_, j) => Array.from({ length: degree + 1 }, (_, k) => ((j - half) / half) ** k));
  const inverse = pinv(powers) as number[][];
  return Array.from({ length: window }, (_, j) =>
    inverse.reduce((sum, row, k) => {
      if (k < derivative) return sum;
      return sum + (row[j]! * (factorial(k) / factorial(k - derivative)) * (at / half) ** (k - derivative)) / half ** derivative;
    }, 0),
  );
}

describe("savitzkyGolay against outside values", () => {
  it.skipIf(!reference)(`has its reference table (else: ${SHARED_ABSENT})`, () => expect(reference!.cases.length).toBe(74));
  // Source: SciPy 1.10.1 signal.savgol_coeffs(use="dot").
  it.each(cases("coefficients"))("$name", ({ params, expected, tolerance }) => {
    const { window, degree, derivative, delta } = params;
    const weights = savitzkyGolayWeights(window, degree, derivative, 0);
    for (const [j, value] of expected.coefficients.entries()) {
      expect(within(weights[j]! / delta ** derivative, value, tolerance), `weight ${j}`).toBe(true);
    }
  });
  // Source: SciPy 1.10.1 signal.savgol_filter; its mode "interp" is "polynomial" here.
  it.each(cases("filter"))("$name", ({ input, params, expected, tolerance }) => {
    const { window, degree, derivative, delta } = params;
    const edges = edgesOf[params.edges as keyof typeof edgesOf];
    const got = savitzkyGolay(Float64Array.from(input.x as number[]), { window, degree, derivative, edges, sampleRateHz: 1 / delta });
    for (const [i, value] of expected.y.entries()) expect(within(got[i]!, value, tolerance), `y[${i}]`).toBe(true);
  });
  // Source: SciPy 1.10.1 signal.savgol_filter and the derivatives of the cubic in closed form.
  it.each(cases("exactness"))("$name", ({ input, params, expected, tolerance }) => {
    const { window, degree, delta } = params;
    for (const derivative of [0, 1, 2, 3]) {
      const got = savitzkyGolay(Float64Array.from(input.x as number[]), { window, degree, derivative, sampleRateHz: 1 / delta });
      for (const [i, value] of expected[`derivative${derivative}`].entries()) expect(within(got[i]!, value, tolerance)).toBe(true);
    }
  });
  // Source: pseudoinverse by mathjs 15.2.0, at every place of the window. Tolerance: its own accuracy.
  test.prop([fc.integer({ min: 1, max: 12 }), fc.integer({ min: 0, max: 6 }), fc.nat(), fc.nat()])(
    "has the weights of a least-squares polynomial",
    (half, wantedDegree, derivativeDraw, place) => {
      const window = 2 * half + 1;
      const degree = Math.min(wantedDegree, window - 1);
      const derivative = derivativeDraw % (degree + 1);
      const at = (place % window) - half;
      const got = savitzkyGolayWeights(window, degree, derivative, at);
      const expected = plainWeights(window, degree, derivative, at);
      const scale = Math.max(...expected.map(Math.abs));
      for (let j = 0; j < window; j++) expect(Math.abs(got[j]! - expected[j]!)).toBeLessThan(1e-7 * scale);
    },
  );
});

describe("savitzkyGolay properties", () => {
  const seriesArb = fc.array(fc.integer({ min: -2000, max: 2000 }), { minLength: 11, maxLength: 60 });

  // Source: closed form, a polynomial up to the degree is its own fit. Tolerance: rounding of values up to 1e5.
  test.prop([fc.array(fc.integer({ min: -5, max: 5 }), { minLength: 4, maxLength: 4 }), fc.integer({ min: 0, max: 3 })])(
    "is exact for a polynomial of its degree, the ends included",
    (c, derivative) => {
      const value = (t: number, d: number): number =>
        c.reduce((sum, factor, k) => (k < d ? sum : sum + (factor * factorial(k) * t ** (k - d)) / factorial(k - d)), 0);
      const cubic = Float64Array.from({ length: 31 }, (_, i) => value(i / 10, 0));
      const got = savitzkyGolay(cubic, { window: 9, derivative, sampleRateHz: 10 });
      for (let i = 0; i < 31; i++) expect(Math.abs(got[i]! - value(i / 10, derivative))).toBeLessThan(1e-8);
    },
  );
  test.prop([seriesArb, fc.constantFrom(...allEdges), fc.integer({ min: -9, max: 9 })])("is linear", (values, edges, factor) => {
    const other = values.map((_, i) => (i * 7919) % 257);
    const run = (list: readonly number[]): Float64Array => savitzkyGolay(Float64Array.from(list), { window: 7, derivative: 1, edges });
    const [a, b, sum] = [run(values), run(other), run(values.map((value, i) => factor * value + other[i]!))];
    for (let i = 0; i < values.length; i++) expect(sum[i]).toBeCloseTo(factor * a[i]! + b[i]!, 7);
  });
  test.prop([seriesArb, fc.constantFrom(...allEdges)])("turns round with its input", (values, edges) => {
    const run = (list: readonly number[]): Float64Array => savitzkyGolay(Float64Array.from(list), { window: 7, edges });
    const backward = run([...values].reverse()).reverse();
    for (const [i, value] of run(values).entries()) expect(backward[i]).toBeCloseTo(value, 7);
  });
  // Source: common practice, no source: reflection, repetition and periodicity written out for a series shorter than the window.
  it.each([
    ["mirror", [3, 2, 1, 2, 3, 2, 1]],
    ["nearest", [1, 1, 1, 2, 3, 3, 3]],
    ["wrap", [2, 3, 1, 2, 3, 1, 2]],
    ["constant", [0, 0, 1, 2, 3, 0, 0]],
  ] as const)("extends a short series by %s", (edges, extended) => {
    const weights = savitzkyGolayWeights(5, 3, 0, 0);
    const got = savitzkyGolay(Float64Array.of(1, 2, 3), { window: 5, edges });
    for (let i = 0; i < 3; i++) {
      expect(got[i]).toBeCloseTo(
        weights.reduce((sum, weight, j) => sum + weight * extended[i + j]!, 0),
        12,
      );
    }
  });
  it("takes 50 ms by default, at least two values more than the degree, and an odd number", () => {
    const series = Float64Array.from({ length: 100 }, (_, i) => (i * 7919) % 101);
    const same = (a: object, b: object): void => expect(savitzkyGolay(series, a)).toEqual(savitzkyGolay(series, b));
    same({ sampleRateHz: 1000 }, { sampleRateHz: 1000, window: 51 });
    same({ sampleRateHz: 125 }, { sampleRateHz: 125, window: 7 });
    same({}, { window: 5 });
    same({ degree: 4 }, { degree: 4, window: 7 });
    same({ degree: 5, sampleRateHz: 60 }, { degree: 5, sampleRateHz: 60, window: 7 });
  });
  it("leaves its input and its options as they were", () => {
    const input = Float64Array.of(1, 5, 2, 8, 3);
    savitzkyGolay(input, Object.freeze({ window: 5 }));
    expect(input).toEqual(Float64Array.of(1, 5, 2, 8, 3));
  });
});

describe("savitzkyGolay bad input", () => {
  const series = Float64Array.of(1, 2, 3, 4, 5, 6, 7);
  it("names what is wrong and what is allowed", () => {
    expect(() => savitzkyGolay(series, { window: 6 })).toThrow(new RangeError("savitzkyGolay: options.window must be odd, got 6"));
    expect(() => savitzkyGolay(series, { window: 3 })).toThrow(/options\.window must be a whole number .*at least 4, got 3/);
    expect(() => savitzkyGolay(series, { window: 9 })).toThrow(
      new RangeError("savitzkyGolay: series must have at least 9 entries (options.window), got 7"),
    );
    expect(() => savitzkyGolay(series, { degree: 13 })).toThrow(/options\.degree must be a whole number at least 0 and at most 12, got 13/);
    expect(() => savitzkyGolay(series, { derivative: 4 })).toThrow(
      /options\.derivative must be a whole number at least 0 and at most 3, got 4/,
    );
    expect(() => savitzkyGolay(Float64Array.of(1, Number.POSITIVE_INFINITY))).toThrow(/series\[1\] must be finite, got Infinity/);
    expect(() => savitzkyGolay(series, { sampleRateHz: -1 })).toThrow(/options\.sampleRateHz must be finite and above 0, got -1/);
    // @ts-expect-error SciPy's word
    expect(() => savitzkyGolay(series, { edges: "interp" })).toThrow(/options\.edges must be one of "polynomial", .* got "interp"/);
  });
});
