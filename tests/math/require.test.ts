import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { requireColumn, requireInteger, requireNumber, requireOneOf, requireSeed, show } from "../../src/math/require.js";

const MOST = Number.MAX_SAFE_INTEGER;

describe("requireNumber and its kin against outside values", () => {
  // Source: common practice, no source: a message names what was called, the argument, what is allowed and what came
  it("say what is allowed", () => {
    expect(() => requireNumber("f", "x", Number.NaN)).toThrow(new RangeError("f: x must be finite, got NaN"));
    expect(() => requireNumber("f", "x", -1, 0)).toThrow(new RangeError("f: x must be finite and at least 0, got -1"));
    expect(() => requireNumber("f", "x", 0, 0, Number.POSITIVE_INFINITY, true)).toThrow("f: x must be finite and above 0, got 0");
    expect(() => requireNumber("f", "x", 3, 1, 2)).toThrow("f: x must be at least 1 and at most 2, got 3");
    expect(() => requireNumber("f", "x", 3, Number.NEGATIVE_INFINITY, 2)).toThrow("f: x must be at least -Infinity and at most 2, got 3");
    expect(() => requireInteger("f", "n", 1.5, 1)).toThrow(new RangeError("f: n must be a whole number finite and at least 1, got 1.5"));
    expect(() => requireOneOf("f", "kind", "c" as string, ["a", "b"])).toThrow(new RangeError('f: kind must be one of "a", "b", got "c"'));
    expect(() => requireColumn("f", "t", new Float64Array(2), 3)).toThrow("f: t must have 3 entries like the other columns, got 2");
    expect(() => requireColumn("f", "t", Float64Array.of(0, Number.NaN))).toThrow(new RangeError("f: t[1] must be finite, got NaN"));
  });

  it("picture any value that came", () => {
    expect(show("a".repeat(60))).toBe(`"${"a".repeat(60)}"`);
    expect(show("a".repeat(61))).toBe(`"${"a".repeat(60)}..."`);
    expect([null, undefined, 3, true].map(show)).toEqual(["null", "undefined", "3", "true"]);
    expect(show([1, 2])).toBe("an array of 2");
    expect(show({})).toBe("an object of type Object");
    expect(show(Object.create(null))).toBe("an object of type Object");
    expect(show(new Map())).toBe("an object of type Map");
  });
});

describe("requireNumber and its kin properties", () => {
  const ordered = fc
    .tuple(fc.integer({ min: -99, max: 99 }), fc.integer({ min: -99, max: 99 }))
    .map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const);

  test.prop([ordered, fc.integer({ min: -120, max: 120 })])(
    "pass what lies within the bounds, the bounds among it",
    ([low, high], value) => {
      const passes = (check: () => void): boolean => {
        try {
          check();
          return true;
        } catch {
          return false;
        }
      };
      expect(passes(() => requireNumber("f", "x", value, low, high))).toBe(low <= value && value <= high);
      expect(passes(() => requireNumber("f", "x", value, low, high, true))).toBe(low < value && value <= high);
      expect(passes(() => requireInteger("f", "x", value, low, high))).toBe(low <= value && value <= high);
      expect(passes(() => requireNumber("f", "x", low, low, high))).toBe(true);
      expect(passes(() => requireInteger("f", "x", high, low, high))).toBe(true);
    },
  );

  it("allow the largest whole number, and no larger", () => {
    expect(() => requireInteger("f", "n", MOST, 0)).not.toThrow();
    expect(() => requireInteger("f", "n", MOST + 1, 0)).toThrow(RangeError);
  });
});

describe("requireNumber and its kin bad input", () => {
  it("call what is no number a wrong type", () => {
    expect(() => requireNumber("f", "x", "1" as never)).toThrow(new TypeError('f: x must be a number, got "1"'));
    expect(() => requireInteger("f", "x", null as never, 0)).toThrow(new TypeError("f: x must be a whole number, got null"));
    expect(() => requireColumn("f", "x", [1] as never)).toThrow(new TypeError("f: x must be a Float64Array, got an array of 1"));
  });
});

describe("requireSeed", () => {
  // Source: the two ranges of 32-bit integers
  it("takes 32-bit integers with a sign or without, and nothing beyond", () => {
    for (const seed of [0, -(2 ** 31), 2 ** 32 - 1]) expect(() => requireSeed("draw", seed)).not.toThrow();
    for (const seed of [-(2 ** 31) - 1, 2 ** 32])
      expect(() => requireSeed("draw", seed)).toThrow(
        `draw: options.seed must be a whole number at least -2147483648 and at most 4294967295, got ${seed}`,
      );
    expect(() => requireSeed("draw", 0.5)).toThrow(RangeError);
  });
});
