import { describe, expect, it } from "vitest";
import { permutationTest } from "../../src/math/permutation-test.js";

describe("permutationTest against outside values", () => {
  // Source: all 70 ways to divide eight values into four and four: only the observed one and its mirror are as extreme, 2/70; 99 % band of 20000 exchanges
  it("nears the share of all arrangements", () => {
    const p = permutationTest(Float64Array.of(1, 2, 3, 4.5), Float64Array.of(10, 11.5, 12, 14), 20000, 1)!;
    expect(Math.abs(p - 2 / 70)).toBeLessThan(2.576 * Math.sqrt(2 / 70 / 20000));
  });
  it("does not depend on an offset and a factor, nor on the order of the lists", () => {
    const one = Float64Array.of(1, 5, 3, 9, 4);
    const other = Float64Array.of(2, 8, 7, 11);
    const p = permutationTest(one, other, 500, 3);
    expect(permutationTest(other, one, 500, 3)).toBe(p);
    expect(
      permutationTest(
        one.map((v) => 8 * v + 4096),
        other.map((v) => 8 * v + 4096),
        500,
        3,
      ),
    ).toBe(p);
  });
  it("is certain of two values that nothing can push farther apart, and says nothing of equal ones", () => {
    expect(permutationTest(Float64Array.of(1, 1, 1), Float64Array.of(1, 1), 99, 1)).toBeUndefined();
    // 2 of the 70 arrangements are as extreme
    expect(permutationTest(Float64Array.of(0, 0, 0, 0), Float64Array.of(1, 1, 1, 1), 2000, 1)!).toBeCloseTo(2 / 70, 1.7);
  });
});
