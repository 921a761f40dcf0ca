import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { latencyBudget } from "../../src/equipment/latency-budget.js";
import type { Duration, LatencyStages } from "../../src/equipment/types.js";
import type { Estimate } from "../../src/math/estimate.js";

const FULL: LatencyStages = {
  reportHz: 125,
  transfer: 0.001,
  operatingSystem: [0.001, 0.003],
  refreshHz: 60,
  render: [0.002, 0.004, 0.009],
  queuedFrames: 1,
  pixelResponse: [0.002, 0.006],
};

const given = (estimate: Estimate): number => (estimate.ok ? estimate.value : Number.NaN);

describe("latencyBudget against outside values", () => {
  // Source: SciPy 1.10.1 stats.triang (mean and standard deviation of render) and stats.norm, NumPy 1.24.2; root sum of squares written out
  it("adds means, and standard deviations by root sum of squares", () => {
    const { mean, sd, single, unknown, source } = latencyBudget(FULL);
    expect(mean).toMatchObject({
      value: expect.closeTo(0.0493333333333333, 12),
      n: 8,
      interval: [expect.closeTo(0.0454959394069825, 12), expect.closeTo(0.0531707272596842, 12)],
    });
    expect(sd).toBeCloseTo(0.007185376095210997, 12);
    expect(single).toEqual([expect.closeTo(0.034736803324598185, 12), expect.closeTo(0.06392986334206849, 12)]);
    expect([unknown, source]).toEqual([[], "stages"]);
  });

  // Source: by hand: half a frame of waiting, one frame per queued frame; T/sqrt(12) for an even spread. Rounded to 0.01 ms.
  it.each([
    [60, 8.33, 25, 4.81],
    [144, 3.47, 10.42, 2.0],
    [240, 2.08, 6.25, 1.2],
  ])("shows what is %d Hz old", (refreshHz, plain, queued, sd) => {
    const age = latencyBudget({ refreshHz }).frameAge!;
    expect(1000 * age.mean).toBeCloseTo(plain, 2);
    expect(1000 * age.sd).toBeCloseTo(sd, 2);
    expect(1000 * latencyBudget({ refreshHz, queuedFrames: 1 }).frameAge!.mean).toBeCloseTo(queued, 2);
  });

  // Source: common practice, no source: from 60 to 144 Hz is a large step, from 144 to 240 and 240 to 360 ever smaller ones; the sizes by hand
  it("gains less and less from higher refresh rates", () => {
    const age = (refreshHz: number): number => 1000 * latencyBudget({ refreshHz }).frameAge!.mean;
    expect(age(60) - age(144)).toBeCloseTo(4.86, 2);
    expect(age(144) - age(240)).toBeCloseTo(1.39, 2);
    expect(age(240) - age(360)).toBeCloseTo(0.69, 2);
  });

  // Source: by hand: 1/141 - 1/144 = 0.1478 ms a frame, half of it waited for
  it("makes the wait of a cap three frames below the refresh rate hardly longer", () => {
    const wait = (stages: LatencyStages): number => latencyBudget(stages).frameAge!.mean;
    expect(1000 * (wait({ refreshHz: 144, frameCapHz: 141 }) - wait({ refreshHz: 144 }))).toBeCloseTo(0.1478 / 2, 4);
  });
});

const duration: fc.Arbitrary<Duration> = fc
  .tuple(fc.integer({ min: 0, max: 30 }), fc.integer({ min: 0, max: 30 }), fc.integer({ min: 0, max: 30 }), fc.integer({ min: 1, max: 3 }))
  .map(([a, b, c, n]) => {
    const [low, mode, high] = [a, b, c].sort((x, y) => x - y).map((ms) => ms / 1000) as [number, number, number];
    return n === 1 ? low : n === 2 ? [low, high] : [low, mode, high];
  });
const stages = fc.record(
  {
    reportHz: fc.integer({ min: 60, max: 8000 }),
    transfer: duration,
    operatingSystem: duration,
    refreshHz: fc.integer({ min: 30, max: 500 }),
    render: duration,
    queuedFrames: fc.integer({ min: 0, max: 3 }),
    pixelResponse: duration,
  },
  { requiredKeys: [] },
);

