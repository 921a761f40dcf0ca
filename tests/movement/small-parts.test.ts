import { describe, expect, it } from "vitest";
import { departureAfter } from "../../src/movement/acquisition/departure.js";
import { motionOver } from "../../src/movement/acquisition/motion.js";
import { describeBells, primaryOf } from "../../src/movement/bell/describe-bells.js";
import { type BellFit, residualOf, summedSpeedError, type WeightedProfile } from "../../src/movement/bell/fit-bells.js";
import { fallAfter, riseBefore } from "../../src/movement/bell/onset.js";
import { placeBells } from "../../src/movement/bell/place-bells.js";
import { pairwiseCorrelation } from "../../src/movement/repetition/pairwise-correlation.js";
import { speedWindows } from "../../src/movement/repetition/speed-windows.js";
import { swings } from "../../src/movement/stop/swings.js";
import { consistencyOf } from "../../src/movement/summary/consistency.js";
import { compose } from "./bells.js";
import { rowOf } from "./rows.js";

/** Two planted bells, 3-4-5 and 5-12-13, so that no direction hides a sign. */
const fit: BellFit = {
  kinds: ["minimumJerk", "minimumJerk"],
  parameters: Float64Array.of(0.5, 0.2, 0.1, 0.4),
  dx: Float64Array.of(-5, 300),
  dy: Float64Array.of(12, 400),
  residualSum: 0,
  converged: true,
  reason: "stepTolerance" as never,
};
const degrees = (dx: number, dy: number): number => (Math.atan2(dy, dx) * 180) / Math.PI;
const exact = compose(
  [
    { onset: 0.5, duration: 0.2, amplitude: 13, directionDeg: degrees(-5, 12) },
    { onset: 0.1, duration: 0.4, amplitude: 500, directionDeg: degrees(300, 400) },
  ],
  200,
  200,
);
const profile: WeightedProfile = { ...exact, step: 1 / 200, weights: new Float64Array(200).fill(1), minDuration: 0.08, maxDuration: 1 };

// Source: the planted bells themselves; peak speed of minimum jerk 1.875 amplitudes a duration (closed form)
describe("planted bells of unlike directions", () => {
  it("are described in order of onset", () => {
    const [first, second] = describeBells(fit, 10);
    expect(first).toMatchObject({ dx: 300, dy: 400, amplitude: 500, duration: 0.4 });
    expect(second).toMatchObject({ dx: -5, dy: 12, amplitude: 13, duration: 0.2 });
    expect([first!.onset, first!.peakTime, second!.onset].map((v) => Number(v.toFixed(9)))).toEqual([10.1, 10.3, 10.5]);
    expect(first!.peakSpeed).toBeCloseTo((1.875 * 500) / 0.4, 9);
    expect(Object.is(describeBells({ ...fit, dx: Float64Array.of(-0, 300) }, 0)[1]!.dx, 0)).toBe(true);
  });
  it("leave nothing of the velocity, nor of the speed where they do not overlap", () => {
    for (const rest of residualOf(profile, fit)) for (const v of rest) expect(Math.abs(v)).toBeLessThan(1e-9);
    expect(summedSpeedError(profile, fit)).toBeLessThan(1e-15);
  });
  it("are placed largest first, and the second once the first is known", () => {
    const middle = ({ onset, duration }: { onset: number; duration: number }): number => onset + duration / 2;
    expect(Math.abs(middle(placeBells(profile, undefined, 1)[0]!) - 0.3)).toBeLessThan(0.03);
    const one: BellFit = {
      ...fit,
      kinds: ["minimumJerk"],
      parameters: Float64Array.of(0.1, 0.4),
      dx: Float64Array.of(300),
      dy: Float64Array.of(400),
    };
    expect(Math.abs(middle(placeBells(profile, one, 1)[0]!) - 0.6)).toBeLessThan(0.03);
  });
  it("have a primary that covers half of the way, exactly half included", () => {
    const bell = (dx: number) => ({ onset: 0, duration: 1, dx, dy: 0, amplitude: Math.abs(dx), peakSpeed: 1, peakTime: 0 });
    expect(primaryOf([bell(50), bell(50)])).toBe(0);
    expect(primaryOf([bell(49), bell(51)])).toBe(1);
  });
});

// Source: worked by hand on straight lines
describe("instants on straight lines", () => {
  it("looks no further than its limit", () => {
    const up = Float64Array.of(9, 8, 50, 100);
    expect(riseBefore(up, 3, 2, 0.2, 0.3).crossing).toBe(2);
    expect(fallAfter(up.slice().reverse(), 0, 2, 0.2, 0.3).crossing).toBe(1);
  });
  it("finds a departure where the ramp began, whatever the grid", () => {
    // 10 Hz steps of a ramp from 0 at 1.0 s, 100 a second: leaving 10 at 1.1 s, a quarter at 1.025 s: 2 * 1.025 - 1.1 = 0.95
    const rateHz = 1000;
    const speed = Float64Array.from({ length: 2001 }, (_, i) => Math.max(0, (i - 1000.5) / 10));
    const left = departureAfter({ speed, t0: 0, sampleRateHz: rateHz } as never, 0.5, 2, 100, 0);
    expect(left).toBeCloseTo(0.9505, 9);
  });
  it("reads the nearest sample where a stretch holds none", () => {
    const line = { t0: 0, sampleRateHz: 10, x: Float64Array.of(0, 1, 2, 3), y: new Float64Array(4), speed: Float64Array.of(5, 6, 7, 9) };
    const motion = motionOver([line as never], 0, 0.3)!;
    expect(motion.meanSpeed(0.21, 0.23)).toBe(7);
    expect(motion.meanSpeed(0.1, 0.3)).toBeCloseTo(22 / 3, 12);
  });
  it("takes no top below the least height for a swing", () => {
    expect(swings(Float64Array.of(0, 3, 0, -0.5, 0, 2, 0), 0, 7, 0, 1).map(({ index }) => index)).toEqual([1]);
  });
});

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
