import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { segmentMovements } from "../../src/movement/segment-movements.js";
import { simulateRecording } from "../../src/simulate/index.js";
import type { Trace } from "../../src/trace/types.js";
import { compose } from "./bells.js";

/** A trace of exact components, sampled at `fs`. */
function traceOf(components: Parameters<typeof compose>[0], fs: number, n: number, t0 = 0): Trace {
  const { x, y } = compose(components, fs, n);
  return { t: Float64Array.from({ length: n }, (_, k) => t0 + k / fs), x, y };
}

const one = [{ onset: 0.3013, duration: 0.3, amplitude: 400, directionDeg: 30 }];
const two = [...one, { onset: 0.9013, duration: 0.25, amplitude: 150, directionDeg: 200 }];

describe("segmentMovements against outside values", () => {
  // Source: closed form of minimum jerk, PV = 1.875 A/T at T/2; the 20 Hz filter keeps 99.99 % of it at T = 0.3 s (SciPy, computed).
  it("finds peak speed and its time", () => {
    const { movements, status } = segmentMovements(traceOf(one, 1000, 1000), { quantum: 0.01 });
    expect(status).toBe("ok");
    expect(movements.length).toBe(1);
    expect(movements[0]!.peakSpeed / ((1.875 * 400) / 0.3)).toBeCloseTo(1, 3);
    expect(movements[0]!.peakTime).toBeCloseTo(0.4513, 3);
  });
  // Source: minimum-jerk crossings of 5 % at 0.0594 and 0.9406 of the duration; behind the 20 Hz filter the span above 5 % is 0.882 T (SciPy, computed).
  it("reports the common 5 % crossings beside the extrapolated ends", () => {
    const movement = segmentMovements(traceOf(one, 1000, 1000), { quantum: 0.01 }).movements[0]!;
    expect((movement.endAtThreshold - movement.onsetAtThreshold) / 0.3).toBeCloseTo(0.882, 2);
    expect(Math.abs(movement.onset - 0.3013)).toBeLessThan(0.015 * 0.3 + 0.004);
    expect(Math.abs(movement.end - 0.6013)).toBeLessThan(0.015 * 0.3 + 0.006);
  });
  // Source: displacement and path of the composed movements, closed form.
  it("gives where each movement began and ended, and how far it went", () => {
    const { movements } = segmentMovements(traceOf(two, 500, 700), { quantum: 0.01 });
    expect(movements.length).toBe(2);
    const [a, b] = movements as [(typeof movements)[0], (typeof movements)[0]];
    expect(Math.hypot(a.to.x - a.from.x, a.to.y - a.from.y)).toBeCloseTo(400, 0);
    expect(Math.hypot(b.to.x - b.from.x, b.to.y - b.from.y)).toBeCloseTo(150, 0);
    expect(a.pathLength).toBeCloseTo(400, -1);
  });
});

