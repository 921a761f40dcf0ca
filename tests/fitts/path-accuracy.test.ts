import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { type PathAccuracy, pathAccuracy } from "../../src/fitts/path-accuracy.js";
import type { Estimate } from "../../src/math/estimate.js";
import type { Shape } from "../../src/trace/types.js";

type Point = readonly [number, number];
const columns = (points: readonly Point[]) => ({ x: Float64Array.from(points, ([x]) => x), y: Float64Array.from(points, ([, y]) => y) });
const START = { x: 0, y: 0 };
const END = { x: 100, y: 0 };
const disc: Shape = { kind: "circle", diameter: 20 };
const alongX = (points: readonly Point[], options = {}) => pathAccuracy(columns(points), START, END, { shape: disc, ...options });
const value = (estimate: Estimate): number => {
  if (!estimate.ok) throw new Error(estimate.why);
  return estimate.value;
};
const COUNTS = ["targetReentry", "taskAxisCrossing", "movementDirectionChange", "orthogonalDirectionChange"] as const;
const DISTANCES = ["movementVariability", "movementError", "movementOffset"] as const;
const counts = (result: PathAccuracy): (number | null)[] => COUNTS.map((key) => result[key]);

const overshoot: Point[] = [
  [0, 1],
  [50, 3],
  [95, 2],
  [115, -1],
  [104, -2],
  [100, 1],
];
// whole eighths: positions that repeat, touch the axis and stand still
const gridArb = fc.integer({ min: -80, max: 80 }).map((k) => k / 8);
const pathArb = fc.array(fc.tuple(fc.integer({ min: -10, max: 120 }), gridArb), { minLength: 2, maxLength: 30 });

describe("pathAccuracy against outside values", () => {
  // Source: constructed path, NumPy 2.4.6, computed (reference table path-accuracy, overshoot_and_return); its offset is positive to the right, ours to the left.
  it("has the measures of an overshoot and return", () => {
    const result = alongX(overshoot);
    expect(counts(result)).toEqual([1, 2, 2, 1]);
    expect(value(result.movementVariability)).toBeCloseTo(1.861898673, 9);
    expect(value(result.movementError)).toBeCloseTo(10 / 6, 12);
    expect(value(result.movementOffset)).toBeCloseTo(-4 / 6, 12);
    expect(result.pathLength).toBeCloseTo(131.3202032, 7);
    expect(result.pathEfficiency).toBeCloseTo(0.7614974511, 9);
    expect(result.n).toBe(6);
  });

  // Source: geometry by hand. Moving right on a screen whose y points down, smaller y is to the left; moving up, smaller x is.
  it("is positive to the left of travel as seen on the screen", () => {
    expect(
      value(
        alongX([
          [0, -4],
          [50, -4],
          [100, -4],
        ]).movementOffset,
      ),
    ).toBe(4);
    const up = pathAccuracy(
      columns([
        [-3, 0],
        [-3, -50],
        [-3, -100],
      ]),
      START,
      { x: 0, y: -100 },
    );
    expect(value(up.movementOffset)).toBeCloseTo(3, 12);
  });

  // Source: NumPy 2.4.6: the same path interpolated at two million even steps of its length; mean, mean size, standard deviation. Its truncation is below 1e-9.
  it("weighs the way instead of the samples when asked to", () => {
    const result = alongX(overshoot, { spacing: "distance" });
    expect(value(result.movementOffset)).toBeCloseTo(-1.5508015531, 8);
    expect(value(result.movementError)).toBeCloseTo(1.9052329206, 8);
    expect(value(result.movementVariability)).toBeCloseTo(1.3436457222, 8);
    expect(counts(result)).toEqual(counts(alongX(overshoot)));
  });

  // Source: counted by hand.
  it("counts the edge as inside, a touch of the axis as no crossing and a pause as no turn", () => {
    expect(
      alongX([
        [80, 0],
        [90, 0],
        [111, 0],
        [110, 0],
      ]).targetReentry,
    ).toBe(1);
    expect(
      alongX([
        [0, 3],
        [30, 0],
        [60, 2],
      ]).taskAxisCrossing,
    ).toBe(0);
    expect(
      alongX([
        [0, 3],
        [30, 0],
        [60, -2],
      ]).taskAxisCrossing,
    ).toBe(1);
    expect(
      alongX([
        [0, 0],
        [30, 2],
        [30, 2],
        [60, 4],
      ]).movementDirectionChange,
    ).toBe(0);
    expect(
      alongX([
        [100, 0],
        [120, 0],
        [100, 0],
      ]).targetReentry,
    ).toBe(1);
    expect(
      alongX([
        [0, 0],
        [50, 0],
      ]).targetReentry,
    ).toBe(0);
  });

  // Source: counted by hand on a path that trembles by one unit about the axis.
  it("hears no wobble within the dead band", () => {
    const wobble: Point[] = [
      [0, 0.5],
      [20, -0.5],
      [19, 0.5],
      [60, -0.5],
      [89.5, 0.5],
      [90.5, -0.5],
      [89.5, 0.5],
      [91, 0],
    ];
    expect(counts(alongX(wobble))).toEqual([1, 6, 6, 4]);
    expect(counts(alongX(wobble, { deadBand: 1 }))).toEqual([0, 0, 0, 0]);
    expect(
      counts(
        alongX(
          [
            [0, 3],
            [50, -3],
            [100, 3],
          ],
          { deadBand: 1 },
        ),
      ),
    ).toEqual([0, 2, 1, 0]);
  });
});

