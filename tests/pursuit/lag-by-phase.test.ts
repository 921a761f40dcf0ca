import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { wholePeriods } from "../../src/pursuit/response/driven-lines.js";
import { lagByPhase, wrapAngle } from "../../src/pursuit/response/lag-by-phase.js";
import type { ResponseLine } from "../../src/pursuit/response/response-line.js";

const line = (hz: number, phase: number, error = 0.1, gain = 1): ResponseLine => {
  return { hz, phase: wrapAngle(phase), gain, error, coherence: 0.8, chanceLevel: 0.2, aboveChance: true, df: 20 };
};
const delayed = (delay: number, hz: readonly number[]): ResponseLine[] => hz.map((f) => line(f, -2 * Math.PI * f * delay));
const FREQUENCIES = Array.from({ length: 25 }, (_, i) => (i + 1) / 5);

describe("lagByPhase against outside values", () => {
  // Source: closed form: phase = -2 pi hz delay, wrapped many times at the upper frequencies; error 1/sqrt(sum of (2 pi hz / error)^2)
  test.prop([fc.double({ min: -0.49, max: 0.99, noNaN: true })])("finds the delay of wrapped phases", (delay) => {
    const found = lagByPhase(delayed(delay, FREQUENCIES))!;
    expect(Math.abs(found.delay - delay)).toBeLessThan(1e-9);
    expect(found.ambiguous).toBe(false);
    const squares = FREQUENCIES.reduce((sum, hz) => sum + ((2 * Math.PI * hz) / 0.1) ** 2, 0);
    expect(found.error * Math.sqrt(squares)).toBeCloseTo(1, 9);
  });
  // Source: closed form: least squares through the origin of two phases, weights 1 and 4
  it("weighs each line by what its phase is known to", () => {
    const found = lagByPhase([line(1, -1, 0.2), line(2, -1.8, 0.1)])!;
    const weights = [1, 4];
    const expected = (weights[0]! * 1 * 1 + weights[1]! * 2 * 1.8) / (2 * Math.PI * (weights[0]! * 1 + weights[1]! * 4));
    expect(found.delay).toBeCloseTo(expected, 9);
  });
});

describe("lagByPhase properties", () => {
  it("takes the delay nearest to 0 of those that a periodic target allows, and says so", () => {
    const found = lagByPhase(delayed(0.62, [2]))!;
    expect(found.delay).toBeCloseTo(0.12, 9);
    expect(found.ambiguous).toBe(true);
    expect(lagByPhase(delayed(-0.03, [0.5, 1, 1.5]))).toMatchObject({ delay: expect.closeTo(-0.03, 9), ambiguous: false });
  });
  it("has nothing to say without lines", () => expect(lagByPhase([])).toBeUndefined());
});

describe("wholePeriods", () => {
  // Source: by hand
  it.each([
    [2000, 100, [0.15, 0.35], { size: 2000, cycles: [3, 7], periods: 1 }],
    [4999, 100, [0.15, 0.35], { size: 4000, cycles: [6, 14], periods: 2 }],
    [1000, 100, [0.5, 1], { size: 1000, cycles: [5, 10], periods: 5 }],
    // a period of 166.67 samples: three of them are whole
    [1100, 100, [0.6], { size: 1000, cycles: [6], periods: 6 }],
    [150, 100, [0.6], undefined],
    [90, 100, [1], undefined],
  ])("finds the longest stretch in %d samples at %d Hz for %j", (length, rate, lines, expected) => {
    expect(wholePeriods(length, rate, lines)).toEqual(expected);
  });
});
