import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { fitMovementTime } from "../../src/fitts/fit-movement-time.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";

interface Condition {
  readonly A_px: number;
  readonly W_px: number;
  readonly meanMT_s: number;
}
interface Regression {
  readonly intercept_s: number;
  readonly slope_s_per_bit: number;
  readonly r: number;
  readonly r2: number;
  readonly seSlope: number;
  readonly seIntercept: number;
  readonly n: number;
}

const path = sharedPath("data", "fitts-1d", "facts.json");
const facts = path === undefined ? undefined : JSON.parse(readFileSync(path, "utf8"));
const SELECTIONS = ["all", "reversal"] as const;
const sets: [name: string, conditions: readonly Condition[], regression: Regression][] = SELECTIONS.flatMap((selection) => [
  ...Object.keys(facts?.participants ?? {}).map((name): [string, Condition[], Regression] => {
    const { conditions, regression } = facts.participants[name][selection];
    return [`${name}, ${selection}`, conditions, regression];
  }),
  ...Object.keys(facts?.group ?? {}).map((name): [string, Condition[], Regression] => {
    const { conditionMeanMT_s, regression } = facts.group[name][selection];
    return [`${name} group, ${selection}`, conditionMeanMT_s, regression];
  }),
]);

// Source: data/fitts-1d/facts.json (nine decimals), made by the NumPy script beside it from the condition means, independently of this project.
describe.skipIf(path === undefined)(`regressions of fitts-1d${path === undefined ? `: ${SHARED_ABSENT}` : ""}`, () => {
  it("are all there: 11 people and 2 groups, both selections", () => expect(sets.length).toBe(26));

  it.each(sets)("%s has the slope, intercept, r, r2 and standard errors of the reference", (_, conditions, expected) => {
    const cells = conditions.map((c) => ({ amplitude: c.A_px, width: c.W_px, movementTime: c.meanMT_s }));
    const { coefficients, quality, n, warnings } = fitMovementTime(cells);
    // the means are stored to 1e-9 s, and so are the figures
    expect(coefficients).toMatchObject({
      a: { ok: true, value: expect.closeTo(expected.intercept_s, 8), standardError: expect.closeTo(expected.seIntercept, 8) },
      b: { ok: true, value: expect.closeTo(expected.slope_s_per_bit, 8), standardError: expect.closeTo(expected.seSlope, 8) },
    });
    expect(quality).toMatchObject({ r: expect.closeTo(expected.r, 8), r2: expect.closeTo(expected.r2, 8) });
    expect(n).toBe(expected.n);
    expect(warnings).not.toContain("slope");
  });
});
