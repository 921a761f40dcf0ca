import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { addExactly, addProductExactly, canonicalParts, exactMean } from "../../src/math/exact-sum.js";
import { sumOfDeviations } from "../../src/math/sum-of-deviations.js";

const sumOf = (values: readonly number[]): number[] => {
  const parts: number[] = [];
  for (const value of values) addExactly(parts, value);
  return canonicalParts(parts);
};
const productsOf = (x: readonly number[], y: readonly number[]): number[] => {
  const parts: number[] = [];
  for (const [i, value] of x.entries()) addProductExactly(parts, value, y[i]!);
  return canonicalParts(parts);
};
const stamps = [1700000000.0, 1700000000.225, 1700000000.65, 1700000001.275, 1700000002.1, 1700000003.125];
const others = [1000000000.1, 1000000000.2, 1000000000.4, 999999999.7, 3, -7e8];
/** Signed, over all magnitudes whose squares are doubles. */
const anyValue = fc
  .tuple(fc.double({ min: -1, max: 1, noNaN: true }), fc.integer({ min: -400, max: 460 }))
  .map(([fraction, exponent]) => fraction * 2 ** exponent)
  .filter((value) => value === 0 || Math.abs(value) > 1e-140);

describe("exact sums against outside values", () => {
  // Source: Python 3.11 math.fsum, computed: the sum rounded once.
  it.each([
    [[1e100, 1, -1e100, 1e-100, 1e50, -1, -1e50], 1e-100],
    [Array<number>(10).fill(0.1), 1],
    [[1e16, 1, 1e-16], 10000000000000002],
    [stamps, 10200000007.375],
    [[1e120, -3e119, 1e-120, 2.5, -7e-9], 7e119],
  ])("of %j is %d", (values, sum) => expect(sumOf(values)[0]).toBe(sum));

  // Source: Python 3.11 fractions, computed: the mean rounded once.
  it.each([
    [[1e100, 1, -1e100, 1e-100, 1e50, -1, -1e50], 1.4285714285714286e-101],
    [[1e16, 1, 1e-16], 3333333333333333.5],
    [stamps, 1700000001.2291667],
    [Array<number>(3).fill(0.1), 0.1],
  ])("mean of %j is %d", (values, mean) => expect(exactMean(values.length, sumOf(values))).toBe(mean));

  // Source: Python 3.11 statistics.variance and fractions on the same doubles, computed without rounding.
  it.each([
    [[1e16, 1, 1e-16], 6.666666666666666e31],
    [[1e100, 1, -1e100, 1e-100, 1e50, -1, -1e50], 2e200],
    [stamps, 7.209270757039424],
    [[1000000000.1, 1000000000.2, 1000000000.4, 999999999.7], 0.2599999570846592],
    [Array<number>(10).fill(0.1), 0],
  ])("squared deviations of %j add up to %d", (values, squares) => {
    const sum = sumOf(values);
    const got = sumOfDeviations(values.length, sum, sum, productsOf(values, values));
    expect(Math.abs(got - squares)).toBeLessThanOrEqual(4e-16 * squares);
  });

  // Source: Python 3.11 fractions, computed without rounding.
  it("products of deviations add up", () => {
    const got = sumOfDeviations(6, sumOf(stamps), sumOf(others), productsOf(stamps, others));
    expect(Math.abs(got / -4093749902.5892353 - 1)).toBeLessThan(4e-16);
  });
});

describe("exact sums, properties", () => {
  // Source: arithmetic of whole numbers (BigInt), exact.
  test.prop([fc.array(fc.maxSafeInteger(), { maxLength: 40 })])("are those of whole numbers", (values) => {
    const parts = sumOf(values);
    expect(parts.reduce((sum, part) => sum + BigInt(part), 0n)).toBe(values.reduce((sum, value) => sum + BigInt(value), 0n));
    expect(parts[0] ?? 0).toBe(Number(values.reduce((sum, value) => sum + BigInt(value), 0n)));
    const squares = productsOf(values, values).reduce((sum, part) => sum + BigInt(part), 0n);
    expect(squares).toBe(values.reduce((sum, value) => sum + BigInt(value) * BigInt(value), 0n));
  });

  test.prop([fc.array(anyValue, { maxLength: 30 }), fc.infiniteStream(fc.nat())])("have one form, whatever the order", (values, keys) => {
    const shuffled = values
      .map((value) => ({ value, key: keys.next().value as number }))
      .sort((a, b) => a.key - b.key)
      .map(({ value }) => value);
    expect(sumOf(shuffled)).toEqual(sumOf(values));
    expect(productsOf(shuffled, shuffled)).toEqual(productsOf(values, values));
  });

  test.prop([fc.array(anyValue, { maxLength: 30 })])("are undone by the opposite sum", (values) => {
    expect(sumOf([...values, ...values.map((value) => -value)])).toEqual([]);
    expect(sumOf([...sumOf(values), ...values.map((value) => -value)])).toEqual([]);
  });

  test.prop([anyValue, fc.integer({ min: 1, max: 30 })])("of equal values leave no deviation", (value, n) => {
    const values = Array<number>(n).fill(value);
    expect(sumOfDeviations(n, sumOf(values), sumOf(values), productsOf(values, values))).toBe(0);
    expect(exactMean(n, sumOf(values))).toBe(value + 0);
  });
});
