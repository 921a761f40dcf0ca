import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { normalCdf } from "../../src/math/normal.js";
import { normalQuantile } from "../../src/math/normal-quantile.js";

describe("normalQuantile against outside values", () => {
  // Source: SciPy 1.10.1 stats.norm.ppf, computed
  it.each([
    [1e-300, -37.0470962993612],
    [1e-100, -21.273453560965322],
    [1e-20, -9.262340089798409],
    [1e-5, -4.264890793922825],
    [0.01, -2.3263478740408408],
    [0.025, -1.9599639845400545],
    [0.2, -0.8416212335729142],
    [0.25, -0.6744897501960817],
    [0.4, -0.2533471031357997],
    [0.49999, -2.5066282748960008e-5],
    [0.6, 0.2533471031357997],
    [0.975, 1.959963984540054],
    [0.9999, 3.719016485455709],
  ])("is that of SciPy at %d", (p, expected) => expect(Math.abs(normalQuantile(p) - expected)).toBeLessThan(5e-14));

  // Source: tables of the normal distribution, from memory
  it("gives the deviates of the printed tables", () => {
    expect(normalQuantile(0.9)).toBeCloseTo(1.2816, 4);
    expect(normalQuantile(0.95)).toBeCloseTo(1.6449, 4);
    expect(normalQuantile(0.995)).toBeCloseTo(2.5758, 4);
    expect(normalQuantile(0.9995)).toBeCloseTo(3.2905, 4);
  });
});

describe("normalQuantile properties", () => {
  const z = fc.double({ min: -37, max: 8, noNaN: true });

  // a double next to 1 is coarse: above the centre its grid of 1.1e-16, divided by the density, limits what can come back
  test.prop([z])("undoes the distribution function", (at) => {
    const coarse = at > 0 ? 3e-16 * Math.sqrt(2 * Math.PI) * Math.exp((at * at) / 2) : 0;
    expect(Math.abs(normalQuantile(normalCdf(at)) - at)).toBeLessThan(1e-13 + coarse);
  });

  test.prop([fc.double({ min: 1e-10, max: 0.5, noNaN: true })])("mirrors at one half", (p) => {
    expect(normalQuantile(1 - p)).toBe(0 - normalQuantile(1 - (1 - p)));
  });

  it("rises, also across the seams of its branches", () => {
    for (const seam of [0.25, 0.5, 0.75]) {
      for (let i = -50; i < 50; i++) {
        expect(normalQuantile(seam + (i + 1) * 1e-12)).toBeGreaterThan(normalQuantile(seam + i * 1e-12));
      }
    }
  });
});

describe("normalQuantile at the edges", () => {
  it("is infinite at 0 and 1, 0 at one half", () => {
    expect(normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(normalQuantile(1)).toBe(Number.POSITIVE_INFINITY);
    expect(normalQuantile(0.5)).toBe(0);
  });
  it("has no value outside 0..1", () => expect([-0.1, 1.1, Number.NaN].map(normalQuantile)).toEqual([Number.NaN, Number.NaN, Number.NaN]));
  // Source: SciPy 1.10.1 stats.norm.ppf, computed: -38.467405617144344 at 5e-324; a share of 0.003 is what the docstring grants there
  it("stays near below the normal range of doubles", () =>
    expect(Math.abs(normalQuantile(5e-324) / -38.467405617144344 - 1)).toBeLessThan(0.003));
});
