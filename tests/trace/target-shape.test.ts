import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { isInside, widthAlong } from "../../src/trace/shape/target-shape.js";
import type { Shape } from "../../src/trace/types.js";

const disc: Shape = { kind: "circle", diameter: 10 };
const box: Shape = { kind: "rect", width: 40, height: 10 };
const angleArb = fc.double({ min: -360, max: 360, noNaN: true });
const unit = (deg: number): [number, number] => [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
const shapeArb: fc.Arbitrary<Shape> = fc.oneof(
  fc.record({ kind: fc.constant("circle" as const), diameter: fc.integer({ min: 1, max: 200 }) }),
  fc.record({
    kind: fc.constant("rect" as const),
    width: fc.integer({ min: 1, max: 200 }),
    height: fc.integer({ min: 1, max: 200 }),
    angle: angleArb,
  }),
);

describe("target shapes against outside values", () => {
  // Source: geometry by hand: 3-4-5 triangle, half extents.
  it("hold their edge and nothing beyond", () => {
    expect(isInside(disc, 3, 4, 1)).toBe(true);
    expect(isInside(disc, 3, 4.0001, 1)).toBe(false);
    expect(isInside(box, 20, -5, 1)).toBe(true);
    expect(isInside(box, 20.0001, 0, 1)).toBe(false);
    expect(isInside(box, 0, 5.0001, 1)).toBe(false);
  });

  // Source: geometry by hand. Clockwise on a screen whose y points down is from right toward down.
  it("turn clockwise on the screen", () => {
    const tilted: Shape = { kind: "rect", width: 40, height: 10, angle: 45 };
    expect(isInside(tilted, 13, 13, 1)).toBe(true);
    expect(isInside(tilted, 13, -13, 1)).toBe(false);
  });

  // Source: geometry by hand. Along 45 degrees a box of 40 by 10 is crossed from top to bottom: 10 sqrt(2); along 4-3-5, 10/0.6.
  it.each([
    [box, 1, 0, 40],
    [box, 0, -1, 10],
    [box, Math.SQRT1_2, Math.SQRT1_2, 10 * Math.SQRT2],
    [box, 0.8, -0.6, 10 / 0.6],
    [{ ...box, angle: 90 } as Shape, 1, 0, 10],
    [disc, 0.6, 0.8, 10],
  ])("are as wide along a direction as the chord through their middle", (shape, ux, uy, width) => {
    expect(widthAlong(shape, ux, uy, 1)).toBeCloseTo(width, 9);
    expect(widthAlong(shape, ux, uy, 2.5)).toBeCloseTo(2.5 * width, 9);
  });
});

describe("target shapes properties", () => {
  test.prop([shapeArb, angleArb, fc.double({ min: 0.1, max: 5, noNaN: true })])(
    "end half a width from the middle in every direction",
    (shape, deg, scale) => {
      const [ux, uy] = unit(deg);
      const half = widthAlong(shape, ux, uy, scale) / 2;
      expect(isInside(shape, 0.999 * half * ux, 0.999 * half * uy, scale)).toBe(true);
      expect(isInside(shape, 1.001 * half * ux, 1.001 * half * uy, scale)).toBe(false);
    },
  );

  test.prop([shapeArb, fc.integer({ min: -300, max: 300 }), fc.integer({ min: -300, max: 300 })])(
    "are the same seen from the other side",
    (shape, dx, dy) => {
      expect(isInside(shape, -dx, -dy, 1)).toBe(isInside(shape, dx, dy, 1));
    },
  );

  test.prop([fc.integer({ min: 1, max: 200 }), fc.integer({ min: 1, max: 200 }), angleArb, angleArb])(
    "turn as a whole",
    (width, height, angle, deg) => {
      const [ux, uy] = unit(deg);
      const [vx, vy] = unit(deg + angle);
      const flat = widthAlong({ kind: "rect", width, height }, ux, uy, 1);
      expect(widthAlong({ kind: "rect", width, height, angle }, vx, vy, 1) / flat).toBeCloseTo(1, 6);
    },
  );
});
