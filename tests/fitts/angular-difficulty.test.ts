import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { angularDifficulty } from "../../src/fitts/angular-difficulty.js";
import { indexOfDifficulty } from "../../src/fitts/index-of-difficulty.js";

const lengthArb = fc.double({ min: 0.01, max: 10, noNaN: true });

describe("angularDifficulty against outside values", () => {
  // Source: geometry by hand: 1 m seen from 0.5 m is two halves of 45 degrees; a target from the line of sight's foot to 1 m at 1 m distance takes 45.
  it("gives right angles where geometry does", () => {
    expect(angularDifficulty(1, 0.1, 0.5).amplitude).toBeCloseTo(90, 12);
    expect(angularDifficulty(1, 1, 1).width).toBeCloseTo(45, 12);
  });

  // Source: SciPy 1.17.1 and NumPy 2.4.6, computed, ten digits (reference table of models): A = 2 m, W = 5 cm at 3 m.
  it("is that of NumPy", () => {
    const { amplitude, width, plain, weighted } = angularDifficulty(2, 0.05, 3);
    expect(amplitude).toBeCloseTo(36.86989765, 8);
    expect(width).toBeCloseTo(0.8594259497, 9);
    expect(plain).toBeCloseTo(5.456169087, 9);
    expect(weighted).toBeCloseTo(34.62925893, 8);
  });

  // Source: mpmath 1.3.0 with 40 digits: a target of a billionth, where subtracting two arcs would leave 8 digits; and one so wide that the arcs add up to beyond a right angle.
  it("keeps its digits for the tiniest and the widest targets", () => {
    const tiny = angularDifficulty(2, 1e-9, 3);
    expect(tiny.width / 1.71887338539247e-8).toBeCloseTo(1, 14);
    expect(tiny.plain).toBeCloseTo(30.998332988241, 11);
    expect(tiny.weighted / 6820.48967186511).toBeCloseTo(1, 12);
    const wide = angularDifficulty(0.3, 8, 0.5);
    expect(wide.width).toBeCloseTo(165.730413031899, 10);
    expect(wide.plain).toBeCloseTo(0.264864254053281, 12);
  });
});

describe("angularDifficulty properties", () => {
  test.prop([lengthArb, lengthArb, lengthArb, fc.double({ min: 0.01, max: 100, noNaN: true })])(
    "is the same in every length unit",
    (amplitude, width, distance, scale) => {
      const here = angularDifficulty(amplitude, width, distance);
      const there = angularDifficulty(scale * amplitude, scale * width, scale * distance);
      for (const key of ["amplitude", "width", "plain", "weighted"] as const) expect(there[key] / here[key]).toBeCloseTo(1, 9);
    },
  );

  test.prop([lengthArb, lengthArb, lengthArb])("squares the plain index with an exponent of 1", (amplitude, width, distance) => {
    const { plain, weighted } = angularDifficulty(amplitude, width, distance, { exponent: 1 });
    expect(weighted).toBeCloseTo(plain ** 2, 9);
  });

  test.prop([lengthArb, lengthArb])("tends to the index of lengths from far away", (amplitude, width) => {
    expect(angularDifficulty(amplitude, width, 1e7).plain).toBeCloseTo(indexOfDifficulty(amplitude, width), 9);
  });

  test.prop([lengthArb, lengthArb, lengthArb])("keeps its angles below two right angles", (amplitude, width, distance) => {
    const result = angularDifficulty(amplitude, width, distance);
    expect(result.amplitude).toBeLessThan(180);
    expect(result.width).toBeLessThan(180);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(structuredClone(result)).toEqual(result);
  });

  it("depends on the distance though lengths stay, and is 0 without a distance to go", () => {
    expect(angularDifficulty(1, 0.05, 4).weighted).toBeGreaterThan(2 * angularDifficulty(1, 0.05, 2).weighted);
    expect(angularDifficulty(0, 0.05, 2)).toMatchObject({ amplitude: 0, plain: 0, weighted: 0 });
  });
});

describe("angularDifficulty bad input", () => {
  it("names the bad argument", () => {
    expect(() => angularDifficulty(-1, 1, 1)).toThrow(new RangeError("angularDifficulty: amplitude must be finite and at least 0, got -1"));
    expect(() => angularDifficulty(1, 0, 1)).toThrow(/width must be finite and above 0, got 0/);
    expect(() => angularDifficulty(1, 1, 0)).toThrow(/distance must be finite and above 0, got 0/);
    expect(() => angularDifficulty(1, 1, 1, { exponent: -1 })).toThrow(/options\.exponent must be finite and at least 0, got -1/);
    expect(() => angularDifficulty(1, 1, "1" as never)).toThrow(new TypeError('angularDifficulty: distance must be a number, got "1"'));
  });
  it("refuses angles too small to be divided", () => {
    expect(() => angularDifficulty(1, 1e-200, 1)).toThrow(
      /amplitude over the power of the width, in degrees, must be finite, got Infinity/,
    );
    expect(() => angularDifficulty(1e-320, 1e-320, 1e300)).toThrow(/must be finite, got NaN/);
  });
});
