import { test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { throughput } from "../../src/fitts/throughput.js";
import { analyze } from "../../src/movement/analyze.js";
import { pointingTrials } from "../../src/movement/pointing-trials.js";
import type { Acquisition } from "../../src/movement/types.js";
import { simulateRecording } from "../../src/simulate/index.js";
import { simulatedArb } from "./simulated.js";

const { recording, truth } = simulateRecording({
  seed: 61,
  movements: 120,
  targets: { amplitude: [400, 400], widths: [40] },
  sampleRateHz: 500,
});
const rows = analyze(recording);

describe("pointingTrials against outside values", () => {
  // Source: the simulator's own truth of the same acquisitions: presses without tremor and rounding, so that half a pixel and 1 ms remain
  it("has the amplitudes, errors and times that were drawn", () => {
    const { trials, kept } = pointingTrials(rows);
    expect(kept.length).toBe(120);
    for (const [i, at] of kept.entries()) {
      const drawn = truth.movements[at]!;
      expect(Math.abs(trials.along[i]! - drawn.pressError!.along)).toBeLessThan(2.5);
      expect(trials.movementTime[i]).toBeCloseTo(drawn.press! - drawn.go, 6);
      expect(trials.hit![i]).toBe(drawn.outcome === "hit" ? 1 : 0);
    }
    expect(trials.amplitude[0]).toBeCloseTo(400, -0.5);
  });

  // Source: throughput of the simulator's truth, by the same definition
  it("comes to the throughput of what was drawn", () => {
    const drawn = truth.movements.filter((movement) => movement.press !== undefined);
    const column = (of: (movement: (typeof drawn)[number]) => number): Float64Array => Float64Array.from(drawn, of);
    const expected = throughput({
      amplitude: column(() => 400),
      width: column(() => 40),
      movementTime: column((movement) => movement.press! - movement.go),
      along: column((movement) => movement.pressError!.along),
    }).throughput;
    const got = throughput(pointingTrials(rows).trials).throughput;
    expect(got.ok && expected.ok && Math.abs(got.value / expected.value - 1)).toBeLessThan(0.01);
  });
});

describe("pointingTrials properties", () => {
  test.prop([simulatedArb])("accounts for every row, in order, with columns that throughput takes", ({ recording: any }) => {
    const all = analyze(any);
    const before = structuredClone(all);
    const { trials, kept, leftOut } = pointingTrials(all);
    expect(all).toEqual(before);
    expect(kept.length + leftOut.noPress + leftOut.noAxis + leftOut.noOnset).toBe(all.length);
    expect([...kept].sort((a, b) => a - b)).toEqual(kept);
    const usable = trials.movementTime.every((time) => time > 0);
    if (usable) expect(throughput(trials).cells.reduce((sum, cell) => sum + cell.n, 0)).toBe(kept.length);
  });

  it("leaves the latency out when asked, and then the rows without an onset", () => {
    const whole = pointingTrials(rows).trials.movementTime;
    const moving = pointingTrials(rows, { time: "onsetToPress" });
    expect(moving.leftOut.noOnset).toBe(0);
    expect(moving.trials.movementTime.every((time, i) => time < whole[i]!)).toBe(true);
    const { onset: _, ...times } = rows[0]!.times;
    expect(pointingTrials([{ ...rows[0]!, times }], { time: "onsetToPress" })).toMatchObject({ kept: [], leftOut: { noOnset: 1 } });
  });

  it("takes the condition and the person it is given", () => {
    const { trials } = pointingTrials(rows, { person: "ada", condition: () => ({ amplitude: 410, width: 38 }) });
    expect(new Set(trials.person)).toEqual(new Set(["ada"]));
    expect(throughput(trials).cells).toMatchObject([{ person: "ada", amplitude: 410, width: 38, n: 120 }]);
  });

  it("makes a condition of each block and width, and warns when its distances differ", () => {
    const mixed = analyze(simulateRecording({ seed: 62, movements: 30 }).recording);
    expect(pointingTrials(mixed).warnings).toEqual(["mixedAmplitudes"]);
    expect(pointingTrials(rows).warnings).toEqual([]);
    const renamed = rows.map((row, i): Acquisition => ({ ...row, block: i < 60 ? "one" : "two" }));
    expect(throughput(pointingTrials(renamed).trials).cells.length).toBe(2);
  });
});

describe("pointingTrials bad input", () => {
  it("refuses what is no list of rows, and options out of range", () => {
    expect(() => pointingTrials({} as never)).toThrow(/rows must be an array of acquisitions/);
    expect(() => pointingTrials(rows, { time: "all" as never })).toThrow(
      /options\.time must be one of "goToPress", "onsetToPress", got "all"/,
    );
    expect(() => pointingTrials(rows, { condition: "a" as never })).toThrow(/options\.condition must be a function/);
    expect(() => pointingTrials(rows, { condition: () => ({ amplitude: 0, width: 1 }) })).toThrow(
      /must give amplitude above 0 for rows\[0\], got 0/,
    );
  });
  it("gives empty columns for no rows", () =>
    expect(pointingTrials([])).toMatchObject({ kept: [], leftOut: { noPress: 0 }, warnings: [] }));
});
