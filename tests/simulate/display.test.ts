import { fc, test } from "@fast-check/vitest";
import { mean, median } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/index.js";
import { type SimulateRecordingOptions, simulateRecording, type TrueMovement } from "../../src/simulate/index.js";
import { kolmogorovUniform } from "./kolmogorov-uniform.js";

/** Each correction's onset after the end of the component before, where that end came last. */
function gaps({ components }: TrueMovement): number[] {
  return components.slice(1).map((c, i) => c.onset - (components[i]!.onset + components[i]!.duration));
}
const budget = (m: TrueMovement): [number, number, number] => [m.latency!, m.components[0]!.duration, m.press! - m.stop!];
const late = (m: TrueMovement): boolean => m.press! >= m.stop!;
const asText = (simulated: unknown): string =>
  JSON.stringify(simulated, (_, value) => (ArrayBuffer.isView(value) ? (value as Float64Array).join() : value));
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

describe("simulateRecording's display against outside values", () => {
  // Source: an instant falls anywhere between two frames: uniform wait of mean T/2 and standard deviation T/sqrt(12), which at 60, 144 and 240 Hz
  // are 8.33, 3.47, 2.08 ms and 4.81, 2.00, 1.20 ms (textbook); Kolmogorov's limit distribution, exceeded once in 10,000 above 2.226
  it.each([
    [60, 0.00833, 0.00481],
    [144, 0.00347, 0.002],
    [240, 0.00208, 0.0012],
  ])("waits for the next frame at %d Hz", (refreshHz, expected, sd) => {
    const { movements } = simulateRecording({ seed: 3, movements: 2000, sampleRateHz: 60, display: { refreshHz, latency: 0.03 } }).truth;
    for (const waits of [
      movements.map((m) => m.delays!.target! - 0.03),
      movements.flatMap((m) => m.delays!.corrections.map((d) => d - 0.03)),
      movements.filter(late).map((m) => m.delays!.stop! - 0.03),
    ]) {
      expect(Math.abs(mean(waits) - expected)).toBeLessThan((4 * sd) / Math.sqrt(waits.length) + 5e-6);
      expect(kolmogorovUniform(waits, 0, 1 / refreshHz)).toBeLessThan(2.226);
    }
  });

  // Source: the wait and the latency add to the response latency one for one (what is seen later is answered later); none to the first stroke
  it("lengthens the analysed latency, correction and verification, not the primary", () => {
    const options = { seed: 8, movements: 400, sampleRateHz: 500, press: { earlyShare: 0 } };
    const rows = [{}, { refreshHz: 60, latency: 0.05 }].map((display) => analyze(simulateRecording({ ...options, display }).recording));
    const part = (k: 0 | 1, name: "latency" | "primary" | "correction" | "verification"): number =>
      median(rows[k]!.map((row) => row.budget[name]));
    const due = 0.05 + 1 / 120;
    expect(part(1, "latency") - part(0, "latency")).toBeGreaterThan(due - 0.004);
    expect(part(1, "latency") - part(0, "latency")).toBeLessThan(due + 0.004);
    expect(part(1, "correction") - part(0, "correction")).toBeGreaterThan(due / 2);
    expect(part(1, "verification") - part(0, "verification")).toBeGreaterThan(due / 2);
    // a correction that comes later cuts less off the primary's end
    expect(Math.abs(part(1, "primary") - part(0, "primary"))).toBeLessThan(due / 2);
  });

  it("records a frame every interval, each just before what is seen on it", () => {
    const { recording, truth } = simulateRecording({ seed: 5, movements: 60, display: { refreshHz: 144, latency: 0.02 } });
    const frames = Array.from(recording.frames!);
    const steps = frames.slice(1).map((t, i) => t - frames[i]!);
    expect(median(steps)).toBeCloseTo(1 / 144, 4);
    // from 0 to the recording's end, 0.3 s after the last release
    expect(Math.abs(frames.length - (truth.movements.at(-1)!.tUp! + 0.3) * 144)).toBeLessThanOrEqual(1);
    for (const m of truth.movements) {
      const shown = m.go + m.delays!.target! - 0.02;
      expect(Math.min(...frames.map((t) => Math.abs(t - shown)))).toBeLessThan(0.0006);
    }
  });
});

