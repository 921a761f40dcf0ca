import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/math/random.js";
import { ratioEstimate } from "../../src/math/ratio-estimate.js";

const PARTS = [12, 30, 7, 18, 44, 3, 25, 16];
const WHOLES = [20, 41, 9, 33, 50, 8, 31, 25];
const units = PARTS.map((part, i) => ({ part, whole: WHOLES[i]! }));

describe("ratioEstimate against outside values", () => {
  // Source: NumPy 2.4.6 (residual standard deviation over sqrt(n) times the mean whole) and SciPy 1.17.1 stats.t.ppf, invented figures.
  it("is the ratio of the sums with the interval of the delta method", () => {
    expect(ratioEstimate(units, 0.95)).toMatchObject({
      ok: true,
      value: expect.closeTo(155 / 217, 14),
      unit: "1",
      n: 8,
      interval: [expect.closeTo(0.5841813060190004, 12), expect.closeTo(0.8443901225524282, 12)],
      level: 0.95,
    });
  });

  // Source: the same study in NumPy 1.24.2, 20,000 sets: parts Beta(8, 4) of wholes Gamma(4); coverage 93.0 % at n = 10 and 94.6 % at 50.
  // 2000 sets leave a standard error of 0.6 points; three of them.
  it.each([
    [10, 0.93],
    [50, 0.946],
  ])("holds the truth about as often as named with %d units", (n, share) => {
    const random = createRandom(31, n);
    const gamma = (shape: number): number => Array.from({ length: shape }, () => random.exponential(1)).reduce((a, b) => a + b, 0);
    let held = 0;
    for (let set = 0; set < 2000; set++) {
      const drawn = Array.from({ length: n }, () => {
        const whole = gamma(4);
        const a = gamma(8);
        return { part: (whole * a) / (a + gamma(4)), whole };
      });
      const estimate = ratioEstimate(drawn, 0.95);
      if (estimate.ok && estimate.interval![0] <= 2 / 3 && 2 / 3 <= estimate.interval![1]) held++;
    }
    expect(Math.abs(held / 2000 - share)).toBeLessThan(0.02);
  });
});

describe("ratioEstimate properties", () => {
  const unitArb = fc
    .tuple(fc.integer({ min: 1, max: 1000 }), fc.integer({ min: 0, max: 100 }))
    .map(([whole, percent]) => ({ part: (whole * percent) / 100, whole }));

  test.prop([fc.array(unitArb, { minLength: 2, maxLength: 20 }), fc.constantFrom(0.5, 2, 1024)])(
    "does not change with the unit of length, and its interval holds it and stays within 0 and 1",
    (some, factor) => {
      const estimate = ratioEstimate(some, 0.9);
      if (!estimate.ok) throw new Error("two units are enough");
      const [low, high] = estimate.interval!;
      expect(low >= 0 && low <= estimate.value + 1e-12 && estimate.value <= high + 1e-12 && high <= 1).toBe(true);
      const grown = ratioEstimate(
        some.map(({ part, whole }) => ({ part: factor * part, whole: factor * whole })),
        0.9,
      );
      expect(grown).toEqual(estimate);
    },
  );

  it("has no spread where every unit has the same share", () => {
    const same = [4, 8, 12].map((whole) => ({ part: whole / 4, whole }));
    expect(ratioEstimate(same, 0.95)).toMatchObject({ value: 0.25, interval: [0.25, 0.25] });
  });
});

describe("ratioEstimate with too few units", () => {
  it("needs two", () => {
    expect(ratioEstimate(units.slice(0, 1), 0.95)).toEqual({ ok: false, why: "tooFew", unit: "1", n: 1 });
  });
});
