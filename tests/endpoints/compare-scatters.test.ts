import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { compareScatters, type ScatterComparison } from "../../src/endpoints/compare-scatters.js";
import type { Endpoints } from "../../src/endpoints/types.js";
import type { Estimate } from "../../src/math/estimate.js";
import { createRandom } from "../../src/math/random.js";
import { band } from "../math/estimate-properties.js";
import { DRAWS, drawEndpoints, endpointsArb, endpointsOf, mapped, turn } from "./scatter-draws.js";

type Given = Extract<ScatterComparison, { ok: true }>;

function given(before: Endpoints, after: Endpoints, options = {}): Given {
  const result = compareScatters(before, after, options);
  if (!result.ok) throw new Error(`not given: ${result.why}`);
  return result;
}

const BEFORE: Endpoints = {
  x: Float64Array.of(6.2, -3.1, 9.4, 2.7, -7.8, 12.3, 4.4, -1.6, 8.9, 0.3, 5.1, -4.7),
  y: Float64Array.of(1.4, -2.2, 3.9, 0.8, -1.9, 2.6, -3.3, 0.1, 4.2, -0.7, -2.8, 1.1),
};
const AFTER: Endpoints = {
  x: Float64Array.of(1.2, -2.4, 3.3, 0.4, -1.1, 2.9, -0.6, 1.8, -3.5, 0.9, 2.2, -1.7, 4.1, -0.2, 1.5),
  y: Float64Array.of(-0.9, 1.6, 0.3, -2.1, 0.8, 1.9, -1.4, 0.2, 2.4, -0.5, -1.8, 0.7, 1.1, -0.3, -1.2),
};

/** Endpoints of exactly this mean and covariance: any columns, made orthogonal and then mixed. */
function withMoments(n: number, mean: readonly [number, number], [xx, xy, yy]: readonly [number, number, number]): Endpoints {
  const centred = (column: Float64Array) => {
    const middle = column.reduce((sum, v) => sum + v, 0) / n;
    return column.map((v) => v - middle);
  };
  const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, v, i) => sum + v * b[i]!, 0);
  const unit = (a: Float64Array) => {
    const factor = Math.sqrt((n - 1) / dot(a, a));
    return a.map((v) => v * factor);
  };
  const u = unit(centred(Float64Array.from({ length: n }, (_, i) => i)));
  const raw = centred(Float64Array.from({ length: n }, (_, i) => i * i));
  const share = dot(u, raw) / dot(u, u);
  const v = unit(raw.map((value, i) => value - share * u[i]!));
  const a = Math.sqrt(xx);
  return mapped({ x: u, y: v }, [a, 0, xy / a, Math.sqrt(yy - (xy * xy) / xx)], mean);
}

