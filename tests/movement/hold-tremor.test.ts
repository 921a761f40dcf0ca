import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/math/random.js";
import { analyze } from "../../src/movement/analyze.js";
import { holdTremor } from "../../src/movement/hold-tremor.js";
import { simulateRecording } from "../../src/simulate/index.js";
import type { Mark, Recording } from "../../src/trace/types.js";

interface Hold {
  readonly hz?: number;
  readonly amplitude?: number;
  readonly seconds?: number;
  readonly rate?: number;
  readonly quantum?: number;
  readonly drift?: number;
  readonly t0?: number;
  readonly marks?: readonly Mark[];
}

/** Nothing but holding still: a circle of the given radius and frequency on a wandering path. */
function hold({
  hz = 9,
  amplitude = 0.4,
  seconds = 20,
  rate = 250,
  quantum = 0.01,
  drift = 0.02,
  t0 = 0,
  marks = [],
}: Hold = {}): Recording {
  const random = createRandom(6);
  const n = seconds * rate;
  let wander = 0;
  const round = (v: number): number => Math.round(v / quantum) * quantum;
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    wander += random.normal(0, drift);
    x[i] = round(wander + amplitude * Math.sin((2 * Math.PI * hz * i) / rate));
    y[i] = round(amplitude * Math.cos((2 * Math.PI * hz * i) / rate));
  }
  const t = Float64Array.from({ length: n }, (_, i) => t0 + i / rate);
  return {
    schema: 1,
    space: { kind: "plane", unit: "px" },
    device: "hand",
    trace: { t, x, y },
    presses: [],
    targets: [],
    trials: [],
    marks,
  };
}
const value = (estimate: { ok: boolean; value?: number }): number => (estimate.ok ? estimate.value! : Number.NaN);
const none = (why: string) => ({ ok: false, why });

describe("holdTremor against outside values", () => {
  // Source: closed form: a circle of radius a has the root mean square distance a from its centre, at its own frequency.
  it.each([6.6, 7.3, 8.2, 9.1, 10.4, 11.3])("finds size and frequency of a circle at %d Hz on a wandering path", (hz) => {
    const found = holdTremor(hold({ hz }));
    expect(value(found.rms)).toBeCloseTo(0.4, 1.9);
    expect(Math.abs(value(found.peakHz) - hz)).toBeLessThan(0.05);
    expect(Math.abs(value(found.meanHz) - hz)).toBeLessThan(0.05);
    expect(value(found.bandShare)).toBeGreaterThan(0.9);
  });
  // Source: SciPy 1.17.1 signal.welch (hann, nperseg 250, detrend "linear") of 2500 samples of the integer generator s = (1664525 s + 1013904223) mod 2^32 from 1, u = s/2^32
  // less 1/2, twice summed over four; computed on the same numbers, one segment cut, root of the summed density over 6 to 12 Hz.
  it("has the band power that SciPy's welch gives", () => {
    let s = 1;
    const next = (): number => {
      s = (Math.imul(1664525, s) + 1013904223) >>> 0;
      return s / 2 ** 32 - 0.5;
    };
    const u = Float64Array.from({ length: 2503 }, next);
    const x = Float64Array.from({ length: 2500 }, (_, i) => u[i]! + u[i + 1]! + u[i + 2]! + u[i + 3]!);
    const recording = hold();
    const t = x.map((_, i) => i / 250);
    const trace = { t, x, y: new Float64Array(2500) };
    const found = holdTremor({ ...recording, trace }, undefined, { nominalRateHz: 250, quantum: 1e-6 });
    expect(value(found.rms)).toBeCloseTo(0.30221736554306333, 9);
  });
  // Source: the simulation's own amplitude, 0.3 on each axis, hence 0.3 root mean square for both together, at 8 to 11 Hz.
  it("finds the tremor of a simulated session between its movements", () => {
    const { recording } = simulateRecording({ seed: 5, movements: 40, recorder: { quantum: 0.01 } });
    const found = holdTremor(recording, analyze(recording));
    expect(value(found.rms) / 0.3).toBeGreaterThan(0.95);
    expect(value(found.rms) / 0.3).toBeLessThan(1.05);
    expect(value(found.meanHz)).toBeGreaterThan(8.5);
    expect(value(found.meanHz)).toBeLessThan(10.5);
  });
});

