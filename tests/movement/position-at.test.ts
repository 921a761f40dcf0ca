import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { positionAt } from "../../src/movement/acquisition/position-at.js";

const trace = { t: Float64Array.of(1, 1.04, 1.04, 2), x: Float64Array.of(0, 4, 6, 100), y: Float64Array.of(10, 0, 0, -50) };

describe("positionAt against outside values", () => {
  // Source: straight lines by hand.
  it("lies on the line between two samples, at a sample in it, and after a pair at one time in the second", () => {
    expect(positionAt(trace, 1.01, 0.05)).toEqual({ x: expect.closeTo(1, 9), y: expect.closeTo(7.5, 9) });
    expect(positionAt(trace, 1, 0.05)).toEqual({ x: 0, y: 10 });
    expect(positionAt(trace, 1.04, 0.05)).toEqual({ x: 6, y: 0 });
  });

  it("stays where the pointer was left when the next sample is far, and after the last", () => {
    expect(positionAt(trace, 1.9, 0.05)).toEqual({ x: 6, y: 0 });
    expect(positionAt(trace, 1.52, 1)).toEqual({ x: expect.closeTo(53, 9), y: expect.closeTo(-25, 9) });
    expect(positionAt(trace, 9, 0.05)).toEqual({ x: 100, y: -50 });
  });

  it("is unknown before the first sample", () => {
    expect(positionAt(trace, 0.9, 0.05)).toBeUndefined();
  });
});

describe("positionAt properties", () => {
  test.prop([fc.integer({ min: 1000, max: 2500 }), fc.constantFrom(0, 0.05, 2)])("lies between the samples about it", (ms, maxGap) => {
    const { x, y } = positionAt(trace, ms / 1000, maxGap)!;
    expect(x >= 0 && x <= 100 && y >= -50 && y <= 10).toBe(true);
  });
});