describe("compareScatters against outside values", () => {
  const result = given(BEFORE, AFTER, { unit: "mm" });

  // Source: use of electricity with and without air conditioning (Johnson and Wichern, recalled), summary and result of the modified
  // Nel and Van der Merwe test (Krishnamoorthy and Yu 2004) as printed in the guide of the R package stests: T2 15.6585, F 7.7261, df 2 and 74.906, p 0.00089
  it("tests a shift as printed for a worked example with 45 and 55 rows", () => {
    const off = withMoments(55, [130, 355], [8632, 19616.7, 55964.5]);
    const on = withMoments(45, [204.4, 556.6], [13825.3, 23823.4, 73107.4]);
    const { bias } = given(off, on);
    expect(bias!.shift).toEqual([expect.closeTo(74.4, 9), expect.closeTo(201.6, 9)]);
    expect(bias!.t2).toBeCloseTo(15.6585, 4);
    expect(bias!.f).toBeCloseTo(7.7261, 4);
    expect(bias!.df).toEqual([2, expect.closeTo(74.906, 3)]);
    expect(bias!.p).toBeCloseTo(0.00089, 6);
  });
  // Source: T2 9.4455 of the example with 16 and 11 rows in Yao 1965, printed in the same guide; degrees of freedom and p by NumPy and SciPy 1.17.1, computed
  it("tests a shift between sets of very unlike covariances", () => {
    const { bias } = given(withMoments(16, [9.82, 15.06], [120, -16.3, 17.8]), withMoments(11, [13.05, 22.57], [81.8, 32.1, 53.8]));
    expect(bias!.t2).toBeCloseTo(9.4455, 4);
    expect(bias!.f).toBeCloseTo(4.480239258264173, 10);
    expect(bias!.df[1]).toBeCloseTo(18.472818221334105, 10);
    expect(bias!.p).toBeCloseTo(0.0259235428078873, 12);
    expect(bias!.verdict).toBe("moved");
  });
  // Source: SciPy 1.17.1 stats.ttest_ind(equal_var=False) with its confidence_interval, computed
  it("gives the Welch intervals of the shift per axis and of the radial error", () => {
    expect(result.bias!.x).toMatchObject({
      value: expect.closeTo(-2.088333333333333, 12),
      interval: [expect.closeTo(-6.119274990576074, 9), expect.closeTo(1.9426083239094085, 9)],
    });
    expect(result.bias!.y).toMatchObject({ interval: [expect.closeTo(-1.9326159761051505, 9), expect.closeTo(1.5059493094384837, 9)] });
    expect(result.accuracy.difference).toEqual({
      ok: true,
      value: expect.closeTo(-3.709901925030031, 12),
      unit: "mm",
      n: 27,
      interval: [expect.closeTo(-6.052815475656935, 9), expect.closeTo(-1.3669883744031273, 9)],
      level: 0.95,
    });
    expect(result.accuracy.p).toBeCloseTo(0.00459886638365029, 12);
    expect(result.accuracy.verdict).toBe("closer");
  });
  // Source: leave-one-out of the logarithms by deleting endpoints one after the other (NumPy 2.4.6), Welch and Satterthwaite's degrees of freedom, SciPy 1.17.1 stats.t
  it("gives the ratio of the bivariate SDs with its jackknife interval", () => {
    expect(result.before.bivariateSd).toBeCloseTo(6.671030768565793, 12);
    expect(result.after.bivariateSd).toBeCloseTo(2.573972286823099, 12);
    expect(result.spread.ratio).toMatchObject({
      value: expect.closeTo(0.38584326412520475, 12),
      unit: "1",
      n: 27,
      interval: [expect.closeTo(0.252988939689496, 11), expect.closeTo(0.5884645575949412, 11)],
    });
  });
  // Source: SciPy 1.17.1 stats.permutation_test of Welch's t of the distances from the marginal medians, 20000 resamples: 0.0006; here its 99 % band
  it("gives the p-value of the permutation test", () => {
    const { spread } = given(BEFORE, AFTER, { permutations: 20000 });
    expect(Math.abs(spread.p! - 0.0006)).toBeLessThan(2.576 * Math.sqrt((2 * 0.0006) / 20000));
    expect(spread).toMatchObject({ permutations: 20000, verdict: "tighter" });
  });
  // Source: the meaning of a level, simulated: equal sets are told apart in 5 % of the runs, and intervals hold the truth in 95 %; the bars
  // are the figures of the page less the binomial 99 % band of 300 runs
  it.each([
    ["normal", 20, 20, 0.95],
    ["normal", 50, 50, 0.95],
    ["normal", 10, 50, 0.95],
    ["skewed", 20, 20, 0.93],
    ["heavyTailed", 20, 20, 0.94],
  ] as const)("keeps its promises for %s scatter of %d and %d endpoints", (kind, n1, n2, bar) => {
    const random = createRandom(23);
    const alarms = { bias: 0, spread: 0 };
    const held = { ratio: 0, accuracy: 0 };
    const inside = (estimate: Estimate, truth: number) =>
      estimate.ok && estimate.interval![0] <= truth && truth <= estimate.interval![1] ? 1 : 0;
    for (let run = 0; run < 300; run++) {
      const before = drawEndpoints(random, n1, DRAWS[kind], [3, 2]);
      const { bias, spread, accuracy } = given(before, drawEndpoints(random, n2, DRAWS[kind], [3, 2]), { permutations: 199, seed: run });
      if (bias!.p < 0.05) alarms.bias++;
      if (spread.p! <= 0.05) alarms.spread++;
      held.ratio += inside(spread.ratio, 1);
      held.accuracy += inside(accuracy.difference, 0);
    }
    expect(alarms.bias / 300).toBeLessThan(0.06 + band(0.06, 300));
    expect(alarms.spread / 300).toBeLessThan(0.05 + band(0.05, 300));
    expect(held.ratio / 300).toBeGreaterThan(bar - band(bar, 300));
    expect(held.accuracy / 300).toBeGreaterThan(bar - band(bar, 300));
  });
});

