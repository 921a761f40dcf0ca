import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { numberText, readDecimal } from "../../src/trace/form/number-text.js";

const read = (text: string): number => readDecimal(text, 0, text.length);

/** Decimals as people and programs write them: digits before and after a point, an exponent now and then. */
const decimal = fc
  .tuple(
    fc.constantFrom("", "-", "+"),
    fc.stringMatching(/^\d{1,19}$/),
    fc.option(fc.stringMatching(/^\d{0,25}$/), { nil: undefined }),
    fc.option(fc.integer({ min: -330, max: 310 }), { nil: undefined, freq: 3 }),
  )
  .map(([sign, whole, part, power]) => `${sign}${whole}${part === undefined ? "" : `.${part}`}${power === undefined ? "" : `e${power}`}`);

describe("readDecimal against outside values", () => {
  // Source: ECMAScript's Number(text), which rounds to the nearest double.
  test.prop([decimal], { numRuns: 5000 })("is Number of any decimal", (text) => {
    expect(read(text)).toBe(Number(text));
  });

  // Source: ECMAScript's Number(text); figures at the ends of the short way: 2^53 and 22 decimals.
  it.each([
    ["9007199254740991"],
    ["9007199254740992"],
    ["9007199254740993"],
    ["0.9007199254740993"],
    ["0.0000000000000000000001"],
    ["0.00000000000000000000001"],
    ["123456789012345.6"],
    ["5e-324"],
    ["1.7976931348623157e308"],
    ["-0"],
    ["00.10"],
    [".5"],
    ["5."],
  ])("is Number of %s", (text) => expect(read(text)).toBe(Number(text)));
});

describe("readDecimal properties", () => {
  test.prop([fc.double({ noNaN: true, noDefaultInfinity: true })], { numRuns: 2000 })("reads back what numberText writes", (value) => {
    expect(read(numberText(value))).toBe(value);
  });

  test.prop([decimal, fc.stringMatching(/^[ \t]{0,3}$/), fc.stringMatching(/^[ \t]{0,3}$/)])(
    "skips spaces around a number",
    (text, before, after) => {
      expect(read(before + text + after)).toBe(Number(text));
    },
  );

  it("reads only between its two offsets", () => expect(readDecimal("12,345,67", 3, 6)).toBe(345));
});

describe("readDecimal bad input", () => {
  it.each(["", " ", "-", ".", "1e", "e5", "0x10", "1_000", "1 2", "NaN", "Infinity", "--1", "1.2.3", "١", "1,5"])(
    "makes no number of %j",
    (text) => {
      expect(read(text)).toBeNaN();
    },
  );

  it("gives infinity for what is too large, for its caller to refuse", () => expect(read("1e999")).toBe(Number.POSITIVE_INFINITY));
});
