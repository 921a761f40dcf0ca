import { SimpleLinearRegression } from "ml-regression";
import { describe, expect, it } from "vitest";
import { fallAfter, riseBefore } from "../../src/movement/bell/onset.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";
import { compose } from "./bells.js";

const table = readReference("kinematics/segmentation.json");

/** np.gradient of positions, its size. */
function gradientSpeed(x: Float64Array, fs: number): Float64Array {
  const n = x.length;
  return Float64Array.from(x, (_, i) => {
    const [a, b] = [Math.max(0, i - 1), Math.min(n - 1, i + 1)];
    return Math.abs((x[b]! - x[a]!) * (fs / (b - a)));
  });
}

describe.skipIf(table === undefined)(
  `riseBefore against outside values (${table === undefined ? SHARED_ABSENT : "reference tables"})`,
  () => {
    for (const c of table?.cases.filter((entry) => entry.name.startsWith("one movement")) ?? []) {
      for (const fs of [125, 250, 1000]) {
        // Source: straight-line crossings and a least-squares line through the root of speed over 5-30 %; kinematics/segmentation.json.
        it(`threshold crossings and extrapolated onset: ${c.name}, ${fs} Hz`, () => {
          const sampled = c.expected.sampled[fs];
          const profile = compose(c.input.components, fs, sampled.n);
          for (const [speed, expected] of [
            [profile.speed, sampled.fromExactSpeed],
            [gradientSpeed(profile.x, fs), sampled.fromPositionsByCentralDifference],
          ] as const) {
            const peak = speed.indexOf(Math.max(...speed));
            const rise = riseBefore(speed, peak, 0, 0.05, 0.3);
            const fall = fallAfter(speed, peak, speed.length, 0.05, 0.4);
            expect(within(rise.crossing / fs, expected.onset5, c.tolerance)).toBe(true);
            expect(within(fall.crossing / fs, expected.end5, c.tolerance)).toBe(true);
            expect(within(rise.extrapolated / fs, expected.onsetExtrapolated5to30, c.tolerance)).toBe(true);
          }
        });
      }
    }
  },
);

describe("riseBefore against outside values", () => {
  // Source: closed form for the minimum-jerk bell, s = (1 - sqrt(1 - sqrt(p)))/2 at p = 0.05: 0.0594 of the duration. Printed to 4 digits.
  it("crosses 5 % of the peak 0.0594 durations after the true onset", () => {
    const { speed } = compose([{ onset: 0.1, duration: 0.5, amplitude: 300, directionDeg: 0 }], 10_000, 8000);
    expect(riseBefore(speed, speed.indexOf(Math.max(...speed)), 0, 0.05, 0.3).crossing / 10_000).toBeCloseTo(0.1 + 0.5 * 0.0594, 4);
  });
  // Source: zero of the straight line through the root of the bell over 5-30 % of its peak, -0.01486 of the duration; kinematics/minimum-jerk.json.
  it("extrapolates to 0.0149 durations before the true onset, whatever the duration", () => {
    for (const duration of [0.15, 0.3, 0.6]) {
      const { speed } = compose([{ onset: 0.1, duration, amplitude: 300, directionDeg: 0 }], 20_000, 16_000);
      const rise = riseBefore(speed, speed.indexOf(Math.max(...speed)), 0, 0.05, 0.3);
      expect((rise.extrapolated / 20_000 - 0.1) / duration).toBeCloseTo(-0.01486, 3);
    }
  });
});

describe("riseBefore against a second implementation", () => {
  // Source: ml-regression 6.3.0, SimpleLinearRegression through the root of the samples in the band; its zero is -intercept/slope.
  it("fits the line that a general-purpose regression fits", () => {
    const { speed } = compose([{ onset: 0.1007, duration: 0.27, amplitude: 250, directionDeg: 0 }], 250, 126);
    const top = Math.max(...speed);
    const band = Array.from(speed.subarray(0, speed.indexOf(top)), (v, i) => [i, v] as const).filter(
      ([, v]) => v >= 0.05 * top && v <= 0.3 * top,
    );
    const line = new SimpleLinearRegression(
      band.map(([i]) => i),
      band.map(([, v]) => Math.sqrt(v)),
    );
    expect(riseBefore(speed, speed.indexOf(top), 0, 0.05, 0.3).extrapolated).toBeCloseTo(-line.intercept / line.slope, 9);
  });
});

describe("riseBefore properties", () => {
  it("is the mirror image of fallAfter", () => {
    const { speed } = compose([{ onset: 0.1007, duration: 0.3, amplitude: 300, directionDeg: 0 }], 250, 126);
    const mirrored = Float64Array.from(speed).reverse();
    const peak = speed.indexOf(Math.max(...speed));
    const rise = riseBefore(speed, peak, 0, 0.05, 0.3);
    const fall = fallAfter(mirrored, 125 - peak, 126, 0.05, 0.3);
    expect(fall.crossing).toBeCloseTo(125 - rise.crossing, 9);
    expect(fall.extrapolated).toBeCloseTo(125 - rise.extrapolated, 9);
  });
  it("does not change when speed is scaled", () => {
    const { speed } = compose([{ onset: 0.1007, duration: 0.3, amplitude: 300, directionDeg: 0 }], 250, 126);
    const peak = speed.indexOf(Math.max(...speed));
    const a = riseBefore(speed, peak, 0, 0.05, 0.3);
    const b = riseBefore(
      speed.map((v) => v / 37),
      peak,
      0,
      0.05,
      0.3,
    );
    expect(b.extrapolated).toBeCloseTo(a.extrapolated, 9);
  });
});

describe("riseBefore bad input", () => {
  it("falls back on the crossing when the band holds fewer than two samples", () => {
    const steep = riseBefore(Float64Array.of(0, 0, 100, 0), 2, 0, 0.05, 0.3);
    expect(steep.extrapolated).toBe(steep.crossing);
  });
  it("stops at its limit when the speed never fell to the level", () => {
    expect(riseBefore(Float64Array.of(50, 60, 70, 100, 0), 3, 0, 0.05, 0.3)).toEqual({ crossing: 0, extrapolated: 0 });
  });
});