describe("compareScatters properties", () => {
  const close = (a: number, b: number, scale = 1e-3) => expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-6 * (Math.abs(b) + scale));
  const quick = { permutations: 99 };

  test.prop([endpointsArb(4), endpointsArb(4)])("turns over when the sets are exchanged", (one, other) => {
    const there = compareScatters(one, other, quick);
    const back = compareScatters(other, one, quick);
    expect(back.ok).toBe(there.ok);
    if (!there.ok || !back.ok) return;
    close(back.spread.ratio.ok && there.spread.ratio.ok ? back.spread.ratio.value * there.spread.ratio.value : 0, 1);
    if (there.bias && back.bias) close(back.bias.p, there.bias.p);
    if (there.accuracy.difference.ok && back.accuracy.difference.ok)
      close(back.accuracy.difference.value, -there.accuracy.difference.value);
    expect({ closer: "farther", farther: "closer", notShown: "notShown" }[there.accuracy.verdict]).toBe(back.accuracy.verdict);
  });
  test.prop([endpointsArb(4), endpointsArb(4), fc.integer({ min: -180, max: 180 })])(
    "does not depend on the frame, as far as bias and SDs go",
    (one, other, degrees) => {
      const plain = compareScatters(one, other, quick);
      const turned = compareScatters(mapped(one, turn(degrees)), mapped(other, turn(degrees)), quick);
      if (!plain.ok || !turned.ok) return;
      if (plain.bias && turned.bias) {
        close(turned.bias.t2, plain.bias.t2);
        close(turned.bias.df[1], plain.bias.df[1]);
      }
      if (plain.spread.ratio.ok && turned.spread.ratio.ok) close(turned.spread.ratio.value, plain.spread.ratio.value);
      close(turned.after.meanRadialError, plain.after.meanRadialError);
    },
  );
  test.prop([endpointsArb(4), endpointsArb(4), fc.integer({ min: -50, max: 50 })])(
    "keeps spread apart from bias: a moved set has the spread it had",
    (one, other, by) => {
      const plain = compareScatters(one, other, quick);
      const moved = compareScatters(one, mapped(other, [1, 0, 0, 1], [by, -by]), quick);
      expect(moved.ok).toBe(plain.ok);
      if (plain.ok && moved.ok) expect(moved.spread).toEqual({ ...plain.spread, ratio: expect.anything() });
    },
  );
  test.prop([endpointsArb(0), endpointsArb(0)])("leaves its input alone, and gives plain data that repeat with the seed", (one, other) => {
    const copy = structuredClone([one, other]);
    const result = compareScatters(one, other, quick);
    expect([one, other]).toEqual(copy);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(structuredClone(result)).toEqual(result);
    expect(compareScatters(one, other, quick)).toEqual(result);
  });
  it("says which seed it used, and gives another p-value with another seed", () => {
    const weak = given(drawEndpoints(createRandom(4), 15, DRAWS.normal), drawEndpoints(createRandom(5), 15, DRAWS.normal), { seed: 7 });
    expect(weak.seed).toBe(7);
    expect(given(BEFORE, AFTER).seed).toBe(1);
    const p = (seed: number) => given(BEFORE, mapped(BEFORE, [0.8, 0, 0, 0.9]), { seed }).spread.p;
    expect(p(1)).not.toBe(p(2));
  });
  it("always says that trials are no sessions, and warns of small sets", () => {
    const sets = (n: number) =>
      [drawEndpoints(createRandom(1), n, DRAWS.normal), drawEndpoints(createRandom(2), 60, DRAWS.normal)] as const;
    expect(given(...sets(60)).warnings).toEqual(["trialsAsUnits"]);
    expect(given(...sets(49)).warnings).toEqual(["trialsAsUnits", "fewToCompare"]);
    expect(given(...sets(19)).warnings).toEqual(["trialsAsUnits", "few"]);
  });
  it("takes Welch's t where exchanging would only cost time", () => {
    const random = createRandom(8);
    const before = drawEndpoints(random, 12000, DRAWS.normal);
    const same = given(before, drawEndpoints(random, 9000, DRAWS.normal));
    expect(same.spread).toMatchObject({ permutations: 0, verdict: "notShown" });
    expect(given(before, drawEndpoints(random, 9000, DRAWS.normal, [1.1, 1])).spread).toMatchObject({ permutations: 0, verdict: "wider" });
  });
  it("does not call for small sets, for a set without spread, nor for a shift along a line", () => {
    expect(
      compareScatters(
        BEFORE,
        endpointsOf([
          [1, 2],
          [3, 1],
          [0, 5],
        ]),
      ),
    ).toEqual({ ok: false, why: "tooFew", unit: "px", n: 3 });
    const point = endpointsOf([
      [2, 3],
      [2, 3],
      [2, 3],
      [2, 3],
      [2, 3],
    ]);
    expect(compareScatters(point, BEFORE)).toEqual({ ok: false, why: "noSpread", unit: "px", n: 5 });
    const line = endpointsOf([
      [1, 0],
      [2, 0],
      [3, 0],
      [7, 0],
    ]);
    expect(given(line, mapped(line, [2, 0, 0, 2], [1, 0]))).toMatchObject({ bias: null, spread: { ratio: { value: 2 } } });
  });
});

describe("compareScatters bad input", () => {
  it("names the bad column and the bad option", () => {
    expect(() => compareScatters(BEFORE, { x: Float64Array.of(Number.NaN), y: Float64Array.of(1) })).toThrow(
      /compareScatters: after\.x\[0\] must be finite, got NaN/,
    );
    expect(() => compareScatters(BEFORE, AFTER, { level: 1.2 })).toThrow(/options\.level must be above 0 and below 1, got 1\.2/);
    expect(() => compareScatters(BEFORE, AFTER, { permutations: 10 })).toThrow(
      /options\.permutations must be a whole number at least 99 and at most 100000, got 10/,
    );
    expect(() => compareScatters(BEFORE, AFTER, { seed: 0.5 })).toThrow(/options\.seed must be a whole number .*got 0\.5/);
  });
});
