import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/math/random.js";
import { composeMovement } from "../../src/simulate/compose-movement.js";
import { type Recorder, samplePath } from "../../src/simulate/sample-path.js";
import { requireTrace } from "../../src/trace/require-trace.js";

const plain: Recorder = {
  sampleRateHz: 100,
  timeJitterSd: 0,
  timeQuantum: 0,
  quantum: 0,
  eventsOnly: false,
  dropShare: 0,
  mergeShare: 0,
  limits: undefined,
};
/** 100 units to the right and 50 up at constant speed, from 0.2 s to 0.7 s. */
const ramp = () => composeMovement([{ onset: 0.2, duration: 0.5, dx: 100, dy: -50, bell: "steady" }], 10, 20);
const record = (change: Partial<Recorder>, seed = 1) => samplePath(createRandom(seed), ramp(), 1, { ...plain, ...change });
const rowsOf = ({ trace }: ReturnType<typeof record>): string[] => Array.from(trace.t, (t, i) => `${t} ${trace.x[i]} ${trace.y[i]}`);

describe("samplePath against outside values", () => {
  // Source: constant speed of 200 and -100 units/s, worked by hand
  it("reads the path on the grid", () => {
    const { t, x, y } = record({}).trace;
    expect(t).toHaveLength(101);
    expect([t[45], x[45], y[45]]).toEqual([0.45, expect.closeTo(60, 9), expect.closeTo(-5, 9)]);
  });

  // Source: 100 units of motion in steps of 20 are 5 changes of x; y changes at other times, 50 units up in steps of 20 from 20: 20 to -40
  // by rounding half up is 20, 0, -20; by hand
  it("reports rounded positions, and those only when they change", () => {
    const { x, y } = record({ quantum: 20, eventsOnly: true, sampleRateHz: 1000 }).trace;
    expect(new Set(x)).toEqual(new Set([20, 40, 60, 80, 100, 120]));
    expect(new Set(y)).toEqual(new Set([20, 0, -20]));
    for (let i = 1; i < x.length; i++) expect([x[i], y[i]]).not.toEqual([x[i - 1], y[i - 1]]);
  });

  // Source: variance of the mean and of the variance of normal draws (textbook), 4 standard errors, n = 10001
  it("scatters its times by the jitter asked for", () => {
    const { t } = record({ timeJitterSd: 0.0005 }).trace;
    const { t: many } = samplePath(createRandom(5), ramp(), 100, { ...plain, timeJitterSd: 0.0005 }).trace;
    expect(t[50]).not.toBe(0.5);
    const off = Array.from(many, (time, k) => time - k / 100).slice(1);
    const mean = off.reduce((sum, v) => sum + v, 0) / off.length;
    const variance = off.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (off.length - 1);
    expect(Math.abs(mean)).toBeLessThan((4 * 0.0005) / Math.sqrt(off.length));
    expect(Math.abs(variance / 0.0005 ** 2 - 1)).toBeLessThan(4 * Math.sqrt(2 / off.length));
  });

  // Source: binomial standard error (textbook), 4 of them, n = 10000
  it("loses the share of samples asked for", () => {
    const { t } = samplePath(createRandom(6), ramp(), 100, { ...plain, dropShare: 0.1 }).trace;
    expect(Math.abs(t.length / 10001 - 0.9)).toBeLessThan(4 * Math.sqrt((0.1 * 0.9) / 10001));
  });
});

describe("samplePath properties", () => {
  const recorder = fc.record({
    sampleRateHz: fc.constantFrom(30, 60, 125, 1000),
    timeJitterSd: fc.constantFrom(0, 0.0005, 0.01),
    timeQuantum: fc.constantFrom(0, 0.001, 0.016),
    quantum: fc.constantFrom(0, 1, 7),
    eventsOnly: fc.boolean(),
    dropShare: fc.constantFrom(0, 0.2),
    mergeShare: fc.constantFrom(0, 0.5),
    limits: fc.constantFrom(undefined, { left: 0, right: 60, top: 0, bottom: 90 }),
  });

  test.prop([recorder, fc.integer()])("gives a sound trace whose first sample is never lost", (change, seed) => {
    const { trace } = record(change, seed);
    requireTrace("test", "trace", trace);
    expect([trace.x[0], trace.y[0]]).toEqual(change.quantum === 7 ? [7, 21] : [10, 20]);
    for (const time of trace.t) expect(time).toBeGreaterThanOrEqual(0);
    if (change.timeQuantum > 0) {
      for (const time of trace.t) expect(Math.abs(time / change.timeQuantum - Math.round(time / change.timeQuantum))).toBeLessThan(1e-6);
    }
  });

  test.prop([recorder, fc.integer()])("records the same from the same start", (change, seed) => {
    expect(rowsOf(record(change, seed))).toEqual(rowsOf(record(change, seed)));
  });

  test.prop([fc.constantFrom(0.05, 0.5), fc.integer()])("drops without touching what stays", (dropShare, seed) => {
    const whole = new Set(rowsOf(record({})));
    for (const row of rowsOf(record({ dropShare }, seed))) expect(whole.has(row)).toBe(true);
  });

  test.prop([fc.integer()])("merges a sample only into one that follows at once", (seed) => {
    const change = { quantum: 1, eventsOnly: true, sampleRateHz: 500 };
    const whole = record(change);
    const kept = new Set(rowsOf(record({ ...change, mergeShare: 0.3 }, seed)));
    const rows = rowsOf(whole);
    rows.forEach((row, i) => {
      if (kept.has(row)) return;
      expect(whole.trace.t[i + 1]! - whole.trace.t[i]!).toBeLessThan(2 / 500);
    });
    expect(kept.size).toBeLessThan(rows.length);
    expect(kept.has(rows[rows.length - 1]!)).toBe(true);
  });

  it("marks the stays at the border and holds the pointer there", () => {
    const { trace, marks } = record({ limits: { left: 0, right: 60, top: -1000, bottom: 1000 } });
    expect(Math.max(...trace.x)).toBe(60);
    // x passes 60 at 0.45 s and stays beyond
    expect(marks).toEqual([{ kind: "edge", t: expect.closeTo(0.46, 9), tEnd: 1 }]);
  });
});
