import { describe, expect, it } from "vitest";
import { NODES, WEIGHTS } from "../../src/math/gauss-legendre.js";

const integrate = (f: (x: number) => number): number => NODES.reduce((sum, x, k) => sum + WEIGHTS[k]! * (f(x) + f(-x)), 0);

describe("the rule of 20 nodes against outside values", () => {
  // Source: closed form. The integral of x^d from -1 to 1 is 2/(d + 1) for an even d; a rule of 20 nodes is exact up to d = 39.
  it.each([0, 2, 10, 20, 38])("integrates x^%d exactly", (d) => expect(integrate((x) => x ** d)).toBeCloseTo(2 / (d + 1), 15));
  // Source: closed form, e - 1/e, and sqrt(pi) erf(2.5)/2.5 (mpmath 1.3.0, computed)
  it("integrates smooth functions to the last digits", () => {
    expect(integrate(Math.exp)).toBeCloseTo(Math.E - 1 / Math.E, 14);
    expect(integrate((x) => Math.exp(-((2.5 * x) ** 2)))).toBeCloseTo(0.7086930188940248, 14);
  });
  // Source: NumPy 2.4.6 polynomial.legendre.leggauss(20), computed, eight digits
  it("has the nodes of NumPy", () => {
    const rounded = [0.07652652, 0.22778585, 0.37370609, 0.510867, 0.63605368, 0.74633191, 0.83911697, 0.91223443, 0.96397193, 0.9931286];
    for (const [k, node] of rounded.entries()) expect(NODES[k]).toBeCloseTo(node, 8);
  });
});
