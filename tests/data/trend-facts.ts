// The stored facts on trends of the real practice series, and how they are compared.
import { expect } from "vitest";
import { mannKendall } from "../../src/learning/trend/mann-kendall.js";
import { theilSen } from "../../src/learning/trend/theil-sen.js";
import { linearRegression } from "../../src/math/linear-regression.js";
import { studentTail } from "../../src/math/student-tail.js";

export interface KendallFacts {
  readonly S: number;
  readonly varS: number;
  readonly z: number;
  readonly p: number;
  readonly theilSen: number;
}
export interface LineFacts {
  readonly slope: number;
  readonly intercept: number;
  readonly seSlope: number;
  readonly r: number;
  readonly p: number;
}

/** Nine significant digits are stored: half a unit of the ninth is 5e-9 of a number that begins with 1. */
export function stored(got: number, expected: number): boolean {
  return Math.abs(got - expected) <= 5.1e-9 * Math.abs(expected);
}

export function expectKendall(x: Float64Array, y: Float64Array, facts: KendallFacts): void {
  const { s, variance, z, p } = mannKendall(x, y);
  expect(s).toBe(facts.S);
  const got = { varS: variance, z, p, theilSen: theilSen(x, y, 0.95)!.slope };
  for (const name of ["varS", "z", "p", "theilSen"] as const) expect(stored(got[name], facts[name]), `${name}: ${got[name]}`).toBe(true);
}

export function expectLine(x: Float64Array, y: Float64Array, facts: LineFacts): void {
  const { coefficients, standardErrors, r2, df } = linearRegression([x], y)!;
  const [intercept, slope] = [coefficients[0]!, coefficients[1]!];
  const got = {
    slope,
    intercept,
    seSlope: standardErrors[1]!,
    r: Math.sign(slope) * Math.sqrt(r2),
    p: studentTail(slope / standardErrors[1]!, df),
  };
  for (const name of ["slope", "intercept", "seSlope", "r", "p"] as const) {
    expect(stored(got[name], facts[name]), `${name}: ${got[name]} for ${facts[name]}`).toBe(true);
  }
}
