import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { insideCircle } from "../../../src/endpoints/normal/inside-circle.js";
import { insideRectangle } from "../../../src/endpoints/normal/inside-rectangle.js";
import { principalNormal } from "../../../src/endpoints/normal/principal-normal.js";
import { aligned, normalArb, turned } from "./normals.js";

describe("insideRectangle against outside values", () => {
  const tilted = principalNormal([2, -1], 36, 7.2, 16, 1);

  // Source: SciPy 1.17.1 stats.multivariate_normal.cdf at the four corners, computed; the turned rectangle by turning mean and covariance instead
  it("is the bivariate normal distribution of SciPy", () => {
    expect(insideRectangle(tilted, { width: 14, height: 10, angle: 0 }).lower).toBeCloseTo(0.569331073298505, 12);
    expect(insideRectangle(tilted, { width: 14, height: 10, angle: 30 }).lower).toBeCloseTo(0.5668163447089498, 12);
    const narrow = principalNormal([1, 2], 25, -23.75, 25, 1);
    expect(insideRectangle(narrow, { width: 8, height: 6, angle: 0 }).lower).toBeCloseTo(0.3005354988214843, 12);
  });
  // Source: mpmath 1.3.0, computed with 30 digits: density along one side times the conditional probability across it
  it.each([
    [4, 2, 0, [1, 0, 1e-4], [0.5, 0.99], 0.7799123889847599],
    [6, 3, 37, [4, 3.9, 4], [1, 0.8], 0.6695187663522719],
    [10, 10, 45, [9, 0, 9], [0, 0], 0.8179742619901801],
    [2, 8, -110, [25, -12, 16], [3, -4], 0.08860153163400067],
    [1e-3, 2e-3, 10, [1, 0.3, 2], [0.5, 0.5], 1.9684282756430705e-7],
  ] as const)("holds thirteen digits for %d by %d at %d degrees, covariance %j", (width, height, angle, [xx, xy, yy], mean, p) => {
    const { lower, upper } = insideRectangle(principalNormal(mean, xx, xy, yy, 1), { width, height, angle });
    expect(Math.abs(lower - p)).toBeLessThan(1e-13);
    expect(Math.abs(upper - (1 - p))).toBeLessThan(1e-13);
  });
  // Source: closed form: independent axes, the product of two intervals; SciPy 1.17.1 norm.cdf: P(|z| < 1) = 0.6826894921370859, P(|z| < 0.5) = 0.38292492254802624
  it("is a product for independent axes", () => {
    expect(insideRectangle(aligned(2, 3), { width: 4, height: 3, angle: 0 }).lower).toBeCloseTo(
      0.6826894921370859 * 0.38292492254802624,
      14,
    );
    expect(insideRectangle(aligned(2, 3), { width: 3, height: 4, angle: 90 }).lower).toBeCloseTo(
      0.6826894921370859 * 0.38292492254802624,
      14,
    );
  });
  // Source: closed form (Sheppard 1899, recalled): a quadrant about the mean holds 1/4 + asin(correlation)/(2 pi)
  it.each([-0.5, 0, 0.5, 0.8])("gives a quadrant its share, correlation %d", (rho) => {
    const far = principalNormal([-1000, -1000], 25, 25 * rho, 25, 1);
    const share = insideRectangle(far, { width: 2000, height: 2000, angle: 0 }).lower;
    expect(share).toBeCloseTo(0.25 + Math.asin(rho) / (2 * Math.PI), 12);
  });
  // Source: closed form: a line is cut in a stretch. y = x through a square of side 2: |x| < 1, a distance of sqrt 2 either side
  it("cuts a scatter without width in a stretch", () => {
    const diagonal = principalNormal([0, 0], 1, 1, 1, 1);
    const { lower } = insideRectangle({ ...diagonal, short: 0 }, { width: 2, height: 2, angle: 0 });
    expect(lower).toBeCloseTo(0.6826894921370859, 14);
    expect(insideRectangle(aligned(3, 0, [0, 1.1]), { width: 4, height: 2, angle: 0 }).lower).toBe(0);
    expect(insideRectangle(aligned(3, 0, [0, 0.9]), { width: 6, height: 2, angle: 0 }).lower).toBeCloseTo(0.6826894921370859, 14);
    expect(insideRectangle(aligned(0, 0, [2, 1]), { width: 4, height: 2, angle: 0 }).lower).toBe(1);
    expect(insideRectangle(aligned(0, 0, [2, 1.001]), { width: 4, height: 2, angle: 0 }).lower).toBe(0);
  });
});

describe("insideRectangle properties", () => {
  const side = fc.integer({ min: 1, max: 800 }).map((w) => w / 10);
  const degrees = fc.integer({ min: -360, max: 360 });

  test.prop([normalArb, side, side, degrees, degrees])("turns with the scatter", (normal, width, height, angle, turn) => {
    const one = insideRectangle(normal, { width, height, angle });
    const other = insideRectangle(turned(normal, turn), { width, height, angle: angle + turn });
    expect(Math.abs(one.lower - other.lower)).toBeLessThan(1e-11);
    expect(Math.abs(one.lower + one.upper - 1)).toBeLessThan(1e-11);
  });
  test.prop([normalArb, side, side, degrees])("lies between the circles within and around it", (normal, width, height, angle) => {
    const { lower } = insideRectangle(normal, { width, height, angle });
    expect(lower).toBeGreaterThanOrEqual(insideCircle(normal, Math.min(width, height) / 2).lower - 1e-12);
    expect(lower).toBeLessThanOrEqual(insideCircle(normal, Math.hypot(width, height) / 2).lower + 1e-12);
  });
  test.prop([normalArb, side, side, degrees])("is the sum of its halves' shares", (normal, width, height, angle) => {
    const whole = insideRectangle(normal, { width, height, angle }).lower;
    const a = (angle * Math.PI) / 180;
    const half = (sign: number) => {
      // the half's centre is the new target centre; the mean in the frame of the scatter moves the other way
      const [x, y] = [(sign * width * Math.cos(a)) / 4, (sign * width * Math.sin(a)) / 4];
      const moved = {
        ...normal,
        along: normal.along - (x * normal.cos + y * normal.sin),
        across: normal.across - (y * normal.cos - x * normal.sin),
      };
      return insideRectangle(moved, { width: width / 2, height, angle }).lower;
    };
    expect(Math.abs(half(1) + half(-1) - whole)).toBeLessThan(1e-11);
  });
  test.prop([normalArb, side, side, degrees])("grows with its size as its slope says", (normal, width, height, angle) => {
    const at = (step: number) => insideRectangle(normal, { width: width * Math.exp(step), height: height * Math.exp(step), angle });
    const slope = (at(1e-5).lower - at(-1e-5).lower) / 2e-5;
    expect(Math.abs(slope - at(0).kernel)).toBeLessThan(1e-5 * (1 + slope) + (1e-8 * (width + height)) / normal.short);
  });
});
