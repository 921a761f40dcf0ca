import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { betaKernel, betaTails, regularizedBeta } from "../../src/math/beta.js";

const shape = fc.double({ min: 0.1, max: 500, noNaN: true });
const share = fc.double({ min: 0.001, max: 0.999, noNaN: true });

describe("regularizedBeta against outside values", () => {
  // Source: SciPy 1.10.1 special.betainc, computed (its own error is up to 1e-12 for large shapes, less here)
  it.each([
    [0.5, 0.5, 0.2, 0.29516723530086664],
    [2, 3, 0.4, 0.5248],
    [0.5, 7, 0.01, 0.2874836298717218],
    [5.5, 2.25, 0.9, 0.9062584884419027],
    [30, 40, 0.3, 0.012126160623329673],
    [120, 80, 0.62, 0.7158196279556415],
  ])("shapes %d and %d at %d", (a, b, x, expected) => expect(Math.abs(regularizedBeta(a, b, x) / expected - 1)).toBeLessThan(1e-13));

  // Source: closed forms I_x(a, 1) = x^a and I_x(1/2, 1/2) = 2/pi asin(sqrt x); the powers of the doubles nearest to
  // 0.9991008991008992 and 0.8991008991008992 by exact fractions (Python): 0.40677082618717536 and 6.433272683804615e-47
  it("is a power when the second shape is 1", () => {
    expect(Math.abs(regularizedBeta(1000, 1, 0.9991008991008992) / 0.40677082618717536 - 1)).toBeLessThan(1e-14);
    expect(Math.abs(regularizedBeta(1000, 1, 0.8991008991008992) / 6.433272683804615e-47 - 1)).toBeLessThan(1e-13);
  });
  // Source: closed form I_x(1/2, 1) = sqrt x, hence its mirror image near 1, where only 1 - x holds the digits
  test.prop([fc.double({ min: 1e-12, max: 0.5, noNaN: true })])("keeps the digits of a tiny distance from 1", (y) => {
    expect(Math.abs(betaTails(1, 0.5, 1 - y, y).upper / Math.sqrt(y) - 1)).toBeLessThan(1e-13);
    expect(Math.abs(betaTails(1e6, 1, 1 - y / 1e6, y / 1e6).lower / Math.exp(1e6 * Math.log1p(-y / 1e6)) - 1)).toBeLessThan(1e-13);
  });
  test.prop([share])("is an arc sine when both shapes are one half", (x) => {
    expect(Math.abs(regularizedBeta(0.5, 0.5, x) / ((2 / Math.PI) * Math.asin(Math.sqrt(x))) - 1)).toBeLessThan(1e-13);
  });

  // Source: P(binomial(n, p) >= k) = I_p(k, n - k + 1) (textbook); the sum by its recursion, 1/2^n to begin with
  test.prop([fc.integer({ min: 1, max: 200 }), fc.nat()])("is the tail of the binomial distribution with share 1/2", (n, pick) => {
    const k = 1 + (pick % n);
    let term = 2 ** -n;
    let below = 0;
    for (let i = 0; i < k; i++) {
      below += term;
      term *= (n - i) / (i + 1);
    }
    expect(Math.abs(betaTails(k, n - k + 1, 0.5).upper - below)).toBeLessThan(1e-13);
  });
});

describe("regularizedBeta properties", () => {
  test.prop([shape, shape, share])("the tails lie in 0..1, sum to 1 and swap with the shapes", (a, b, x) => {
    const { lower, upper } = betaTails(a, b, x);
    expect(lower >= 0 && upper >= 0).toBe(true);
    expect(lower + upper).toBeCloseTo(1, 15);
    expect(betaTails(b, a, 1 - x, x).lower).toBeCloseTo(upper, 13);
  });

  // I_x(a, b) - I_x(a + 1, b) = x^a (1 - x)^b/(a B(a, b))
  test.prop([shape, shape, share])("neighbouring shapes differ by the kernel", (a, b, x) => {
    const y = 1 - x;
    expect(Math.abs(betaTails(a, b, x, y).lower - betaTails(a + 1, b, x, y).lower - betaKernel(a, b, x, y) / a)).toBeLessThan(1e-13);
  });
});

describe("regularizedBeta at the edges", () => {
  it("nothing lies below 0 and nothing above 1", () => {
    expect(betaTails(2, 3, 0)).toEqual({ lower: 0, upper: 1, kernel: 0 });
    expect(betaTails(2, 3, 1)).toEqual({ lower: 1, upper: 0, kernel: 0 });
    expect(betaKernel(2, 3, 1, 0)).toBe(0);
  });
});
