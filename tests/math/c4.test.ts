import { describe, expect, it } from "vitest";
import { c4 } from "../../src/math/c4.js";

describe("c4 against outside values", () => {
  // Source: tables of control charts print 0.7979, 0.8862, 0.9213, 0.9400 (from memory); SciPy 1.10.1 gammaln, computed
  it.each([
    [2, 0.7978845608028655],
    [3, 0.8862269254527579],
    [4, 0.9213177319235613],
    [5, 0.9399856029866253],
    [50, 0.9949113046697232],
  ])("of %d values", (n, expected) => expect(c4(n)).toBeCloseTo(expected, 12));
});
