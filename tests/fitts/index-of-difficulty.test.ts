import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { indexOfDifficulty } from "../../src/fitts/index-of-difficulty.js";

const lengthArb = fc.double({ min: 1e-3, max: 1e4, noNaN: true });
const FORMS = ["shannon", "fitts", "welford", "squareRoot"] as const;
const formArb = fc.constantFrom(...FORMS);

describe("indexOfDifficulty against outside values", () => {
  // Source: Fitts 1954, 1-oz table as reprinted in MacKenzie 1991 (read): A and W in inches, ID in bits as printed there.
  it.each([
    [2, 0.25, 4],
    [16, 0.25, 7],
    [8, 0.5, 5],
    [2, 2, 1],
    [16, 2, 4],
  ])("gives Fitts' own bits for A = %d, W = %d", (amplitude, width, bits) => {
    expect(indexOfDifficulty(amplitude, width, { form: "fitts" })).toBe(bits);
  });

  // Source: closed form, powers of two: log2(7 + 1), log2(31 + 1), log2(7.5 + 0.5).
  it("is a whole number of bits where the formula says so", () => {
    expect(indexOfDifficulty(7, 1)).toBe(3);
    expect(indexOfDifficulty(31, 1)).toBe(5);
    expect(indexOfDifficulty(300, 40, { form: "welford" })).toBe(3);
  });

  // Source: NumPy 2.4.6 log2, computed, ten digits (reference table index-of-difficulty).
  it("is that of NumPy", () => {
    expect(indexOfDifficulty(300, 40)).toBeCloseTo(3.087462841, 9);
    expect(indexOfDifficulty(300, 40, { form: "fitts" })).toBeCloseTo(3.906890596, 9);
    expect(indexOfDifficulty(768, 10, { form: "welford" })).toBeCloseTo(6.272396509, 9);
  });

  // Source: closed form: square and cube roots of perfect powers.
  it("takes the root of as many submovements as asked for", () => {
    expect(indexOfDifficulty(320, 20, { form: "squareRoot" })).toBe(4);
    expect(indexOfDifficulty(64, 1, { form: "squareRoot", submovements: 3 })).toBeCloseTo(4, 12);
    expect(indexOfDifficulty(64, 1, { form: "squareRoot", submovements: 1 })).toBe(64);
  });
});

describe("indexOfDifficulty properties", () => {
  test.prop([lengthArb, lengthArb, lengthArb, formArb])("depends on the ratio alone", (amplitude, width, scale, form) => {
    expect(indexOfDifficulty(scale * amplitude, scale * width, { form })).toBeCloseTo(indexOfDifficulty(amplitude, width, { form }), 6);
  });

  test.prop([lengthArb, lengthArb, fc.double({ min: 1.001, max: 100, noNaN: true }), formArb])(
    "rises with the distance and falls with the width",
    (amplitude, width, factor, form) => {
      const here = indexOfDifficulty(amplitude, width, { form });
      expect(indexOfDifficulty(amplitude * factor, width, { form })).toBeGreaterThan(here);
      expect(indexOfDifficulty(amplitude, width * factor, { form })).toBeLessThan(here);
    },
  );

  test.prop([lengthArb, lengthArb])("orders the logarithmic forms and lets them meet where they should", (amplitude, width) => {
    const [shannon, fitts, welford] = FORMS.map((form) => indexOfDifficulty(amplitude, width, { form })) as [number, number, number];
    expect(shannon).toBeGreaterThanOrEqual(0);
    expect(shannon).toBeGreaterThan(welford);
    // log2(2r) passes log2(r + 1) at r = 1 and log2(r + 1/2) at r = 1/2
    expect(Math.sign(fitts - shannon)).toBe(Math.sign(amplitude - width));
    expect(Math.abs(fitts - welford) < 1e-12 || fitts > welford === amplitude > width / 2).toBe(true);
    expect(fitts < 0).toBe(amplitude < width / 2);
  });

  it("is 0 at no distance, or minus one bit with Welford's form", () => {
    expect(indexOfDifficulty(0, 40)).toBe(0);
    expect(indexOfDifficulty(0, 40, { form: "squareRoot" })).toBe(0);
    expect(indexOfDifficulty(0, 40, { form: "welford" })).toBe(-1);
  });
});

describe("indexOfDifficulty bad input", () => {
  it("refuses no distance with Fitts' form, also where it vanishes beside the width", () => {
    const text = /^indexOfDifficulty: amplitude must be above 0 with options\.form "fitts" \(minus infinity at 0\), got 0$/;
    expect(() => indexOfDifficulty(0, 40, { form: "fitts" })).toThrow(text);
    expect(() => indexOfDifficulty(5e-324, 40, { form: "fitts" })).toThrow(/got 5e-324$/);
  });
  it("names the bad argument", () => {
    expect(() => indexOfDifficulty(-1, 40)).toThrow(new RangeError("indexOfDifficulty: amplitude must be finite and at least 0, got -1"));
    expect(() => indexOfDifficulty(300, 0)).toThrow(new RangeError("indexOfDifficulty: width must be finite and above 0, got 0"));
    expect(() => indexOfDifficulty(300, Number.NaN)).toThrow(/width must be finite and above 0, got NaN/);
    expect(() => indexOfDifficulty("300" as never, 40)).toThrow(new TypeError('indexOfDifficulty: amplitude must be a number, got "300"'));
    expect(() => indexOfDifficulty(1e300, 1e-300)).toThrow(/amplitude \/ width must be finite, got Infinity/);
  });
  it("refuses other forms and parts of submovements", () => {
    expect(() => indexOfDifficulty(300, 40, { form: "mackenzie" as never })).toThrow(
      /options\.form must be one of "shannon", .*got "mackenzie"/,
    );
    expect(() => indexOfDifficulty(300, 40, { form: "squareRoot", submovements: 1.5 })).toThrow(
      /options\.submovements must be a whole number finite and at least 1, got 1\.5/,
    );
  });
});
