// How values scatter about a law: residuals, their slopes and information, against the likelihoods that they stand for.
import { describe, expect, it } from "vitest";
import { ERROR_LAWS } from "../../../src/learning/curve/error-law.js";

const { normal, lognormal, binomial } = ERROR_LAWS;

describe("error laws against outside values", () => {
  // Source: definitions: weighted least squares, of the values and of their logarithms
  it("are weighted differences of the values or their logarithms", () => {
    expect(normal.residual(3, 1, 4)).toBe(4);
    expect(normal.slope(3, 1, 4)).toBe(-2);
    expect(normal.information(1, 4)).toBe(4);
    expect(lognormal.residual(Math.E, 1, 9)).toBeCloseTo(3, 14);
    expect(lognormal.slope(5, 2, 9)).toBe(-1.5);
    expect(lognormal.information(2, 8)).toBe(2);
    expect(lognormal.residual(1, -1, 1)).toBeNaN();
  });
  // Source: the deviance of a binomial share (McCullagh and Nelder 1989, recalled): 2 n [s ln(s/f) + (1 - s) ln((1 - s)/(1 - f))]
  it.each([
    [0.7, 0.4, 20],
    [0.4, 0.7, 20],
    [1, 0.8, 10],
    [0, 0.8, 10],
    [0.5, 0.5, 10],
  ])("are signed roots of the binomial deviance: share %d, law %d, %d trials", (share, fitted, trials) => {
    const part = (s: number, f: number): number => (s > 0 ? s * Math.log(s / f) : 0);
    const deviance = 2 * trials * (part(share, fitted) + part(1 - share, 1 - fitted));
    const residual = binomial.residual(share, fitted, trials);
    expect(residual ** 2).toBeCloseTo(deviance, 10);
    expect(Math.sign(residual) + 0).toBe(Math.sign(share - fitted) + 0);
    // its slope by differences of the law itself, its information that of a share
    const h = 1e-6;
    const slope = (binomial.residual(share, fitted + h, trials) - binomial.residual(share, fitted - h, trials)) / (2 * h);
    expect(binomial.slope(share, fitted, trials)).toBeCloseTo(slope, 4);
    expect(binomial.information(fitted, trials)).toBeCloseTo(trials / (fitted * (1 - fitted)), 9);
  });
});

describe("error laws properties", () => {
  const places = [-0.5, 0, 1e-8, 1e-7, 1e-3, 0.3, 0.5, 0.9, 1 - 1e-3, 1 - 1e-7, 1 - 1e-8, 1, 1.5];
  it("hits and misses are mirror images, beyond 0 and 1 too", () => {
    for (const share of [0, 0.25, 0.5, 1]) {
      for (const at of places) {
        const near = (one: number, other: number) => Math.abs(one - other) <= 1e-6 * Math.max(1, Math.abs(other));
        expect(near(binomial.residual(share, at, 12), -binomial.residual(1 - share, 1 - at, 12))).toBe(true);
        expect(near(binomial.slope(share, at, 12), binomial.slope(1 - share, 1 - at, 12))).toBe(true);
        expect(near(binomial.information(at, 12), binomial.information(1 - at, 12))).toBe(true);
      }
    }
  });
  it("goes on straight beyond 0 and 1, so that a search is led back", () => {
    for (const share of [0, 0.5, 1]) {
      const [at0, at1, at2] = [1.2, 1.3, 1.4].map((at) => binomial.residual(share, at, 12)) as [number, number, number];
      expect(at2 - at1).toBeCloseTo(at1 - at0, 6);
      expect((at1 - at0) / 0.1).toBeCloseTo(binomial.slope(share, 1.25, 12), -1);
      expect(at1).toBeLessThan(at0);
      expect(Number.isFinite(binomial.information(1, 12)) && binomial.information(1, 12) > 1e7).toBe(true);
    }
  });
});
