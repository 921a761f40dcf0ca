// The parts of rank statistics: ties, the variance of Kendall's S, and the pairs that a sort turns round.
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { kendallVariance } from "../../../src/learning/trend/kendall-variance.js";
import { mergeOrder } from "../../../src/learning/trend/merge-order.js";
import { tieSums } from "../../../src/learning/trend/tie-sums.js";

const column = (...values: number[]) => Float64Array.from(values);

/** Every order of a short list. */
function ordersOf(values: readonly number[]): number[][] {
  if (values.length < 2) return [[...values]];
  return values.flatMap((value, i) => ordersOf([...values.slice(0, i), ...values.slice(i + 1)]).map((rest) => [value, ...rest]));
}

describe("ties and the variance of Kendall's S against outside values", () => {
  // Source: by hand: groups of 3 and 2
  it("counts pairs and triples within groups", () => {
    expect(tieSums(column(1, 1, 1, 2, 5, 5))).toEqual({ pairs: 4, triples: 6, weighted: 3 * 2 * 11 + 2 * 9 });
    expect(tieSums(column(1, 2, 3))).toEqual({ pairs: 0, triples: 0, weighted: 0 });
    expect(tieSums(column())).toEqual({ pairs: 0, triples: 0, weighted: 0 });
    // tied in both columns alone
    expect(tieSums(column(1, 1, 1, 2), column(3, 3, 4, 4)).pairs).toBe(1);
  });
  // Source: definition: the variance of S over all orders of one list, counted order by order
  it.each([
    [
      [1, 2],
      [1, 2],
    ],
    [
      [1, 2, 3, 4, 5],
      [1, 2, 3, 4, 5],
    ],
    [
      [1, 1, 2, 3, 4],
      [1, 2, 3, 4, 5],
    ],
    [
      [1, 1, 1, 2, 3],
      [1, 1, 2, 2, 5],
    ],
    [
      [1, 1, 1, 2],
      [4, 4, 4, 5],
    ],
    [
      [1, 1, 1],
      [1, 2, 3],
    ],
  ])("is that of all orders: %j beside %j", (x, y) => {
    const s = (order: readonly number[]): number => {
      let sum = 0;
      for (let i = 0; i < x.length; i++) for (let j = 0; j < i; j++) sum += Math.sign(x[i]! - x[j]!) * Math.sign(order[i]! - order[j]!);
      return sum;
    };
    const orders = ordersOf(y);
    const variance = orders.reduce((sum, order) => sum + s(order) ** 2, 0) / orders.length;
    const ascending = (list: readonly number[]) => tieSums(Float64Array.from(list).sort());
    expect(kendallVariance(x.length, ascending(x), ascending(y))).toBeCloseTo(variance, 10);
  });
});

describe("mergeOrder properties", () => {
  const keys = fc.array(fc.integer({ min: 0, max: 8 }), { minLength: 1, maxLength: 40 });
  test.prop([keys])("sorts, leaves equal keys as they stand, and counts and hands on every pair turned round", (list) => {
    const key = Float64Array.from(list);
    const order = Int32Array.from(list, (_, i) => i);
    const turned: [number, number][] = [];
    for (let i = 0; i < list.length; i++) for (let j = i + 1; j < list.length; j++) if (list[i]! > list[j]!) turned.push([i, j]);
    const met: [number, number][] = [];
    const ranks = Float64Array.from(turned, (_, k) => k);
    expect(mergeOrder(order, key, ranks, (first, second) => met.push([first, second]))).toBe(turned.length);
    const sorted = list.map((_, i) => i).sort((a, b) => list[a]! - list[b]! || a - b);
    expect([...order]).toEqual(sorted);
    const named = (pairs: [number, number][]) => pairs.map(([a, b]) => `${a} ${b}`).sort();
    expect(named(met)).toEqual(named(turned));
  });
  test.prop([keys, fc.nat()])("hands a pair on as often as its number is asked for", (list, number) => {
    const count = mergeOrder(
      Int32Array.from(list, (_, i) => i),
      Float64Array.from(list),
    );
    if (count === 0) return;
    const rank = number % count;
    const met: [number, number][] = [];
    mergeOrder(
      Int32Array.from(list, (_, i) => i),
      Float64Array.from(list),
      column(rank, rank),
      (first, second) => met.push([first, second]),
    );
    expect(met).toHaveLength(2);
    expect(met[0]).toEqual(met[1]);
    expect(list[met[0]![0]]!).toBeGreaterThan(list[met[0]![1]]!);
  });
});
