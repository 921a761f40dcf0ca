import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { minimizeBetween } from "../../src/math/minimize-between.js";

describe("minimizeBetween against outside values", () => {
  // Source: closed form: x ln x is least at 1/e, with -1/e there.
  it("finds a bottom inside", () => {
    const { at, value } = minimizeBetween((x) => x * Math.log(x), 0.01, 3, 1e-8);
    expect(at).toBeCloseTo(1 / Math.E, 7);
    expect(value).toBeCloseTo(-1 / Math.E, 14);
  });
  // Source: scipy 1.17.1 optimize.minimize_scalar(bounded, xatol 1e-10) of cos(3x) + x/4 on [2, 4].
  it("agrees with SciPy", () => {
    const { at, value } = minimizeBetween((x) => Math.cos(3 * x) + x / 4, 2, 4, 1e-9);
    expect(at).toBeCloseTo(3.1137826244, 6);
    expect(value).toBeCloseTo(-0.2180760724, 9);
  });
});

describe("minimizeBetween properties", () => {
  it("gives an end where the function is least there", () => {
    expect(minimizeBetween((x) => x, 2, 5, 1e-6)).toEqual({ at: 2, value: 2 });
    expect(minimizeBetween((x) => -x, 2, 5, 1e-6).at).toBe(5);
  });
  it("finds the deepest of several dips that are wider than a look's step", () => {
    const { at } = minimizeBetween((x) => Math.cos(2 * Math.PI * x) - (Math.abs(x - 2.5) < 0.5 ? 1 : 0), 0, 4, 1e-7);
    expect(at).toBeCloseTo(2.5, 5);
  });
  it("calls the function seldom", () => {
    let calls = 0;
    minimizeBetween(
      (x) => {
        calls++;
        return (x - 0.3) ** 2;
      },
      0,
      1,
      1e-6,
    );
    expect(calls).toBeLessThan(30);
  });
  test.prop([fc.double({ min: -5, max: 5, noNaN: true }), fc.double({ min: 0.5, max: 4, noNaN: true })])(
    "finds the bottom of |x - c|^p",
    (centre, power) => {
      const { at } = minimizeBetween((x) => Math.abs(x - centre) ** power, -6, 6, 1e-6);
      expect(Math.abs(at - centre)).toBeLessThan(1e-3);
    },
  );
  it("endures functions that are flat or not finite in places", () => {
    expect(minimizeBetween(() => 3, 0, 1, 1e-6).value).toBe(3);
    expect(minimizeBetween((x) => (x < 0.5 ? Number.POSITIVE_INFINITY : x), 0, 1, 1e-6).at).toBeCloseTo(0.5, 5);
  });
});
