// What is known of a series before a law is fitted, and how a long one is thinned.
import { describe, expect, it } from "vitest";
import { curveColumns } from "../../../src/learning/curve/columns.js";
import { decayData } from "../../../src/learning/curve/decay-point.js";
import { thinDecay } from "../../../src/learning/curve/thin-decay.js";

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

describe("thinDecay", () => {
  const series = (n: number) => {
    const column = (f: (i: number) => number) => Float64Array.from({ length: n }, (_, i) => f(i));
    return decayData(
      column((i) => i),
      column((i) => 3 + Math.sin(i)),
      column((i) => 1 + (i % 3)),
    );
  };
  it("leaves short series as they are", () => {
    const forty = series(40);
    expect(thinDecay(forty)).toBe(forty);
    expect(thinDecay(series(41)).n).toBeLessThan(41);
  });
  // Source: definition of a weighted mean: groups keep the sums of weights, of weighted lags and of weighted values
  it.each([41, 100, 1999, 2000, 30_000])("keeps the sums of %d values, the first twelve one by one", (n) => {
    const all = series(n);
    const thin = thinDecay(all);
    expect(thin.n).toBeLessThanOrEqual(n < 2000 ? 36 : 84);
    expect(thin.n).toBeGreaterThan(n < 100 ? 30 : n < 2000 ? 34 : 80);
    expect([...thin.lag.subarray(0, 12)]).toEqual([...all.lag.subarray(0, 12)]);
    const sum = (data: typeof all, column: Float64Array) => column.reduce((total, v, i) => total + data.weight[i]! * v, 0);
    expect(thin.weightSum).toBeCloseTo(all.weightSum, 6);
    expect(sum(thin, thin.lag) / sum(all, all.lag)).toBeCloseTo(1, 12);
    expect(sum(thin, thin.value) / sum(all, all.value)).toBeCloseTo(1, 12);
    expect(thin.meanData).toBeCloseTo(all.meanData, 12);
    // groups grow, so that none is much longer than those beside it
    const gaps = Array.from(thin.lag, (at, i) => at - (thin.lag[i - 1] ?? -1));
    expect(gaps.every((gap, i) => i === 0 || gap > 0)).toBe(true);
    expect(gaps.slice(13).every((gap, i) => gap <= 2.5 * gaps[12 + i]!)).toBe(true);
  });
});
