import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { nearestNeighbours } from "../../src/endpoints/extent/nearest-neighbours.js";
import { type ScatterExtent, scatterExtent } from "../../src/endpoints/scatter-extent.js";
import type { Endpoints } from "../../src/endpoints/types.js";
import { createRandom } from "../../src/math/random.js";
import { DRAWS, drawEndpoints, endpointsArb, endpointsOf, mapped, notFinite, turn } from "./scatter-draws.js";

type Given = Extract<ScatterExtent, { ok: true }>;

function given(endpoints: Endpoints): Given {
  const result = scatterExtent(endpoints);
  if (!result.ok) throw new Error(`not given: ${result.why}`);
  return result;
}

describe("scatterExtent against outside values", () => {
  // Source: geometry of a rectangle of 3 by 4 with a point inside.
  it("measures a rectangle", () => {
    const rectangle = endpointsOf([
      [0, 0],
      [1, 1],
      [4, 3],
      [4, 0],
      [0, 3],
    ]);
    const { extremeSpread, hull, nearestNeighbour } = given(rectangle);
    expect(extremeSpread.value).toBe(5);
    expect(hull).toEqual({ area: 12, perimeter: 14, vertices: [0, 3, 2, 4] });
    expect(nearestNeighbour.mean).toBeCloseTo((Math.SQRT2 + Math.SQRT2 + 3 + 3 + Math.sqrt(5)) / 5, 12);
    expect(nearestNeighbour.expected).toBeCloseTo(Math.sqrt(12 / 5) / 2, 12);
  });
  // Source: shared reference table scatter/point-sets.json, "round 12" (SciPy 1.10.1 ConvexHull and cKDTree, computed); 1e-8 stored.
  it("agrees with the hull and the neighbours of a computed set", () => {
    const points = [
      ...[
        [-4.12, -3.19],
        [4.17, -2.61],
        [2.99, 2.18],
        [2.31, -0.62],
        [9.67, 6.73],
        [-0.13, 0.65],
      ],
      ...[
        [-2.42, -7.52],
        [6.22, 1.89],
        [-3.62, -4.78],
        [-2.76, 3.57],
        [-0.11, -0.44],
        [-0.43, -6.65],
      ],
    ] as [number, number][];
    const { extremeSpread, hull, nearestNeighbour } = given(endpointsOf(points));
    expect(extremeSpread).toEqual({ value: expect.closeTo(18.687712540597364, 10), between: [4, 6] });
    expect(hull.area).toBeCloseTo(97.71255, 10);
    expect(hull.perimeter).toBeCloseTo(43.51201483435827, 10);
    expect(hull.vertices).toEqual([0, 8, 6, 11, 1, 4, 9]);
    expect(nearestNeighbour.mean).toBeCloseTo(2.5838453640962253, 10);
    expect(nearestNeighbour.clarkEvans).toBeCloseTo(1.8109729519037794, 10);
  });
  // Source: Clark and Evans 1954 (recalled): points spread evenly at random have a ratio of 1; 4000 of them in a square, whose hull is nearly all of
  // it: standard error 0.26/sqrt(n) of the ratio, and 3 % up from the edge (0.4 by perimeter/sqrt(n A), recalled from Donnelly 1978).
  it("gives points at random a ratio near 1, and a regular lattice one of 2", () => {
    const random = createRandom(6);
    const scattered = drawEndpoints(random, 4000, (source) => source.uniform());
    expect(given(scattered).nearestNeighbour.clarkEvans).toBeGreaterThan(0.99);
    expect(given(scattered).nearestNeighbour.clarkEvans).toBeLessThan(1.05);
    const side = 60;
    const x = Float64Array.from({ length: side * side }, (_, i) => i % side);
    const { clarkEvans } = given({ x, y: x.map((_, i) => Math.floor(i / side)) }).nearestNeighbour;
    // closed form: distance 1, area (side - 1)^2
    expect(clarkEvans).toBeCloseTo((2 * side) / (side - 1), 10);
  });
  // Source: every pair looked at, and every triple turned (definitions).
  test.prop([endpointsArb(2, 60), fc.constantFrom(1, 8, 30)])(
    "finds the farthest and the nearest of all pairs, and a hull round all points",
    (drawn, coarse) => {
      const set = { x: drawn.x.map((v) => Math.round(v / coarse)), y: drawn.y.map((v) => Math.round(v / coarse)) };
      const n = set.x.length;
      const distance = (i: number, j: number): number => Math.hypot(set.x[i]! - set.x[j]!, set.y[i]! - set.y[j]!);
      const all = Array.from({ length: n }, (_, i) => i);
      const nearest = all.map((i) => Math.min(...all.flatMap((j) => (j === i ? [] : [distance(i, j)]))));
      const { extremeSpread, hull, nearestNeighbour } = given(set);
      expect(Array.from(nearestNeighbours(set.x, set.y))).toEqual(nearest.map((d) => expect.closeTo(d, 10)));
      expect(nearestNeighbour.mean).toBeCloseTo(nearest.reduce((sum, d) => sum + d, 0) / n, 10);
      expect(extremeSpread.value).toBeCloseTo(Math.max(...all.flatMap((i) => all.map((j) => distance(i, j)))), 10);
      expect(distance(...(extremeSpread.between as [number, number]))).toBeCloseTo(extremeSpread.value, 10);
      const { vertices } = hull;
      if (vertices.length < 3) return;
      vertices.forEach((i, k) => {
        const j = vertices[(k + 1) % vertices.length]!;
        for (const p of all) {
          const cross = (set.x[j]! - set.x[i]!) * (set.y[p]! - set.y[i]!) - (set.y[j]! - set.y[i]!) * (set.x[p]! - set.x[i]!);
          expect(cross).toBeGreaterThanOrEqual(0);
          // a corner beside the side from i to j: strictly, for no three corners lie on a line
          if (vertices.includes(p) && p !== i && p !== j) expect(cross).toBeGreaterThan(0);
        }
      });
    },
  );
});

