import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { lateRecords } from "../../../src/learning/trend/records.js";
import { orders, same, valuesArb } from "./series.js";

describe("lateRecords against outside values", () => {
  // Source: textbook: in a random order the best of n is among the last k with chance k/n
  it.each([
    [10, 3],
    [40, 5],
    [200, 199],
  ])("gives one record among %d the chance that the best of all is among the last %d", (n, last) => {
    const values = Float64Array.from({ length: n }, (_, i) => (i === n - 1 ? -1 : i));
    expect(lateRecords(values, last, "lower")).toEqual({ count: 1, chance: expect.closeTo(last / n, 13) });
  });

  // Source: definition, every order of 6 values looked at
  it.each([1, 2, 3, 5])("has the share of all orders with as many records among the last %d", (last) => {
    const counts = orders([0, 1, 2, 3, 4, 5]).map((order) => {
      const isRecord = (i: number): boolean => order.slice(0, i).every((value) => value > order[i]!);
      return { order, count: order.filter((_, i) => i >= 6 - last && isRecord(i)).length };
    });
    for (const { order, count } of counts.filter((_, i) => i % 7 === 0)) {
      const share = counts.filter((other) => other.count >= count).length / counts.length;
      expect(lateRecords(Float64Array.from(order), last, "lower")).toEqual({ count, chance: expect.closeTo(share, 12) });
    }
  });

  // Source: closed form: n falling values are n records, with chance 1/n! of all orders; the last k of them (n - k)!/n!
  it("keeps the digits of a small chance", () => {
    const falling = Float64Array.from({ length: 20 }, (_, i) => -i);
    expect(lateRecords(falling, 10, "lower").chance * (20 * 19 * 18 * 17 * 16 * 15 * 14 * 13 * 12 * 11)).toBeCloseTo(1, 12);
  });
});

describe("lateRecords properties", () => {
  test.prop([valuesArb(2), fc.nat(38)])("sees the same from the other side of zero, and leaves its input alone", (values, k) => {
    const copy = values.slice();
    const last = 1 + (k % (values.length - 1));
    const result = lateRecords(values, last, "lower");
    expect(
      lateRecords(
        values.map((value) => -value),
        last,
        "higher",
      ),
    ).toEqual(result);
    expect(result.chance > 0 && result.chance <= 1).toBe(true);
    expect(result.count === 0 ? result.chance : 1).toBe(1);
    expect(same(values, copy)).toBe(true);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
  });
});

describe("lateRecords bad input", () => {
  it("counts no ties, and nothing among no values", () => {
    expect(lateRecords(Float64Array.of(3, 2, 2, 2), 2, "lower")).toEqual({ count: 0, chance: 1 });
    expect(lateRecords(Float64Array.of(3, 2, 1), 0, "lower")).toEqual({ count: 0, chance: 1 });
  });
});
