import { describe, expect, it } from "vitest";
import type { Estimate } from "../../src/math/estimate.js";
import { withCoverage } from "../../src/math/interval-coverage.js";
import { meanAbsEstimate } from "../../src/math/mean-abs-estimate.js";
import { meanEstimate } from "../../src/math/mean-estimate.js";
import type { createRandom } from "../../src/math/random.js";
import { rmsEstimate } from "../../src/math/rms-estimate.js";
import { sdEstimate } from "../../src/math/sd-estimate.js";
import { type Held, measure, type Trial } from "../intervals/measure.js";
import { drawShape, type ScatterShape } from "../intervals/shapes.js";
import { band } from "./estimate-properties.js";

const TABLE = [
  [10, 0.95, 0.88, 0.8],
  [50, 0.95, 0.92, 0.91],
] as const;
const estimate = (n: number, level = 0.95): Estimate => ({ ok: true, value: 1, unit: "px", n, interval: [0, 2], level });

describe("withCoverage", () => {
  it("says what was measured at the size nearest below, where that is low", () => {
    expect(withCoverage(estimate(12), TABLE)).toEqual({
      ...estimate(12),
      coverage: { n: 10, normal: 0.95, skewed: 0.88, heavyTailed: 0.8 },
    });
    expect(withCoverage(estimate(4), TABLE)).toMatchObject({ coverage: { n: 10 } });
  });
  it("says nothing where it holds, at another level, and without an interval", () => {
    const without: Estimate[] = [
      estimate(60),
      estimate(12, 0.9),
      { ok: true, value: 1, unit: "px", n: 12 },
      { ok: false, why: "tooFew", unit: "px", n: 1 },
    ];
    for (const plain of without) expect(withCoverage(plain, TABLE)).toEqual(plain);
  });
});

/** Off the centre of the target by this share of the standard deviation. */
const BIAS = 0.3;
const RUNS = 1500;
const sample = (shape: ScatterShape, n: number, random: ReturnType<typeof createRandom>): number[] =>
  Array.from({ length: n }, () => BIAS + drawShape(shape, random));
/** E|v| of each shape from four million draws; that of the normal shape is the closed form of the folded normal, 0.83415. */
const MEAN_SIZE = { normal: 0.8342, skewed: 0.7457, heavyTailed: 0.6918 };

const trials: Trial[] = [
  { truths: { mean: () => BIAS }, estimates: (shape, n, random) => [meanEstimate(sample(shape, n, random), "px")] },
  { truths: { "standard deviation": () => 1 }, estimates: (shape, n, random) => [sdEstimate(sample(shape, n, random), "px")] },
  {
    truths: { "mean size": (shape) => MEAN_SIZE[shape] },
    estimates: (shape, n, random) => [meanAbsEstimate(sample(shape, n, random), "px")],
  },
  {
    truths: { "root mean square": () => Math.hypot(1, BIAS) },
    estimates: (shape, n, random) => [rmsEstimate(sample(shape, n, random), "px")],
  },
];

// Source: definition of coverage, by simulation on shapes fixed beforehand (tests/intervals/shapes.ts)
describe("intervals say their coverage where it is low", () => {
  it.each(trials.map((trial) => [Object.keys(trial.truths)[0]!, trial] as const))("%s", (_, trial) => {
    const found: readonly Held[] = measure(trial, RUNS, 20261126, [5, 10, 20, 50]);
    for (const { n, shape, share, said } of found) {
      if (said === null) expect(share, `${n} ${shape}`).toBeGreaterThan(0.9 - band(0.9, RUNS));
      else expect(Math.abs(share! - said), `${n} ${shape}`).toBeLessThan(band(said, RUNS) + band(said, 8000));
    }
    expect(Math.abs(found.find(({ n, shape }) => n === 50 && shape === "normal")!.share! - 0.95)).toBeLessThan(0.02 + band(0.95, RUNS));
  });
});
