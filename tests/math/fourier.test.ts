import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { fourierPlan, powerOfTwoFrom } from "../../src/math/fourier.js";

const signalArb = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 1, maxLength: 90 });

/** The defining sum, bin by bin. */
function plainTransform(x: readonly number[]): { re: number[]; im: number[] } {
  const n = x.length;
  const bins = Array.from({ length: Math.floor(n / 2) + 1 }, (_, j) => j);
  const part = (of: (angle: number) => number): number[] =>
    bins.map((j) => x.reduce((sum, value, k) => sum + value * of((-2 * Math.PI * ((j * k) % n)) / n), 0));
  return { re: part(Math.cos), im: part(Math.sin) };
}

function largestDifference(a: ArrayLike<number>, b: readonly number[]): number {
  expect(a.length).toBe(b.length);
  return Math.max(...b.map((value, i) => Math.abs(a[i]! - value)));
}

describe("fourierPlan against outside values", () => {
  const x = [1, 4, -2, 3, 0, 5.5, -1.25, 2];
  // Source: numpy.fft.rfft, NumPy 2.4.6
  it.each([
    [5, [6, 1.4270509831248424, -1.9270509831248424], [0, -0.8652998037182482, -7.10642359064566]],
    [6, [11.5, 3.75, 0.25, -13.5], [0, 3.0310889132455348, -0.4330127018922194, 0]],
    [8, [12.25, -0.7677669529663689, 4.25, 2.767766952966369, -16.75], [0, 1.103553390593274, -4.5, -0.39644660940672605, 0]],
  ])("is the discrete transform of %d values", (n, re, im) => {
    const found = fourierPlan(n)(Float64Array.from(x.slice(0, n)));
    expect(largestDifference(found.re, re)).toBeLessThan(1e-13);
    expect(largestDifference(found.im, im)).toBeLessThan(1e-13);
  });
  // Source: closed form: the transform of cos(2 pi m k / n) is n/2 at bin m and 0 elsewhere, here for a prime and a long awkward length
  it.each([[9973], [60000]])("keeps its digits over %d values", (n) => {
    const m = 1234;
    const x = Float64Array.from({ length: n }, (_, k) => Math.cos((2 * Math.PI * ((m * k) % n)) / n));
    const { re, im } = fourierPlan(n)(x);
    re[m]! -= n / 2;
    expect(Math.max(...re.map(Math.abs), ...im.map(Math.abs)) / n).toBeLessThan(1e-13);
  });
});

describe("fourierPlan properties", () => {
  test.prop([signalArb])("equals the defining sum at any length", (x) => {
    const { re, im } = fourierPlan(x.length)(x);
    const plain = plainTransform(x);
    expect(largestDifference(re, plain.re)).toBeLessThan(1e-9);
    expect(largestDifference(im, plain.im)).toBeLessThan(1e-9);
  });
  test.prop([signalArb, fc.integer({ min: 0, max: 20 })])("appends zeros to a shorter signal", (x, more) => {
    const padded = [...x, ...Array.from({ length: more }, () => 0)];
    expect(fourierPlan(padded.length)(x)).toEqual(fourierPlan(padded.length)(padded));
  });
  test.prop([signalArb, signalArb])("forgets what it transformed before, and writes where it is told", (x, y) => {
    const n = Math.max(x.length, y.length);
    const plan = fourierPlan(n);
    const room = plan(y);
    expect(plan(x, room)).toBe(room);
    expect(room).toEqual(fourierPlan(n)(x));
  });
});

describe("powerOfTwoFrom", () => {
  it("is the number itself or the next power of two", () => {
    expect([1, 2, 3, 4, 5, 1023, 1024, 1025].map(powerOfTwoFrom)).toEqual([1, 2, 4, 4, 8, 1024, 1024, 2048]);
  });
});
