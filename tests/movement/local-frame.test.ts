import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { localFrame, localTarget, shrinkAt, toLocal, toOffset } from "../../src/movement/acquisition/local-frame.js";
import type { Shape, Space, Target } from "../../src/trace/types.js";
import { circle } from "./hand-made.js";

const plane: Space = { kind: "plane", unit: "px" };
const view: Space = { kind: "view", unit: "deg" };
const disc: Shape = { kind: "circle", diameter: 10 };
const pointArb = fc.tuple(fc.integer({ min: -500, max: 500 }), fc.integer({ min: -500, max: 500 }));

/** Direction of an azimuth and an elevation (down positive), degrees, as a unit vector in space. */
function direction(azimuth: number, elevation: number): [number, number, number] {
  const [a, e] = [(azimuth * Math.PI) / 180, (elevation * Math.PI) / 180];
  return [Math.cos(e) * Math.sin(a), Math.sin(e), Math.cos(e) * Math.cos(a)];
}

describe("local frame against outside values", () => {
  // Source: cosines by hand, cos 60 = 1/2.
  it("shortens azimuths by the cosine of the elevation, and nothing in a plane", () => {
    expect(shrinkAt(view, 0)).toBe(1);
    expect(shrinkAt(view, 60)).toBeCloseTo(0.5, 15);
    expect(shrinkAt(view, -60)).toBeCloseTo(0.5, 15);
    expect(shrinkAt(plane, 60)).toBe(1);
  });

  // Source: spherical geometry, the angle between two directions as vectors in space (atan2 of cross and dot product). Tolerance: a tangent
  // plane leaves the sphere with the square of the distance, less than 0.05 degrees at 2 degrees and 50 of elevation.
  it.each([
    [0, 0],
    [50, 0],
    [-35, 120],
  ])("measures true angles near a target at elevation %d and azimuth %d", (elevation, azimuth) => {
    const target = circle("a", azimuth, elevation, 1);
    for (const [da, de] of [
      [2, 0],
      [0, 2],
      [-1, 1.5],
    ]) {
      const at = { t: Float64Array.of(0), x: Float64Array.of(azimuth + da), y: Float64Array.of(elevation + de) };
      const local = toLocal(localFrame(view, target, 0), at);
      const [p, q] = [direction(azimuth, elevation), direction(azimuth + da, elevation + de)];
      const cross = [p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]];
      const angle = (Math.atan2(Math.hypot(...cross), p[0] * q[0] + p[1] * q[1] + p[2] * q[2]) * 180) / Math.PI;
      expect(Math.abs(Math.hypot(local.x[0], local.y[0]) - angle)).toBeLessThan(0.05);
    }
  });

  // Source: geometry by hand. Travel to the right: up is to the left of it; travel down: right is to the left of it.
  it("counts across to the left of travel on a screen whose y points down", () => {
    expect(toOffset(7, -3, { ux: 1, uy: 0 }, disc, 1)).toMatchObject({ along: 7, across: 3 });
    expect(toOffset(3, 7, { ux: 0, uy: 1 }, disc, 1)).toMatchObject({ along: 7, across: 3 });
    expect(toOffset(3, 4, undefined, disc, 1)).toEqual({ radial: 5, inside: true });
    expect(toOffset(3, 4, undefined, disc, 0.9)).toEqual({ radial: 5, inside: false });
  });

  // Source: straight lines by hand.
  it("follows a moving target from where it was at go, and stands before and after its track", () => {
    const at = { t: Float64Array.of(1, 3), x: Float64Array.of(10, 30), y: Float64Array.of(0, -8), scale: Float64Array.of(1, 2) };
    const target: Target = { ...circle("a", 0, 0, 1), at };
    const frame = localFrame(plane, target, 2);
    expect(frame).toEqual({ x: 20, y: -4, shrink: 1 });
    expect(localTarget(frame, target, 2)).toEqual({ x: 0, y: 0, scale: 1.5 });
    expect(localTarget(frame, target, 0)).toEqual({ x: -10, y: 4, scale: 1 });
    expect(localTarget(frame, target, 9)).toEqual({ x: 10, y: -4, scale: 2 });
  });
});

describe("local frame properties", () => {
  test.prop([pointArb, fc.double({ min: -180, max: 180, noNaN: true })])("along and across are the radius turned", ([dx, dy], deg) => {
    const axis = { ux: Math.cos((deg * Math.PI) / 180), uy: Math.sin((deg * Math.PI) / 180) };
    const { along, across, radial } = toOffset(dx, dy, axis, disc, 1);
    expect(Math.hypot(along!, across!)).toBeCloseTo(radial, 9);
  });

  test.prop([pointArb])("never gives a negative zero, which JSON would not keep", ([dx, dy]) => {
    for (const [ux, uy] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
      [1, -0],
    ]) {
      const offset = toOffset(dx, dy, { ux, uy }, disc, 1);
      expect(JSON.parse(JSON.stringify(offset))).toEqual(offset);
    }
    expect(JSON.parse(JSON.stringify(toOffset(-0, 0, { ux: 1, uy: 0 }, disc, 1)))).toEqual(toOffset(-0, 0, { ux: 1, uy: 0 }, disc, 1));
  });

  test.prop([pointArb, pointArb])("puts the target's centre in the origin and leaves distances in a plane alone", ([x, y], [tx, ty]) => {
    const frame = localFrame(plane, circle("a", tx, ty, 1), 0);
    const trace = { t: Float64Array.of(0, 1), x: Float64Array.of(x, tx), y: Float64Array.of(y, ty) };
    const local = toLocal(frame, trace);
    expect([local.x[1], local.y[1]]).toEqual([0, 0]);
    expect([local.x[0], local.y[0]]).toEqual([x - tx, y - ty]);
    expect(trace.x[0]).toBe(x);
  });
});

describe("local frame at its edges", () => {
  it("has no width of azimuth at the pole", () => expect(Math.abs(shrinkAt(view, 90))).toBeLessThan(1e-15));
});
