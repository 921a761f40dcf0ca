import { describe, expect, it } from "vitest";
import { describeBells, primaryOf } from "../../src/movement/bell/describe-bells.js";
import { type BellFit, residualOf, summedSpeedError, type WeightedProfile } from "../../src/movement/bell/fit-bells.js";
import { placeBells } from "../../src/movement/bell/place-bells.js";
import { compose } from "./bells.js";

/** Two planted bells, 3-4-5 and 5-12-13, so that no direction hides a sign. */
const fit: BellFit = {
  kinds: ["minimumJerk", "minimumJerk"],
  parameters: Float64Array.of(0.5, 0.2, 0.1, 0.4),
  dx: Float64Array.of(-5, 300),
  dy: Float64Array.of(12, 400),
  residualSum: 0,
  converged: true,
  reason: "step",
};
const degrees = (dx: number, dy: number): number => (Math.atan2(dy, dx) * 180) / Math.PI;
const exact = compose(
  [
    { onset: 0.5, duration: 0.2, amplitude: 13, directionDeg: degrees(-5, 12) },
    { onset: 0.1, duration: 0.4, amplitude: 500, directionDeg: degrees(300, 400) },
  ],
  200,
  200,
);
const profile: WeightedProfile = { ...exact, step: 1 / 200, weights: new Float64Array(200).fill(1), minDuration: 0.08, maxDuration: 1 };

// Source: the planted bells themselves; peak speed of minimum jerk 1.875 amplitudes a duration (closed form)
describe("planted bells of unlike directions", () => {
  it("are described in order of onset", () => {
    const [first, second] = describeBells(fit, 10);
    expect(first).toMatchObject({ dx: 300, dy: 400, amplitude: 500, duration: 0.4 });
    expect(second).toMatchObject({ dx: -5, dy: 12, amplitude: 13, duration: 0.2 });
    expect([first!.onset, first!.peakTime, second!.onset].map((v) => Number(v.toFixed(9)))).toEqual([10.1, 10.3, 10.5]);
    expect(first!.peakSpeed).toBeCloseTo((1.875 * 500) / 0.4, 9);
    expect(Object.is(describeBells({ ...fit, dx: Float64Array.of(-0, 300) }, 0)[1]!.dx, 0)).toBe(true);
  });
  it("leave nothing of the velocity, nor of the speed where they do not overlap", () => {
    for (const rest of residualOf(profile, fit)) for (const v of rest) expect(Math.abs(v)).toBeLessThan(1e-9);
    expect(summedSpeedError(profile, fit)).toBeLessThan(1e-15);
  });
  it("are placed largest first, and the second once the first is known", () => {
    const middle = ({ onset, duration }: { onset: number; duration: number }): number => onset + duration / 2;
    expect(Math.abs(middle(placeBells(profile, undefined, 1)[0]!) - 0.3)).toBeLessThan(0.03);
    const one: BellFit = {
      ...fit,
      kinds: ["minimumJerk"],
      parameters: Float64Array.of(0.1, 0.4),
      dx: Float64Array.of(300),
      dy: Float64Array.of(400),
    };
    expect(Math.abs(middle(placeBells(profile, one, 1)[0]!) - 0.6)).toBeLessThan(0.03);
  });
  it("have a primary that covers half of the way, exactly half included", () => {
    const bell = (dx: number) => ({ onset: 0, duration: 1, dx, dy: 0, amplitude: Math.abs(dx), peakSpeed: 1, peakTime: 0 });
    expect(primaryOf([bell(50), bell(50)])).toBe(0);
    expect(primaryOf([bell(49), bell(51)])).toBe(1);
  });
});
