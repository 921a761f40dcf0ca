import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { projectEndpoints } from "../../src/fitts/project-endpoints.js";

const placeArb = fc.double({ min: -2000, max: 2000, noNaN: true }).map((v) => Math.round(v * 16) / 16 + 0);
const pointArb = fc.tuple(placeArb, placeArb);
type Point = readonly [number, number];
const columns = (points: readonly Point[]) => ({ x: Float64Array.from(points, ([x]) => x), y: Float64Array.from(points, ([, y]) => y) });
const project = (trials: readonly (readonly [Point, Point, Point])[]) =>
  projectEndpoints(columns(trials.map(([from]) => from)), columns(trials.map(([, to]) => to)), columns(trials.map(([, , at]) => at)));
const trialsArb = fc.array(fc.tuple(pointArb, pointArb, pointArb), { maxLength: 12 });
/** Largest difference of two columns that coordinates of this size may leave. */
const NOISE = 1e-8;
const apart = (one: Float64Array, other: Float64Array): number => one.reduce((most, v, i) => Math.max(most, Math.abs(v - other[i]!)), 0);

describe("projectEndpoints against outside values", () => {
  // Source: constructed reciprocal trials, NumPy 2.4.6, computed (reference table throughput-iso, oneDirection): dx there; dy is counted to the right of travel there.
  it("is what the standard calls dx, on both ways of a reciprocal task", () => {
    const { amplitude, along, across, travelled, kept, noAxis } = project([
      [
        [0, 0],
        [300, 0],
        [304, 3],
      ],
      [
        [300, 0],
        [0, 0],
        [-6, -2],
      ],
      [
        [0, 0],
        [300, 0],
        [289, 5],
      ],
      [
        [300, 0],
        [0, 0],
        [9, 1],
      ],
    ]);
    expect(Array.from(amplitude)).toEqual([300, 300, 300, 300]);
    expect(Array.from(along)).toEqual([4, 6, -11, -9]);
    expect(Array.from(across)).toEqual([-3, -2, -5, 1]);
    expect(Array.from(travelled)).toEqual([304, 306, 289, 291]);
    expect([kept, noAxis]).toEqual([[0, 1, 2, 3], []]);
  });

  // Source: geometry by hand, 3-4-5 triangle. Travel down and to the right on a screen: left of it is up and to the right.
  it("counts to the left as seen on a screen whose y points down", () => {
    const { amplitude, along, across } = project([
      [
        [0, 0],
        [30, 40],
        [34, 37],
      ],
    ]);
    expect(amplitude[0]).toBe(50);
    expect(along[0]).toBeCloseTo(0, 12);
    expect(across[0]).toBeCloseTo(5, 12);
  });

  // Source: the law of cosines, dx = (c^2 - b^2 - a^2)/(2a) from the three distances (the standard's own way to compute it; recalled).
  test.prop([pointArb, pointArb, pointArb])("agrees with the law of cosines", (from, to, at) => {
    const distance = (p: Point, q: Point): number => Math.hypot(p[0] - q[0], p[1] - q[1]);
    const a = distance(from, to);
    fc.pre(a > 1);
    const [b, c] = [distance(at, to), distance(from, at)];
    expect(project([[from, to, at]]).along[0]! / 1e4).toBeCloseTo((c ** 2 - b ** 2 - a ** 2) / (2 * a) / 1e4, 6);
  });

  // Source: the serial variant in the reference table throughput-iso: distances from trial 2 on grow by dx of the trial before (4, 6, -11).
  it("adds the error of the trial before to the distance when movements start where the last one ended", () => {
    const { travelled } = project([
      [
        [0, 0],
        [300, 0],
        [304, 0],
      ],
      [
        [304, 0],
        [0, 0],
        [-6, 0],
      ],
      [
        [-6, 0],
        [300, 0],
        [289, 0],
      ],
      [
        [289, 0],
        [0, 0],
        [9, 0],
      ],
    ]);
    expect(Array.from(travelled)).toEqual([304, 306 + 4, 289 + 6, 291 - 11]);
  });
});

