import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { steeringDifficulty } from "../../src/fitts/steering-difficulty.js";

const widthArb = fc.double({ min: 1, max: 200, noNaN: true });
const tunnelArb = fc
  .array(fc.tuple(fc.double({ min: 0, max: 100, noNaN: true }), widthArb), { minLength: 2, maxLength: 12 })
  .map((points) => {
    let s = 0;
    return { arcLength: Float64Array.from(points, ([step]) => (s += step)), width: Float64Array.from(points, ([, w]) => w) };
  });
const column = (...values: number[]): Float64Array => Float64Array.of(...values);

describe("steeringDifficulty against outside values", () => {
  // Source: closed form A/W for a straight tunnel; a ring of radius 100 and width 20 has 2 pi 100/20.
  it("is the length in widths of an even tunnel", () => {
    expect(steeringDifficulty(column(0, 500), column(20, 20))).toBe(25);
    const ring = Float64Array.from({ length: 101 }, (_, i) => (2 * Math.PI * 100 * i) / 100);
    expect(steeringDifficulty(ring, new Float64Array(101).fill(20))).toBeCloseTo(10 * Math.PI, 11);
  });

  // Source: closed form A ln(W2/W1)/(W2 - W1) of Accot and Zhai's cone (recalled).
  it("is the logarithm of a cone", () => {
    expect(steeringDifficulty(column(0, 500), column(20, 40))).toBeCloseTo(25 * Math.LN2, 12);
    expect(steeringDifficulty(column(0, 500), column(80, 10))).toBeCloseTo((500 / 70) * Math.log(8), 12);
  });

  // Source: SciPy 1.17.1 integrate.quad of 1/W(s), W linear through (0, 20), (100, 60), (400, 10); both pieces to 1e-13.
  it("is the integral over a tunnel of several pieces", () => {
    expect(steeringDifficulty(column(0, 100, 400), column(20, 60, 10))).toBeCloseTo(13.497087537038603, 11);
  });

  // Source: series of ln(1 + e)/e = 1 - e/2 + e^2/3 about equal widths.
  it.each([1e-3, 1e-6, 1e-9, 1e-12, 1e-15])("keeps its digits as the widths meet, %d apart", (e) => {
    const growth = (20 * (1 + e) - 20) / 20;
    expect(steeringDifficulty(column(0, 500), column(20, 20 * (1 + e))) / 25).toBeCloseTo(1 - growth / 2 + growth ** 2 / 3, 9);
    expect(Math.abs(steeringDifficulty(column(0, 500), column(20, 20 * (1 + e))) / 25 - 1)).toBeLessThan(growth);
  });
});

describe("steeringDifficulty properties", () => {
  test.prop([tunnelArb])("is the same in both directions and never negative", ({ arcLength, width }) => {
    const there = steeringDifficulty(arcLength, width);
    const last = arcLength.at(-1)!;
    const back = steeringDifficulty(arcLength.map((s) => last - s).reverse(), width.slice().reverse());
    expect(there).toBeGreaterThanOrEqual(0);
    expect(Math.abs(back - there)).toBeLessThan(1e-9 * (1 + there));
  });

  test.prop([tunnelArb, fc.double({ min: 0.1, max: 10, noNaN: true }), fc.double({ min: -1000, max: 1000, noNaN: true })])(
    "does not change with the length unit or the place of the zero",
    ({ arcLength, width }, scale, shift) => {
      const here = steeringDifficulty(arcLength, width);
      const there = steeringDifficulty(
        arcLength.map((s) => scale * s + shift),
        width.map((w) => scale * w),
      );
      expect(Math.abs(there - here)).toBeLessThan(1e-9 * (1 + here));
    },
  );

  test.prop([tunnelArb, tunnelArb])("adds up when tunnels follow each other, with a step of width between", (one, other) => {
    const end = one.arcLength.at(-1)!;
    const both = steeringDifficulty(
      Float64Array.of(...one.arcLength, ...other.arcLength.map((s) => end + (s - other.arcLength[0]!))),
      Float64Array.of(...one.width, ...other.width),
    );
    const sum = steeringDifficulty(one.arcLength, one.width) + steeringDifficulty(other.arcLength, other.width);
    expect(Math.abs(both - sum)).toBeLessThan(1e-9 * (1 + sum));
  });

  test.prop([tunnelArb])("is what a fine sum over the tunnel gives", ({ arcLength, width }) => {
    const from = Object.freeze(Array.from(arcLength));
    let sum = 0;
    for (let i = 1; i < arcLength.length; i++) {
      const ds = arcLength[i]! - arcLength[i - 1]!;
      for (let k = 0; k < 2000; k++) sum += ds / 2000 / (width[i - 1]! + ((k + 0.5) / 2000) * (width[i]! - width[i - 1]!));
    }
    const exact = steeringDifficulty(arcLength, width);
    // midpoint rule: a step changes the width by a tenth of itself at most, which leaves 0.1^2/12 < 1e-3
    expect(Math.abs(exact - sum)).toBeLessThan(1e-3 * (1e-9 + exact));
    expect(Array.from(arcLength)).toEqual(from);
  });

  it("does not grow without end between widths far apart", () => {
    expect(steeringDifficulty(column(0, 1), column(1e-150, 1e150))).toBeCloseTo(0, 12);
    expect(steeringDifficulty(column(3, 3), column(1, 2))).toBe(0);
  });
});

describe("steeringDifficulty bad input", () => {
  it("names the bad entry", () => {
    expect(() => steeringDifficulty(column(0, 1), column(1, 0))).toThrow(
      new RangeError("steeringDifficulty: width[1] must be above 0, got 0"),
    );
    expect(() => steeringDifficulty(column(0, 1), column(-1, 1))).toThrow(/width\[0\] must be above 0, got -1/);
    expect(() => steeringDifficulty(column(0, Number.NaN), column(1, 1))).toThrow(/arcLength\[1\] must be finite, got NaN/);
    expect(() => steeringDifficulty(column(0, 2, 1), column(1, 1, 1))).toThrow(
      /arcLength must not run backward, got arcLength\[2\] = 1 after 2/,
    );
  });
  it("needs columns of one length with two points", () => {
    expect(() => steeringDifficulty(column(0, 1), column(1))).toThrow(/width must have 2 entries like the other columns, got 1/);
    expect(() => steeringDifficulty(column(0), column(1))).toThrow(/arcLength must have at least 2 entries, got 1/);
    expect(() => steeringDifficulty([0, 1] as never, column(1, 1))).toThrow(
      new TypeError("steeringDifficulty: arcLength must be a Float64Array, got an array of 2"),
    );
  });
  it("refuses a tunnel whose index is beyond all numbers", () => {
    expect(() => steeringDifficulty(column(0, 1e200), column(1e-200, 1e-200))).toThrow(/arcLength \/ width must be finite, got Infinity/);
  });
});
