import { describe, expect, it } from "vitest";
import { pairwiseCorrelation } from "../../src/movement/repetition/pairwise-correlation.js";
import { speedWindows } from "../../src/movement/repetition/speed-windows.js";
import { consistencyOf } from "../../src/movement/summary/consistency.js";
import { rowOf } from "./rows.js";

const flat = (t0: number, n = 21) => ({
  t0,
  sampleRateHz: 10,
  x: new Float64Array(n),
  y: new Float64Array(n),
  speed: Float64Array.from({ length: n }, (_, i) => t0 + i / 10),
});
describe("speedWindows against outside values", () => {
  // Source: speed equals time on these segments (0 to 2 s, 10 to 12 s), so that a window reads its own clock over the peak, 2
  const windowAt = (stop: number) =>
    speedWindows([rowOf(0, {}, { peakSpeed: 2 })], [flat(0), flat(10)] as never, [-0.5, 0], () => stop).map((w) => [...w]);
  it.each([
    [0.4, []],
    [1, [[0.25, 0.5]]],
    [2.05, [[0.775, 1]]],
    [2.2, []],
    [9.9, []],
    [10.2, []],
    [11, [[5.25, 5.5]]],
    [12.3, []],
  ])("at %d s", (stop, expected) => {
    const found = windowAt(stop);
    expect(found).toHaveLength(expected.length);
    for (const [k, window] of expected.entries()) for (const [i, v] of window.entries()) expect(found[k]![i]).toBeCloseTo(v, 9);
  });
});

describe("pairwiseCorrelation against outside values", () => {
  // Source: jackknife about the whole written out by leaving each profile out of all pairs; Student's quantile for 3 degrees at 95 %: 3.182446 (handbook table)
  it("has the interval of leaving profiles out", () => {
    const all = [
      [1, 2, 4, 3],
      [1, 3, 2, 5],
      [2, 1, 4, 4],
      [0, 2, 3, 7],
    ].map((p) => Float64Array.from(p));
    const r = (a: Float64Array, b: Float64Array): number => {
      const mean = (v: Float64Array): number => v.reduce((s, x) => s + x, 0) / 4;
      const cross = (p: Float64Array, q: Float64Array): number => p.reduce((s, x, i) => s + (x - mean(p)) * (q[i]! - mean(q)), 0);
      return cross(a, b) / Math.sqrt(cross(a, a) * cross(b, b));
    };
    const z = (of: readonly Float64Array[]): number => {
      const pairs = of.flatMap((a, i) => of.slice(i + 1).map((b) => Math.atanh(r(a, b))));
      return pairs.reduce((s, v) => s + v, 0) / pairs.length;
    };
    const squares = all.reduce((s, _, i) => s + (z(all.filter((_, k) => k !== i)) - z(all)) ** 2, 0);
    const half = 3.182446 * Math.sqrt((3 / 4) * squares);
    const found = pairwiseCorrelation(all, 2, 0.95);
    if (!found.ok) throw new Error("not ok");
    expect(found.value).toBeCloseTo(Math.tanh(z(all)), 12);
    expect(found.interval![0]).toBeCloseTo(Math.tanh(z(all) - half), 5);
    expect(found.interval![1]).toBeCloseTo(Math.tanh(z(all) + half), 5);
  });
});

describe("consistency that cannot be told", () => {
  it("gives the robust SD's reason", () => {
    expect(consistencyOf([2, 2, 2], "s", 0.95).robustSd).toEqual({ ok: false, why: "noSpread", unit: "s", n: 3 });
    expect(consistencyOf([2], "s", 0.95).robustSd).toEqual({ ok: false, why: "tooFew", unit: "s", n: 1 });
  });
});
