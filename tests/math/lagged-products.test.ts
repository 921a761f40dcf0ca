import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { laggedProducts } from "../../src/math/lagged-products.js";

/** The same by the definition. */
function plain(first: Float64Array, second: Float64Array, shifts: number): number[] {
  return Array.from({ length: shifts }, (_, k) => first.reduce((sum, value, i) => sum + value * (second[i + k] ?? 0), 0));
}

describe("laggedProducts", () => {
  // Source: by hand
  it("multiplies a series by another at every shift", () => {
    const found = laggedProducts(3, 4)(Float64Array.of(1, 2, 3), Float64Array.of(1, 0, -1, 4, 2, 5));
    expect([...found].map((value) => Math.round(value * 1e9) / 1e9)).toEqual([-2, 10, 13, 23]);
  });
  // Source: the definition, summed up term by term; transforms of m values err by about 1e-16 log m of the largest sum
  test.prop([
    fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 1, maxLength: 80 }),
    fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 1, maxLength: 120 }),
  ])("is the sum of products", (a, b) => {
    const first = Float64Array.from(a);
    const shifts = Math.max(1, b.length - a.length + 1);
    const second = Float64Array.from(b).subarray(0, a.length + shifts - 1);
    const found = laggedProducts(a.length, shifts)(first, second);
    plain(first, second, shifts).forEach((sum, k) => {
      expect(Math.abs(found[k]! - sum)).toBeLessThan(1e-6);
    });
  });
  it("takes shorter series than planned, and leaves its input and earlier results as they are", () => {
    const plan = laggedProducts(10, 3);
    const first = Float64Array.of(1, 2);
    const second = Float64Array.of(3, 4, 5);
    const one = plan(first, second);
    const kept = [...one];
    plan(Float64Array.of(7), Float64Array.of(8, 9));
    expect([...one]).toEqual(kept);
    expect([...first, ...second]).toEqual([1, 2, 3, 4, 5]);
    expect(kept.map(Math.round)).toEqual([11, 14, 5]);
  });
});
