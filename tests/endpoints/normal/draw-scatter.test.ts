import { describe, expect, it } from "vitest";
import { drawScatters } from "../../../src/endpoints/normal/draw-scatter.js";
import { intervalOfDraws } from "../../../src/endpoints/normal/interval-of-draws.js";
import type { PrincipalNormal } from "../../../src/endpoints/normal/principal-normal.js";
import { band } from "../../math/estimate-properties.js";
import { aligned, turned } from "./normals.js";

/** Share of draws below a bound. */
const below = (draws: readonly PrincipalNormal[], figure: (one: PrincipalNormal) => number, bound: number): number =>
  draws.filter((one) => figure(one) < bound).length / draws.length;

describe("drawScatters against outside values", () => {
  // Source: textbook: (n - 1) S/variance is chi-squared with n - 1 degrees of freedom; SciPy 1.17.1 chi2.ppf(0.025, 9) and (0.975, 9), computed.
  it("gives a scatter on a line its chi-squared interval", () => {
    const draws = drawScatters(aligned(2, 0, [40, 7]), 10, 4000, 5);
    expect(draws.every(({ short, across }) => short === 0 && across === 7)).toBe(true);
    for (const [quantile, p] of [
      [19.02276779864163, 0.025],
      [8.342832692252955, 0.5],
      [2.7003894999803584, 0.975],
    ] as const) {
      expect(Math.abs(below(draws, (one) => one.long, 2 * Math.sqrt(9 / quantile)) - p)).toBeLessThan(band(p, 4000));
    }
    // the mean, far from zero, has its Student interval with 9 degrees of freedom (SciPy 1.17.1 stats.t.ppf(0.975, 9), computed)
    const high = 40 + (2.262157162798205 * 2) / Math.sqrt(10);
    expect(Math.abs(below(draws, (one) => one.along, high) - 0.975)).toBeLessThan(band(0.975, 4000));
  });
  // Source: the same along the long axis of a narrow scatter; across it the direction was fitted, too, which leaves n - 2 (residuals of a regression)
  it("gives the axes of a narrow scatter theirs", () => {
    const draws = drawScatters(aligned(50, 1), 20, 4000, 6);
    // SciPy 1.17.1 chi2.ppf(0.025, 19) and (0.025, 18), computed
    const [quantile, fewer] = [8.906516481987971, 8.230746194756668];
    expect(Math.abs(below(draws, (one) => one.long, 50 * Math.sqrt(19 / quantile)) - 0.975)).toBeLessThan(band(0.975, 4000));
    expect(Math.abs(below(draws, (one) => one.short, Math.sqrt(19 / fewer)) - 0.975)).toBeLessThan(band(0.975, 4000));
  });
  // Source: closed form: with many endpoints n |mean|^2 in units of the scatter is non-central chi-squared, and the length drawn is its confidence
  // distribution: below l with the probability that the mean of a scatter with a bias of l were longer than the one seen. SciPy 1.17.1
  // stats.ncx2.sf(seen**2, 2, l**2), computed, in standard errors.
  it.each([
    [1.5, 0, 0.3246524673583498],
    [1.5, 1, 0.488039999135301],
    [1.5, 3, 0.9592200400215535],
    [4, 3, 0.19651218938840762],
    [4, 5, 0.8670497950779259],
    [9, 8, 0.17335929216911303],
  ])("draws the length of the true mean by its non-central interval, seen %d, bound %d", (seen, bound, p) => {
    const n = 1e8;
    const draws = drawScatters(aligned(1, 1, [(0.6 * seen) / 1e4, (0.8 * seen) / 1e4]), n, 4000, 7);
    const length = ({ along, across }: PrincipalNormal) => Math.sqrt(n * (along * along + across * across));
    const got = draws.filter((one) => length(one) <= bound).length / draws.length;
    expect(Math.abs(got - p)).toBeLessThan(band(p, 4000));
  });
});

describe("drawScatters properties", () => {
  it("turns and scales with the scatter", () => {
    const normal = aligned(5, 2, [1, 2]);
    const plain = drawScatters(normal, 12, 50, 9);
    const other = drawScatters(turned(normal, 37), 12, 50, 9);
    plain.forEach((one, k) => {
      expect(other[k]!.along).toBeCloseTo(one.along, 12);
      expect(other[k]!.cos).toBeCloseTo(turned(one, 37).cos, 12);
    });
    const large = drawScatters({ ...normal, along: 2e150, across: 1e150, long: 5e150, short: 2e150 }, 12, 50, 9);
    expect(large.every((one) => Number.isFinite(one.along) && Number.isFinite(one.long) && one.short > 0)).toBe(true);
  });
  it("narrows with the number of endpoints and repeats with its seed", () => {
    const normal = aligned(5, 2, [4, 0]);
    const width = (n: number) => {
      const [low, high] = intervalOfDraws(
        Float64Array.from(drawScatters(normal, n, 400, 1), (one) => one.long),
        5,
        0.95,
      );
      return high - low;
    };
    expect(width(400)).toBeLessThan(width(40) / 2);
    expect(drawScatters(normal, 9, 3, 4)).toEqual(drawScatters(normal, 9, 3, 4));
    expect(drawScatters(normal, 9, 3, 5)).not.toEqual(drawScatters(normal, 9, 3, 4));
  });
});

describe("intervalOfDraws", () => {
  // Source: closed form: of 99 draws from the same distribution as the truth, the truth lies below the k-th with probability k/100
  it("takes the ranks that a hundredth value would share", () => {
    const draws = Float64Array.from({ length: 99 }, (_, k) => 99 - k);
    expect(intervalOfDraws(draws, 50, 0.9)).toEqual([expect.closeTo(5, 12), expect.closeTo(95, 12)]);
    expect(draws[0]).toBe(99);
  });
  it("never leaves the value out", () => expect(intervalOfDraws(Float64Array.of(1, 2, 3), 7, 0.5)).toEqual([1, 7]));
});
