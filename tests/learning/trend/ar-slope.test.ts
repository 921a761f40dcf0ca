import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { type ArSlope, arSlope } from "../../../src/learning/trend/ar-slope.js";
import { createRandom } from "../../../src/math/random.js";

const X = [0, 1, 2, 4, 5, 7, 8, 9, 11, 12, 14, 15];
const Y = [0.612, 0.598, 0.605, 0.589, 0.601, 0.593, 0.58, 0.594, 0.586, 0.577, 0.59, 0.581];

function slopeOf(x: ArrayLike<number>, y: ArrayLike<number>): ArSlope {
  const found = arSlope(x, y);
  if (found === undefined) throw new Error("no scatter");
  return found;
}

/** A line with errors of which each carries `phi` of the one before. */
function series(n: number, slope: number, phi: number, seed: number): { x: number[]; y: number[] } {
  const random = createRandom(seed);
  let error = random.normal();
  const x = Array.from({ length: n }, (_, i) => i);
  const y = x.map((at) => {
    if (at > 0) error = phi * error + Math.sqrt(1 - phi * phi) * random.normal();
    return 10 + slope * at + error;
  });
  return { x, y };
}

describe("arSlope against outside values", () => {
  // Source: the same mixture from full covariance matrices, NumPy 1.24.2 (inv, slogdet) and SciPy 1.10.1 (stats.t, optimize.brentq), computed. With 1961
  // autocorrelations instead of 49 the chances there change by less than 2e-5, the slope by 2e-8.
  it("weighs every autocorrelation by its restricted likelihood", () => {
    const found = slopeOf(X, Y);
    expect(found.slope).toBeCloseTo(-0.0015947030405905845, 14);
    expect(found.autocorrelation).toBeCloseTo(-0.3358631644072576, 12);
    expect(found.sd).toBeCloseTo(0.007608188123756187, 14);
    expect(found.above(-0.001)).toBeCloseTo(0.047873668489653895, 12);
    expect(found.above(-0.002)).toBeCloseTo(0.8871361044976217, 12);
    expect(found.quantile(0.05)).toBeCloseTo(-0.0022306231747120722, 9);
    expect(found.quantile(0.95)).toBeCloseTo(-0.0010101328538890527, 9);
  });

  // Source: closed form. Errors without autocorrelation, many of them: Student's interval of ordinary least squares, to a few percent of its width.
  it("comes to ordinary least squares where neighbours are independent and many", () => {
    const { x, y } = series(400, 0.02, 0, 5);
    const found = slopeOf(x, y);
    const mx = 199.5;
    const my = y.reduce((a, b) => a + b) / 400;
    const xx = (400 * (400 * 400 - 1)) / 12;
    const slope = x.reduce((sum, at, i) => sum + (at - mx) * (y[i]! - my), 0) / xx;
    const residual = x.reduce((sum, at, i) => sum + (y[i]! - my - slope * (at - mx)) ** 2, 0);
    const half = 1.6487 * Math.sqrt(residual / 398 / xx);
    expect(Math.abs(found.slope - slope)).toBeLessThan(0.1 * half);
    expect((found.quantile(0.95) - found.quantile(0.05)) / (2 * half)).toBeGreaterThan(0.85);
    expect((found.quantile(0.95) - found.quantile(0.05)) / (2 * half)).toBeLessThan(1.15);
    expect(Math.abs(found.autocorrelation)).toBeLessThan(0.13);
  });

  // Source: simulation with known truth; binomial 99.9 % band of 400 runs about 90 %, and above it: short series cannot tell the autocorrelation, which widens.
  it.each([
    [20, 0],
    [20, 0.3],
    [40, 0.6],
  ])("holds the true slope of %d values with autocorrelation %d at least as often as it says", (n, phi) => {
    let held = 0;
    for (let run = 0; run < 400; run++) {
      const { x, y } = series(n, 0.05, phi, 1000 + run);
      const chance = slopeOf(x, y).above(0.05);
      if (chance > 0.05 && chance < 0.95) held++;
    }
    expect(held / 400).toBeGreaterThan(0.85);
  });
});

describe("arSlope properties", () => {
  const values = fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 5, maxLength: 40 });

  test.prop([values, fc.double({ min: 0.01, max: 100, noNaN: true }), fc.integer({ min: -1000, max: 1000 })])(
    "follows the units of both columns and any offset",
    (y, scale, offset) => {
      const x = y.map((_, i) => i);
      const plain = arSlope(x, y);
      if (plain === undefined || !(plain.sd > 1e-3)) return;
      const other = slopeOf(
        x.map((at) => 7 * at + offset),
        y.map((value) => scale * value + offset),
      );
      const unit = scale / 7;
      expect(other.slope / unit).toBeCloseTo(plain.slope, 6);
      expect(other.autocorrelation).toBeCloseTo(plain.autocorrelation, 5);
      expect(other.above(0)).toBeCloseTo(plain.above(0), 5);
      expect(other.quantile(0.9) / unit).toBeCloseTo(plain.quantile(0.9), 4);
    },
  );

  test.prop([values, fc.double({ min: 0.001, max: 0.999, noNaN: true })])(
    "gives quantiles that are exceeded as often as they say",
    (y, p) => {
      const found = arSlope(
        y.map((_, i) => i),
        y,
      );
      if (found === undefined) return;
      expect(1 - found.above(found.quantile(p))).toBeCloseTo(p, 5);
    },
  );

  test.prop([values])("turns round with the values", (y) => {
    const x = y.map((_, i) => i);
    const one = arSlope(x, y);
    const other = arSlope(
      x,
      y.map((value) => -value),
    );
    if (one === undefined || other === undefined) return;
    expect(other.slope).toBeCloseTo(-one.slope, 10);
    expect(other.above(0)).toBeCloseTo(1 - one.above(0), 10);
  });

  it("says that an exact line has no scatter", () => {
    expect(arSlope([0, 1, 2, 3, 4], [5, 5, 5, 5, 5])).toBeUndefined();
    expect(arSlope([0, 1, 2, 3, 4], [5.3, 5.4, 5.5, 5.6, 5.7])).toBeUndefined();
  });

  it("keeps its digits beside a large offset of the time", () => {
    const far = slopeOf(
      X.map((at) => 1.7e9 + at),
      Y,
    );
    expect(far.slope).toBeCloseTo(slopeOf(X, Y).slope, 10);
  });
});
