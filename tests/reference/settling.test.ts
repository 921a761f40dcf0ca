import { describe, expect, it } from "vitest";
import { minimumJerkPosition } from "../../src/math/minimum-jerk.js";
import { dampingRatio } from "../../src/movement/stop/damping-ratio.js";
import { overshoot } from "../../src/movement/stop/overshoot.js";
import { settlingTime } from "../../src/movement/stop/settling-time.js";
import { swings } from "../../src/movement/stop/swings.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const table = readReference("kinematics/settling.json");
const cases = (start: string): [string, ReferenceCase][] =>
  (table?.cases ?? []).filter((c) => c.name.startsWith(start)).map((c) => [c.name, c]);

/** Unit step response of a damped spring in closed form. */
function step(zeta: number, w: number, t: number): number {
  if (t <= 0) return 0;
  if (zeta === 1) return 1 - Math.exp(-w * t) * (1 + w * t);
  if (zeta < 1) {
    const r = Math.sqrt(1 - zeta * zeta);
    return 1 - Math.exp(-zeta * w * t) * (Math.cos(w * r * t) + (zeta / r) * Math.sin(w * r * t));
  }
  const r = w * Math.sqrt(zeta * zeta - 1);
  return 1 - Math.exp(-zeta * w * t) * (Math.cosh(r * t) + ((zeta * w) / r) * Math.sinh(r * t));
}

function sampled(at: (t: number) => number, t0: number, sampleRateHz: number, seconds: number) {
  const x = Float64Array.from({ length: Math.round(seconds * sampleRateHz) + 1 }, (_, i) => at(t0 + i / sampleRateHz));
  return { x, y: new Float64Array(x.length), t0, sampleRateHz };
}

/** Last time outside `band` of `final`: over a coarse course of the whole, and then closer and closer about what was found, so that a straight line serves. */
function settleExactly(at: (t: number) => number, final: number, band: number, until: number, since: number): number {
  const look = (from: number, to: number, n: number): number => {
    const curve = sampled(at, from, n / (to - from), to - from);
    return from + settlingTime(curve, 0, curve.x.length, { x: final, y: 0 }, band, from);
  };
  const coarse = look(0, until, 20000);
  const close = look(coarse - until / 10000, coarse + until / 10000, 2000);
  const exact = look(close - until / 1e7, close + until / 1e7, 200);
  return Math.max(0, exact - since);
}

/** Extrema of a step by parabolas of 1/1000 of the damped period. */
function extremaOf(zeta: number, w: number, count: number): [number, number][] {
  const period = (2 * Math.PI) / (w * Math.sqrt(1 - zeta * zeta));
  const curve = sampled((t) => step(zeta, w, t), 0, 1000 / period, (count / 2 + 0.2) * period);
  return swings(curve.x, 0, curve.x.length, 1, 0).map(({ index, height }) => [index / curve.sampleRateHz, 1 + height]);
}