describe("scatterExtent properties", () => {
  const close = (a: number, b: number) => expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-8 * (Math.abs(b) + 1));

  test.prop([endpointsArb(2), fc.integer({ min: -360, max: 360 }), fc.integer({ min: -999, max: 999 })])(
    "does not change when the frame is turned and moved",
    (set, degrees, shift) => {
      const one = given(set);
      const other = given(mapped(set, turn(degrees), [shift, 2 * shift]));
      close(other.extremeSpread.value, one.extremeSpread.value);
      close(other.hull.area, one.hull.area);
      close(other.hull.perimeter, one.hull.perimeter);
      close(other.nearestNeighbour.mean, one.nearestNeighbour.mean);
    },
  );
  test.prop([endpointsArb(2), fc.integer({ min: -300, max: 300 })])(
    "scales with the unit, to the last digit for powers of two",
    (set, power) => {
      const factor = 2 ** power;
      const one = given(set);
      const other = given({ x: set.x.map((v) => v * factor), y: set.y.map((v) => v * factor) });
      expect(other.extremeSpread.value).toBe(one.extremeSpread.value * factor);
      expect(other.hull.area).toBe(one.hull.area * factor * factor);
      expect(other.hull.vertices).toEqual(one.hull.vertices);
      expect(other.nearestNeighbour.clarkEvans).toBe(one.nearestNeighbour.clarkEvans);
    },
  );
  test.prop([endpointsArb(3, 30)])("never shrinks when an endpoint is added", (set) => {
    const fewer = given({ x: set.x.slice(1), y: set.y.slice(1) });
    const all = given(set);
    expect(all.extremeSpread.value).toBeGreaterThanOrEqual(fewer.extremeSpread.value);
    expect(all.hull.area).toBeGreaterThanOrEqual(fewer.hull.area - 1e-9);
    expect(all.hull.perimeter).toBeGreaterThanOrEqual(fewer.hull.perimeter - 1e-9);
  });
  test.prop([endpointsArb(0)])("leaves its input alone and gives plain data", (set) => {
    const copy = structuredClone(set);
    const result = scatterExtent(set, { unit: "mm" });
    expect(set).toEqual(copy);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(structuredClone(result)).toEqual(result);
    expect(result.ok).toBe(set.x.length > 1);
    expect(result).toMatchObject({ unit: "mm", n: set.x.length });
  });
  it("takes endpoints on a line and at one place", () => {
    const line = given(
      endpointsOf([
        [0, 0],
        [3, 4],
        [6, 8],
        [3, 4],
      ]),
    );
    expect(line).toMatchObject({ extremeSpread: { value: 10, between: [0, 2] }, hull: { area: 0, perimeter: 20, vertices: [0, 2] } });
    expect(line.nearestNeighbour).toEqual({ mean: 2.5, expected: null, clarkEvans: null });
    const place = given(
      endpointsOf([
        [5, -5],
        [5, -5],
        [5, -5],
      ]),
    );
    expect(place).toMatchObject({ extremeSpread: { value: 0, between: [0, 1] }, hull: { area: 0, perimeter: 0, vertices: [0] } });
    expect(scatterExtent(endpointsOf([[1, 2]]))).toEqual({ ok: false, why: "tooFew", unit: "px", n: 1 });
  });
  it("grows with n though the scatter does not", () => {
    const spread = (n: number): number => given(drawEndpoints(createRandom(1), n, DRAWS.normal)).extremeSpread.value;
    expect(spread(1000)).toBeGreaterThan(1.5 * spread(10));
  });
  it.each([1e-300, 1e-160, 1e150, 1e300])("gives finite numbers for endpoints of %d", (size) => {
    const extent = given(drawEndpoints(createRandom(4), 30, DRAWS.normal, [size, size]));
    expect(notFinite(extent)).toEqual([]);
    expect(extent.nearestNeighbour.clarkEvans).toBeGreaterThan(0.5);
    expect(extent.extremeSpread.value / size).toBeGreaterThan(2);
  });
});

describe("scatterExtent bad input", () => {
  it("names the column and the entry", () => {
    expect(() => scatterExtent({ x: Float64Array.of(1, 2), y: Float64Array.of(1, Number.NaN) })).toThrow(
      "scatterExtent: endpoints.y[1] must be finite, got NaN",
    );
    expect(() => scatterExtent({ x: Float64Array.of(1, 2), y: Float64Array.of(1, 2, 3) })).toThrow(
      "scatterExtent: endpoints.y must have 2 entries like the other columns, got 3",
    );
  });
});
