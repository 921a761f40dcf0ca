// Where a search for a minimum begins again: dips beside the one it found, and points spread about its start.
import { describe, expect, it } from "vitest";
import { dipsBeside, spreadAbout } from "../../src/math/restart-points.js";

const unbounded = (d: number) => ({ lower: new Float64Array(d).fill(-1e9), upper: new Float64Array(d).fill(1e9) });

describe("dipsBeside against outside values", () => {
  // Source: by hand. A sum with lows at 1 (known), 1.7, 0.25 and 5 times the value, and nothing but slopes between them; lowest first
  it("finds every low beside the minimum, the lowest first", () => {
    const lows = new Map([
      [0.25, 4],
      [1, 5],
      [1.7, 3],
      [5, 2],
    ]);
    const sumAt = (point: Float64Array): number => lows.get(point[0]! / 10) ?? 9;
    const dips = dipsBeside({ point: Float64Array.of(10), sum: 5 }, sumAt, unbounded(1));
    expect(dips.map(({ point, sum }) => [point[0], sum])).toEqual([
      [50, 2],
      [17, 3],
      [2.5, 4],
    ]);
  });
  it("takes no place on a slope, nor one of a level, nor the minimum itself", () => {
    const known = { point: Float64Array.of(10), sum: 100 };
    expect(dipsBeside(known, (point) => 100 + (point[0]! - 10) ** 2, unbounded(1))).toEqual([]);
    expect(dipsBeside(known, () => 100, unbounded(1))).toEqual([]);
    // falling outwards, only the farthest place has nothing lower beside it
    const ends = dipsBeside(known, (point) => 100 - Math.abs(Math.log(point[0]! / 10)), unbounded(1));
    expect(ends.map(({ point }) => point[0])).toEqual([1, 50]);
  });
  it("moves one parameter at a time and leaves the others and the minimum as they are", () => {
    const minimum = { point: Float64Array.of(10, 20), sum: 0 };
    const asked: number[][] = [];
    dipsBeside(
      minimum,
      (point) => {
        asked.push([...point]);
        return 1;
      },
      unbounded(2),
    );
    expect(asked.every(([one, other]) => one === 10 || other === 20)).toBe(true);
    expect(asked.filter(([one]) => one === 10).map(([, other]) => other! / 20)).toEqual([
      0.1, 0.25, 0.4, 0.55, 0.7, 0.85, 1.2, 1.4, 1.7, 2.2, 3, 5,
    ]);
    expect([...minimum.point]).toEqual([10, 20]);
  });
});

describe("spreadAbout properties", () => {
  it("gives points of the start's signs, within the bounds, the lowest first, and none that has no sum", () => {
    const bounds = { lower: Float64Array.of(0.5, -30, -1), upper: Float64Array.of(1e9, 0, 1) };
    const start = Float64Array.of(2, -10, 0);
    const points = spreadAbout(start, 0, 1, ([one]) => (one! > 2 ? Number.POSITIVE_INFINITY : one!), bounds);
    expect(points.length).toBeGreaterThan(6);
    expect(points.length).toBeLessThan(18);
    const sums = points.map(({ sum }) => sum);
    expect(sums).toEqual(sums.slice().sort((a, b) => a - b));
    for (const { point, sum } of points) {
      expect(point[0]).toBe(sum);
      expect(point[0]! >= 0.5 && point[1]! >= -30 && point[1]! < 0 && Math.abs(point[2]!) <= 1).toBe(true);
    }
    // another round, other points
    const next = spreadAbout(start, 1, 1, ([one]) => one!, bounds);
    expect(next.length).toBe(24);
    expect(points.some(({ point }) => next.some((other) => `${other.point}` === `${point}`))).toBe(false);
  });
});