describe("segmentMovements properties", () => {
  const recording = simulateRecording({ seed: 11, movements: 12, sampleRateHz: 250 }).recording;
  const plain = segmentMovements(recording.trace, { sampleRateHz: 250 });

  it("finds at least one movement per simulated acquisition, in order and not overlapping", () => {
    expect(plain.movements.length).toBeGreaterThanOrEqual(12);
    plain.movements.forEach((movement, k) => {
      expect(movement.onset).toBeLessThan(movement.peakTime);
      expect(movement.peakTime).toBeLessThan(movement.end);
      if (k > 0) expect(movement.peakTime).toBeGreaterThan(plain.movements[k - 1]!.peakTime);
    });
  });

  test.prop([fc.double({ min: -1e5, max: 1e5, noNaN: true }), fc.double({ min: -1e5, max: 1e5, noNaN: true })])(
    "does not change when the scene is shifted",
    (dx, dy) => {
      const shifted = {
        t: recording.trace.t,
        x: recording.trace.x.map((v) => v + Math.round(dx)),
        y: recording.trace.y.map((v) => v + Math.round(dy)),
      };
      const moved = segmentMovements(shifted, { sampleRateHz: 250 });
      expect(moved.movements.length).toBe(plain.movements.length);
      moved.movements.forEach((movement, k) => {
        expect(movement.onset).toBeCloseTo(plain.movements[k]!.onset, 6);
      });
    },
  );

  it("does not change with the zero of time, seconds since 1970 included", () => {
    const late = segmentMovements({ ...recording.trace, t: recording.trace.t.map((t) => t + 1.7e9) }, { sampleRateHz: 250 });
    expect(late.movements.length).toBe(plain.movements.length);
    // near 1.7e9 a double resolves 0.24 microseconds
    late.movements.forEach((movement, k) => {
      expect(Math.abs(movement.onset - 1.7e9 - plain.movements[k]!.onset)).toBeLessThan(5e-4);
    });
  });

  it("turns with the scene", () => {
    const turned = segmentMovements(
      { t: recording.trace.t, x: recording.trace.y.map((v) => -v), y: recording.trace.x },
      { sampleRateHz: 250 },
    );
    expect(turned.movements.map((m) => m.peakSpeed)).toEqual(plain.movements.map((m) => expect.closeTo(m.peakSpeed, 6)));
  });

  it("scales with the unit of length", () => {
    const tenfold = segmentMovements(
      { t: recording.trace.t, x: recording.trace.x.map((v) => 10 * v), y: recording.trace.y.map((v) => 10 * v) },
      { sampleRateHz: 250 },
    );
    expect(tenfold.movements.length).toBe(plain.movements.length);
    expect(tenfold.movements[0]!.peakSpeed / plain.movements[0]!.peakSpeed).toBeCloseTo(10, 9);
  });

  it("leaves its input as it was and survives JSON and structured cloning", () => {
    const before = recording.trace.x.slice();
    const result = segmentMovements(recording.trace, { sampleRateHz: 250 });
    expect(recording.trace.x).toEqual(before);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    expect(structuredClone(result)).toEqual(result);
  });

  it("never reaches across missing samples", () => {
    const trace = traceOf(one, 1000, 1000);
    const keep = Array.from({ length: 1000 }, (_, k) => k).filter((k) => k < 400 || k > 500);
    const pick = (column: Float64Array): Float64Array => Float64Array.from(keep, (k) => column[k]!);
    const broken = segmentMovements({ t: pick(trace.t), x: pick(trace.x), y: pick(trace.y) }, { quantum: 0.01 });
    expect(broken.missing).toBe(1);
    for (const movement of broken.movements) expect(movement.end <= 0.4 || movement.onset >= 0.5).toBe(true);
  });
});

describe("segmentMovements bad input", () => {
  it("refuses a trace whose columns differ in length", () => {
    expect(() => segmentMovements({ t: new Float64Array(3), x: new Float64Array(3), y: new Float64Array(2) })).toThrow(
      /trace\.y must have 3 entries/,
    );
  });
  it("refuses an enter speed of 0 and names it", () => {
    expect(() => segmentMovements(traceOf(one, 250, 250), { enterSpeed: 0 })).toThrow(
      "segmentMovements: options.enterSpeed must be finite and above 0, got 0",
    );
  });
  it("refuses a negative merge gap", () => {
    expect(() => segmentMovements(traceOf(one, 250, 250), { mergeGap: -1 })).toThrow(
      /options\.mergeGap must be at least 0 and at most 10, got -1/,
    );
  });
  it("says so when the recording is too slow for the filter", () => {
    const slow = segmentMovements(traceOf(one, 9, 30), { quantum: 1 });
    expect(slow).toMatchObject({ status: "belowResolution", movements: [] });
  });
  it("says so when nothing moves", () => {
    expect(segmentMovements({ t: Float64Array.of(0, 1), x: new Float64Array(2), y: new Float64Array(2) })).toMatchObject({
      status: "tooFew",
      movements: [],
    });
  });
  it("takes an empty trace for too few samples", () => {
    expect(segmentMovements({ t: new Float64Array(0), x: new Float64Array(0), y: new Float64Array(0) }).status).toBe("tooFew");
  });
});
