// Source: shared reference table learning/change-points.json: exhaustive programs in NumPy 1.24 and bounded searches in SciPy 1.10.1; the
// Nile (R datasets::Nile) and simulated series. Left out, since the library has no such routine: Pettitt's, the CUSUM, the SNHT and
// the sup-F statistic, binary segmentation. Divisions into a given number of stretches are compared where some penalty asks for them: where the costs
// by count bend the wrong way no penalty does.
import { describe, expect, it } from "vitest";
import { brokenStick } from "../../src/learning/trend/broken-stick.js";
import { changePoints } from "../../src/learning/trend/change-points.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

interface Division {
  readonly cost: number;
  readonly changePoints: readonly number[];
}

/** Counts of changes in the table that are best at no penalty. */
const NO_PENALTY_ASKS_FOR: Readonly<Record<string, readonly number[]>> = {
  "change points: Nile 100": [2, 3],
  "all subsets on 14 points": [3],
};

const table = readReference("learning/change-points.json");
const series = table?.cases.filter(({ expected }) => expected.penalised !== undefined) ?? [];
const subsets = table?.cases.filter(({ name }) => name.startsWith("all subsets")) ?? [];
const sticks = table?.cases.filter(({ name }) => name.startsWith("broken stick")) ?? [];

const expectWithin = (got: number, wanted: number, { tolerance }: Pick<ReferenceCase, "tolerance">, what: string): void =>
  expect(within(got, wanted, tolerance), `${what}: ${got} for ${wanted}`).toBe(true);

/** The divisions of a table by count, each with a penalty at which it is the best of them; one without such a penalty is left out. */
function withPenalty(byCount: Record<string, Division>): { count: number; penalty: number; division: Division }[] {
  const costs = Object.entries(byCount).map(([count, { cost }]) => ({ count: Number(count), cost }));
  return Object.entries(byCount).flatMap(([text, division]) => {
    const count = Number(text);
    const perChange = (other: { count: number; cost: number }): number => (division.cost - other.cost) / (other.count - count);
    const least = Math.max(0, ...costs.filter((other) => other.count > count).map(perChange));
    const most = Math.min(...costs.filter((other) => other.count < count).map(perChange));
    const penalty = most === Number.POSITIVE_INFINITY ? 2 * least : least + 0.999 * (most - least);
    return penalty > least ? [{ count, penalty, division }] : [];
  });
}

describe.skipIf(!table)(`changes of level against their table (skipped: ${SHARED_ABSENT})`, () => {
  it("has the cases", () => expect([series.length, subsets.length, sticks.length]).toEqual([4, 1, 4]));

  it.each(series)("$name: penalised", (problem) => {
    const values = Float64Array.from(problem.input.y);
    for (const [name, { penalty, objective, changePoints: expected }] of Object.entries<Division & { penalty: number; objective: number }>(
      problem.expected.penalised,
    )) {
      const { at, cost } = changePoints(values, problem.params.minSegment, penalty);
      expect(at, name).toEqual(expected);
      expectWithin(cost + penalty * at.length, objective, problem, name);
    }
  });

  it.each([...series, ...subsets])("$name: least cost by count", (problem) => {
    const values = Float64Array.from(problem.input.y);
    const byCount = problem.expected.optimalByCount ?? problem.expected;
    const reached = withPenalty(byCount).flatMap(({ count, penalty, division }) => {
      const { at, cost } = changePoints(values, problem.params.minSegment, penalty);
      // a division into still more stretches, which the table does not list, can be better at this penalty
      if (at.length > count) return [];
      expect(at).toEqual(division.changePoints);
      expectWithin(cost, division.cost, problem, `${count}`);
      return [count];
    });
    const missing = NO_PENALTY_ASKS_FOR[problem.name] ?? [];
    expect([...reached, ...missing].sort()).toEqual(Object.keys(byCount).map(Number));
  });

  it.each(sticks)("$name", (problem) => {
    const { x, y } = problem.input;
    const end = problem.name.includes("plateau") ? "level" : "line";
    const stick = brokenStick(Float64Array.from(x), Float64Array.from(y), end)!;
    const { breakpoint, coefficients, rss, plateauLevel } = problem.expected;
    expectWithin(stick.bend, breakpoint, problem, "bend");
    const mine = [stick.level - stick.slopeBefore * stick.bend, stick.slopeBefore, stick.slopeAfter - stick.slopeBefore];
    for (const [j, value] of coefficients.entries()) expectWithin(mine[j]!, value, problem, `coefficient ${j}`);
    // the note of the table: residual sums agree to 1e-9
    expectWithin(stick.residualSum, rss, { tolerance: { rel: 1e-9, abs: 0 } }, "residual sum");
    if (plateauLevel !== undefined) expectWithin(stick.level, plateauLevel, problem, "level");
  });
});
