import { fc, test } from "@fast-check/vitest";
import { atan, type MathType, multiply, unit } from "mathjs";
import { describe, expect, it } from "vitest";
import { viewAngle } from "../../src/equipment/view-angle.js";

const SCREEN = { widthPx: 1920, heightPx: 1080 };
const DESK = { ...SCREEN, mmPerPx: 0.2715, viewDistanceMm: 600 };

/** Degrees of an arc tangent, through the units of mathjs. */
const atanDeg = (ratio: number): number => unit(Number(atan(ratio) as MathType), "rad").toNumber("deg");

describe("viewAngle against outside values", () => {
  // Source: mathjs 15, arc tangent and angle units: 2 atan(size/(2 distance)), sizes in mm over the viewing distance
  it.each([1, 10, 38.57, 400, 1920])("spans %f px at the eye by twice the half angle", (size) => {
    const { sizeDeg } = viewAngle(DESK, { sizePx: [size] }).visual!;
    const half = unit(multiply(size / 2, 0.2715) as number, "mm").toNumber("m") / unit(600, "mm").toNumber("m");
    expect(sizeDeg[0]).toBeCloseTo(2 * atanDeg(half), 10);
  });

  // Source: NumPy 1.24.2, 2 * 600 * tan(0.5 deg) = 10.4722 mm for one degree at 60 cm; a pixel of 0.2715 mm there spans 0.025926 deg
  it("gives the worked figures at 60 cm", () => {
    const { visual } = viewAngle(DESK, { sizePx: [10.472241348910547 / 0.2715, 1], deg: [0.5] });
    expect(visual!.sizeDeg[0]).toBeCloseTo(1, 10);
    expect(visual!.sizeDeg[1]).toBeCloseTo(0.025926339787288085, 12);
    expect(2 * visual!.px[0]! * 0.2715).toBeCloseTo(10.472241348910547, 10);
  });

  // Source: NumPy 1.24.2: F = (w/2)/tan(h/2); 180/(pi F), times cos^2(h/2) at the edge; vertical 2 atan(tan(h/2) 9/16)
  it.each([
    [90, 960, 0.05968310365946075, 0.02984155182973039, 58.71550708558255],
    [103, 763.6184800011154, 0.07503194463418256, 0.02907671478962634, 70.53280043291677],
  ])("draws a field of view of %d degrees", (fieldOfViewDeg, distance, centre, edge, vertical) => {
    const { scene } = viewAngle({ ...SCREEN, fieldOfViewDeg });
    expect(scene!.distancePx).toBeCloseTo(distance, 8);
    expect(scene!.degPerPxCentre).toBeCloseTo(centre, 12);
    expect(scene!.degPerPxEdge).toBeCloseTo(edge, 12);
    expect(scene!.verticalDeg).toBeCloseTo(vertical, 10);
    expect(scene!.horizontalDeg).toBeCloseTo(fieldOfViewDeg, 10);
  });

  // Source: by hand: a field of 90 degrees has 45 of them in either half, so that the middle of a half lies at atan(1/2) = 26.565 degrees and not at 22.5
  it("is no share of the field of view", () => {
    expect(viewAngle({ ...SCREEN, fieldOfViewDeg: 90 }, { px: [480, 960] }).scene!.deg).toEqual([
      expect.closeTo(26.56505117707799, 10),
      expect.closeTo(45, 10),
    ]);
  });
});

describe("viewAngle properties", () => {
  test.prop([
    fc.double({ min: 20, max: 150, noNaN: true }),
    fc.array(fc.double({ min: -960, max: 960, noNaN: true }), { minLength: 1, maxLength: 9 }),
  ])("goes there and back", (fieldOfViewDeg, px) => {
    const screen = { ...DESK, fieldOfViewDeg };
    const there = viewAngle(screen, { px });
    for (const kind of ["visual", "scene"] as const) {
      const back = viewAngle(screen, { deg: there[kind]!.deg })[kind]!;
      for (const [i, x] of back.px.entries()) expect(x).toBeCloseTo(px[i]!, 7);
    }
    expect(JSON.parse(JSON.stringify(there))).toEqual(there);
  });

  test.prop([fc.double({ min: 20, max: 150, noNaN: true })])("takes either field of view", (fieldOfViewDeg) => {
    const { scene } = viewAngle({ ...SCREEN, fieldOfViewDeg });
    const other = viewAngle({ ...SCREEN, verticalFieldOfViewDeg: scene!.verticalDeg }).scene!;
    expect(other.horizontalDeg).toBeCloseTo(fieldOfViewDeg, 9);
  });

  test.prop([fc.double({ min: 1, max: 900, noNaN: true }), fc.double({ min: 0, max: 800, noNaN: true })])(
    "shrinks toward the edge and adds up: offsets of both sides make the size",
    (size, offset) => {
      const { scene } = viewAngle({ ...SCREEN, fieldOfViewDeg: 100 }, { sizePx: [size], px: [size / 2, -size / 2, offset, offset + size] });
      const [right, left, from, to] = scene!.deg as [number, number, number, number];
      expect(right - left).toBeCloseTo(scene!.sizeDeg[0]!, 9);
      expect(to - from).toBeLessThanOrEqual(2 * right + 1e-9);
    },
  );

  it("magnifies by 1 where the eye sits where the scene was drawn from", () => {
    const { visual } = viewAngle(DESK);
    expect(viewAngle({ ...DESK, fieldOfViewDeg: visual!.horizontalDeg }).magnification).toBeCloseTo(1, 12);
    expect(viewAngle(SCREEN)).toEqual({ visual: null, scene: null, magnification: null });
  });
});

describe("viewAngle bad input", () => {
  it("names the bad value", () => {
    expect(() => viewAngle({ ...SCREEN, widthPx: 0 })).toThrow(/viewAngle: screen\.widthPx must be finite and above 0, got 0/);
    expect(() => viewAngle({ ...SCREEN, fieldOfViewDeg: 180 })).toThrow(/screen\.fieldOfViewDeg must be below 180, got 180/);
    expect(() => viewAngle({ ...SCREEN, verticalFieldOfViewDeg: -3 })).toThrow(/screen\.verticalFieldOfViewDeg must be above 0/);
    expect(() => viewAngle({ ...SCREEN, fieldOfViewDeg: 90, verticalFieldOfViewDeg: 60 })).toThrow(/must be left out where/);
    expect(() => viewAngle({ ...SCREEN, mmPerPx: 0.3 })).toThrow(/screen\.viewDistanceMm must be given with mmPerPx/);
    expect(() => viewAngle(SCREEN, { deg: [90] })).toThrow(/options\.deg\[0\] must be between -90 and 90, got 90/);
    expect(() => viewAngle(SCREEN, { sizePx: [-1] })).toThrow(/options\.sizePx\[0\] must be finite and at least 0, got -1/);
    expect(() => viewAngle(SCREEN, { px: 3 as never })).toThrow(/options\.px must be a column, got 3/);
    expect(() => viewAngle(null as never)).toThrow(/screen must be an object, got null/);
  });
});
