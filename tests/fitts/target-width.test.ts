import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { indexOfDifficulty } from "../../src/fitts/index-of-difficulty.js";
import { targetWidth } from "../../src/fitts/target-width.js";
import type { Shape } from "../../src/trace/types.js";

const sizeArb = fc.double({ min: 1, max: 500, noNaN: true });
const angleArb = fc.double({ min: -7, max: 7, noNaN: true });
const RULES = ["along", "smaller", "width", "euclidean", "sum", "area"] as const;
const box: Shape = { kind: "rect", width: 60, height: 20 };
const disc: Shape = { kind: "circle", diameter: 32 };
const rad = (deg: number): number => (deg * Math.PI) / 180;

describe("targetWidth against outside values", () => {
  // Source: geometry by hand: 60 by 20 crossed at 45 degrees leaves through its long sides, 20 sqrt(2); 20 by 60 at 30 degrees through its short ones, 20/cos 30.
  it("is the chord through the centre along the approach", () => {
    expect(targetWidth(box)).toBe(60);
    expect(targetWidth(box, { approach: rad(90) })).toBeCloseTo(20, 12);
    expect(targetWidth(box, { approach: rad(45) })).toBeCloseTo(20 * Math.SQRT2, 12);
    expect(targetWidth({ kind: "rect", width: 20, height: 60 }, { approach: rad(30) })).toBeCloseTo(40 / Math.sqrt(3), 12);
    expect(targetWidth(disc, { approach: rad(77) })).toBe(32);
  });

  // Source: geometry by hand: clockwise on a y-down screen is from right toward down, the sense of `approach`.
  it("turns with the rectangle, degrees against radians", () => {
    const tilted: Shape = { ...box, angle: 30 };
    expect(targetWidth(tilted, { approach: rad(30) })).toBeCloseTo(60, 9);
    expect(targetWidth(tilted, { approach: rad(120) })).toBeCloseTo(20, 9);
    expect(targetWidth(tilted)).toBeCloseTo(20 / Math.sin(rad(30)), 9);
  });

  // Source: NumPy 2.4.6, computed from log2(sqrt((A/W)^2 + eta (A/H)^2) + 1), ten digits (reference table of models).
  it("makes the Euclidean index of the plain one", () => {
    expect(indexOfDifficulty(300, targetWidth(box, { rule: "euclidean" }))).toBeCloseTo(4.071366964, 9);
    expect(indexOfDifficulty(300, targetWidth(box, { rule: "euclidean", heightWeight: 1 / 7 }))).toBeCloseTo(3.097491038, 9);
  });

  // Source: arithmetic by hand; a circle is taken as the square around it.
  it("has the simple rules", () => {
    const all = (shape: Shape): number[] => (["smaller", "width", "sum", "area"] as const).map((rule) => targetWidth(shape, { rule }));
    expect(all(box)).toEqual([20, 60, 80, 1200]);
    expect(all(disc)).toEqual([32, 32, 64, 1024]);
    expect(targetWidth(disc, { rule: "euclidean" })).toBeCloseTo(32 / Math.SQRT2, 12);
  });
});

describe("targetWidth properties", () => {
  test.prop([sizeArb, sizeArb, angleArb])(
    "lies between the smaller side and the diagonal along any approach",
    (width, height, approach) => {
      const along = targetWidth({ kind: "rect", width, height }, { approach });
      expect(along).toBeGreaterThanOrEqual(Math.min(width, height) * (1 - 1e-12));
      expect(along).toBeLessThanOrEqual(Math.hypot(width, height) * (1 + 1e-12));
    },
  );

  test.prop([sizeArb, sizeArb, angleArb, angleArb])(
    "is the same from both sides and when everything turns",
    (width, height, approach, by) => {
      const shape: Shape = { kind: "rect", width, height };
      const along = targetWidth(shape, { approach });
      expect(targetWidth(shape, { approach: approach + Math.PI }) / along).toBeCloseTo(1, 9);
      expect(targetWidth({ ...shape, angle: (by * 180) / Math.PI }, { approach: approach + by }) / along).toBeCloseTo(1, 9);
    },
  );

  test.prop([sizeArb, sizeArb, fc.double({ min: 0.1, max: 10, noNaN: true }), angleArb])(
    "scales like a length, the area like its square",
    (width, height, scale, approach) => {
      for (const rule of RULES) {
        const one = targetWidth({ kind: "rect", width, height }, { rule, approach });
        const scaled = targetWidth({ kind: "rect", width: width * scale, height: height * scale }, { rule, approach });
        expect(scaled / one / scale ** (rule === "area" ? 2 : 1)).toBeCloseTo(1, 9);
      }
    },
  );

  test.prop([sizeArb, sizeArb, fc.double({ min: 0, max: 4, noNaN: true })])(
    "never grows with the weight of the height, which at 0 counts for nothing",
    (width, height, heightWeight) => {
      const shape: Shape = { kind: "rect", width, height };
      const free = targetWidth(shape, { rule: "euclidean", heightWeight: 0 });
      expect(free).toBe(width);
      expect(targetWidth(shape, { rule: "euclidean", heightWeight })).toBeLessThanOrEqual(free);
      expect(targetWidth(shape, { rule: "euclidean" })).toBeLessThan(Math.min(width, height));
    },
  );

  it("leaves its input as it was", () => {
    expect(targetWidth(Object.freeze({ ...box, angle: 10 }), Object.freeze({ rule: "along", approach: 1 }))).toBeGreaterThan(0);
  });
});

describe("targetWidth bad input", () => {
  it("names the bad size", () => {
    expect(() => targetWidth({ kind: "circle", diameter: 0 })).toThrow(
      new RangeError("targetWidth: shape.diameter must be finite and above 0, got 0"),
    );
    expect(() => targetWidth({ kind: "rect", width: 3, height: Number.NaN })).toThrow(/shape\.height must be finite and above 0, got NaN/);
    expect(() => targetWidth({ kind: "rect", width: -3, height: 3 })).toThrow(/shape\.width must be finite and above 0, got -3/);
    expect(() => targetWidth({ ...box, angle: Number.POSITIVE_INFINITY } as Shape)).toThrow(/shape\.angle must be finite, got Infinity/);
  });
  it("refuses what is no shape", () => {
    expect(() => targetWidth(null as never)).toThrow(new TypeError("targetWidth: shape must be a shape, got null"));
    expect(() => targetWidth({ kind: "ring" } as never)).toThrow(/shape\.kind must be one of "circle", "rect", got "ring"/);
  });
  it("refuses options out of range", () => {
    expect(() => targetWidth(box, { rule: "height" as never })).toThrow(/options\.rule must be one of .*got "height"/);
    expect(() => targetWidth(box, { approach: Number.NaN })).toThrow(/options\.approach must be finite, got NaN/);
    expect(() => targetWidth(box, { heightWeight: -1 })).toThrow(/options\.heightWeight must be finite and at least 0, got -1/);
  });
});
