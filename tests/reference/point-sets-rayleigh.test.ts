// Source: shared reference table scatter/point-sets.json, entries of the Rayleigh fit with the centre estimated and known: NumPy and SciPy 1.10.1
// (gammaln, chi2.ppf), computed from the points listed there.
import { describe, expect, it } from "vitest";
import { circularErrorProbable } from "../../src/endpoints/circular-error-probable.js";
import { rayleighCorrection } from "../../src/endpoints/radius/rayleigh-radius.js";
import type { Endpoints } from "../../src/endpoints/types.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const cases = (readReference("scatter/point-sets.json")?.cases ?? []).filter((c) => c.expected.rayleighUnknownCentre !== undefined);
/** The share inside one sigma of round scatter: the radius that holds it is sigma itself. */
const ONE_SIGMA = -Math.expm1(-0.5);

function expectWithin(c: ReferenceCase, what: string, got: number, expected: number): void {
  expect(within(got, expected, c.tolerance), `${c.name}: ${what} ${got} for ${expected}`).toBe(true);
}

describe.skipIf(cases.length === 0)(`Rayleigh fits against the table (skipped: ${SHARED_ABSENT})`, () => {
  it("holds six point sets", () => expect(cases.length).toBe(6));

  it.each(cases)("$name", (c) => {
    const points: [number, number][] = c.input.points;
    const set: Endpoints = { x: Float64Array.from(points, ([x]) => x), y: Float64Array.from(points, ([, y]) => y) };
    for (const [about, expected, q] of [
      ["mean", c.expected.rayleighUnknownCentre, points.length - 1],
      ["target", c.expected.rayleighKnownCentre, points.length],
    ] as const) {
      const sigma = circularErrorProbable(set, { estimator: "rayleigh", share: ONE_SIGMA, about }).radius;
      if (!sigma.ok) throw new Error(sigma.why);
      expectWithin(c, `${about} sigmaUnbiased`, sigma.value, expected.sigmaUnbiased);
      expectWithin(c, `${about} correction`, rayleighCorrection(q), expected.correction);
      expectWithin(c, `${about} sigmaMoment or sigmaMle`, sigma.value / rayleighCorrection(q), expected.sigmaMoment ?? expected.sigmaMle);
      expectWithin(c, `${about} sigmaSqUnbiased`, (sigma.value / rayleighCorrection(q)) ** 2, expected.sigmaSqUnbiased);
      expectWithin(c, `${about} lower end`, sigma.interval![0], expected.ci95[0]);
      expectWithin(c, `${about} upper end`, sigma.interval![1], expected.ci95[1]);
      if (expected.cep === undefined) continue;
      const half = circularErrorProbable(set, { estimator: "rayleigh", about }).radius;
      expectWithin(c, "cep", half.ok ? half.value : Number.NaN, expected.cep);
    }
  });
});
