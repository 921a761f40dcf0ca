import { describe, expect, it } from "vitest";
import { drawChiSquare } from "../../src/math/draw-chi-square.js";
import { createRandom } from "../../src/math/random.js";
import { band } from "./estimate-properties.js";

describe("drawChiSquare against outside values", () => {
  // Source: SciPy 1.17.1 stats.chi2.ppf at 0.025, 0.5 and 0.975, computed; binomial 99 % bands of 20000 draws
  it.each([
    [2, [0.05063561596857975, 1.386294361119891, 7.377758908227871]],
    [3, [0.21579528262389785, 2.3659738843753377, 9.348403604496148]],
    [9, [2.7003894999803584, 8.342832692252955, 19.02276779864163]],
    [199, [161.82618239364686, 198.33373183841684, 239.9596818276442]],
  ] as const)("has the distribution of SciPy with %d degrees of freedom", (df, quantiles) => {
    const random = createRandom(12);
    const draws = Array.from({ length: 20000 }, () => drawChiSquare(random, df));
    [0.025, 0.5, 0.975].forEach((p, k) => {
      const below = draws.filter((value) => value < quantiles[k]!).length / draws.length;
      expect(Math.abs(below - p)).toBeLessThan(band(p, draws.length));
    });
  });
  // Source: closed form, mean df and variance 2 df; five standard errors
  it("has the mean and the variance of a large number of degrees of freedom", () => {
    const random = createRandom(3);
    const df = 1e6;
    const z = Array.from({ length: 4000 }, () => (drawChiSquare(random, df) - df) / Math.sqrt(2 * df));
    const mean = z.reduce((sum, value) => sum + value, 0) / z.length;
    expect(Math.abs(mean)).toBeLessThan(5 / Math.sqrt(z.length));
    const square = z.reduce((sum, value) => sum + value * value, 0) / z.length;
    expect(Math.abs(square - 1)).toBeLessThan(5 * Math.sqrt(2 / z.length));
  });
});
