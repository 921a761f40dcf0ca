import { test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { simulateRecording } from "../../src/simulate/index.js";
import { nominalRate } from "../../src/trace/condition/nominal-rate.js";
import { columns, rowsArb } from "./plain-chain.js";

describe("nominalRate against outside values", () => {
  // Source: the definition by sorting (second implementation); the median of an even count is the mean of the two middle values.
  test.prop([rowsArb])("is one over the median step among steps that move", (rows) => {
    const steps = rows
      .slice(1)
      .map(([t, x, y], i) => ({ dt: t - rows[i]![0], moves: x !== rows[i]![1] || y !== rows[i]![2] }))
      .flatMap(({ dt, moves }) => (moves && dt > 0 && dt < 1 ? [dt] : []))
      .sort((a, b) => a - b);
    const middle = steps.length >> 1;
    const expected = steps.length % 2 === 1 ? steps[middle]! : (steps[middle - 1]! + steps[middle]!) / 2;
    expect(nominalRate(columns(rows))).toEqual(steps.length < 2 ? undefined : 1 / expected);
  });
  // Source: simulated truth: an event-only device at a known rate, which skips reports while it moves slowly, 0.5 ms of jitter. The plain median
  // of all steps in motion gives 229 for 250 Hz there.
  it.each([60, 125, 250, 500])("is the rate of a device that skips reports in slow motion, %d Hz, to 2 %%", (sampleRateHz) => {
    const { recording } = simulateRecording({ seed: 3, movements: 40, sampleRateHz });
    expect(Math.abs(nominalRate(recording.trace)! / sampleRateHz - 1)).toBeLessThan(0.02);
  });
  it("does not hear the silence of a resting pointer", () => {
    const rows = Array.from({ length: 30 }, (_, i) => [i < 15 ? i / 125 : 0.5 + i / 125, i, 0] as const);
    expect(nominalRate(columns(rows))).toBeCloseTo(125, 6);
  });
  // Source: closed form; doubles near 1.7e9 s are 2.4e-7 s apart, 3e-5 of a step of 8 ms.
  it("works at any zero of time", () => {
    const rows = Array.from({ length: 30 }, (_, i) => [1.7e9 + i / 125, i, 0] as const);
    expect(Math.abs(nominalRate(columns(rows))! / 125 - 1)).toBeLessThan(6e-5);
  });
});