describe("pathAccuracy properties", () => {
  /** Sign changes of a list, zeros left out: a second way to count. */
  const signChanges = (list: readonly number[]): number => {
    const signs = list.map(Math.sign).filter((s) => s !== 0);
    return signs.filter((s, i) => i > 0 && s !== signs[i - 1]).length;
  };
  const steps = (list: readonly number[]): number[] => list.slice(1).map((v, i) => v - list[i]!);

  test.prop([pathArb])("counts what a plain count of sign changes finds", (points) => {
    const result = alongX(points);
    const inside = points.map(([x, y]) => (x - 100) ** 2 + y ** 2 <= 100);
    expect(result.targetReentry).toBe(Math.max(0, inside.filter((now, i) => now && !inside[i - 1]).length - 1));
    expect(result.taskAxisCrossing).toBe(signChanges(points.map(([, y]) => y)));
    expect(result.movementDirectionChange).toBe(signChanges(steps(points.map(([, y]) => y))));
    expect(result.orthogonalDirectionChange).toBe(signChanges(steps(points.map(([x]) => x))));
  });

  // the grid of positions keeps crossings and edges clear of rounding, by a turn in which nothing is rounded
  test.prop([pathArb, fc.constantFrom(0, 1, 2, 3), fc.constantFrom(0.25, 1, 8), gridArb, gridArb])(
    "does not change when everything is turned, moved and scaled; lengths scale",
    (points, quarter, scale, sx, sy) => {
      const [c, s] = [
        [1, 0],
        [0, 1],
        [-1, 0],
        [0, -1],
      ][quarter] as [number, number];
      const move = ([x, y]: Point): Point => [scale * (x * c - y * s) + sx, scale * (x * s + y * c) + sy];
      const at = (p: Point) => ({ x: move(p)[0], y: move(p)[1] });
      const here = alongX(points);
      const there = pathAccuracy(columns(points.map(move)), at([0, 0]), at([100, 0]), { shape: { kind: "circle", diameter: 20 * scale } });
      expect(counts(there)).toEqual(counts(here));
      for (const key of DISTANCES) expect(value(there[key])).toBeCloseTo(scale * value(here[key]), 8);
      expect(there.pathLength).toBeCloseTo(scale * here.pathLength, 8);
      if (here.pathEfficiency !== null) expect(there.pathEfficiency).toBeCloseTo(here.pathEfficiency, 8);
    },
  );

  test.prop([fc.double({ min: 0, max: 6.3, noNaN: true }), fc.double({ min: -1e4, max: 1e4, noNaN: true })])(
    "takes the rounding of a straight path in any direction, anywhere, for no wobble",
    (angle, shift) => {
      const points = Array.from({ length: 50 }, (_, i): Point => [shift + 6 * i * Math.cos(angle), shift + 6 * i * Math.sin(angle)]);
      const result = pathAccuracy(columns(points), { x: shift, y: shift }, { x: points[49]![0], y: points[49]![1] });
      expect(counts(result)).toEqual([null, 0, 0, 0]);
      expect(result.pathEfficiency).toBeCloseTo(1, 9);
    },
  );

  // a position rounded to a quantum is off by half of one in x and in y, hence by sqrt(2)/2 across: wobbles stay below sqrt(2) < 1.5 quanta
  test.prop([fc.double({ min: 0, max: 6.3, noNaN: true })])(
    "hears no rounding to whole pixels with a dead band of one and a half",
    (angle) => {
      const points = Array.from({ length: 400 }, (_, i): Point => [Math.round(i * Math.cos(angle)), Math.round(i * Math.sin(angle))]);
      const end = { x: 400 * Math.cos(angle), y: 400 * Math.sin(angle) };
      expect(counts(pathAccuracy(columns(points), START, end, { deadBand: 1.5 }))).toEqual([null, 0, 0, 0]);
    },
  );

  test.prop([pathArb, fc.constantFrom("time" as const, "distance" as const)])(
    "is never off by less on average than to one side",
    (points, spacing) => {
      const { movementError, movementOffset, movementVariability, pathLength } = alongX(points, { spacing });
      fc.pre(spacing === "time" || pathLength > 0);
      expect(value(movementError)).toBeGreaterThanOrEqual(Math.abs(value(movementOffset)) - 1e-9);
      expect(value(movementVariability)).toBeGreaterThanOrEqual(0);
      if (points.every(([, y]) => y >= 0)) expect(value(movementError)).toBeCloseTo(-value(movementOffset), 9);
    },
  );

  test.prop([pathArb])("hears less through a wider dead band", (points) => {
    const bands = [0, 0.5, 2, 5].map((deadBand) => counts(alongX(points, { deadBand })) as number[]);
    for (let k = 0; k < COUNTS.length; k++) {
      for (let i = 1; i < bands.length; i++) expect(bands[i]![k]).toBeLessThanOrEqual(bands[i - 1]![k]!);
    }
  });

  test.prop([pathArb, fc.integer({ min: 2, max: 6 })])(
    "does not depend on how densely a path is sampled, weighed by the way",
    (points, parts) => {
      const dense = points.flatMap(([x, y], i): Point[] => {
        const [px, py] = points[i - 1] ?? [x, y];
        return Array.from({ length: parts }, (_, k): Point => [px + ((x - px) * (k + 1)) / parts, py + ((y - py) * (k + 1)) / parts]);
      });
      const [here, there] = [points, dense].map((p) => alongX(p, { spacing: "distance" }));
      fc.pre(here!.pathLength > 0);
      for (const key of DISTANCES) expect(value(there![key])).toBeCloseTo(value(here![key]), 7);
    },
  );

  test.prop([pathArb])("survives JSON and leaves its input as it was", (points) => {
    const path = columns(points);
    const result = pathAccuracy(path, START, END, { shape: disc });
    expect(path).toEqual(columns(points));
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(structuredClone(result)).toEqual(result);
  });

  it("holds what it can when there is no axis, no path or no shape", () => {
    const noAxis = { ok: false, why: "noAxis", unit: "mm", n: 6 };
    expect(pathAccuracy(columns(overshoot), END, END, { shape: disc, unit: "mm" })).toMatchObject({
      targetReentry: 1,
      taskAxisCrossing: null,
      orthogonalDirectionChange: null,
      movementVariability: noAxis,
      movementOffset: noAxis,
      pathEfficiency: null,
    });
    expect(alongX([])).toMatchObject({
      targetReentry: 0,
      taskAxisCrossing: 0,
      movementError: { ok: false, why: "tooFew", n: 0 },
      pathLength: 0,
      pathEfficiency: null,
      n: 0,
    });
    expect(alongX([[50, 2]])).toMatchObject({
      movementVariability: { ok: false, why: "tooFew", n: 1 },
      movementOffset: { ok: true, value: -2 },
      pathEfficiency: null,
    });
    expect(
      alongX(
        [
          [50, 2],
          [50, 2],
        ],
        { spacing: "distance" },
      ),
    ).toMatchObject({ movementError: { ok: false, why: "noSpread" } });
    expect(pathAccuracy(columns(overshoot), START, END).targetReentry).toBe(null);
  });

  it("enters a rectangle by its own outline", () => {
    const shape: Shape = { kind: "rect", width: 10, height: 40 };
    expect(
      alongX(
        [
          [90, 0],
          [96, 0],
          [108, 0],
          [104, 19],
        ],
        { shape },
      ).targetReentry,
    ).toBe(1);
    expect(
      alongX(
        [
          [90, 0],
          [96, 0],
          [108, 0],
          [104, 19],
        ],
        { shape: { ...shape, angle: 90 } },
      ).targetReentry,
    ).toBe(0);
  });
});

