// What the path measures are made of: length, deviations, reversals, entries and excess by phase.
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { coarsePath } from "../../src/movement/acquisition/coarse-path.js";
import { countEntries } from "../../src/movement/path/count-entries.js";
import { countReversals } from "../../src/movement/path/count-reversals.js";
import { deviations } from "../../src/movement/path/deviations.js";
import { excessByPhase } from "../../src/movement/path/excess-by-phase.js";
import { pathLength } from "../../src/movement/path/path-length.js";

interface Path {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

const RIGHT = { ux: 1, uy: 0 };
const onCircle = (px: number, py: number): boolean => px * px + py * py <= 4;

function pathOf(points: readonly (readonly [number, number])[]): Path {
  return { x: Float64Array.from(points, ([x]) => x), y: Float64Array.from(points, ([, y]) => y) };
}

function lengthOf({ x, y }: Path): number {
  return pathLength(x, y, 0, x.length);
}

function turned({ x, y }: Path, angle: number): Path {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return { x: x.map((px, i) => c * px - s * y[i]!), y: x.map((px, i) => s * px + c * y[i]!) };
}

/** Points of a path in time order, in quarters so that sums are exact. */
const pathArb: fc.Arbitrary<Path> = fc
  .array(fc.tuple(fc.integer({ min: -200, max: 200 }), fc.integer({ min: -200, max: 200 })), { minLength: 2, maxLength: 40 })
  .map((points) => pathOf(points.map(([x, y]) => [x / 4, y / 4] as const)));
const angleArb = fc.integer({ min: 0, max: 359 }).map((degrees) => (degrees * Math.PI) / 180);

describe("path kernels against outside values", () => {
  // Source: by hand: two sides of 5, both from the axis to 4 off it, so that the mean over the length is 2; the mean over the three corners would be 4/3.
  it("weighs deviations by the length of the path", () => {
    const { x, y } = pathOf([
      [-6, 0],
      [-3, -4],
      [0, 0],
    ]);
    expect(deviations(x, y, RIGHT)).toEqual({ largestDeviation: 4, meanDeviation: 2 });
    // a rest at the corner weighs nothing
    const rested = pathOf([
      [-6, 0],
      [-3, -4],
      [-3, -4],
      [-3, -4],
      [0, 0],
    ]);
    expect(deviations(rested.x, rested.y, RIGHT)).toEqual({ largestDeviation: 4, meanDeviation: 2 });
  });

  // Source: by hand: from 1 on one side to 1 on the other and back the way lies 0.5 off in the mean; from 3 to -1 it makes triangles of 9/2 and 1/2 over 4.
  it("takes a step across the axis for two triangles", () => {
    const zigzag = pathOf([
      [-6, -1],
      [-3, 1],
      [0, -1],
    ]);
    expect(deviations(zigzag.x, zigzag.y, RIGHT)).toEqual({ largestDeviation: 1, meanDeviation: 0.5 });
    const uneven = pathOf([
      [0, 3],
      [3, -1],
    ]);
    expect(deviations(uneven.x, uneven.y, RIGHT).meanDeviation).toBeCloseTo(1.25, 12);
  });

  // Source: closed form: an arc of radius r and angle q strays r (1 - cos(q/2)) from its chord, in the mean r (sin(q/2) / (q/2) - cos(q/2)), and is r q long.
  it.each([30, 90, 180])("knows the arc of %d degrees", (degrees) => {
    const q = (degrees * Math.PI) / 180;
    const { x, y } = pathOf(
      Array.from({ length: 4001 }, (_, k) => {
        const a = (k / 4000 - 0.5) * q;
        return [100 * Math.sin(a), 100 * (Math.cos(a) - Math.cos(q / 2))] as const;
      }),
    );
    const { largestDeviation, meanDeviation } = deviations(x, y, RIGHT);
    expect(lengthOf({ x, y })).toBeCloseTo(100 * q, 4);
    expect(largestDeviation).toBeCloseTo(100 * (1 - Math.cos(q / 2)), 4);
    expect(meanDeviation).toBeCloseTo(100 * (Math.sin(q / 2) / (q / 2) - Math.cos(q / 2)), 4);
  });

  // Source: by hand: the line from (-6, 1) to (6, 1) passes a circle of radius 2 about the origin; neither end lies on it.
  it("counts a pass between two samples where it is asked to look there", () => {
    const { x, y } = pathOf([
      [-6, 1],
      [6, 1],
      [1, 1],
      [1, 6],
      [1, 1.5],
    ]);
    expect(countEntries(x, y, 0, 5, onCircle, 0, false)).toBe(2);
    expect(countEntries(x, y, 0, 5, onCircle, 0, true)).toBe(3);
    expect(countEntries(x, y, 2, 5, onCircle, 0, true)).toBe(2);
  });

  // Source: by hand: 10 on, 3 back, 13 on, 1 back: the last is within the band of 2.
  it("counts the retreats that are larger than the dead band, and no slow drift of the first steps", () => {
    const along = Float64Array.of(0, 1, 0, 10, 9, 8, 7, 12, 20, 19);
    expect(countReversals(along, 0, along.length, 2)).toBe(2);
    expect(countReversals(along, 0, along.length, 0)).toBe(5);
    expect(countReversals(along, 0, along.length, 3)).toBe(0);
    expect(countReversals(Float64Array.of(5, 5.5, 4.9, 5.2), 0, 4, 2)).toBe(0);
    // a first change of just the band sets no direction that could be turned
    expect(countReversals(Float64Array.of(0, 2, -1), 0, 3, 2)).toBe(0);
    expect(countReversals(Float64Array.of(0, 2.1, -1), 0, 3, 2)).toBe(1);
  });

  // Source: by hand. 40 px at 1 px a step of 10 ms, then a rest whose readings toggle by one: with a band of 1 the rest is one point.
  it("makes no path of readings that toggle within the band", () => {
    // a reading lasts from half a step before its instant to half a step after it, so that the rounding of times does not count
    const x = Float64Array.from({ length: 1001 }, (_, i) => {
      const k = Math.round(i / 10);
      return k <= 40 ? 2 * k : 80 + (k % 2);
    });
    const path = coarsePath({ t0: 0, sampleRateHz: 1000, x, y: new Float64Array(1001) }, [0, 0.4, 1], 1);
    expect([path.x.length, lengthOf(path)]).toEqual([42, 80]);
    expect([...path.at]).toEqual([0, 40, 41]);
    expect([path.t[0], path.t[40], path.t[41]]).toEqual([0, 0.4, 1]);
  });
});

describe("path kernels properties", () => {
  test.prop([pathArb, angleArb, fc.constantFrom(0.5, 3)])(
    "length and deviations turn with the path and grow with it",
    (path, angle, factor) => {
      const there = turned({ x: path.x.map((v) => factor * v), y: path.y.map((v) => factor * v) }, angle);
      const axis = { ux: Math.cos(angle), uy: Math.sin(angle) };
      const before = deviations(path.x, path.y, RIGHT);
      const after = deviations(there.x, there.y, axis);
      expect(lengthOf(there)).toBeCloseTo(factor * lengthOf(path), 8);
      expect(after.largestDeviation).toBeCloseTo(factor * before.largestDeviation, 8);
      expect(after.meanDeviation).toBeCloseTo(factor * before.meanDeviation, 8);
    },
  );

  test.prop([pathArb])("a path is no shorter than the straight way, and strays in the mean no more than at most", (path) => {
    const last = path.x.length - 1;
    expect(lengthOf(path)).toBeGreaterThanOrEqual(Math.hypot(path.x[last]! - path.x[0]!, path.y[last]! - path.y[0]!) - 1e-9);
    const { largestDeviation, meanDeviation } = deviations(path.x, path.y, RIGHT);
    expect(meanDeviation).toBeLessThanOrEqual(largestDeviation + 1e-9);
  });

  test.prop([pathArb, angleArb, fc.array(fc.nat(39), { maxLength: 3 })])(
    "the excess of phases is never negative, and adds up to path less advance",
    (path, angle, cuts) => {
      const last = path.x.length - 1;
      const along = path.x.map((px, i) => px * Math.cos(angle) + path.y[i]! * Math.sin(angle));
      const at = [0, ...cuts.map((cut) => Math.min(cut, last)).sort((a, b) => a - b), last];
      const parts = excessByPhase(path.x, path.y, along, at);
      expect(parts.length).toBe(at.length - 1);
      for (const part of parts) expect(part).toBeGreaterThanOrEqual(-1e-9);
      expect(parts.reduce((sum, part) => sum + part, 0)).toBeCloseTo(lengthOf(path) - (along[last]! - along[0]!), 8);
    },
  );

  test.prop([pathArb, fc.integer({ min: 0, max: 40 })])(
    "reversals are as many backward along the axis, and fewer or as many with a wider band",
    ({ x }, band) => {
      const count = (values: Float64Array, deadBand: number): number => countReversals(values, 0, values.length, deadBand);
      expect(
        count(
          x.map((v) => -v),
          band,
        ),
      ).toBe(count(x, band));
      expect(count(x, band + 1)).toBeLessThanOrEqual(count(x, band));
    },
  );

  test.prop([pathArb])("looking between the samples finds no fewer entries, and one more point on a side changes nothing", ({ x, y }) => {
    const bySamples = countEntries(x, y, 0, x.length, onCircle, 0, false);
    const between = countEntries(x, y, 0, x.length, onCircle, 0, true);
    expect(between).toBeGreaterThanOrEqual(bySamples);
    // halving every side leaves the path where it is
    const halved = pathOf(
      [...x].flatMap((px, i) =>
        i === 0
          ? [[px, y[0]!] as const]
          : ([
              [(px + x[i - 1]!) / 2, (y[i]! + y[i - 1]!) / 2],
              [px, y[i]!],
            ] as const),
      ),
    );
    expect(countEntries(halved.x, halved.y, 0, halved.x.length, onCircle, 0, true)).toBe(between);
  });

  test.prop([
    fc.array(
      fc.integer({ min: 0, max: 200 }).map((v) => v / 100),
      { minLength: 2, maxLength: 6 },
    ),
    fc.constantFrom(0, 0.5, 3),
  ])("a coarse path holds every instant in order, and no step within the band but those to an instant", (drawn, band) => {
    const instants = drawn.map((t) => 1.7e9 + t).sort((a, b) => a - b);
    const x = Float64Array.from({ length: 2001 }, (_, i) => 30 * Math.sin((9 * i) / 1000));
    const segment = { t0: 1.7e9, sampleRateHz: 1000, x, y: x.map((_, i) => i / 50) };
    const path = coarsePath(segment, instants, band);
    expect(path.at.map((k) => path.t[k]!)).toEqual(instants);
    for (let i = 1; i < path.t.length; i++) {
      expect(path.t[i]!).toBeGreaterThanOrEqual(path.t[i - 1]!);
      const step = Math.hypot(path.x[i]! - path.x[i - 1]!, path.y[i]! - path.y[i - 1]!);
      if (!path.at.includes(i)) expect(step).toBeGreaterThan(band);
    }
  });
});
