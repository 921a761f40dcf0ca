import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { quantile } from "../../src/math/quantile.js";
import { BINS_PER_OCTAVE, type Bins, binEnds, binnedQuantile, createBinning, SMALLEST } from "../../src/math/quantile-bins.js";

const binsOf = (values: readonly number[]): Bins => {
  const binOf = createBinning();
  const counts = new Map<number, number>();
  for (const value of values) counts.set(binOf(value), (counts.get(binOf(value)) ?? 0) + 1);
  return [...counts].sort(([a], [b]) => a - b);
};
const anyValue = fc.oneof(
  fc.double({ min: -1e140, max: 1e140, noNaN: true }),
  fc.double({ min: -3, max: 3, noNaN: true }),
  fc.constantFrom(0, -0, SMALLEST, -SMALLEST, 1, 2, -4, 1.7e9),
);

describe("quantile bins against outside values", () => {
  // Source: worked by hand: 128 equal bins from 1 to 2, from 2 to 4 and so on; 2^-30 is the lower end of the first.
  it("lie evenly between powers of two", () => {
    const binOf = createBinning();
    expect([binOf(SMALLEST), binOf(-SMALLEST), binOf(SMALLEST / 2), binOf(0)]).toEqual([1, -1, 0, 0]);
    expect(binOf(1)).toBe(30 * BINS_PER_OCTAVE + 1);
    expect(binEnds(binOf(1))).toEqual([1, 1 + 1 / 128]);
    expect(binEnds(binOf(3))).toEqual([3, 3 + 1 / 64]);
    expect(binEnds(binOf(-1))).toEqual([-1 - 1 / 128, -1]);
  });

  // Source: NumPy 2.4.6 quantile of the same 999 values, which lie in every bin from 1 to 2: method "linear" (rule 7), computed.
  it("give the quantiles of NumPy within a bin", () => {
    const values = Array.from({ length: 999 }, (_, i) => 1 + (i + 0.5) / 1000);
    for (const [p, expected] of [
      [0.05, 1.0504],
      [0.5, 1.4995],
      [0.95, 1.9486],
    ] as const) {
      const { value, within } = binnedQuantile(binsOf(values), [values[0]!, values.at(-1)!], p);
      expect(Math.abs(value - expected)).toBeLessThan(0.001);
      expect(within[0]).toBeLessThanOrEqual(expected + 1e-9);
      expect(within[1]).toBeGreaterThanOrEqual(expected - 1e-9);
    }
  });
});

describe("quantile bins, properties", () => {
  test.prop([anyValue])("hold the value they are named by", (value) => {
    const [low, high] = binEnds(createBinning()(value));
    expect(low <= value && value <= high).toBe(true);
    expect(high - low).toBeLessThanOrEqual(Math.max(Math.abs(value) / BINS_PER_OCTAVE, 2 * SMALLEST));
  });

  test.prop([anyValue, anyValue])("ascend with the values", (a, b) => {
    const binOf = createBinning();
    if (a < b) expect(binOf(a)).toBeLessThanOrEqual(binOf(b));
  });

  // Source: rule 7 of Hyndman and Fan on the values themselves, checked against NumPy in tests/math/quantile.test.ts.
  test.prop([
    fc.array(fc.double({ min: -1e140, max: 1e140, noNaN: true }), { minLength: 1, maxLength: 60 }),
    fc.double({ min: 0, max: 1, noNaN: true }),
  ])("hold the quantile of the values within their bracket", (values, p) => {
    const sorted = Float64Array.from(values).sort();
    const truth = quantile(sorted, p);
    const range = [sorted[0]!, sorted.at(-1)!] as const;
    const { value, within } = binnedQuantile(binsOf(values), range, p);
    const rounding = 1e-15 * Math.max(...sorted.map(Math.abs));
    expect(within[0] - rounding <= truth && truth <= within[1] + rounding).toBe(true);
    expect(within[0] - rounding <= value && value <= within[1] + rounding).toBe(true);
  });
});