describe("latencyBudget properties", () => {
  test.prop([stages])("keeps the sum within its ends, tells what is missing, and is plain data", (some) => {
    const result = latencyBudget(some);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
    const { known, unknown, mean, single } = result;
    expect(result.stages.length + unknown.length).toBe(8);
    expect(mean.ok).toBe(unknown.length === 0);
    expect(known.ok).toBe(result.stages.length > 0);
    if (!known.ok || single === null) return;
    expect(known.value).toBeCloseTo(
      result.stages.reduce((sum, stage) => sum + stage.mean, 0),
      12,
    );
    const [low, high] = known.interval!;
    expect(single[0] <= low + 1e-15 && low <= known.value && known.value <= high && high <= single[1] + 1e-15).toBe(true);
    expect(single[0]).toBeGreaterThanOrEqual(result.stages.reduce((sum, stage) => sum + stage.low, 0) - 1e-12);
    expect(single[1]).toBeLessThanOrEqual(result.stages.reduce((sum, stage) => sum + stage.high, 0) + 1e-12);
  });

  test.prop([stages, fc.integer({ min: 1, max: 20 })])("grows by what a stage grows by", (some, ms) => {
    const grown = { ...some, transfer: 0.001 + ms / 1000 };
    expect(given(latencyBudget(grown).known) - given(latencyBudget({ ...some, transfer: 0.001 }).known)).toBeCloseTo(ms / 1000, 12);
  });

  it("lets a measured value override the sum and tells what is left", () => {
    const { mean, known, rest, source, single } = latencyBudget({ reportHz: 1000, refreshHz: 240, measured: [0.028, 0.032] });
    expect(mean).toMatchObject({ ok: true, value: expect.closeTo(0.03, 12), n: 1 });
    expect(source).toBe("measured");
    expect(given(rest)).toBeCloseTo(0.03 - given(known), 12);
    expect(single![0]).toBeLessThan(0.028);
    // a single number does not say how sure it is
    expect(latencyBudget({ measured: 0.03 }).mean).toEqual({ ok: true, value: 0.03, unit: "s", n: 1 });
  });

  it("does not take what is unknown for nothing", () => {
    const { mean, known, rest, unknown } = latencyBudget({ reportHz: 1000 });
    expect(mean).toEqual({ ok: false, why: "missingData", unit: "s", n: 1 });
    expect(known).toMatchObject({ ok: true, value: 0.0005 });
    expect(rest.ok).toBe(false);
    expect(unknown).toEqual(["transfer", "operatingSystem", "frameWait", "render", "queue", "scanOut", "pixelResponse"]);
    expect(latencyBudget({})).toMatchObject({ known: { ok: false }, single: null, frameAge: null, source: "none" });
  });

  it("says how often each measure pays", () => {
    const times = Object.fromEntries(latencyBudget({}, { loops: 2 }).pays.map((pay) => [pay.measure, pay.times]));
    expect(times).toEqual({
      latency: [1, 1],
      primaryTime: [0, 0],
      primaryError: [0, 0],
      correctionTime: [2, 2],
      verificationTime: [0, 1],
      acquisitionTime: [3, 4],
      pursuitLag: [1, 1],
    });
  });
});

describe("latencyBudget bad input", () => {
  it("names the bad value", () => {
    expect(() => latencyBudget({ reportHz: 0 })).toThrow(/latencyBudget: given\.reportHz must be finite and above 0, got 0/);
    expect(() => latencyBudget({ queuedFrames: -1 })).toThrow(/given\.queuedFrames must be finite and at least 0, got -1/);
    expect(() => latencyBudget({ render: -0.001 })).toThrow(/given\.render must be finite and at least 0, got -0\.001/);
    expect(() => latencyBudget({ render: [0.004, 0.002] })).toThrow(/given\.render\[1\] must be finite and at least 0\.004, got 0\.002/);
    expect(() => latencyBudget({ measured: [1] as never })).toThrow(
      /given\.measured must be a number, or two or three numbers in order, got an array of 1/,
    );
    expect(() => latencyBudget({ transfer: "fast" as never })).toThrow(/given\.transfer must be a number, or two or three/);
    expect(() => latencyBudget({}, { level: 0 })).toThrow(/options\.level must be above 0 and below 1/);
    expect(() => latencyBudget({}, { loops: -1 })).toThrow(/options\.loops must be finite and at least 0, got -1/);
    expect(() => latencyBudget(null as never)).toThrow(/given must be an object, got null/);
  });
});
