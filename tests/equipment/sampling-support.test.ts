import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { samplingSupport } from "../../src/equipment/sampling-support.js";
import { createRandom } from "../../src/math/random.js";
import { assessSampling } from "../../src/trace/assess-sampling.js";

describe("samplingSupport against outside values", () => {
  // Source: dt/sqrt(12), textbook: standard deviation of an even spread over one interval; two decimals of a millisecond
  it.each([
    [60, 4.81],
    [125, 2.31],
    [250, 1.15],
    [500, 0.58],
    [1000, 0.29],
  ])("times an event at %d Hz to %f ms", (rateHz, ms) => expect(1000 * samplingSupport({ rateHz }).timeSd).toBeCloseTo(ms, 2));

  // Source: NumPy 1.24.2: largest first and central differences of 10 s^3 - 15 s^4 + 6 s^5, averaged over 2000 places of the samples, in percent. The
  // closed form is the first term of a series: within 5 % of the mean from 8 samples on, which the tolerance states.
  it.each([
    [8, -2.0572914143880223, -5.060221114095053],
    [12, -0.9207817788708871, -2.285558015850053],
    [20, -0.33266662520835844, -0.8295416255208351],
    [30, -0.1480164424280203, -0.3696213807613336],
  ])("tells the bias of the peak speed at %d reports in a movement", (reports, first, central) => {
    const { peakSpeedBias } = samplingSupport({ rateHz: reports / 0.2, movementTime: 0.2 });
    expect((100 * peakSpeedBias.first) / first).toBeGreaterThan(0.95);
    expect((100 * peakSpeedBias.first) / first).toBeLessThan(1.05);
    expect((100 * peakSpeedBias.central) / central).toBeGreaterThan(0.95);
    expect((100 * peakSpeedBias.central) / central).toBeLessThan(1.05);
  });

  // Source: Sheppard's correction, textbook (recalled), on drawn values: rounding to steps of 3 s adds q^2/12 to the variance. 1 %: three standard errors of the SD of 50000 values.
  it("takes rounding out of a spread", () => {
    const random = createRandom(11);
    const values = Array.from({ length: 50000 }, () => Math.round(random.normal(0, 1)));
    const observed = Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
    const { positionSdFreed, stepsPerSd, sdFineEnough } = samplingSupport({ rateHz: 125, quantum: 1, positionSd: observed });
    expect(observed).toBeGreaterThan(1.03);
    expect(Math.abs(positionSdFreed! - 1)).toBeLessThan(0.01);
    expect(stepsPerSd).toBeCloseTo(observed, 12);
    expect(sdFineEnough).toBe(false);
  });
});

describe("samplingSupport properties", () => {
  test.prop([fc.integer({ min: 20, max: 2000 }), fc.double({ min: 0.05, max: 2, noNaN: true })])(
    "is plain data, and never loses support at a higher rate",
    (rateHz, movementTime) => {
      const one = samplingSupport({ rateHz, movementTime });
      const double = samplingSupport({ rateHz: 2 * rateHz, movementTime });
      expect(JSON.parse(JSON.stringify(one))).toEqual(one);
      for (const measure of ["peakSpeed", "peakDeceleration", "jerk", "tremor", "eventTiming"] as const)
        if (one.supports[measure].ok) expect(double.supports[measure].ok).toBe(true);
      expect(double.timeSd).toBeCloseTo(one.timeSd / 2, 12);
      expect(double.peakSpeedBias.first).toBeCloseTo(one.peakSpeedBias.first / 4, 12);
    },
  );

  it("agrees with what a recording at that rate is told", () => {
    for (const rate of [60, 125, 250, 500, 1000]) {
      const t = Float64Array.from({ length: 400 }, (_, i) => i / rate);
      const report = assessSampling({ t, x: t.map((_, i) => 6 * i), y: t.map(() => 0) }, { movementTime: 0.3, timingSd: 0.02 });
      const { supports } = samplingSupport({ rateHz: rate, movementTime: 0.3, timingSd: 0.02 });
      for (const measure of ["peakSpeed", "peakDeceleration", "jerk", "tremor", "eventTiming"] as const)
        expect(supports[measure].ok).toBe(report.supports[measure].ok);
    }
  });

  it("frees the spread of a time, or says that sampling explains all of it", () => {
    expect(samplingSupport({ rateHz: 60, timingSd: 0.01 }).timingSdFreed).toBeCloseTo(Math.sqrt(1e-4 - 1 / 43200), 12);
    expect(samplingSupport({ rateHz: 60, timingSd: 0.004 }).timingSdFreed).toBeNull();
    expect(samplingSupport({ rateHz: 1000, timeQuantum: 0.015625 }).timeSd).toBeCloseTo(0.015625 / Math.sqrt(12), 12);
  });

  it("judges a step against target and spread", () => {
    const at = (width: number, positionSd: number) => {
      const { widthFineEnough, sdFineEnough } = samplingSupport({ rateHz: 125, quantum: 2, width, positionSd });
      return [widthFineEnough, sdFineEnough];
    };
    expect(at(20, 6)).toEqual([true, true]);
    expect(at(19.9, 5.9)).toEqual([false, false]);
    expect(samplingSupport({ rateHz: 125 })).toMatchObject({ stepsPerWidth: null, widthFineEnough: null, sdFineEnough: null });
    expect(samplingSupport({ rateHz: 125, quantum: 10, positionSd: 2 }).positionSdFreed).toBeNull();
  });
});

describe("samplingSupport bad input", () => {
  it("names the bad value", () => {
    expect(() => samplingSupport({ rateHz: 0 })).toThrow(/samplingSupport: setup\.rateHz must be finite and above 0, got 0/);
    expect(() => samplingSupport({} as never)).toThrow(/setup\.rateHz must be a number, got undefined/);
    expect(() => samplingSupport({ rateHz: 60, quantum: -1 })).toThrow(/setup\.quantum must be finite and at least 0, got -1/);
    expect(() => samplingSupport({ rateHz: 60, width: 0 })).toThrow(/setup\.width must be finite and above 0, got 0/);
    expect(() => samplingSupport(7 as never)).toThrow(/setup must be an object, got 7/);
  });
});
