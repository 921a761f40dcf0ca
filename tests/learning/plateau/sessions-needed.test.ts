// How many sessions tell a flat learner, and what so many show, from the covariance matrix written out.
import { describe, expect, it } from "vitest";
import { orderEvidence } from "../../../src/learning/plateau/order-evidence.js";
import { improvementScale } from "../../../src/learning/plateau/scale.js";
import { detectableGain, sessionsForPlateau } from "../../../src/learning/plateau/sessions-needed.js";
import type { ArSlope } from "../../../src/learning/trend/ar-slope.js";
import { linearRegression } from "../../../src/math/linear-regression.js";
import { normalCdf } from "../../../src/math/normal.js";
import { studentQuantile } from "../../../src/math/student-quantile.js";

const scale = improvementScale("difference", "higher", 0.5, "cm");
const slope = (autocorrelation: number, sd = 1) => ({ autocorrelation, sd }) as ArSlope;

/** Standard error of a slope over even days by V^-1 of errors that resemble their neighbours by `phi`. */
function errorOf(n: number, phi: number, spacing: number): number {
  const day = Array.from({ length: n }, (_, i) => spacing * (i - (n - 1) / 2));
  // whitened rows: the first as it is, then each less phi times the one before, over the root of 1 - phi^2
  const white = day.map((at, i) => (i === 0 ? at : (at - phi * day[i - 1]!) / Math.sqrt(1 - phi * phi)));
  return 1 / Math.sqrt(white.reduce((sum, v) => sum + v * v, 0));
}

describe("what sessions show", () => {
  // Source: generalised least squares by whitening, z of 0.8 (0.8416) and t of 0.025 with n - 2 degrees of freedom, textbook power of a two-sided test
  it.each([
    [10, 0, 1],
    [12, 0.4, 1],
    [30, 0.7, 2.5],
  ])("of %d with a likeness of %d, %d days apart, is their error times power and level", (n, phi, spacing) => {
    const expected = (0.8416212335729143 - studentQuantile(0.025, n - 2)) * 14 * 2 * errorOf(n, phi, spacing);
    expect(detectableGain(slope(phi, 2), n, spacing, 14, scale)).toBeCloseTo(expected, 8);
  });
  // Source: ordinary least squares (linearRegression) where neighbours are independent
  it("of independent errors is that of a regression", () => {
    const day = Array.from({ length: 9 }, (_, i) => 3 * i);
    const fit = linearRegression([day], [1, 4, 2, 3, 5, 2, 1, 6, 3])!;
    const unit = fit.standardErrors[1]! / Math.sqrt(fit.residualSum / fit.df);
    expect(errorOf(9, 0, 3)).toBeCloseTo(unit, 12);
  });
  it("takes a likeness below 0 for none, and one beyond 0.95 for 0.95", () => {
    expect(detectableGain(slope(-0.5), 12, 1, 14, scale)).toBe(detectableGain(slope(0), 12, 1, 14, scale));
    expect(detectableGain(slope(0.99), 12, 1, 14, scale)).toBe(detectableGain(slope(0.95), 12, 1, 14, scale));
    expect(detectableGain(slope(0.9), 12, 1, 14, scale)).not.toBe(detectableGain(slope(0.95), 12, 1, 14, scale));
  });
});

describe("the sessions needed for a plateau", () => {
  // Source: normal theory of two one-sided tests, at 3.5 % against a gain and 20 % against a loss: told when both leave their margins, with the standard error above
  const tells = (n: number, phi: number, sd: number, spacing: number): boolean => {
    const error = 14 * sd * errorOf(n, phi, spacing);
    const chance = normalCdf(0.5 / error + studentQuantile(0.035, n - 2)) + normalCdf(0.5 / error + studentQuantile(0.2, n - 2)) - 1;
    return chance >= 0.8;
  };
  it.each([
    [0, 0.2, 1],
    [0, 1, 1],
    [0.5, 0.3, 2],
    [0.8, 0.4, 0.5],
  ])("with a likeness of %d and a scatter of %d, %d days apart, are the fewest that tell", (phi, sd, spacing) => {
    const n = sessionsForPlateau(slope(phi, sd), spacing, 14, scale, 8);
    expect(tells(n, phi, sd, spacing)).toBe(true);
    if (n > 8) expect(tells(n - 1, phi, sd, spacing)).toBe(false);
  });
  it("are at least those asked for, and at most 4000", () => {
    expect(sessionsForPlateau(slope(0, 1e-6), 1, 14, scale, 11)).toBe(11);
    expect(sessionsForPlateau(slope(0, 1e9), 1, 14, scale, 8)).toBe(4000);
  });
});

describe("the order of the sessions", () => {
  const day = Float64Array.from({ length: 12 }, (_, i) => i);
  const of = (value: number[], autocorrelation = 0, horizon = 1) =>
    orderEvidence(day.slice(0, value.length), Float64Array.from(value), autocorrelation, horizon, scale);
  const rising = (slope: number) => Array.from(day, (at) => slope * at + (((7 * at) % 5) - 2));
  // Source: the docstring: a trend by order speaks against; else a median slope within what matters speaks for
  it("speaks against, for or not at all", () => {
    expect(of(rising(2)).speaks).toBe("against");
    expect(of(rising(-2)).speaks).toBe("against");
    expect(of(rising(0)).speaks).toBe("for");
    // a slope that is not shown, and large over the horizon, either way
    const faint = of(rising(0.15), 0, 14);
    expect([faint.p > 0.05, faint.medianSlope!.improvement > 0.5, faint.speaks]).toEqual([true, true, "silent"]);
    const back = of(
      rising(0.15).map((v) => -v),
      0,
      14,
    );
    expect([back.p > 0.05, back.medianSlope!.improvement < -0.5, back.speaks]).toEqual([true, true, "silent"]);
  });
  // Source: the docstring: z times the root of the share of values that count as independent, (1 - r)/(1 + r)
  it("shrinks its z where neighbours are alike", () => {
    const [plain, alike] = [of(rising(0.6)), of(rising(0.6), 0.5)];
    expect(alike.tau).toBe(plain.tau);
    expect(alike.p).toBeGreaterThan(plain.p);
    const zOf = (p: number): number => {
      let [low, high] = [0, 10];
      for (let k = 0; k < 80; k++) {
        const middle = (low + high) / 2;
        if (2 * normalCdf(-middle) > p) low = middle;
        else high = middle;
      }
      return low;
    };
    expect(zOf(alike.p) / zOf(plain.p)).toBeCloseTo(Math.sqrt(0.5 / 1.5), 6);
  });
  it("has nothing to say of one session or none", () => {
    for (const value of [[], [3]]) expect(of(value)).toEqual({ speaks: "silent", medianSlope: null, tau: 0, p: 1 });
    expect(of([3, 4]).medianSlope).not.toBeNull();
  });
});
