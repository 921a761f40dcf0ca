import { describe, expect, it } from "vitest";
import { binomialTails, binomialTest } from "../../src/math/binomial-test.js";

describe("binomialTest against outside values", () => {
  // Source: SciPy 1.17.1 stats.binom.cdf(k, n, p) and sf(k - 1, n, p), computed
  it.each([
    [3, 10, 0.62, 0.041330057149063334, 0.99139206721252],
    [0, 7, 0.2, 0.20971519999999996, 1],
    [7, 7, 0.9, 1, 0.4782969],
    [480, 1000, 0.52, 0.0062258139622792695, 0.9948014799614671],
  ])("%d of %d at %d has the tails of SciPy", (k, n, p, atMost, atLeast) => {
    const tails = binomialTails(k, n, p);
    expect(tails.atMost).toBeCloseTo(atMost, 13);
    expect(tails.atLeast).toBeCloseTo(atLeast, 13);
    expect(binomialTest(k, n, p)).toBeCloseTo(Math.min(1, 2 * Math.min(atMost, atLeast)), 13);
  });
  // Source: closed form: with p = 0 or 1 only one count is possible
  it("knows the certain cases", () => {
    expect(binomialTest(0, 5, 0)).toBe(1);
    expect(binomialTest(1, 5, 0)).toBe(0);
    expect(binomialTest(5, 5, 1)).toBe(1);
    expect(binomialTest(4, 5, 1)).toBe(0);
  });
});

describe("binomialTest properties", () => {
  // Source: closed form: success and failure may change places
  it("is the same for failures", () => {
    for (let k = 0; k <= 12; k++) expect(binomialTest(k, 12, 0.3)).toBeCloseTo(binomialTest(12 - k, 12, 0.7), 13);
  });
  it("rejects rarely: at most 5 % of counts under the true probability have p below 0.05", () => {
    for (const p of [0.1, 0.5, 0.83]) {
      let mass = 0;
      for (let k = 0; k <= 40; k++) if (binomialTest(k, 40, p) < 0.05) mass += exactly(k, 40, p);
      expect(mass).toBeLessThanOrEqual(0.05);
    }
  });
  it("takes a million trials", () => expect(binomialTest(500_000, 1_000_000, 0.5)).toBe(1));
});

const exactly = (k: number, n: number, p: number): number =>
  binomialTails(k, n, p).atMost - (k === 0 ? 0 : binomialTails(k - 1, n, p).atMost);
