import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { betaBinomialUpper } from "../../src/math/beta-binomial.js";
import { binomialTails } from "../../src/math/binomial-test.js";

describe("betaBinomialUpper", () => {
  // Source: SciPy 1.17.1, betabinom.pmf summed from k to n, computed (its sf loses digits in the tail)
  it.each([
    [3, 10, 2.5, 20.5, 0.11755360999480802],
    [1, 50, 0.5, 107.5, 0.17414531112309184],
    [12, 217, 1.2, 300, 4.0863833075e-5],
    [217, 217, 40, 3, 0.004010888093778919],
    [0, 5, 1, 1, 1],
  ])("at %d of %d with shapes %d and %d", (k, n, a, b, expected) => {
    expect(betaBinomialUpper(k, n, a, b) / expected).toBeCloseTo(1, 9);
  });

  // Source: with both shapes 1 every count from 0 to n is equally likely (closed form)
  test.prop([fc.integer({ min: 1, max: 500 }), fc.double({ min: 0, max: 1, noNaN: true })])("is even for an unknown share", (n, part) => {
    const k = Math.round(part * n);
    expect(betaBinomialUpper(k, n, 1, 1)).toBeCloseTo((n + 1 - k) / (n + 1), 9);
  });

  // Source: SciPy 1.17.1, binom.sf(4, 40, 0.05) = 0.0480282602542153, the limit of a share that is known
  it("comes to the binomial tail when the share is known", () => {
    expect(betaBinomialUpper(5, 40, 5e7, 95e7)).toBeCloseTo(0.0480282602542153, 6);
    expect(binomialTails(5, 40, 0.05).atLeast).toBeCloseTo(0.0480282602542153, 12);
  });
});