// Source: kinematics/settling.json: closed form and root finding (mpmath 1.2.1, 40 digits), checked there against scipy.signal.step.
describe.skipIf(table === undefined)(`settling table (${table === undefined ? SHARED_ABSENT : "present"})`, () => {
  it("has the 18 cases that are tested here", () => expect(table!.cases).toHaveLength(18));

  it.each([...cases("second-order step")])("%s", (_, { input, params, expected, tolerance }) => {
    const { dampingRatio: zeta, naturalRadPerS: w } = params;
    for (const [i, t] of input.t.entries()) expect(within(step(zeta, w, t), expected.x[i], tolerance)).toBe(true);
    for (const [band, time] of Object.entries<number>(expected.settlingTimes)) {
      const found = settleExactly((t) => step(zeta, w, t), 1, Number(band), 10 / (Math.min(zeta, 1 / zeta) * w), 0);
      expect(within(found, time, tolerance)).toBe(true);
      if (expected.settlingTimesTimesDampingTimesFrequency !== undefined) {
        expect(within(found * zeta * w, expected.settlingTimesTimesDampingTimesFrequency[band], tolerance)).toBe(true);
      }
    }
    if (expected.extrema.length === 0) {
      const curve = sampled((t) => step(zeta, w, t) - 1, 0, 1000, 2);
      expect(swings(curve.x, 0, curve.x.length, 0, 1e-12)).toEqual([]);
      expect(dampingRatio(curve.x, 0, curve.x.length, 0, 1e-12)).toBeUndefined();
      expect(overshoot(curve.x, 0, curve.x.length).farthest).toBeLessThan(1e-12);
      return;
    }
    stepExtrema(zeta, w, expected, tolerance);
  });

  it.each(cases("the rule 4"))("%s", (_, { expected, tolerance }) => {
    const settle = (zeta: number, band: number): number => settleExactly((t) => step(zeta, 1, t), 1, band, 10 / zeta, 0);
    for (const [zeta, at2, at5] of expected.table) {
      expect(within(4 / (zeta * settle(zeta, 0.02)) - 1, at2, tolerance)).toBe(true);
      expect(within(3 / (zeta * settle(zeta, 0.05)) - 1, at5, tolerance)).toBe(true);
    }
    const zeta = expected.dampingRatioWhereOvershootIsTwoPercent;
    const log = Math.log(0.02);
    expect(within(-log / Math.sqrt(Math.PI ** 2 + log * log), zeta, tolerance)).toBe(true);
    // the stored limit from below is the time of the first peak, that from above the crossing on the way up
    expect(within(Math.PI / Math.sqrt(1 - zeta * zeta), expected.settlingTimesFrequencyJustBelow, tolerance)).toBe(true);
    const above = settle(zeta + 1e-9, 0.02);
    expect(within(above, expected.settlingTimesFrequencyJustAbove, tolerance)).toBe(true);
    expect(within(4 / (zeta * above) - 1, expected.ruleErrorJustAbove, tolerance)).toBe(true);
    expect(settle(zeta - 1e-6, 0.02)).toBeGreaterThan(expected.settlingTimesFrequencyJustBelow - 0.01);
  });

  it.each(cases("sampled stop"))("%s", (_, { input, params, expected, tolerance }) => {
    const { dampingRatio: zeta, naturalHz, amplitude, onset, sampleRateHz } = params;
    const at = (t: number): number => amplitude * step(zeta, 2 * Math.PI * naturalHz, t - onset);
    const curve = sampled(at, 0, sampleRateHz, (input.n - 1) / sampleRateHz);
    expect(curve.x).toHaveLength(input.n);
    const found = swings(curve.x, 0, input.n, amplitude, 0).slice(0, 4);
    expect(found.map(({ index }) => Math.round(index))).toEqual(expected.extremaSampleIndices);
    for (const [k, { index, height }] of found.entries()) {
      expect(within(index / sampleRateHz, expected.extremaByParabola[k][0], tolerance)).toBe(true);
      expect(within(amplitude + height, expected.extremaByParabola[k][1], tolerance)).toBe(true);
    }
    // between the third swing and the fourth: three remain
    const least = (Math.abs(found[2]!.height) + Math.abs(found[3]!.height)) / 2;
    expect(within(dampingRatio(curve.x, 0, input.n, amplitude, least)!, expected.dampingFromParabolaPeaks, tolerance)).toBe(true);
    expect(Math.abs(dampingRatio(curve.x, 0, input.n, amplitude, least)! - expected.trueDampingRatio)).toBeLessThan(2e-5);
    for (const [share, time] of Object.entries<number>(expected.settlingTimes)) {
      const band = Number(share) * amplitude;
      expect(within(settleExactly(at, amplitude, band, 2, 0), time, tolerance)).toBe(true);
      // on the samples themselves a chord stands for the curve
      expect(Math.abs(settlingTime(curve, 0, input.n, { x: amplitude, y: 0 }, band, 0) - time)).toBeLessThan(0.02 / sampleRateHz + 0.0003);
    }
  });

  it.each(cases("settling of a composed stop"))("%s", (_, { input, params, expected, tolerance }) => {
    const at = (t: number): number =>
      input.components.reduce(
        (sum: number, c: { onset: number; duration: number; amplitude: number; directionDeg: number }) =>
          sum + c.amplitude * Math.cos((c.directionDeg * Math.PI) / 180) * minimumJerkPosition((t - c.onset) / c.duration),
        0,
      );
    const { finalPosition, primaryEnd } = expected;
    const last = settleExactly(at, finalPosition, params.band, 1.2, 0);
    expect(within(last, expected.lastTimeOutsideBand, tolerance)).toBe(true);
    const after = settleExactly(at, finalPosition, params.band, 1.2, primaryEnd);
    expect(within(after, expected.settlingAfterPrimaryEnd, tolerance)).toBe(true);
    const curve = sampled((t) => at(t) - finalPosition, 0, 1000, 1.2);
    expect(within(overshoot(curve.x, 0, curve.x.length).farthest, expected.largestOvershootOfFinal, { rel: 1e-8, abs: 1e-9 })).toBe(true);
  });
});

function stepExtrema(zeta: number, w: number, expected: ReferenceCase["expected"], tolerance: ReferenceCase["tolerance"]): void {
  const count = expected.extrema.length;
  const found = extremaOf(zeta, w, count).slice(0, count);
  // a parabola of a thousandth of a period misses time and height of the exact extremum by what its third and fourth derivative leave
  for (const [k, [t, x]] of expected.extrema.entries()) {
    expect(within((Math.PI * (k + 1)) / (w * Math.sqrt(1 - zeta * zeta)), t, tolerance)).toBe(true);
    // 16 digits do not show where the top of a swing below 1e-9 lies
    if (Math.abs(x - 1) > 1e-9) expect(Math.abs(found[k]![0] - t)).toBeLessThan(2e-5 * expected.dampedPeriod);
    expect(within(found[k]![1], x, tolerance)).toBe(true);
  }
  const r = Math.sqrt(1 - zeta * zeta);
  const log = Math.log(expected.overshoot);
  expect(within(expected.extrema[0][1] - 1, expected.overshoot, tolerance)).toBe(true);
  expect(within(Math.exp((-Math.PI * zeta) / r), expected.overshoot, tolerance)).toBe(true);
  expect(within(expected.extrema[0][0], expected.timeOfFirstPeak, tolerance)).toBe(true);
  expect(within((2 * Math.PI * zeta) / r, expected.logDecrementSameSide, tolerance)).toBe(true);
  expect(within(expected.logDecrementSameSide / 2, expected.logDecrementOppositeSides, tolerance)).toBe(true);
  expect(within(-log / Math.sqrt(Math.PI ** 2 + log * log), expected.dampingFromOvershoot, tolerance)).toBe(true);
  const curve = sampled((t) => step(zeta, w, t) - 1, 0, 1000 / expected.dampedPeriod, 1.7 * expected.dampedPeriod);
  const ratio = dampingRatio(curve.x, 0, curve.x.length, 0, 0)!;
  expect(within(ratio, expected.dampingFromSameSide, { rel: 1e-6, abs: 1e-6 })).toBe(true);
  const { crossing } = overshoot(curve.x, 0, curve.x.length);
  expect(Math.abs(crossing! / curve.sampleRateHz - expected.firstCrossingOfTarget)).toBeLessThan(1e-5 * expected.dampedPeriod);
}
