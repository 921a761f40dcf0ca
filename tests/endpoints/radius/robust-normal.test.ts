import { describe, expect, it } from "vitest";
import { robustNormal } from "../../../src/endpoints/radius/robust-normal.js";
import type { Endpoints } from "../../../src/endpoints/types.js";
import { createRandom } from "../../../src/math/random.js";
import { DRAWS, drawEndpoints, endpointsOf, mapped, turn } from "../scatter-draws.js";

const robust = ({ x, y }: Endpoints) =>
  robustNormal(x, y, { a: new Float64Array(x.length), b: new Float64Array(x.length), c: new Float64Array(x.length) });

describe("robustNormal against outside values", () => {
  // Source: statsmodels 0.15.0 robust.covariance.cov_ogk(maxiter=1, reweight=False, rescale_raw=False), computed
  it("is the orthogonalised estimator of statsmodels", () => {
    const set = endpointsOf([
      [6.2, 1.4],
      [-3.1, -2.2],
      [9.4, 3.9],
      [2.7, 0.8],
      [-7.8, -1.9],
      [12.3, 2.6],
      [4.4, -3.3],
      [-1.6, 0.1],
      [8.9, 4.2],
      [0.3, -0.7],
      [5.1, -2.8],
      [-4.7, 1.1],
      [60, -80],
    ]);
    const { long, short, cos, sin, along, across } = robust(set);
    expect(long ** 2 * cos ** 2 + short ** 2 * sin ** 2).toBeCloseTo(31.112689865875176, 9);
    expect((long ** 2 - short ** 2) * cos * sin).toBeCloseTo(8.11866427759237, 9);
    expect(long ** 2 * sin ** 2 + short ** 2 * cos ** 2).toBeCloseTo(6.583445175619189, 9);
    expect(along * cos - across * sin).toBeCloseTo(0.23043478260869593, 9);
    expect(along * sin + across * cos).toBeCloseTo(-0.668, 9);
  });
  // Source: closed form: medians and MADs of normal scatter estimate its mean and SDs; sampling error about 1.2/sqrt n
  it("finds a normal scatter again, and does so with a fifth of strays", () => {
    const n = 20000;
    const set = mapped(drawEndpoints(createRandom(4), n, DRAWS.normal, [6, 2]), turn(25), [3, -2]);
    for (const strays of [0, n / 5]) {
      const { x, y } = { x: set.x.slice(), y: set.y.slice() };
      for (let i = 0; i < strays; i++) [x[i], y[i]] = [1e4 * (i % 2 === 0 ? 1 : -1), i % 3];
      const { long, short, cos, sin } = robust({ x, y });
      // strays either side push each MAD out: by a fifth of them to the quantile 0.625 of the distances instead of 0.5
      const growth = strays === 0 ? 1.03 : 1.6;
      expect(long).toBeGreaterThan(5.8);
      expect(long).toBeLessThan(6 * growth);
      expect(short).toBeGreaterThan(1.9);
      expect(short).toBeLessThan(2 * growth);
      // strays along x stretch that axis alone, and turn the scatter toward it
      expect(Math.abs((Math.atan2(sin, cos) * 180) / Math.PI - 25)).toBeLessThan(strays === 0 ? 1 : 10);
    }
  });
});

describe("robustNormal properties", () => {
  it("moves and stretches with the axes", () => {
    const set = drawEndpoints(createRandom(6), 41, DRAWS.heavyTailed, [3, 2]);
    const one = robust(set);
    const other = robust(mapped(set, [4, 0, 0, 4], [64, -32]));
    expect(other.long).toBeCloseTo(4 * one.long, 9);
    expect(other.short).toBeCloseTo(4 * one.short, 9);
    expect(other.cos * other.sin).toBeCloseTo(one.cos * one.sin, 9);
  });
  it("falls back to both axes when more than half of one coordinate is equal", () => {
    expect(robust(endpointsOf([1, 2, 3, 4, 5].map((k) => [k, 7] as const)))).toMatchObject({
      along: 3,
      across: 7,
      long: 1.482602218505602,
      short: 0,
    });
    expect(robust(endpointsOf([1, 1, 1].map((k) => [k, 7] as const))).long).toBe(0);
  });
});
