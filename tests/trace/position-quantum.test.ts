import { test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { positionQuantum } from "../../src/trace/condition/position-quantum.js";
import { columns, rowsArb } from "./plain-chain.js";

describe("positionQuantum against outside values", () => {
  // Source: the definition (second implementation).
  test.prop([rowsArb])("is the smallest change of a coordinate", (rows) => {
    const changes = rows
      .slice(1)
      .flatMap(([, x, y], i) => [Math.abs(x - rows[i]![1]), Math.abs(y - rows[i]![2])])
      .filter((change) => change > 0);
    expect(positionQuantum(columns(rows))).toEqual(changes.length === 0 ? undefined : Math.min(...changes));
  });
  it("does not take rounding dust for a step", () => {
    // 0.1 + 0.2 is 4e-17 above 0.3: the pointer came back to where it was
    const rows = [0.3, 0.1, 0.1 + 0.2, 0.3, 0.5].map((x, i) => [i, x, 0] as const);
    expect(positionQuantum(columns(rows))).toBeCloseTo(0.2, 12);
    const turned = Array.from({ length: 100 }, (_, i) => [i, 1e4 + 0.022 * (i % 5), 0] as const);
    expect(positionQuantum(columns(turned))).toBeCloseTo(0.022, 9);
  });
});