describe("projectEndpoints properties", () => {
  test.prop([trialsArb, pointArb, fc.double({ min: -3.2, max: 3.2, noNaN: true })])(
    "does not change when everything is moved and turned",
    (trials, [sx, sy], angle) => {
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      const move = ([x, y]: Point): Point => [x * c - y * s + sx, x * s + y * c + sy];
      const far = trials.filter(([from, to]) => Math.hypot(from[0] - to[0], from[1] - to[1]) > 1);
      const [here, there] = [project(far), project(far.map((t) => t.map(move) as [Point, Point, Point]))];
      for (const key of ["amplitude", "along", "across", "travelled"] as const) expect(apart(here[key], there[key])).toBeLessThan(NOISE);
    },
  );

  test.prop([trialsArb])("turns across, and nothing else, in a mirror", (trials) => {
    const [here, there] = [project(trials), project(trials.map((t) => t.map(([x, y]): Point => [x, -y]) as [Point, Point, Point]))];
    expect(apart(here.along, there.along)).toBeLessThan(NOISE);
    expect(
      apart(
        here.across,
        there.across.map((v) => -v),
      ),
    ).toBeLessThan(NOISE);
  });

  test.prop([trialsArb])("keeps the distance to the target, loses no trial and leaves its input as it was", (trials) => {
    const withStill: (readonly [Point, Point, Point])[] = trials.flatMap((t) => [t, [t[1], t[1], t[2]] as const]);
    const given = [0, 1, 2].map((k) => columns(withStill.map((t) => t[k]!)));
    const before = structuredClone(given);
    const { along, across, amplitude, travelled, kept, noAxis } = projectEndpoints(given[0]!, given[1]!, given[2]!);
    expect(given).toEqual(before);
    expect([...kept, ...noAxis].sort((p, q) => p - q)).toEqual(withStill.map((_, i) => i));
    for (const column of [along, across, amplitude, travelled]) expect(column.length).toBe(kept.length);
    for (const [k, i] of kept.entries()) {
      const [, to, at] = withStill[i]!;
      expect(Math.hypot(along[k]!, across[k]!)).toBeCloseTo(Math.hypot(at[0] - to[0], at[1] - to[1]), 6);
      expect(travelled[k]).toBe(amplitude[k]! + along[k]!);
    }
    for (const i of noAxis) expect(withStill[i]![0]).toEqual(withStill[i]![1]);
  });

  it("gives empty columns for no trials and for trials without an axis", () => {
    expect(project([])).toMatchObject({ kept: [], noAxis: [] });
    expect(
      project([
        [
          [5, 5],
          [5, 5],
          [7, 5],
        ],
      ]),
    ).toEqual({
      amplitude: new Float64Array(0),
      along: new Float64Array(0),
      across: new Float64Array(0),
      travelled: new Float64Array(0),
      kept: [],
      noAxis: [0],
    });
  });
});

describe("projectEndpoints bad input", () => {
  const two = columns([
    [0, 0],
    [1, 1],
  ]);
  it("names the bad column", () => {
    expect(() => projectEndpoints(two, columns([[0, 0]]), two)).toThrow(/to\.x must have 2 entries like the other columns, got 1/);
    expect(() => projectEndpoints(two, two, { x: two.x, y: Float64Array.of(1) })).toThrow(/select\.y must have 2 entries/);
    expect(() => projectEndpoints({ x: Float64Array.of(0, Number.NaN), y: two.y }, two, two)).toThrow(
      /from\.x\[1\] must be finite, got NaN/,
    );
    expect(() => projectEndpoints(two, null as never, two)).toThrow(
      new TypeError("projectEndpoints: to must be points with columns x, y, got null"),
    );
    expect(() => projectEndpoints({ x: [0, 1], y: [0, 1] } as never, two, two)).toThrow(
      /from\.x must be a Float64Array, got an array of 2/,
    );
  });
  it("refuses distances beyond all numbers", () => {
    expect(() => projectEndpoints(columns([[0, 0]]), columns([[1e300, 0]]), columns([[0, 0]]))).toThrow(
      /distances of trial 0 must be finite/,
    );
  });
});
