import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/math/random.js";
import { type ShortestTour, type ShortestTourOptions, shortestTour } from "../../src/sequence/shortest-tour.js";

type Point = readonly [number, number];
type Kind = NonNullable<ShortestTourOptions["tour"]>;
const KINDS: readonly Kind[] = ["fromFirst", "open", "closed"];

const columns = (points: readonly Point[]) => ({ x: Float64Array.from(points, ([x]) => x), y: Float64Array.from(points, ([, y]) => y) });
const solve = (points: readonly Point[], tour: Kind): ShortestTour => shortestTour(columns(points), { tour });
const between = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

function walk(points: readonly Point[], order: readonly number[], tour: Kind): number {
  let length = 0;
  for (let i = 1; i < order.length; i++) length += between(points[order[i - 1]!]!, points[order[i]!]!);
  return tour === "closed" && order.length > 1 ? length + between(points[order.at(-1)!]!, points[order[0]!]!) : length;
}

/** Every order tried. */
function bruteForce(points: readonly Point[], tour: Kind): number {
  let best = Number.POSITIVE_INFINITY;
  const extend = (order: number[], rest: readonly number[]): void => {
    if (rest.length === 0) best = Math.min(best, walk(points, order, tour));
    for (const next of rest) {
      extend(
        [...order, next],
        rest.filter((other) => other !== next),
      );
    }
  };
  const all = points.map((_, i) => i);
  if (tour === "open") extend([], all);
  else extend([0], all.slice(1));
  return best;
}

/** The nearest next, looked for among all; of equally near ones the first. */
function greedy(points: readonly Point[], tour: Kind): number {
  const order = [0];
  const rest = points.map((_, i) => i).slice(1);
  while (rest.length > 0) {
    const [x, y] = points[order.at(-1)!]!;
    const squares = rest.map((i) => (points[i]![0] - x) ** 2 + (points[i]![1] - y) ** 2);
    order.push(...rest.splice(squares.indexOf(Math.min(...squares)), 1));
  }
  return walk(points, order, tour);
}

/** Seeded and shuffled, so that the given order tells nothing. */
function shuffled<T>(list: readonly T[], seed: number): T[] {
  const random = createRandom(seed);
  return list
    .map((entry) => ({ entry, key: random.uniform() }))
    .sort((a, b) => a.key - b.key)
    .map(({ entry }) => entry);
}

const coordinate = fc.integer({ min: -500, max: 500 });
const pointArb: fc.Arbitrary<Point> = fc.tuple(coordinate, coordinate);
const crowdedArb: fc.Arbitrary<Point> = fc.tuple(fc.integer({ min: 0, max: 5 }), fc.integer({ min: 0, max: 5 }));
const listArb = (minLength: number, maxLength: number) =>
  fc.oneof(fc.array(pointArb, { minLength, maxLength, size: "max" }), fc.array(crowdedArb, { minLength, maxLength, size: "max" }));
const kindArb = fc.constantFrom(...KINDS);

