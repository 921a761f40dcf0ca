import { test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/analyze.js";
import type { Acquisition } from "../../src/movement/types.js";
import { fitSpeedAccuracy } from "../../src/pacing/fit-speed-accuracy.js";
import { paceTrials } from "../../src/pacing/pace-trials.js";
import { simulateRecording } from "../../src/simulate/index.js";
import { simulatedArb } from "../movement/simulated.js";

const { recording, truth } = simulateRecording({
  seed: 61,
  movements: 120,
  targets: { amplitude: [400, 400], widths: [40] },
  sampleRateHz: 500,
  cases: { timeout: 0.1 },
});
const rows = analyze(recording);

describe("paceTrials against outside values", () => {
  // Source: the simulator's own truth of the same acquisitions: boundaries within a few ms, positions without tremor and rounding
  it("has the movement times, errors and hits that were drawn", () => {
    const { trials, kept } = paceTrials(rows);
    const errors: number[] = [];
    for (const [i, at] of kept.entries()) {
      const drawn = truth.movements[at]!;
      expect(trials.pressed[i]).toBe(drawn.press === undefined ? 0 : 1);
      expect(trials.hit[i]).toBe(drawn.outcome === "hit" ? 1 : 0);
      if (drawn.press === undefined) continue;
      expect(Math.abs(trials.along[i]! - drawn.pressError!.along)).toBeLessThan(2.5);
      errors.push(Math.abs(trials.movementTime[i]! - (Math.min(drawn.stop!, drawn.press) - drawn.onset!)));
    }
    const sorted = errors.sort((a, b) => a - b);
    expect(sorted[Math.floor(sorted.length / 2)]).toBeLessThan(0.02);
  });
  // SPEC trap: movement time that includes verification; Source: the rows' own time budget
  it("leaves latency and verification out", () => {
    const { trials, kept } = paceTrials(rows);
    for (const [i, at] of kept.entries()) {
      const { budget, times } = rows[at]!;
      if (times.press === undefined) continue;
      expect(trials.movementTime[i]).toBeCloseTo(budget.primary + budget.correction + budget.clutch, 9);
    }
  });
});

describe("paceTrials properties", () => {
  test.prop([simulatedArb])("accounts for every row, in order, with columns that the fit takes", ({ recording: any }) => {
    const all = analyze(any);
    const before = structuredClone(all);
    const { trials, kept, leftOut } = paceTrials(all);
    expect(all).toEqual(before);
    expect(kept.length + leftOut.noAxis + leftOut.noOnset + leftOut.spoilt).toBe(all.length);
    expect([...kept].sort((a, b) => a - b)).toEqual(kept);
    expect(trials.movementTime.every((t) => t > 0)).toBe(true);
    const fit = fitSpeedAccuracy(trials);
    expect(fit.n).toBe(kept.length);
    expect(JSON.parse(JSON.stringify(fit))).toEqual(fit);
  });

  it("keeps a row without a press as a miss with the time that passed", () => {
    const { trials, kept } = paceTrials(rows);
    const at = kept.findIndex((row) => rows[row]!.times.press === undefined);
    const { times } = rows[kept[at]!]!;
    expect([trials.pressed[at], trials.hit[at], trials.along[at]]).toEqual([0, 0, 0]);
    expect(trials.movementTime[at]).toBeCloseTo(times.end - (times.onset ?? times.go), 12);
  });
  it("counts a first press that missed as a miss, whatever came later", () => {
    const row = rows.find(({ outcome }) => outcome === "hit")!;
    const { trials } = paceTrials([{ ...row, outcome: "recovered" }]);
    expect([...trials.hit]).toEqual([0]);
  });
  it("takes the primary endpoint when asked", () => {
    const { trials, kept } = paceTrials(rows, { endpoint: "primary" });
    for (const [i, at] of kept.entries()) {
      expect(trials.movementTime[i]).toBeCloseTo(rows[at]!.times.primaryEnd! - rows[at]!.times.onset!, 12);
      expect(trials.along[i]).toBe(rows[at]!.errors.primary!.along);
      expect(trials.pressed[i]).toBe(1);
    }
  });
  it("leaves out rows that have no movement time of their own", () => {
    const row = rows.find(({ outcome }) => outcome === "hit")!;
    const { onset: _, ...times } = row.times;
    const odd: Acquisition[] = [{ ...row, flags: ["clutch"] }, { ...row, flags: ["noAxis"] }, { ...row, times }, row];
    expect(paceTrials(odd)).toMatchObject({ kept: [3], leftOut: { spoilt: 1, noAxis: 1, noOnset: 1 } });
  });
  it("labels by block, or as it is told", () => {
    expect(new Set(paceTrials(rows).trials.pace)).toEqual(new Set(rows.map(({ block }) => block)));
    expect(paceTrials(rows, { pace: (row) => (row.width > 30 ? "slow" : "fast") }).trials.pace[0]).toBe("slow");
  });
});

describe("paceTrials bad input", () => {
  it("refuses what it cannot use", () => {
    expect(() => paceTrials({} as never)).toThrow("paceTrials: rows must be an array of acquisitions, got an object of type Object");
    expect(() => paceTrials(rows, { endpoint: "stop" as never })).toThrow(
      'paceTrials: options.endpoint must be one of "press", "primary", got "stop"',
    );
    expect(() => paceTrials(rows, { pace: 3 as never })).toThrow("paceTrials: options.pace must be a function, got 3");
    expect(() => paceTrials(rows, { pace: () => 3 as never })).toThrow("paceTrials: options.pace must give a string for rows[0], got 3");
  });
});
