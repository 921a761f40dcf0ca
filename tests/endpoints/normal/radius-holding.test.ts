import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { insideCircle } from "../../../src/endpoints/normal/inside-circle.js";
import { principalNormal } from "../../../src/endpoints/normal/principal-normal.js";
import { grubbsPatnaikRadius, radiusHolding, wilsonHilfertyRadius } from "../../../src/endpoints/normal/radius-holding.js";
import { aligned, normalArb } from "./normals.js";

describe("radiusHolding against outside values", () => {
  // Source: SciPy 1.17.1 stats.ncx2.ppf(p, 2, (5/4)**2), its root times 4, computed
  it.each([
    [0.5, 6.552216346152143],
    [0.9, 11.219187240726754],
    [0.95, 12.594773835981304],
  ])("of round scatter with bias is the non-central chi-squared quantile, share %d", (p, radius) => {
    expect(radiusHolding(aligned(4, 4, [3, -4]), p)).toBeCloseTo(radius, 10);
  });
  // Source: SciPy 1.17.1 integrate.quad of the density times the conditional probability, optimize.brentq, computed
  it.each([
    [0.5, 6.092086957105594, 5.769708548632174],
    [0.9, 11.56253315976089, 11.080385306735943],
    [0.95, 13.395298162134322, 12.875641770817785],
  ])("of tilted scatter is SciPy's root, share %d", (p, biased, centred) => {
    expect(radiusHolding(principalNormal([2, -1], 36, 7.2, 16, 1), p)).toBeCloseTo(biased, 10);
    expect(radiusHolding(principalNormal([0, 0], 36, 7.2, 16, 1), p)).toBeCloseTo(centred, 10);
  });
  // Source: closed form: s sqrt(-2 ln(1 - p)) for round scatter, the normal quantile for a line (SciPy 1.17.1 norm.ppf(0.975), computed)
  it("has its closed forms", () => {
    for (const p of [1e-9, 0.01, 0.5, 0.999, 1 - 1e-12]) {
      expect(radiusHolding(aligned(2, 2), p) / (2 * Math.sqrt(-2 * Math.log1p(-p)))).toBeCloseTo(1, 10);
    }
    expect(radiusHolding(aligned(3, 0), 0.95)).toBeCloseTo(3 * 1.959963984540054, 10);
    expect(radiusHolding(aligned(3, 0, [0, 4]), 0.95)).toBeCloseTo(Math.hypot(4, 3 * 1.959963984540054), 10);
    expect(radiusHolding(aligned(0, 0, [3, 4]), 0.2)).toBe(5);
    expect(radiusHolding(aligned(0, 0), 0.2)).toBe(0);
  });
});

describe("radiusHolding properties", () => {
  const share = fc.integer({ min: 1, max: 999 }).map((k) => k / 1000);

  test.prop([normalArb, share])("is the radius whose circle holds the share", (normal, p) => {
    expect(Math.abs(insideCircle(normal, radiusHolding(normal, p)).lower - p)).toBeLessThan(1e-9);
  });
  test.prop([normalArb, share])("grows with share, bias and spread", (normal, p) => {
    const radius = radiusHolding(normal, p);
    expect(radiusHolding(normal, (1 + p) / 2)).toBeGreaterThan(radius);
    expect(radiusHolding({ ...normal, long: normal.long * 1.1, short: normal.short * 1.1, along: 0, across: 0 }, p)).toBeGreaterThan(
      radiusHolding({ ...normal, along: 0, across: 0 }, p),
    );
    // of all places for its mean the target's centre needs the smallest circle (Anderson 1955, recalled)
    expect(radiusHolding({ ...normal, along: 0, across: 0 }, p)).toBeLessThanOrEqual(radius * (1 + 1e-9));
  });
  test.prop([normalArb])("is met within a tenth by both approximations at one half", (normal) => {
    const radius = radiusHolding(normal, 0.5);
    expect(Math.abs(grubbsPatnaikRadius(normal, 0.5) / radius - 1)).toBeLessThan(0.1);
    expect(Math.abs(wilsonHilfertyRadius(normal, 0.5) / radius - 1)).toBeLessThan(0.1);
  });
});
