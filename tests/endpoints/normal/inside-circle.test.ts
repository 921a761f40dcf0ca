import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { insideCircle } from "../../../src/endpoints/normal/inside-circle.js";
import { aligned, normalArb } from "./normals.js";

describe("insideCircle against outside values", () => {
  // Source: closed form, 1 - exp(-r^2/(2 s^2)), for round scatter about the target
  it.each([0.001, 0.5, 1, 2.5, 5, 8])("of round scatter is the closed form at %d SD", (r) => {
    const { lower, upper, kernel } = insideCircle(aligned(3, 3), 3 * r);
    expect(lower / -Math.expm1((-r * r) / 2)).toBeCloseTo(1, 13);
    // the edge is left out beyond 8.8 SD, which a tail of 1e-14 begins to feel
    expect(upper / Math.exp((-r * r) / 2)).toBeCloseTo(1, r < 8 ? 12 : 2);
    expect(kernel / (r * r * Math.exp((-r * r) / 2))).toBeCloseTo(1, r < 8 ? 12 : 2);
  });
  // Source: SciPy 1.17.1 stats.ncx2.cdf((r/4)**2, 2, (5/4)**2), computed
  it.each([
    [2, 0.05641068646816851],
    [5, 0.32077737245657895],
    [8, 0.6591000697802385],
    [12, 0.9316544289866223],
  ])("of round scatter with bias is the non-central chi-squared distribution, r = %d", (r, p) => {
    expect(insideCircle(aligned(4, 4, [3, -4]), r).lower).toBeCloseTo(p, 13);
    expect(insideCircle(aligned(4, 4, [0, 5]), r).lower).toBeCloseTo(p, 13);
  });
  // Source: mpmath 1.3.0, computed with 30 digits: the integral of the density in y times the probability of x, over pieces about every step of either
  it.each([
    [1.5, 1, 0.01, [0.4, 0.003], 0.835607078809804, 0.16439292119019594],
    [2, 1, 0.01, [0, 2], 0.06506337979476076, 0.9349366202052393],
    [2, 1, 0.01, [0, 2.005], 0.03571418931724739, 0.9642858106827527],
    [2, 1, 0.01, [1.2, 1.59], 0.49731517323136876, 0.5026848267686312],
    [3, 1, 1e-4, [3, 0], 0.49999999834850856, 0.5000000016514915],
    [50, 1, 1, [30, 40], 0.49601037767994577, 0.5039896223200543],
    [50, 1, 1, [28.2, 37.6], 0.998603681413149, 0.0013963185868509523],
    [1e-3, 1, 0.5, [0.3, 0.2], 8.82496431552065e-7, 0.9999991175035684],
    [6, 2, 1, [0, 0], 0.9968293563860019, 0.0031706436139981122],
    [8, 3, 1, [-7.5, 9], 0.00983441712974093, 0.990165582870259],
  ] as const)("holds thirteen digits within %d of SDs %d and %d, mean %j", (r, sx, sy, mean, p, q) => {
    const got = insideCircle(aligned(sx, sy, mean), r);
    expect(Math.abs(got.lower - p)).toBeLessThan(1e-13);
    expect(Math.abs(got.upper - q)).toBeLessThan(1e-13);
    const swapped = insideCircle(aligned(sy, sx, [-mean[1], mean[0]]), r);
    expect(Math.abs(swapped.lower - p)).toBeLessThan(1e-13);
  });
  // Source: closed form: a line through the circle is cut in a chord, on which the normal distribution function tells (SciPy 1.17.1 norm.cdf, computed)
  it("cuts a scatter without width in a chord", () => {
    // half chord 4 at a distance of 3 from the centre, mean 1, SD 2: cdf(1.5) - cdf(-2.5)
    const line = insideCircle(aligned(2, 0, [1, 3]), 5);
    expect(line.lower).toBeCloseTo(0.926983133405366, 14);
    expect(line.lower + line.upper).toBeCloseTo(1, 15);
    expect(insideCircle(aligned(2, 0, [1, 5.1]), 5)).toEqual({ lower: 0, upper: 1, kernel: 0 });
  });
  // Source: closed form: without spread the mean decides, the edge included
  it("asks where a scatter without spread lies", () => {
    expect(insideCircle(aligned(0, 0, [3, 4]), 5).lower).toBe(1);
    expect(insideCircle(aligned(0, 0, [3, 4]), 4.999).lower).toBe(0);
  });
});

describe("insideCircle properties", () => {
  const radius = fc.integer({ min: 1, max: 1000 }).map((r) => r / 10);

  test.prop([normalArb, radius])("gives two probabilities that add up, whatever the turn", (normal, r) => {
    const { lower, upper, kernel } = insideCircle(normal, r);
    expect(lower).toBeGreaterThanOrEqual(0);
    expect(upper).toBeGreaterThanOrEqual(0);
    expect(kernel).toBeGreaterThanOrEqual(0);
    expect(Math.abs(lower + upper - 1)).toBeLessThan(1e-12);
    const mirrored = insideCircle({ ...normal, along: -normal.along, across: -normal.across, cos: 1, sin: 0 }, r);
    expect(Math.abs(mirrored.lower - lower)).toBeLessThan(1e-12);
  });
  test.prop([normalArb, radius])("grows with the radius as its slope says", (normal, r) => {
    const step = 1e-5;
    const slope = (insideCircle(normal, r * Math.exp(step)).lower - insideCircle(normal, r * Math.exp(-step)).lower) / (2 * step);
    expect(Math.abs(slope - insideCircle(normal, r).kernel)).toBeLessThan(1e-6 * (1 + slope) + 1e-3 * slope * (r / normal.short) * step);
  });
  test.prop([normalArb, radius, fc.integer({ min: -200, max: 200 })])("does not depend on the unit of length", (normal, r, power) => {
    const f = 2 ** power;
    const scaled = { ...normal, along: normal.along * f, across: normal.across * f, long: normal.long * f, short: normal.short * f };
    expect(Math.abs(insideCircle(scaled, r * f).lower - insideCircle(normal, r).lower)).toBeLessThan(1e-14);
  });
  // the same probability from slices across the circle, 4000 of them by the midpoint rule: another formula, coarse but independent
  test.prop([normalArb, radius])("agrees with slices", (normal, r) => {
    const { along, across, long, short } = { ...normal, short: Math.max(normal.short, 0.05 * normal.long) };
    let sum = 0;
    const low = Math.max(-r, along - 9 * long);
    const high = Math.min(r, along + 9 * long);
    if (high <= low) return;
    const [from, to] = [Math.asin(low / r), Math.asin(high / r)];
    const slices = 4000;
    for (let k = 0; k < slices; k++) {
      const t = from + ((k + 0.5) * (to - from)) / slices;
      const [x, h] = [r * Math.sin(t), r * Math.cos(t)];
      const density = Math.exp(-(((x - along) / long) ** 2) / 2) / (long * Math.sqrt(2 * Math.PI));
      sum += (density * (cdf((h - across) / short) - cdf((-h - across) / short)) * h * (to - from)) / slices;
    }
    expect(Math.abs(sum - insideCircle({ ...normal, short }, r).lower)).toBeLessThan(1e-4);
  });
});

/** Normal distribution function to 1e-7 by an approximation of its own (Abramowitz and Stegun 26.2.17, recalled). */
function cdf(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const tail =
    (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) *
    (t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429)))));
  return z > 0 ? 1 - tail : tail;
}
