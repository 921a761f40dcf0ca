// What is known of a series before a law is fitted.
import { describe, expect, it } from "vitest";
import { curveColumns } from "../../../src/learning/curve/columns.js";

describe("curveColumns", () => {
  // Source: by hand
  it("counts amounts that differ, their smallest step, and the range of the values", () => {
    const found = curveColumns("f", { practice: [1, 1, 4, 6, 6, 9], value: [5, 3, 4, 2, 8, 6] });
    expect(found).toMatchObject({ n: 6, distinct: 4, step: 2, low: 2, high: 8, weighted: false, weightSum: 6 });
    expect([...found.weight]).toEqual([1, 1, 1, 1, 1, 1]);
    const weighted = curveColumns("f", { practice: [1, 2], value: [5, 3], trials: [3, 4] });
    expect(weighted).toMatchObject({ weighted: true, weightSum: 7, distinct: 2, step: 1 });
    expect(curveColumns("f", { practice: [7, 7, 7], value: [1, 2, 3] })).toMatchObject({ distinct: 1, step: 0 });
    expect(curveColumns("f", { practice: [], value: [] })).toMatchObject({ n: 0, distinct: 0, step: 0, weightSum: 0 });
  });
  it("keeps what it was given as it was", () => {
    const practice = Float64Array.of(1, 2);
    const found = curveColumns("f", { practice, value: [5, 3] });
    found.practice[0] = 9;
    expect(practice[0]).toBe(1);
  });
  it.each([
    [{ practice: [0, 1], value: [1, 1] }, "f: series.practice[0] must be above 0 for this law, got 0"],
    [{ practice: [2, 1], value: [1, 1] }, "f: series.practice[1] must be at least the entry before, 2, got 1"],
    [{ practice: [1, 2], value: [1] }, "f: series.value must have 2 entries like practice, got 1"],
    [{ practice: [1, 2], value: [1, 1], trials: [1] }, "f: series.trials must have 2 entries like practice, got 1"],
    [{ practice: [1, 2], value: [1, 1], trials: [1, 0] }, "f: series.trials[1] must be above 0, got 0"],
    [null, "f: series must be an object of columns, got null"],
  ])("refuses %j", (series, words) => {
    expect(() => curveColumns("f", series as never, 0)).toThrow(words);
  });
});
