import { test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/analyze.js";
import { toTable } from "../../src/movement/to-table.js";
import { REACH } from "./hand-made.js";
import { errorOf, rowOf, rowsArb } from "./rows.js";
import { deepFreeze, simulatedArb } from "./simulated.js";

const row = rowOf(
  1,
  { latency: 0.25, primary: 0.25, correction: 0.125, clutch: 0.0625, verification: 0.25, recovery: 0.5 },
  {
    outcome: "recovered",
    errors: { primary: errorOf(-3, 4), stop: errorOf(1, 0), press: { radial: 2, inside: true } },
    corrections: [
      {
        start: 1.5625,
        peak: 1.6,
        end: 1.6875,
        peakSpeed: 100,
        dx: 3,
        dy: 4,
        errorBefore: errorOf(-3, 4),
        errorAfter: errorOf(1, 0),
        latency: 0.0625,
        fromPeak: 0.2,
        pause: 0.03125,
        amplitude: 5,
        gain: 0.75,
        unnecessary: false,
        counterProductive: false,
      },
    ],
    correctionPhase: { pause: 0.03125, efficiency: 0.5, missing: false },
    stop: {
      decelerationShare: 0.625,
      primaryDecelerationShare: 0.5,
      speedSkew: 0.5,
      peakDeceleration: 2000,
      stoppingTime: 0.1,
      stoppingDistance: 20,
      overshoot: 3,
      settlingTime: 0.05,
    },
    pressing: { afterStop: 0.25, speed: 12, duration: 0.08, slip: { along: -1, length: 1.5 }, disturbance: 2 },
    economy: {
      pathLength: 320,
      efficiency: 0.9375,
      excess: { primary: 10, correction: 6, verification: 2, recovery: 4 },
      reversals: 2,
      entries: 1,
      spectralArcLength: -1.5,
      logDimensionlessJerk: -6,
    },
    flags: ["clutch", "edge"],
  },
);

describe("toTable against outside values", () => {
  // Source: written out by hand from the row's own fields, column by column.
  it("is the row flattened, null where there is nothing", () => {
    expect(toTable([row])).toEqual([
      {
        trial: "trial 1",
        target: "a",
        block: "1",
        outcome: "recovered",
        pressedInMotion: false,
        go: 1,
        onset: 1.25,
        peak: 1.375,
        primaryEnd: 1.5,
        stop: 1.6875,
        press: 1.9375,
        up: 2.5175,
        end: 2.4375,
        latency: 0.25,
        primary: 0.25,
        correction: 0.125,
        clutch: 0.0625,
        verification: 0.25,
        recovery: 0.5,
        amplitude: 300,
        width: 10,
        peakSpeed: 1000,
        corrections: 1,
        primaryAlong: -3,
        primaryAcross: 4,
        primaryRadial: 5,
        stopAlong: 1,
        stopAcross: 0,
        stopRadial: 1,
        pressAlong: null,
        pressAcross: null,
        pressRadial: 2,
        correctionLatency: 0.0625,
        correctionFromPeak: 0.2,
        correctionGain: 0.75,
        correctionPause: 0.03125,
        correctionEfficiency: 0.5,
        decelerationShare: 0.625,
        speedSkew: 0.5,
        peakDeceleration: 2000,
        stoppingTime: 0.1,
        overshoot: 3,
        settlingTime: 0.05,
        pressAfterStop: 0.25,
        pressSpeed: 12,
        pressDuration: 0.08,
        slipAlong: -1,
        slipAcross: null,
        slipLength: 1.5,
        disturbance: 2,
        departure: null,
        pathLength: 320,
        pathEfficiency: 0.9375,
        excessPrimary: 10,
        excessCorrection: 6,
        excessVerification: 2,
        excessRecovery: 4,
        reversals: 2,
        entries: 1,
        spectralArcLength: -1.5,
        logDimensionlessJerk: -6,
        flags: "clutch edge",
      },
    ]);
  });

  it("counts corrections and tells a movement that never was by nulls", () => {
    const [still] = toTable(
      analyze({ ...REACH, presses: [], trace: { t: Float64Array.of(0, 1), x: new Float64Array(2), y: new Float64Array(2) } }),
    );
    expect(still).toMatchObject({
      outcome: "abandoned",
      onset: null,
      peak: null,
      primaryEnd: null,
      stop: null,
      press: null,
      up: null,
      peakSpeed: null,
    });
    expect(still).toMatchObject({ corrections: 0, primaryAlong: null, flags: "noMovement" });
  });
});

describe("toTable properties", () => {
  test.prop([rowsArb])("has the same columns in the same order for every row, each a single value", (rows) => {
    const table = toTable(rows);
    expect(table.length).toBe(rows.length);
    const columns = Object.keys(toTable([row])[0]);
    for (const record of table) {
      expect(Object.keys(record)).toEqual(columns);
      for (const value of Object.values(record)) expect(value === null || typeof value !== "object").toBe(true);
    }
  });

  test.prop([rowsArb])("keeps the parts adding up to end - go", (rows) => {
    for (const { latency, primary, correction, clutch, verification, recovery, go, end } of toTable(rows)) {
      expect(latency + primary + correction + clutch + verification + recovery).toBeCloseTo(end - go, 9);
    }
  });

  test.prop([simulatedArb], { numRuns: 15 })("is plain data without NaN: it survives JSON and cloning", ({ recording }) => {
    const table = toTable(analyze(recording));
    expect(JSON.parse(JSON.stringify(table))).toEqual(table);
    expect(structuredClone(table)).toEqual(table);
  });

  test.prop([rowsArb])("leaves the rows as they were", (rows) => {
    const before = structuredClone(rows);
    toTable(deepFreeze(rows));
    expect(rows).toEqual(before);
  });
});

describe("toTable bad input", () => {
  it("is empty for no rows", () => expect(toTable([])).toEqual([]));
  it("names what is no list of rows", () => {
    expect(() => toTable(null as never)).toThrow(/toTable: rows must be an array of acquisitions, got null/);
    expect(() => toTable(row as never)).toThrow(TypeError);
  });
});
