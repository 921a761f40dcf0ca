import { fc, test } from "@fast-check/vitest";
import { median } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { slopeOfRank } from "../../../src/learning/trend/slope-of-rank.js";
import { sortWithinTies } from "../../../src/learning/trend/sort-within-ties.js";
import { theilSen } from "../../../src/learning/trend/theil-sen.js";
import { createRandom } from "../../../src/math/random.js";
import { NILE, type Points, plainSlopes, pointsArb, same } from "./series.js";

const column = (...values: number[]): Float64Array => Float64Array.from(values);

/** Long series of several kinds: even x, ties in x, x drawn, clock times, whole numbers, three levels. */
function longSeries(kind: number, n: number, seed: number): Points {
  const random = createRandom(seed);
  const x = Float64Array.from({ length: n }, (_, i) => {
    if (kind === 1) return Math.floor(i / 3);
    if (kind === 2) return random.uniform();
    return kind === 3 ? 1.7e9 + 86400 * i : i + 1;
  }).sort();
  const y = Float64Array.from({ length: n }, (_, i) => {
    if (kind === 4) return Math.round(random.normal(0, 10));
    if (kind === 5) return Math.floor(random.uniform(0, 3));
    return 0.6 + 0.9 * Math.exp(-i / 100) + random.normal(0, 0.05);
  });
  return { x, y: sortWithinTies(x, y) };
}

describe("theilSen against outside values", () => {
  // Source: SciPy 1.10.1 and 1.17.1 stats.theilslopes
  it("has the slope, intercept and limits of SciPy, ties in x included", () => {
    const x = column(1, 1, 1, 2, 2, 3, 4, 4, 5, 6, 7, 7, 7, 8, 9);
    const y = column(9.1, 8.4, 8.3, 7.9, 8.45, 7.2, 6.8, 7.95, 6.1, 6.15, 5.2, 5.9, 5.25, 4.8, 5.3);
    const line = theilSen(x, y, 0.95)!;
    expect(line.slope).toBeCloseTo(-0.5083333333333334, 14);
    expect(line.intercept).toBeCloseTo(8.833333333333334, 13);
    expect(line.interval[0]).toBeCloseTo(-0.59, 13);
    expect(line.interval[1]).toBeCloseTo(-0.4, 13);
    expect(theilSen(x, y, 0.9)!.interval).toEqual([expect.closeTo(-0.55, 13), expect.closeTo(-0.4166666666666667, 13)]);
    expect(theilSen(column(0, 0.5, 2, 3, 3.5, 7), column(9.1, 8.3, 8.4, 7.2, 7.9, 6.8), 0.9)).toEqual({
      slope: expect.closeTo(-0.32857142857142857, 14),
      intercept: expect.closeTo(8.921428571428573, 13),
      interval: [expect.closeTo(-0.6333333333333332, 14), expect.closeTo(-0.1, 13)],
      pairs: 15,
    });
  });

  // Source: SciPy 1.10.1 stats.theilslopes, as stored in the reference table learning/trend.json
  it("has the slope and limits of the Nile", () => {
    const line = theilSen(
      Float64Array.from(NILE, (_, i) => i + 1),
      Float64Array.from(NILE),
      0.95,
    )!;
    expect([line.slope, line.intercept]).toEqual([-2.6, expect.closeTo(1024.8, 10)]);
    expect(line.interval).toEqual([expect.closeTo(-3.627906976744186, 13), expect.closeTo(-1.4285714285714286, 13)]);
  });

  // Source: definition: all slopes listed, simple-statistics 7.12.1 median
  test.prop([pointsArb(2)])("is the median of the slopes of all pairs", (points) => {
    const slopes = plainSlopes(points);
    fc.pre(slopes.length > 0);
    const line = theilSen(points.x, points.y, 0.95)!;
    expect(line.slope).toBeCloseTo(median(slopes), 12);
    expect(line.pairs).toBe(slopes.length);
    expect(line.interval.every((limit) => slopes.includes(limit))).toBe(true);
    expect(line.interval[0] <= line.slope && line.slope <= line.interval[1]).toBe(true);
  });

  // Source: definition, by sorting all slopes; equal to the last bit
  it.each([0, 1, 2, 3, 4, 5])("finds every rank without listing the slopes, series of kind %d", (kind) => {
    for (const n of [9, 60, 400, 700]) {
      const points = longSeries(kind, n, 17 * n + kind);
      const slopes = plainSlopes(points);
      for (const share of [0, 0.001, 0.025, 0.3, 0.5, 0.501, 0.975, 0.9999]) {
        const rank = Math.floor(share * slopes.length);
        expect(slopeOfRank(points.x, points.y, rank)).toBe(slopes[rank]);
      }
    }
  });

  it("does so through the public door as well: 600 points are searched, not listed", () => {
    const points = longSeries(0, 600, 3);
    const slopes = plainSlopes(points);
    const line = theilSen(points.x, points.y, 0.95)!;
    expect(line.pairs).toBe(slopes.length);
    expect(line.slope).toBe((slopes[slopes.length / 2 - 1]! + slopes[slopes.length / 2]!) / 2);
    expect(line.interval.every((limit) => slopes.includes(limit))).toBe(true);
  });
});

describe("theilSen properties", () => {
  test.prop([pointsArb(3)])("moves and scales with its columns, and leaves them alone", (points) => {
    const { x, y } = points;
    const copies = [x.slice(), y.slice()];
    const line = theilSen(x, y, 0.9);
    fc.pre(line !== undefined);
    const other = theilSen(
      x.map((value) => 1.7e9 + 86400 * value),
      y.map((value) => 8 * value + 3),
      0.9,
    )!;
    // whole seconds at 1.7e9 carry every digit of the quarter steps of x
    expect(other.slope).toBeCloseTo((8 * line!.slope) / 86400, 12);
    expect(other.interval[0]).toBeCloseTo((8 * line!.interval[0]) / 86400, 12);
    expect(same(x, copies[0]!) && same(y, copies[1]!)).toBe(true);
    expect(structuredClone(line)).toEqual(line);
    expect(JSON.parse(JSON.stringify(line))).toEqual(line);
  });

  it("is not carried away by a quarter of wild values", () => {
    const x = Float64Array.from({ length: 40 }, (_, i) => i);
    const y = x.map((value, i) => (i % 4 === 1 ? 1e6 : 3 - 0.1 * value));
    const line = theilSen(x, y, 0.95)!;
    expect(Math.abs(line.slope + 0.1)).toBeLessThan(1e-9);
  });

  it("stays within rounding where two x nearly coincide", () => {
    const { x, y } = longSeries(2, 500, 8);
    x[1] = x[0]! + 1e-9;
    const slopes = plainSlopes({ x, y });
    const rank = Math.floor(slopes.length / 3);
    // a value carries about 1e-15, and 1e-9 divides it
    expect(Math.abs(slopeOfRank(x, y, rank) - slopes[rank]!)).toBeLessThan(1e-5);
  });
});

describe("theilSen bad input", () => {
  it("has no line without two different x", () => {
    expect(theilSen(column(), column(), 0.95)).toBeUndefined();
    expect(theilSen(column(1), column(2), 0.95)).toBeUndefined();
    expect(theilSen(column(1, 1), column(2, 3), 0.95)).toBeUndefined();
  });
  it("is flat where all values are equal", () =>
    expect(theilSen(column(1, 2, 3, 4), column(5, 5, 5, 5), 0.95)).toEqual({ slope: 0, intercept: 5, interval: [0, 0], pairs: 6 }));
});