describe("holdTremor properties", () => {
  const { recording } = simulateRecording({ seed: 5, movements: 40, recorder: { quantum: 0.01 } });
  const rows = analyze(recording);
  const found = holdTremor(recording, rows);

  it("says belowResolution where the device is silent at rest or rounds tremor away", () => {
    for (const eventsOnly of [true, false]) {
      const coarse = simulateRecording({ seed: 5, movements: 40, recorder: { quantum: 1, eventsOnly } }).recording;
      const blind = holdTremor(coarse, analyze(coarse));
      expect(blind).toMatchObject({ rms: none("belowResolution"), peakHz: none("belowResolution"), hz: [], density: [] });
    }
    expect(holdTremor(hold({ amplitude: 0, drift: 0 }))).toMatchObject({ rms: none("belowResolution") });
  });
  it("says belowResolution under 60 samples per second", () => {
    const slow = holdTremor(hold({ rate: 50 }));
    expect(slow.rms).toMatchObject(none("belowResolution"));
    expect(slow.sampleRateHz).toBeCloseTo(50, 6);
    expect(holdTremor(hold({ rate: 64 })).rms.ok).toBe(true);
  });
  it("says tooFew under ten seconds of holds", () => {
    const short = holdTremor(hold({ seconds: 9 }));
    expect(short).toMatchObject({ rms: none("tooFew"), bandShare: none("tooFew") });
    expect(short.seconds).toBeCloseTo(9, 1);
    expect(holdTremor(hold({ seconds: 9, amplitude: 0, drift: 0 })).rms).toMatchObject(none("tooFew"));
  });
  it("has no peak where the spectrum falls through the band", () => {
    expect(holdTremor(hold({ amplitude: 0, drift: 0.3 })).peakHz).toMatchObject(none("notIdentified"));
  });
  it("takes shorter windows where the holds are short", () => {
    expect(found.windowSeconds).toBe(0.5);
    const { recording: quick } = simulateRecording({
      seed: 5,
      movements: 120,
      pause: [0.05, 0.1],
      latency: { mu: 0.3 },
      recorder: { quantum: 0.01 },
    });
    const short = holdTremor(quick, analyze(quick));
    expect(short.windowSeconds).toBe(0.25);
    expect(value(short.rms) / 0.3).toBeGreaterThan(0.85);
    expect(value(short.rms) / 0.3).toBeLessThan(1.15);
  });
  it("leaves marked stretches out", () => {
    const marks: Mark[] = [{ t: 5, tEnd: 10, kind: "lift" }];
    const some = holdTremor(hold({ marks }));
    expect(some.holds).toBe(2);
    expect(some.seconds).toBeCloseTo(14.8, 1);
  });
  it("leaves out stretches in which the hand moves slowly without an acquisition", () => {
    const { trace } = recording;
    // the longest wait, walked through at a slow 200 px/s
    const half = rows[3]!.times.end + 0.25;
    const x = trace.x.map((v, i) => v + 200 * Math.min(Math.max(trace.t[i]! - half, 0), 0.2));
    const moved = holdTremor({ ...recording, trace: { ...trace, x } }, rows);
    expect(moved.seconds).toBeLessThan(found.seconds - 0.2);
    expect(value(moved.rms)).toBeCloseTo(value(found.rms), 2);
  });
  it("is the same at 1.7e9 s and scales with the unit", () => {
    const late = holdTremor(hold({ t0: 1.7e9 }));
    const early = holdTremor(hold());
    expect(value(late.rms)).toBeCloseTo(value(early.rms), 3);
    expect(value(late.peakHz)).toBeCloseTo(value(early.peakHz), 2);
    const large = holdTremor(hold({ amplitude: 40, quantum: 1, drift: 2 }));
    expect(value(large.rms) / value(early.rms)).toBeCloseTo(100, 3);
    expect(value(large.peakHz)).toBeCloseTo(value(early.peakHz), 6);
  });
  it("counts azimuth by the cosine of the elevation", () => {
    const view = { ...hold(), space: { kind: "view", unit: "deg" } as const };
    const y = view.trace.y.map((v) => v + 60);
    // radius 0.4 across, half of it in azimuth: root of (0.2^2 + 0.4^2)/2
    const tilted = holdTremor({ ...view, trace: { ...view.trace, y } });
    expect(value(tilted.rms)).toBeCloseTo(Math.sqrt((0.2 ** 2 + 0.4 ** 2) / 2), 1.9);
  });
  it("holds its values within their intervals, and shows the spectrum up to 25 Hz", () => {
    for (const part of [found.rms, found.peakHz, found.meanHz, found.bandShare]) {
      expect(part.ok && part.interval![0] <= part.value && part.value <= part.interval![1]).toBe(true);
    }
    expect(found.hz.at(-1)!).toBeLessThanOrEqual(25);
    expect(found.density).toHaveLength(found.hz.length);
  });
  it("is not ok for an empty recording, survives JSON and leaves its input as it was", () => {
    const empty = { t: new Float64Array(0), x: new Float64Array(0), y: new Float64Array(0) };
    expect(holdTremor({ ...recording, trace: empty }, [])).toMatchObject({ rms: none("tooFew"), holds: 0 });
    const before = structuredClone(recording);
    holdTremor(recording, rows);
    expect(recording).toEqual(before);
    expect(JSON.parse(JSON.stringify(found))).toEqual(found);
    expect(structuredClone(found)).toEqual(found);
  });
});

describe("holdTremor bad input", () => {
  it("refuses a trace and options that are not as described", () => {
    expect(() => holdTremor({ ...hold(), trace: undefined as never })).toThrow(/holdTremor: recording\.trace must be a trace/);
    expect(() => holdTremor(hold(), undefined, { level: 0 })).toThrow(/options\.level must be above 0 and below 1, got 0/);
    expect(() => holdTremor(hold(), undefined, { sampleRateHz: -1 })).toThrow(/options\.sampleRateHz must be/);
  });
});