describe("pathAccuracy bad input", () => {
  it("names the bad column or coordinate", () => {
    const path = columns(overshoot);
    expect(() => pathAccuracy({ x: path.x, y: Float64Array.of(1) }, START, END)).toThrow(/path\.y must have 6 entries .*got 1/);
    expect(() => pathAccuracy(undefined as never, START, END)).toThrow(/path must be points with columns x, y, got undefined/);
    expect(() => pathAccuracy(columns([[0, Number.NaN]]), START, END)).toThrow(/path\.y\[0\] must be finite, got NaN/);
    expect(() => pathAccuracy(path, { x: 0, y: Number.NaN }, END)).toThrow(/from\.y must be finite, got NaN/);
    expect(() => pathAccuracy(path, START, null as never)).toThrow(new TypeError("pathAccuracy: to must be a point x, y, got null"));
    expect(() => pathAccuracy(path, START, { x: 1e200, y: 0 })).toThrow(/length of the axis and the path must be finite, got Infinity/);
  });
  it("refuses options out of range", () => {
    const path = columns(overshoot);
    expect(() => pathAccuracy(path, START, END, { deadBand: -1 })).toThrow(/options\.deadBand must be finite and at least 0, got -1/);
    expect(() => pathAccuracy(path, START, END, { spacing: "even" as never })).toThrow(
      /options\.spacing must be one of "time", "distance", got "even"/,
    );
    expect(() => pathAccuracy(path, START, END, { shape: { kind: "circle", diameter: -1 } })).toThrow(
      /options\.shape\.diameter must be finite and above 0/,
    );
  });
});
