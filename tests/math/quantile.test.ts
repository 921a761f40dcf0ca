import { fc, test } from "@fast-check/vitest";
import { quantileSeq } from "mathjs";
import { describe, expect, it } from "vitest";
import { quantile, quantileInPlace } from "../../src/math/quantile.js";
import { near, values } from "./estimate-properties.js";

const share = fc.integer({ min: 0, max: 1000 }).map((k) => k / 1000);
const ascending = (list: number[]): number[] => list.slice().sort((a, b) => a - b);

describe("quantile against outside values", () => {
  // Source: NumPy 1.24.2 quantile with its default rule, computed
  it.each([
    [0, 1.5],
    [0.1, 1.75],
    [0.25, 2.5],
    [0.5, 4.25],
    [0.8, 9],
    [0.975, 10.09375],
    [1, 10.25],
  ])("is that of NumPy at %d", (p, expected) => expect(quantile([1.5, 2, 4, 4.5, 9, 10.25], p)).toBe(expected));

  // Source: mathjs 15.2 quantileSeq, the same rule
  test.prop([values(1), share])("is that of mathjs", (list, p) => {
    expect(near(quantile(ascending(list), p), quantileSeq(list, p) as number, 1000)).toBe(true);
  });
});

describe("quantile properties", () => {
  test.prop([values(1), share])("leaves its input alone, stays between its ends and meets them exactly", (list, p) => {
    const sorted = Object.freeze(ascending(list));
    const value = quantile(sorted, p);
    expect(value >= sorted[0]! && value <= sorted.at(-1)!).toBe(true);
    expect(quantile(sorted, 0)).toBe(sorted[0]);
    expect(quantile(sorted, 1)).toBe(sorted.at(-1));
  });

  test.prop([values(1), share, share])("rises with p", (list, one, other) => {
    const sorted = ascending(list);
    expect(quantile(sorted, Math.max(one, other))).toBeGreaterThanOrEqual(quantile(sorted, Math.min(one, other)));
  });

  test.prop([values(1), share])("turns with the sign of the values", (list, p) => {
    const sorted = ascending(list);
    const turned = sorted.map((v) => -v).reverse();
    expect(near(quantile(turned, 1 - p), -quantile(sorted, p), 1000)).toBe(true);
  });
});

describe("quantileInPlace", () => {
  // Source: mathjs 15.2 quantileSeq, and the sorted list
  test.prop([values(1), share])("is that of mathjs, and to the bit that of the sorted list", (list, p) => {
    const found = quantileInPlace(Float64Array.from(list), p);
    expect(near(found, quantileSeq(list, p) as number, 1000)).toBe(true);
    expect(found).toBe(quantile(Float64Array.from(ascending(list)), p));
  });
  it("loses the order and no entry", () => {
    const column = Float64Array.of(5, 1, 4, 2, 3);
    quantileInPlace(column, 0.5);
    expect([...column].sort()).toEqual([1, 2, 3, 4, 5]);
    expect(quantileInPlace(new Float64Array(0), 0.5)).toBeNaN();
  });
});

describe("quantile at the edges", () => {
  it("is the only value of a list of one", () => expect(quantile([7], 0.3)).toBe(7));
  it("has no value when the list is empty", () => expect(quantile([], 0.5)).toBeNaN());
});
