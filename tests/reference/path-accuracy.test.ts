// Source: shared reference table fitts/path-accuracy.json: the seven measures named in MacKenzie, Kauppinen and Silfverberg 2001 (abstract read;
// formulas recalled) for seven constructed paths and nine turned copies, computed with NumPy 2.4.6 and again in a second language. The table
// counts an offset as positive to the RIGHT of travel on a screen whose y points down; the library as positive to the left: its sign is turned here.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { pathAccuracy } from "../../src/fitts/path-accuracy.js";
import type { Estimate } from "../../src/math/estimate.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";

type Point = readonly [number, number];
interface PathCase {
  readonly name: string;
  readonly from: Point;
  readonly to: Point;
  readonly radius: number;
  readonly points: readonly Point[];
}
interface PathTable {
  readonly paths: readonly (PathCase & { readonly expected: Readonly<Record<string, number>> })[];
  readonly rotated: readonly (PathCase & { readonly same_as: string; readonly tolerance_abs: number })[];
  readonly tolerance_abs: number;
}

const path = sharedPath("reference", "fitts", "path-accuracy.json");
const table: PathTable | undefined = path === undefined ? undefined : JSON.parse(readFileSync(path, "utf8"));

function measures({ from, to, radius, points }: PathCase): Record<string, number | null> {
  const column = (k: 0 | 1): Float64Array => Float64Array.from(points, (point) => point[k]);
  const result = pathAccuracy(
    { x: column(0), y: column(1) },
    { x: from[0], y: from[1] },
    { x: to[0], y: to[1] },
    {
      shape: { kind: "circle", diameter: 2 * radius },
    },
  );
  const value = (estimate: Estimate): number | null => (estimate.ok ? estimate.value : null);
  return {
    target_reentry: result.targetReentry,
    task_axis_crossing: result.taskAxisCrossing,
    movement_direction_change: result.movementDirectionChange,
    orthogonal_direction_change: result.orthogonalDirectionChange,
    movement_variability: value(result.movementVariability),
    movement_error: value(result.movementError),
    movement_offset: value({ ...result.movementOffset, ...(result.movementOffset.ok && { value: -result.movementOffset.value }) }),
    path_length: result.pathLength,
    path_efficiency: result.pathEfficiency,
    n: result.n,
  };
}

function expectSame(c: PathCase, expected: Readonly<Record<string, number>>, tolerance: number): void {
  const got = measures(c);
  expect(Object.keys(got).sort()).toEqual(Object.keys(expected).sort());
  for (const [name, value] of Object.entries(expected)) {
    expect(got[name], name).not.toBeNull();
    expect(Math.abs(got[name]! - value), name).toBeLessThanOrEqual(tolerance);
  }
}

describe.skipIf(!table)(`path accuracy against its table (skipped: ${SHARED_ABSENT})`, () => {
  it("has seven paths and nine turned ones", () => expect([table!.paths.length, table!.rotated.length]).toEqual([7, 9]));

  it.each(table?.paths ?? [])("$name", (c) => expectSame(c, c.expected, table!.tolerance_abs));

  it.each(table?.rotated ?? [])("$name", (c) => {
    const { expected } = table!.paths.find(({ name }) => name === c.same_as)!;
    expectSame(c, expected, c.tolerance_abs);
  });
});
