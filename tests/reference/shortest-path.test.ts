// Source: shared reference table scatter/shortest-path.json: twenty instances of two to nine points, every permutation tried in Python. Orders may
// be listed in either direction there, so that lengths are compared, and an order only by its own length.
import { describe, expect, it } from "vitest";
import { shortestTour } from "../../src/sequence/shortest-tour.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";

const table = readReference("scatter/shortest-path.json");

describe.skipIf(!table)(`shortest way against its table (skipped: ${SHARED_ABSENT})`, () => {
  it("has twenty instances", () => expect(table!.cases).toHaveLength(20));

  it.each(table?.cases ?? [])("$name", ({ input, expected, tolerance }) => {
    const points: [number, number][] = input.points;
    const columns = { x: Float64Array.from(points, ([x]) => x), y: Float64Array.from(points, ([, y]) => y) };
    const same = (got: number, wanted: number, what: string) =>
      expect(within(got, wanted, tolerance), `${what}: ${got}, ${wanted}`).toBe(true);
    const fromFirst = shortestTour(columns);
    same(fromFirst.length, expected.openFromFirst.length, "from the first");
    same(shortestTour(columns, { tour: "open" }).length, expected.openFree.length, "open");
    same(shortestTour(columns, { tour: "closed" }).length, expected.closed.length, "closed");
    same(fromFirst.given, expected.givenOrder, "as given");
    same(fromFirst.efficiency!, expected.efficiencyOfGivenOrder, "efficiency");
    same(fromFirst.nearestNeighbour, expected.nearestNeighbourFromFirst.length, "nearest neighbour");
    expect(fromFirst.exact).toBe(true);
    expect(fromFirst.order.map((i) => points[i])).toHaveLength(points.length);
  });
});
