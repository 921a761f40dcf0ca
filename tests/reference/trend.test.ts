// Source: shared reference table learning/trend.json, computed with SciPy 1.10.1 (theilslopes, kendalltau, linregress, stats.t) and a plain
// Mann-Kendall program. Siegel's slopes and Spearman's correlation stand there too; the library has neither, so they are left out.
import { describe, expect, it } from "vitest";
import { equivalence } from "../../src/learning/trend/equivalence.js";
import { mannKendall } from "../../src/learning/trend/mann-kendall.js";
import { theilSen } from "../../src/learning/trend/theil-sen.js";
import { linearRegression } from "../../src/math/linear-regression.js";
import { studentQuantile } from "../../src/math/student-quantile.js";
import { studentTail } from "../../src/math/student-tail.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const table = readReference("learning/trend.json");
const named = (start: string): ReferenceCase[] => table?.cases.filter(({ name }) => name.startsWith(start)) ?? [];

function expectAll({ expected, tolerance }: ReferenceCase, got: Record<string, number | readonly [number, number]>): void {
  for (const [name, value] of Object.entries(got)) {
    for (const [i, number] of [value].flat().entries()) {
      const wanted: number = [expected[name]].flat()[i];
      expect(within(number, wanted, tolerance), `${name}: ${number} for ${wanted}`).toBe(true);
    }
  }
}

describe.skipIf(!table)(`trends against their table (skipped: ${SHARED_ABSENT})`, () => {
  it("has the cases", () => expect([named("trend: ").length, named("slope window: ").length]).toEqual([5, 4]));

  it.each(named("trend: "))("$name", (problem) => {
    const y = Float64Array.from(problem.input.y);
    const x = y.map((_, i) => i + 1);
    const { s, variance, z, p, tau } = mannKendall(x, y);
    const line = theilSen(x, y, problem.params.confidence)!;
    expectAll(problem, {
      mannKendallS: s,
      varS: variance,
      z,
      p,
      tauA: s / line.pairs,
      tauB: tau,
      theilSenSlope: line.slope,
      theilSenInterceptMedian: line.intercept,
      slopeLow: line.interval[0],
      slopeHigh: line.interval[1],
    });
  });

  it.each(named("slope window: "))("$name", (problem) => {
    const y: number[] = problem.input.y;
    const { coefficients, standardErrors, df } = linearRegression([y.map((_, i) => i)], y)!;
    const [slope, se] = [coefficients[1]!, standardErrors[1]!];
    const interval = (level: number): readonly [number, number] => {
      const half = studentQuantile((1 + level) / 2, df) * se;
      return [slope - half, slope + half];
    };
    const tostP = equivalence(slope, se, df, problem.params.equivalenceMargin);
    expectAll(problem, {
      slope,
      intercept: coefficients[0]!,
      se,
      p: studentTail(slope / se, df),
      ci95: interval(0.95),
      ci90: interval(0.9),
      tostP,
    });
    expect(tostP < 0.05).toBe(problem.expected.flatByTost05);
  });
});
