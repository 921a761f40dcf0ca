import { describe, expect, it } from "vitest";
import { minimumJerkPosition, minimumJerkSpeed } from "../../src/math/minimum-jerk.js";
import { createRandom } from "../../src/math/random.js";
import { analyzePursuit } from "../../src/pursuit/analyze-pursuit.js";
import { bellsOf } from "../../src/pursuit/following/catch-up.js";
import { isConstant } from "../../src/pursuit/following/chance-correlation.js";
import { describeError } from "../../src/pursuit/following/error-of.js";
import { emptyPair, type FlatPair } from "../../src/pursuit/following/flatten.js";
import { lagByCorrelation } from "../../src/pursuit/following/lag-by-correlation.js";
import { correlations, lagCurve } from "../../src/pursuit/following/lag-curve.js";
import { lagPeak } from "../../src/pursuit/following/lag-peak.js";
import { staysOf } from "../../src/pursuit/following/stays.js";
import type { Stretch } from "../../src/pursuit/following/stretch.js";
import { twoLineBreak } from "../../src/pursuit/following/two-line-break.js";
import { unitsOf } from "../../src/pursuit/following/units.js";
import { differentiate } from "../../src/trace/differentiate.js";
import { isInside } from "../../src/trace/shape/target-shape.js";
import { integerPursuit } from "../pursuit/integer-pursuit.js";
import { recordingOf } from "../pursuit/scene.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const table = readReference("kinematics/pursuit.json");
const cases = (start: string): [string, ReferenceCase][] =>
  (table?.cases ?? []).filter((c) => c.name.startsWith(start)).map((c) => [c.name, c]);

/** One axis of motion as columns; the other rests. */
function pair(q: Float64Array, p: Float64Array): FlatPair {
  return { ...emptyPair(q.length), qx: q, px: p };
}

const velocityOf = (values: Float64Array): Float64Array => differentiate(values, { sampleRateHz: 100 });
const settings = { rate: 100, level: 0.95, seed: 1, resamples: 100 };

/** The correlation at the lags -0.1 to 0.6 s of a whole record at 100 Hz. */
function curveOf(q: Float64Array, p: Float64Array): Float64Array {
  const whole = [{ start: 0, end: q.length }];
  const units = unitsOf({ pieces: whole, rate: 100 });
  return correlations(lagCurve(pair(q, p), whole, units, -10, 60), new Float64Array(units.length).fill(1));
}

/** Signals of a lag case: the integers, or the formulas written in the table. */
function signalsOf({ input, params }: ReferenceCase): { q: Float64Array; p: Float64Array } {
  if (input.signal === "integer-pursuit") {
    const { target, pointer } = integerPursuit();
    return { q: target, p: pointer };
  }
  const { delay } = input;
  expect(params.sampleRateHz).toBe(100);
  const at = (t: number): number =>
    100 * Math.sin(2 * Math.PI * 0.31 * t) + 60 * Math.sin(2 * Math.PI * 0.77 * t + 1) + 30 * Math.sin(2 * Math.PI * 1.43 * t + 2);
  return {
    q: Float64Array.from({ length: 1500 }, (_, k) => at(k / 100)),
    p: Float64Array.from({ length: 1500 }, (_, k) => at(k / 100 - delay)),
  };
}

