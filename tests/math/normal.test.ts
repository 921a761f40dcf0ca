import { fc, test } from "@fast-check/vitest";
import { erf as mathjsErf } from "mathjs";
import { describe, expect, it } from "vitest";
import { erf, erfc, normalCdf, normalDensity } from "../../src/math/normal.js";

const finite = fc.double({ min: -8, max: 8, noNaN: true });

describe("erf, erfc and normalCdf against outside values", () => {
  // Source: mathjs 15.2 erf (rational approximations), at 6001 points. Both claim about 1e-15 to 1e-16.
  it("agrees with another implementation everywhere", () => {
    let worst = 0;
    for (let x = -6; x <= 6; x += 0.002) worst = Math.max(worst, Math.abs(erf(x) - (mathjsErf(x) as number)));
    expect(worst).toBeLessThan(2e-15);
  });

  // Source: mpmath 1.3 erfc and ncdf, 40 digits, printed to 15. 2e-13 relative: erfc just below 2.2 is one less a number near one.
  const tail: [number, number][] = [
    [0.5, 0.479500122186953],
    [1, 0.157299207050285],
    [2.2, 0.00186284629798189],
    [2.3, 0.00114317659735665],
    [3, 2.20904969985854e-5],
    [5, 1.53745979442803e-12],
    [10, 2.08848758376254e-45],
    [26, 5.66319240885614e-296],
  ];
  for (const [x, expected] of tail) {
    it(`keeps the digits of the complement at ${x}`, () => {
      expect(Math.abs(erfc(x) / expected - 1)).toBeLessThan(2e-13);
      expect(Math.abs(normalCdf(-x * Math.SQRT2) / (expected / 2) - 1)).toBeLessThan(1e-12);
    });
  }

  // Source: mpmath 1.3 ncdf(-37.5), near the smallest double. The argument is squared in doubles, which costs 1e-13.
  it("reaches the far tail", () => expect(Math.abs(normalCdf(-37.5) / 4.60535300958195e-308 - 1)).toBeLessThan(1e-12));

  // Source: closed form, 1/sqrt(2 pi).
  it("has the density of the standard normal", () => expect(normalDensity(0)).toBeCloseTo(0.3989422804014327, 15));
});

describe("erf, erfc and normalCdf properties", () => {
  test.prop([finite])("erf is odd and completes erfc", (x) => {
    expect(erf(-x)).toBe(-erf(x));
    expect(Math.abs(erf(x) + erfc(x) - 1)).toBeLessThan(1e-15);
  });

  test.prop([finite, finite])("normalCdf never falls", (a, b) => {
    expect(normalCdf(Math.max(a, b))).toBeGreaterThanOrEqual(normalCdf(Math.min(a, b)));
  });

  test.prop([fc.double({ min: -5, max: 5, noNaN: true })])("normalDensity is the slope of normalCdf", (z) => {
    const h = 1e-4;
    // Richardson's combination of two central differences: the error is of order h^4
    const slope = (d: number): number => (normalCdf(z + d) - normalCdf(z - d)) / (2 * d);
    expect((4 * slope(h / 2) - slope(h)) / 3).toBeCloseTo(normalDensity(z), 10);
  });

  it("ends at exactly 0 and 1", () => {
    expect([normalCdf(Number.NEGATIVE_INFINITY), normalCdf(Number.POSITIVE_INFINITY), erf(Number.POSITIVE_INFINITY)]).toEqual([0, 1, 1]);
    expect(Number.isNaN(erf(Number.NaN))).toBe(true);
  });
});