describe("shortestTour against outside values", () => {
  // Source: scatter/shortest-path.json, instances 3, 4 and 5 (every permutation tried in Python)
  it("finds the shortest of all orders", () => {
    const three: Point[] = [
      [854, 140],
      [132, 333],
      [878, 256],
    ];
    expect(solve(three, "fromFirst")).toMatchObject({
      order: [0, 2, 1],
      length: expect.closeTo(868.42007559668, 9),
      exact: true,
      given: expect.closeTo(1497.313986414094, 9),
      efficiency: expect.closeTo(0.5799852826303004, 12),
    });
    expect(solve(three, "open").length).toBeCloseTo(865.8073971367874, 9);
    expect(solve(three, "closed").length).toBeCloseTo(1615.7707295737807, 9);
    const five: Point[] = [
      [849, 161],
      [6, 17],
      [360, 623],
      [418, 867],
    ];
    expect(solve(five, "fromFirst")).toMatchObject({
      order: [0, 3, 2, 1],
      length: expect.closeTo(1779.7812295176122, 9),
      nearestNeighbour: expect.closeTo(1868.1149209176044, 9),
    });
  });

  // Source: closed form. Points in convex position are visited around the hull: the perimeter 2 n R sin(pi / n) of a regular polygon, less one side
  // when the way is open.
  it.each([3, 8, 13, 14, 40, 150])("goes around a regular polygon of %i corners", (n) => {
    const ring = shuffled(
      Array.from({ length: n }, (_, k): Point => [300 * Math.cos((2 * Math.PI * k) / n), 300 * Math.sin((2 * Math.PI * k) / n)]),
      n,
    );
    const side = 600 * Math.sin(Math.PI / n);
    expect(solve(ring, "closed").length).toBeCloseTo(n * side, 8);
    expect(solve(ring, "open").length).toBeCloseTo((n - 1) * side, 8);
    expect(solve(ring, "fromFirst").length).toBeCloseTo((n - 1) * side, 8);
  });

  // Source: closed form. On a line a way covers the range once, a round trip twice, and from within the shorter side is covered twice.
  it.each([5, 12, 60])("covers a line of %i points", (n) => {
    const line: Point[] = [[n / 3, 0], ...shuffled([...Array(n).keys()], n).map((x): Point => [x, 0])];
    expect(solve(line, "open").length).toBeCloseTo(n - 1, 9);
    expect(solve(line, "closed").length).toBeCloseTo(2 * (n - 1), 9);
    expect(solve(line, "fromFirst").length).toBeCloseTo(n - 1 + n / 3, 9);
  });

  // Source: closed form. A lattice of an even number of points has a round trip of unit steps, and no step can be shorter.
  it.each([2, 6, 12])("goes through a lattice %i wide in unit steps", (wide) => {
    const lattice = shuffled(
      Array.from({ length: wide * wide }, (_, k): Point => [k % wide, Math.floor(k / wide)]),
      wide,
    );
    expect(solve(lattice, "closed").length).toBeCloseTo(wide * wide, 9);
  });

  // Source: Beardwood, Halton and Hammersley 1959; constant 0.7124 of Johnson, McGeoch and Rothberg 1996 (from memory): the shortest round trip
  // through n points spread evenly over an area A tends to 0.7124 sqrt(n A) from above, within about 2 % at 3000 points.
  it("comes within 5 % of the length known for many points", () => {
    const random = createRandom(5);
    const n = 3000;
    const field = Array.from({ length: n }, (): Point => [random.uniform(), random.uniform()]);
    const found = solve(field, "closed");
    expect(found.exact).toBe(false);
    expect(found.length / (0.7124 * Math.sqrt(n))).toBeGreaterThan(1);
    expect(found.length / (0.7124 * Math.sqrt(n))).toBeLessThan(1.05);
    // Source: Johnson and McGeoch 1997 (from memory): nearest neighbour stays about 25 % above the shortest
    expect(found.nearestNeighbour / found.length).toBeCloseTo(1.25, 1);
  });
});

