import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { createRandom } from "../../src/math/random.js";
import { noiseFloor } from "../../src/trace/condition/noise-floor.js";
import { differentiate } from "../../src/trace/differentiate.js";
import { lowpass } from "../../src/trace/lowpass.js";

const sd = (series: Float64Array): number => Math.sqrt(series.reduce((sum, value) => sum + value * value, 0) / series.length);

describe("noiseFloor against outside values", () => {
  // Source: closed form for white noise of SD s = q/sqrt(12) under repeated central differences: s^2, s^2/(2 dt^2), 0.375 s^2/dt^4, 0.3125 s^2/dt^6.
  test.prop([fc.constantFrom(60, 125, 1000), fc.double({ min: 0.01, max: 100, noNaN: true })])(
    "has the closed forms without a filter",
    (rate, q) => {
      const s = q / Math.sqrt(12);
      const floor = noiseFloor(q, rate, undefined);
      expect(floor.position / s).toBeCloseTo(1, 12);
      expect(floor.speed / (s * rate * Math.sqrt(0.5))).toBeCloseTo(1, 12);
      expect(floor.acceleration / (s * rate ** 2 * Math.sqrt(0.375))).toBeCloseTo(1, 12);
      expect(floor.jerk / (s * rate ** 3 * Math.sqrt(0.3125))).toBeCloseTo(1, 12);
    },
  );
  // Source: published nowhere; computed for 1 px at 1 kHz with NumPy 1.24 and SciPy 1.10 (two or three digits).
  it("is 204 px/s for whole pixels at 1 kHz, 5.3 px/s behind the 20 Hz filter", () => {
    expect(noiseFloor(1, 1000, undefined).speed).toBeCloseTo(204, 0);
    expect(noiseFloor(1, 1000, 20).speed).toBeCloseTo(5.3, 1);
  });
  // Source: simulation, uniform noise through the filter and the differences themselves. The SD of the filtered series of 4e5 values is known to
  // about sqrt(rate / (2 cutoff n)), below 0.6 % here; 2 % is more than 3 of these.
  it.each([
    [1000, 20],
    [125, 20],
    [60, 20],
    [250, 10],
    [1000, 60],
  ])("is what rounding puts into the chain at %i Hz behind %i Hz", (sampleRateHz, cutoffHz) => {
    const random = createRandom(11);
    const noise = Float64Array.from({ length: 4e5 }, () => random.uniform(-0.5, 0.5));
    const position = lowpass(noise, { sampleRateHz, cutoffHz });
    const velocity = differentiate(position, { sampleRateHz });
    const acceleration = differentiate(velocity, { sampleRateHz });
    const jerk = differentiate(acceleration, { sampleRateHz });
    const floor = noiseFloor(1, sampleRateHz, cutoffHz);
    expect(Math.abs(sd(position) / floor.position - 1)).toBeLessThan(0.02);
    expect(Math.abs(sd(velocity) / floor.speed - 1)).toBeLessThan(0.02);
    expect(Math.abs(sd(acceleration) / floor.acceleration - 1)).toBeLessThan(0.02);
    expect(Math.abs(sd(jerk) / floor.jerk - 1)).toBeLessThan(0.02);
  });
  // Source: the same integral by a sum of 200,000 points (second implementation).
  test.prop([fc.constantFrom(60, 125, 1000, 20000), fc.double({ min: 1, max: 24, noNaN: true })], { numRuns: 20 })(
    "has converged at every cutoff",
    (rate, cutoff) => {
      const w = Math.tan((Math.PI * cutoff) / rate) / (Math.SQRT2 - 1) ** 0.25;
      let power = 0;
      const n = 2e5;
      for (let i = 0; i < n; i++) {
        const angle = (Math.PI * (i + 0.5)) / n;
        power += (Math.sin(angle) / (1 + (Math.tan(angle / 2) / w) ** 4)) ** 2;
      }
      expect(noiseFloor(1, rate, cutoff).speed / ((rate * Math.sqrt(power / n)) / Math.sqrt(12))).toBeCloseTo(1, 9);
    },
  );
});

describe("noiseFloor properties", () => {
  test.prop([fc.double({ min: 1e-3, max: 1e3, noNaN: true })])("grows in step with the quantum", (factor) => {
    const [one, many] = [noiseFloor(1, 250, 20), noiseFloor(factor, 250, 20)];
    expect(many.speed / (factor * one.speed)).toBeCloseTo(1, 12);
    expect(many.jerk / (factor * one.jerk)).toBeCloseTo(1, 12);
  });
  it("falls with a lower cutoff, and is nothing for exact positions", () => {
    const speeds = [40, 20, 10, 5].map((cutoff) => noiseFloor(1, 250, cutoff).speed);
    expect([...speeds].sort((a, b) => b - a)).toEqual(speeds);
    expect(noiseFloor(0, 250, 20)).toEqual({ position: 0, speed: 0, acceleration: 0, jerk: 0 });
  });
});