// Source: kinematics/pursuit.json: closed forms, hand-worked cases, and NumPy 1.24.2 (gradient, corrcoef) on a signal of integers.
describe.skipIf(table === undefined)(`following cases of the pursuit table (${table === undefined ? SHARED_ABSENT : "present"})`, () => {
  it("has the cases that are tested here", () => {
    const names = [
      "constant speed",
      "target drawn",
      "unannounced",
      "two-line",
      "time on target",
      "stays",
      "mean squared",
      "lag:",
      "catch-up",
    ];
    expect(names.flatMap(cases)).toHaveLength(18);
  });

  it.each(cases("constant speed"))("%s", (_, { params, expected, tolerance }) => {
    const errorAt = (pointer: (t: number) => number, t: number): number => pointer(t) - params.speed * t;
    for (const { delay, alongError } of expected.pureDelay) {
      expect(
        within(
          errorAt((t) => params.speed * (t - delay), 5),
          alongError,
          tolerance,
        ),
      ).toBe(true);
    }
    for (const { timeConstant, alongErrorSteady } of expected.firstOrderLag) {
      expect(
        within(
          errorAt((t) => params.speed * (t - timeConstant * (1 - Math.exp(-t / timeConstant))), 20),
          alongErrorSteady,
          tolerance,
        ),
      ).toBe(true);
    }
    const { gain, alongErrorAfter2s } = expected.gainOnly;
    expect(
      within(
        errorAt((t) => gain * params.speed * t, 2),
        alongErrorAfter2s,
        tolerance,
      ),
    ).toBe(true);
  });

  it.each(cases("constant speed"))("%s: what the analysis makes of it", (_, { params, expected }) => {
    for (const { delay, alongError } of expected.pureDelay) {
      const at = (t: number): { x: number; y: number } => ({ x: params.speed * t, y: 0 });
      const [found] = analyzePursuit(recordingOf({ seconds: 8, target: at, pointer: (t) => at(t - delay) }));
      const { error, lag } = found!;
      // a line through both ends of the filter's padding bends by rounding alone
      expect(error.alongMotion.bias).toMatchObject({ ok: true, value: expect.closeTo(alongError, 6) });
      expect(lag.atConstantVelocity).toMatchObject({ ok: true, value: expect.closeTo(delay, 8) });
      expect(lag.byCorrelation).toMatchObject({ ok: false, why: "notIdentified" });
    }
  });

  it.each(cases("target drawn"))("%s", (_, { expected, tolerance }) => {
    for (const [hz, lag] of Object.entries<number>(expected.meanLag)) {
      const at = (t: number): { x: number; y: number } => ({ x: 300 * t, y: 0 });
      const [found] = analyzePursuit(recordingOf({ seconds: 4, target: at, pointer: at }), { targetFrameHz: Number(hz) });
      expect(within(found!.lag.frameLag, lag, tolerance)).toBe(true);
    }
  });

  it.each(cases("unannounced"))("%s", (_, { input, params, expected, tolerance }) => {
    const { speed, delay, reversalAt } = params;
    const q = (t: number): number => (t <= reversalAt ? speed * t : speed * (2 * reversalAt - t));
    input.t.forEach((t: number, i: number) => {
      expect(within(q(t), expected.target[i], tolerance)).toBe(true);
      expect(within(q(t - delay), expected.pointer[i], tolerance)).toBe(true);
      expect(within(q(t - delay) - q(t), expected.errorAlongOldDirection[i], tolerance)).toBe(true);
    });
    expect(expected.timeOfLargest).toBeCloseTo(reversalAt + delay, 9);
    // the same again every two seconds, to and fro, as the analysis sees it
    const fold = (t: number): number => speed * Math.abs(((((t + 1) % 4) + 4) % 4) - 2);
    const at = (t: number): { x: number; y: number } => ({ x: fold(t), y: 0 });
    const corners = [1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23];
    const scene = { seconds: 25, target: at, pointer: (t: number) => at(t - delay), corners, diameter: 150 };
    const { changes } = analyzePursuit(recordingOf(scene))[0]!;
    expect(changes.events).toHaveLength(12 - changes.leftOut);
    expect(changes.events.length).toBeGreaterThanOrEqual(11);
    for (const event of changes.events) {
      expect(event.turnDeg).toBeCloseTo(180, 6);
      // the filter rounds the corner of the pointer off by a few parts in a thousand
      expect(Math.abs(event.overshoot / expected.largestDistanceRunPast - 1)).toBeLessThan(0.01);
      expect(Math.abs(event.errorIntegral / expected.errorIntegralFromReversalOverHalfSecond - 1)).toBeLessThan(0.01);
      // a step of velocity is spread over one sample, 5 ms at 200 Hz
      expect(Math.abs(event.latency! - expected.responseLatency)).toBeLessThan(0.006);
    }
    expect(changes.pooledLatency).toMatchObject({ ok: true, value: expect.closeTo(expected.responseLatency, 2) });
  });

  it.each(cases("two-line"))("%s", (_, { input, params, expected, tolerance }) => {
    const kept = input.t.filter((t: number) => t <= params.fitTo + 1e-9).length;
    const found = twoLineBreak(input.t.slice(0, kept), input.v.slice(0, kept))!;
    expect(within(found.time, expected.breakTime, tolerance)).toBe(true);
    expect(within(found.level, expected.levelBefore, tolerance)).toBe(true);
    expect(within(found.slope, expected.slopeAfter, tolerance)).toBe(true);
  });

  it.each(cases("time on target, centred"))("%s", (_, { expected }) => {
    for (const { W, s, share } of expected.table) expect(Math.abs(shareOnTarget(W, s, 0) - share)).toBeLessThan(drawingError(share));
  });

  it.each(cases("time on target, circular"))("%s", (_, { expected }) => {
    for (const { W, s, meanError, share } of expected.table) {
      expect(Math.abs(shareOnTarget(W, s, meanError) - share)).toBeLessThan(drawingError(share));
    }
  });

  it.each(cases("time on target, sinusoidal"))("%s", (_, { expected }) => {
    const n = 100_000;
    for (const { W, amplitude, share } of expected.table) {
      const inside = Uint8Array.from({ length: n }, (_, k) =>
        Number(isInside({ kind: "circle", diameter: W }, amplitude * Math.sin((2 * Math.PI * (k + 0.5)) / n), 0, 1)),
      );
      const held = staysOf(inside, 0, n, n).stays.reduce((sum, stay) => sum + stay, 0);
      // samples of 1/100000 of the period, four borders
      expect(Math.abs(held - share)).toBeLessThan(5e-5);
    }
  });

  it.each(cases("stays"))("%s", (_, { input, params, expected, tolerance }) => {
    const { stays, absences } = staysOf(input.inside, 0, input.inside.length, params.sampleRateHz);
    const middle = (values: readonly number[]): number => {
      const sorted = [...values].sort((a, b) => a - b);
      return (sorted[(sorted.length - 1) >> 1]! + sorted[sorted.length >> 1]!) / 2;
    };
    stays.forEach((stay, k) => {
      expect(within(stay, expected.stays[k], tolerance)).toBe(true);
    });
    absences.forEach((absence, k) => {
      expect(within(absence, expected.absences[k], tolerance)).toBe(true);
    });
    expect([stays.length, absences.length]).toEqual([expected.entries, expected.absences.length]);
    expect(within(middle(stays), expected.medianStay, tolerance)).toBe(true);
    expect(within(middle(absences), expected.medianAbsence, tolerance)).toBe(true);
    expect(within(Math.max(...stays), expected.longestStay, tolerance)).toBe(true);
    const share = (stays.reduce((sum, stay) => sum + stay, 0) * params.sampleRateHz) / input.inside.length;
    expect(within(share, expected.timeOnTarget, tolerance)).toBe(true);
    expect(within(input.inside.indexOf(1) / params.sampleRateHz, expected.timeToFirstEntry, tolerance)).toBe(true);
  });

  it.each(cases("mean squared"))("%s", (_, { input, expected, tolerance }) => {
    const along = Float64Array.from(input.along);
    const across = Float64Array.from(input.across);
    const n = along.length;
    const columns = { x: along, y: across, along, across, speed: new Float64Array(n).fill(1), moves: new Uint8Array(n).fill(1) };
    const stretch = { pieces: [{ start: 0, end: n }] } as unknown as Stretch;
    const found = describeError(stretch, [], columns, undefined, "px", 0.95);
    const close = (estimate: { ok: boolean; value?: number }, value: number): void => {
      expect(estimate.ok && within(estimate.value!, value, tolerance)).toBe(true);
    };
    close(found.alongMotion.bias, expected.biasAlong);
    close(found.acrossMotion.bias, expected.biasAcross);
    close(found.meanSquare, expected.meanSquare);
    close(found.squaredBias, expected.squaredBias);
    close(found.variance, expected.variance);
    close(found.rms, expected.rms);
  });

  it.each([...cases("lag: integer"), ...cases("lag: three")])("%s", (_, one) => {
    const { params, expected, tolerance } = one;
    const { q, p } = signalsOf(one);
    const curve = params.signal === "position" ? curveOf(q, p) : curveOf(velocityOf(q), velocityOf(p));
    const peak = lagPeak(curve);
    expect(peak.index - 10).toBe(expected.lagSamples);
    expect(within((peak.refined - 10) / 100, expected.lagRefined, tolerance)).toBe(true);
    expect(within(peak.height, expected.peakCorrelation, tolerance)).toBe(true);
    expect(within(curve[peak.index - 1]!, expected.neighbours[0], tolerance)).toBe(true);
    expect(within(curve[peak.index + 1]!, expected.neighbours[1], tolerance)).toBe(true);
    expect(peak.atEdge).toBe(expected.atEdge);
    const others = [...curve.keys()].filter(
      (k) => k > 0 && k < curve.length - 1 && curve[k]! > curve[k - 1]! && curve[k]! > curve[k + 1]! && Math.abs(k - peak.index) > 2,
    );
    if (expected.secondBestDistinct === null) expect(others).toEqual([]);
    else expect(within(Math.max(...others.map((k) => curve[k]!)), expected.secondBestDistinct, tolerance)).toBe(true);
    if (params.signal === "position") return;
    const whole = [{ start: 0, end: q.length }];
    const { lag } = lagByCorrelation(pair(velocityOf(q), velocityOf(p)), whole, unitsOf({ pieces: whole, rate: 100 }), settings);
    expect(lag.ok && within(lag.value, expected.lagRefined, tolerance)).toBe(true);
  });

  it.each(cases("lag: periodic"))("%s", (_, { expected, tolerance }) => {
    const wave = (delay: number): Float64Array => Float64Array.from({ length: 1500 }, (_, k) => Math.sin(4 * Math.PI * (k / 100 - delay)));
    const [q, p] = [velocityOf(wave(0)), velocityOf(wave(0.05))];
    const whole = [{ start: 0, end: q.length }];
    const found = lagByCorrelation(pair(q, p), whole, unitsOf({ pieces: whole, rate: 100 }), settings);
    expect(expected.status).toBe("ambiguous");
    expect(found.lag).toMatchObject({ ok: false, why: "notIdentified" });
    expect(found.candidates).toHaveLength(2);
    found.candidates.forEach((lag, k) => {
      expect(within(lag, expected.candidates[k], tolerance)).toBe(true);
    });
    const curve = curveOf(q, p);
    expect(within(curve[15]!, expected.correlations[0], tolerance)).toBe(true);
    expect(within(curve[65]!, expected.correlations[1], tolerance)).toBe(true);
  });

  it.each(cases("lag: target at rest"))("%s", (_, { expected, tolerance }) => {
    const line = (delay: number): Float64Array => Float64Array.from({ length: 1000 }, (_, k) => 50 * (k / 100 - delay));
    const whole = [{ start: 0, end: 1000 }];
    const velocity = pair(velocityOf(line(0)), velocityOf(line(0.1)));
    expect(isConstant(velocity, whole)).toBe(true);
    expect(lagByCorrelation(velocity, whole, unitsOf({ pieces: whole, rate: 100 }), settings).lag).toMatchObject({
      ok: false,
      why: "notIdentified",
    });
    const still = lagByCorrelation(emptyPair(1000), whole, unitsOf({ pieces: whole, rate: 100 }), settings).lag;
    expect(still).toMatchObject({ ok: false, why: "notIdentified" });
    expect(expected.status).toBe("undetermined");
    expect(within(-(line(0.1)[500]! - line(0)[500]!) / 50, expected.lagFromMeanAlongError, tolerance)).toBe(true);
  });

  it.each(cases("catch-up"))("%s", (_, { input, params, expected, tolerance }) => {
    const starts = [0.4, 0.9, 1.4, 1.9, 2.4];
    const error = (t: number): number => -30 * t + starts.reduce((sum, s) => sum + 15 * minimumJerkPosition((t - s) / 0.2), 0);
    const velocityError = (t: number): number => -30 + starts.reduce((sum, s) => sum + (15 / 0.2) * minimumJerkSpeed((t - s) / 0.2), 0);
    input.t.forEach((t: number, i: number) => {
      expect(within(error(t), expected.error[i], tolerance)).toBe(true);
      expect(within(velocityError(t), expected.velocityError[i], tolerance)).toBe(true);
    });
    starts.forEach((s, k) => {
      expect(within(error(s), expected.errorAtStarts[k], tolerance)).toBe(true);
    });
    // the detector on the exact speed beside steady following, which is 270
    const speed = Float64Array.from({ length: 2601 }, (_, k) => velocityError(k / 1000) + 30);
    const bells = bellsOf(speed, 0, speed.length, 20, 0, 60);
    expect(bells).toHaveLength(expected.bells);
    bells.forEach(({ peak }, k) => {
      expect(peak / 1000).toBeCloseTo(expected.bellPeakTimes[k], 9);
    });
    bells.slice(1).forEach(({ peak }, k) => {
      expect((peak - bells[k]!.peak) / 1000).toBeCloseTo(expected.interval, 9);
    });
    expect(within(Math.max(...speed) - 30, expected.largestVelocityError, tolerance)).toBe(true);
    expect(params.duration).toBe(2.6);
    expect(within((270 * 2.6) / (270 * 2.6 + 75), expected.smoothShare, tolerance)).toBe(true);
  });

  it.each(cases("catch-up"))("%s: what the analysis makes of a long one", (_, { expected }) => {
    // the same again and again for 12 s; the first bells fall into the phase that is left out
    const starts = Array.from({ length: 23 }, (_, k) => 0.4 + 0.5 * k);
    const pointer = (t: number): { x: number; y: number } => ({
      x: 270 * t + starts.reduce((sum, s) => sum + 15 * minimumJerkPosition((t - s) / 0.2), 0),
      y: 0,
    });
    const recording = recordingOf({ seconds: 12, target: (t) => ({ x: 300 * t, y: 0 }), pointer, diameter: 40 });
    const { catchUp, samples } = analyzePursuit(recording)[0]!;
    const inside = starts.filter((s) => s > samples.from && s + 0.2 < samples.to);
    expect(catchUp.movements).toHaveLength(inside.length);
    expect(catchUp.away).toBe(0);
    catchUp.movements.forEach(({ peak, error, dx }, k) => {
      expect(Math.abs(peak - inside[k]! - 0.1)).toBeLessThan(0.006);
      // a bell is seen to begin when it has a tenth of its height: 1.5 px of the 15 are made by its both ends, 3 px of way lie between
      expect(Math.abs(dx - 15)).toBeLessThan(1.5);
      expect(Math.abs(error + expected.errorAtStarts[0])).toBeLessThan(1.5);
    });
    expect(catchUp.interval).toMatchObject({ ok: true, value: expect.closeTo(expected.interval, 2) });
    expect(catchUp.smoothShare).toMatchObject({ ok: true, value: expect.closeTo(expected.smoothShare, 1.7) });
  });
});

const DRAWS = 40_000;

/** Share of draws of a circular normal error about `mean` that lie on a round target. */
function shareOnTarget(W: number, s: number, mean: number): number {
  const random = createRandom(7);
  const inside = Uint8Array.from({ length: DRAWS }, () =>
    Number(isInside({ kind: "circle", diameter: W }, random.normal(mean, s), random.normal(0, s), 1)),
  );
  return staysOf(inside, 0, DRAWS, DRAWS).stays.reduce((sum, stay) => sum + stay, 0);
}

/** Four standard errors of a share of that many draws. */
function drawingError(share: number): number {
  return 4 * Math.sqrt((share * (1 - share)) / DRAWS);
}