describe("shortestTour properties", () => {
  test.prop([listArb(1, 7), kindArb], { numRuns: 150 })("equals a try of every order up to seven points", (points, tour) => {
    const found = solve(points, tour);
    expect(found.exact).toBe(true);
    expect(found.length).toBeCloseTo(bruteForce(points, tour), 8);
  });

  test.prop([listArb(1, 60), kindArb], { numRuns: 100 })(
    "visits every point once, and tells the length of its own order",
    (points, tour) => {
      const found = solve(points, tour);
      expect([...found.order].sort((a, b) => a - b)).toEqual(points.map((_, i) => i));
      if (tour !== "open") expect(found.order[0]).toBe(0);
      expect(found.length).toBeCloseTo(walk(points, found.order, tour), 7);
      expect(found.given).toBeCloseTo(
        walk(
          points,
          points.map((_, i) => i),
          tour,
        ),
        7,
      );
    },
  );

  test.prop([listArb(1, 60), kindArb], { numRuns: 100 })("is never longer than the given order or the nearest next", (points, tour) => {
    const { length, given, nearestNeighbour, efficiency } = solve(points, tour);
    expect(length).toBeLessThanOrEqual(given);
    expect(length).toBeLessThanOrEqual(nearestNeighbour);
    expect(efficiency).toBe(given === 0 ? null : length / given);
  });

  test.prop([listArb(1, 60), kindArb], { numRuns: 100 })("takes the nearest next as a plain search does", (points, tour) => {
    expect(solve(points, tour).nearestNeighbour).toBeCloseTo(greedy(points, tour), 7);
  });

  // whole numbers, quarter turns and factors of two leave every rounding as it was, so that even ties fall alike
  test.prop([listArb(1, 40), kindArb, pointArb, fc.integer({ min: 0, max: 3 }), fc.integer({ min: -20, max: 20 })], { numRuns: 60 })(
    "takes the same order in a shifted, turned and scaled field",
    (points, tour, [dx, dy], quarters, power) => {
      const factor = 2 ** power;
      const moved = points.map(([x, y]): Point => {
        let turned: Point = [x, y];
        for (let k = 0; k < quarters; k++) turned = [-turned[1], turned[0]];
        return [(turned[0] + dx) * factor, (turned[1] + dy) * factor];
      });
      const here = solve(points, tour);
      const there = solve(moved, tour);
      expect(there.order).toEqual(here.order);
      expect(there.length).toBe(here.length * factor);
      expect(there.efficiency).toBe(here.efficiency);
    },
  );

  test.prop([fc.array(pointArb, { minLength: 1, maxLength: 11 }), kindArb, fc.double({ min: 0, max: 7, noNaN: true })], { numRuns: 60 })(
    "keeps its length in a field turned by any angle",
    (points, tour, angle) => {
      const turned = points.map(([x, y]): Point => [x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle)]);
      expect(solve(turned, tour).length).toBeCloseTo(solve(points, tour).length, 7);
    },
  );

  test.prop([listArb(1, 30), kindArb, fc.array(fc.nat(), { maxLength: 10 })], { numRuns: 60 })(
    "goes no further for points that lie on others",
    (points, tour, repeats) => {
      const more = [...points, ...repeats.map((pick) => points[pick % points.length]!)];
      expect(solve(more, tour).length).toBeCloseTo(solve(points, tour).length, 7);
      expect(solve(more, tour).exact).toBe(solve(points, tour).exact);
    },
  );

  test.prop([fc.array(pointArb, { minLength: 2, maxLength: 12 })], { numRuns: 60 })("orders the three kinds of way by length", (points) => {
    const [fromFirst, open, closed] = KINDS.map((tour) => solve(points, tour).length);
    expect(open!).toBeLessThanOrEqual(fromFirst! + 1e-9);
    expect(fromFirst!).toBeLessThanOrEqual(closed! + 1e-9);
  });

  test.prop([fc.array(pointArb, { minLength: 2, maxLength: 12 }), kindArb])("leaves a shortest order as it is", (points, tour) => {
    const { order } = solve(points, tour);
    const again = solve(
      order.map((i) => points[i]!),
      tour,
    );
    expect(again.order).toEqual(order.map((_, i) => i));
    expect(again.efficiency).toBe(1);
  });

  it("handles no point, one point and points on one place", () => {
    for (const tour of KINDS) {
      const none = { order: [], length: 0, exact: true, given: 0, nearestNeighbour: 0, efficiency: null };
      expect(solve([], tour)).toEqual(none);
      expect(solve([[7, 8]], tour)).toEqual({ ...none, order: [0] });
      expect(solve(Array<Point>(30).fill([7, 8]), tour)).toEqual({ ...none, order: [...Array(30).keys()] });
    }
  });

  it("gives the same answer each time, leaves its input as it was and survives JSON", () => {
    const random = createRandom(8);
    const points = columns(Array.from({ length: 200 }, (): Point => [random.uniform(), random.normal()]));
    const before = structuredClone(points);
    const found = shortestTour(points, Object.freeze({ tour: "open" }));
    expect(points).toEqual(before);
    expect(shortestTour(points, { tour: "open" })).toEqual(found);
    expect(JSON.parse(JSON.stringify(found))).toEqual(found);
    expect(structuredClone(found)).toEqual(found);
  });
});

describe("shortestTour bad input", () => {
  const two = columns([
    [0, 0],
    [1, 0],
  ]);
  it("refuses points that are none", () => {
    expect(() => shortestTour(null as never)).toThrow("shortestTour: points must be points with columns x, y, got null");
    expect(() => shortestTour({ x: [0], y: [0] } as never)).toThrow("shortestTour: points.x must be a Float64Array, got an array of 1");
  });
  it("names the bad entry and the uneven column", () => {
    expect(() => shortestTour({ x: Float64Array.of(0, Number.NaN), y: Float64Array.of(0, 0) })).toThrow(
      "shortestTour: points.x[1] must be finite, got NaN",
    );
    expect(() => shortestTour({ x: two.x, y: Float64Array.of(0) })).toThrow(
      "shortestTour: points.y must have 2 entries like the other columns, got 1",
    );
  });
  it("refuses another kind of way", () => {
    expect(() => shortestTour(two, { tour: "round" as never })).toThrow(
      'shortestTour: options.tour must be one of "fromFirst", "open", "closed", got "round"',
    );
  });
  it("refuses a field too wide for its distances", () => {
    expect(() => shortestTour({ x: Float64Array.of(-1e200, 1e200), y: Float64Array.of(0, 0) })).toThrow(
      "shortestTour: square of the length in the given order must be finite, got Infinity",
    );
  });
});