describe("simulateRecording's display properties", () => {
  const free = { movements: 12, recorder: { quantum: 0, timeJitterSd: 0, eventsOnly: false } };

  test.prop([fc.integer(), fc.double({ min: 0.001, max: 0.2, noNaN: true })])(
    "costs every loop its latency and nothing else",
    (seed, latency) => {
      const plain = simulateRecording({ ...free, seed }).truth.movements;
      const slow = simulateRecording({ ...free, seed, display: { latency } }).truth.movements;
      slow.forEach((m, i) => {
        const p = plain[i]!;
        const [was, is] = [budget(p), budget(m)];
        expect(is[0] - was[0]).toBeCloseTo(latency, 9);
        expect(is[1]).toBe(was[1]);
        if (late(p)) expect(is[2] - was[2]).toBeCloseTo(latency, 9);
        expect([m.amplitude, m.stopError, m.slip]).toEqual([p.amplitude, p.stopError, p.slip]);
        expect(m.components.map(({ dx, dy, duration }) => [dx, dy, duration])).toEqual(
          p.components.map(({ dx, dy, duration }) => [dx, dy, duration]),
        );
        gaps(m).forEach((gap, k) => {
          expect(gap - gaps(p)[k]!).toBeCloseTo(latency, 9);
        });
        expect(m.delays!.corrections).toEqual(m.components.slice(1).map(() => latency));
      });
    },
  );

  test.prop([fc.integer(), fc.constantFrom(30, 60, 144, 360), fc.double({ min: 0, max: 0.1, noNaN: true })])(
    "tells in the truth what each movement waited",
    (seed, refreshHz, latency) => {
      const plain = simulateRecording({ ...free, seed }).truth.movements;
      const shown = simulateRecording({ ...free, seed, display: { refreshHz, latency } }).truth.movements;
      shown.forEach((m, i) => {
        const { target, corrections, stop } = m.delays!;
        for (const delay of [target!, ...corrections, ...(stop === undefined ? [] : [stop])]) {
          expect(delay).toBeGreaterThanOrEqual(latency - 1e-9);
          expect(delay).toBeLessThanOrEqual(latency + 1 / refreshHz + 1e-9);
        }
        expect(m.latency! - plain[i]!.latency!).toBeCloseTo(target!, 9);
        expect(sum(gaps(m)) - sum(gaps(plain[i]!))).toBeCloseTo(sum(corrections), 9);
        expect(m.end - m.go - (plain[i]!.end - plain[i]!.go)).toBeGreaterThanOrEqual(target! - 1e-9);
      });
    },
  );

  test.prop([fc.integer()])("leaves a recording without a display as it is", (seed) => {
    const { recording, truth } = simulateRecording({ ...free, seed });
    expect(asText(simulateRecording({ ...free, seed, display: { refreshHz: null, latency: 0 } }))).toBe(asText({ recording, truth }));
    expect(recording.frames).toBeUndefined();
    expect(truth.movements.every((m) => m.delays === undefined)).toBe(true);
  });

  it("lets only the first target of a sequence wait to be seen, and no hand that leaves early", () => {
    const display = { refreshHz: 60, latency: 0.04 };
    const { movements } = simulateRecording({ movements: 40, sequence: 4, display, planning: { overlapShare: 0.3 } }).truth;
    movements.forEach((m, i) => {
      if (m.latency! < 0) expect(m.delays!.target).toBeUndefined();
      else if (i % 4 > 0) expect(m.delays!.target).toBe(0);
      else expect(m.delays!.target).toBeGreaterThanOrEqual(0.04);
    });
    const early = simulateRecording({ movements: 20, display, cases: { anticipation: 1 } }).truth.movements;
    expect(early.some((m) => m.delays!.target === undefined && m.latency! < 0)).toBe(true);
  });

  it("counts the second look before a repeated press, and none for a press in motion", () => {
    const { movements } = simulateRecording({
      movements: 100,
      correction: { pureShare: 1 },
      cases: { retry: 1 },
      press: { earlyShare: 0.3 },
      display: { latency: 0.05 },
    }).truth;
    const again = movements.filter((m) => m.components.at(-1)!.role === "recovery");
    expect(again.length).toBeGreaterThan(20);
    for (const m of again) expect(m.delays).toEqual({ target: expect.closeTo(0.05, 9), corrections: [0.05], stop: 0.05 });
    const inMotion = movements.filter((m) => m.flags.includes("pressedInMotion"));
    expect(inMotion.length).toBeGreaterThan(10);
    for (const m of inMotion) expect(m.delays!.stop).toBeUndefined();
  });
});

describe("simulateRecording's display bad input", () => {
  const refused = (display: unknown) => expect(() => simulateRecording({ display } as SimulateRecordingOptions));

  it("names the option, its range and its value", () => {
    refused(60).toThrow("simulateRecording: options.display must be an object, got 60");
    refused({ refreshHz: 0 }).toThrow("options.display.refreshHz must be at least 1 and at most 10000, got 0");
    refused({ refreshHz: Number.POSITIVE_INFINITY }).toThrow(
      "options.display.refreshHz must be at least 1 and at most 10000, got Infinity",
    );
    refused({ latency: -0.01 }).toThrow("options.display.latency must be at least 0 and at most 10, got -0.01");
  });
});
