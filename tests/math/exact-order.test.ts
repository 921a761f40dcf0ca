import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { exactOrder, type TourKind } from "../../src/math/exact-order.js";

const KINDS: readonly TourKind[] = ["fromFirst", "open", "closed"];

function orders(items: readonly number[]): number[][] {
  if (items.length < 2) return [[...items]];
  return items.flatMap((item) => orders(items.filter((other) => other !== item)).map((rest) => [item, ...rest]));
}

function costOf(order: readonly number[], cost: (a: number, b: number) => number, kind: TourKind): number {
  let sum = kind === "closed" && order.length > 1 ? cost(order[order.length - 1]!, order[0]!) : 0;
  for (let i = 1; i < order.length; i++) sum += cost(order[i - 1]!, order[i]!);
  return sum;
}

describe("exactOrder", () => {
  const costs = fc.integer({ min: 1, max: 6 }).chain((n) =>
    fc.record({
      n: fc.constant(n),
      table: fc.array(fc.double({ min: 0, max: 10, noNaN: true }), { minLength: n * n, maxLength: n * n }),
      kind: fc.constantFrom(...KINDS),
    }),
  );

  // Source: every order tried; costs that differ in the two directions
  test.prop([costs])("costs no more than any order, whichever way a step is dearer", ({ n, table, kind }) => {
    const cost = (a: number, b: number): number => table[a * n + b]!;
    const found = exactOrder(n, cost, kind);
    expect([...found].sort((a, b) => a - b)).toEqual(Array.from({ length: n }, (_, i) => i));
    if (kind === "fromFirst") expect(found[0]).toBe(0);
    const all = orders(Array.from({ length: n }, (_, i) => i)).filter((order) => kind !== "fromFirst" || order[0] === 0);
    const least = Math.min(...all.map((order) => costOf(order, cost, kind)));
    expect(costOf(found, cost, kind)).toBeCloseTo(least, 9);
  });

  it("gives nothing for nothing", () => {
    expect(exactOrder(0, () => 1, "fromFirst")).toEqual([]);
    expect(exactOrder(1, () => 1, "open")).toEqual([0]);
  });
});
