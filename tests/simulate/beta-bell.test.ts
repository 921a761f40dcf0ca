import { fc, test } from "@fast-check/vitest";
import { gamma } from "mathjs";
import { describe, expect, it } from "vitest";
import { earlyBellPosition, lateBellPosition } from "../../src/simulate/beta-bell.js";

const bells = [
  { name: "early", position: earlyBellPosition, a: 3, b: 4 },
  { name: "late", position: lateBellPosition, a: 4, b: 3 },
];

/** Density of the beta distribution, its constant from the gamma function. */
const density = (a: number, b: number, s: number): number => (gamma(a + b) / (gamma(a) * gamma(b))) * s ** (a - 1) * (1 - s) ** (b - 1);

/** Simpson's rule on 1000 stretches: off by less than 1e-11 for these polynomials (h^4/180 times their fourth derivative). */
function integral(f: (s: number) => number, from: number, to: number): number {
  const step = (to - from) / 1000;
  let sum = f(from) + f(to);
  for (let i = 1; i < 1000; i++) sum += f(from + i * step) * (i % 2 === 1 ? 4 : 2);
  return (sum * step) / 3;
}

describe("the beta bells against outside values", () => {
  for (const { name, position, a, b } of bells) {
    // Source: density of the beta distribution (textbook), constant by mathjs 15.2 gamma, integrated by Simpson's rule
    it(`give the integral of the ${name} beta density`, () => {
      for (let s = 0.05; s < 1; s += 0.05)
        expect(position(s)).toBeCloseTo(
          integral((r) => density(a, b, r), 0, s),
          9,
        );
    });

    // Source: mean a/(a+b) and variance ab/((a+b)^2 (a+b+1)) of the beta distribution (textbook); by parts, E s = int 1-F, E s^2 = int 2s(1-F)
    it(`have the ${name} distribution's mean and variance`, () => {
      const mean = integral((s) => 1 - position(s), 0, 1);
      const square = integral((s) => 2 * s * (1 - position(s)), 0, 1);
      expect(mean).toBeCloseTo(a / (a + b), 9);
      expect(square - mean * mean).toBeCloseTo((a * b) / ((a + b) ** 2 * (a + b + 1)), 9);
    });

    // Source: mode (a-1)/(a+b-2) of the beta distribution (textbook)
    it(`are fastest at the ${name} distribution's mode`, () => {
      const mode = (a - 1) / (a + b - 2);
      const speed = (s: number): number => (position(s + 1e-4) - position(s - 1e-4)) / 2e-4;
      expect(speed(mode)).toBeGreaterThan(Math.max(speed(mode - 0.01), speed(mode + 0.01)));
    });
  }

  // Source: figures of Beta(3,4) worked by hand: mean 3/7, variance 3/98, F(1/2) = 42/64
  it("cover 42/64 of the way in the first half when early", () => expect(earlyBellPosition(0.5)).toBeCloseTo(42 / 64, 14));
});

describe("the beta bells' properties", () => {
  const share = fc.double({ min: -1, max: 2, noNaN: true });

  test.prop([share])("are each other's mirror image in time", (s) => {
    expect(earlyBellPosition(s)).toBeCloseTo(1 - lateBellPosition(1 - s), 12);
  });

  test.prop([share, share])("never go back, and rest outside 0 to 1", (r, s) => {
    for (const { position } of bells) {
      // one part in 1e15 is the rounding of the polynomials near 1
      expect(position(Math.max(r, s))).toBeGreaterThanOrEqual(position(Math.min(r, s)) - 1e-15);
      expect([position(Math.min(s, 0)), position(Math.max(s, 1))]).toEqual([0, 1]);
    }
  });
});
