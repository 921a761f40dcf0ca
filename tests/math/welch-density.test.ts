import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { spectralWindow } from "../../src/math/spectral-window.js";
import { welchDensity } from "../../src/math/welch-density.js";

/** A short signal with a trend, typed the same way into SciPy. */
const signal = Float64Array.from({ length: 60 }, (_, k) => Math.sin(0.4 * k) + 0.01 * k);

describe("welchDensity against outside values", () => {
  // Source: scipy.signal.welch, SciPy 1.17.1, sampling rate 10 Hz, segments of 15 with 7 in common; bins 0, 1 and 7
  it.each([
    ["hann", "constant", 0.0026495696408265212, 0.4911847236918893, 6.95051507576642e-9],
    ["blackman", "linear", 0.005485542835943707, 0.10267158157895355, 1.666632963096955e-8],
    ["boxcar", "none", 0.13751268051801546, 0.7796093269020826, 0.00034410703177051896],
  ] as const)("is Welch's density with %s and detrending %s", (window, detrend, first, second, last) => {
    const { density, segments } = welchDensity(signal, { sampleRateHz: 10, segment: 15, overlap: 7, window, detrend });
    expect(segments).toBe(6);
    for (const [bin, value] of [
      [0, first],
      [1, second],
      [7, last],
    ] as const) {
      expect(Math.abs(density[bin]! - value)).toBeLessThan(1e-9 * value + 1e-17);
    }
  });
  // Source: closed form: a sinusoid on a bin has power A^2/2, which the spectrum scaling shows at its peak and the density in its sum
  it.each([["hann"], ["hamming"], ["blackman"], ["boxcar"]] as const)("gives the power of a sinusoid with %s", (window) => {
    const wave = Float64Array.from({ length: 1000 }, (_, k) => 3 * Math.sin((2 * Math.PI * 10 * k) / 100 + 1));
    const options = { sampleRateHz: 50, segment: 100, window };
    expect(welchDensity(wave, { ...options, scaling: "spectrum" }).density[10]).toBeCloseTo(4.5, 10);
    const { density, hz } = welchDensity(wave, options);
    expect(density.reduce((sum, value) => sum + value, 0) * hz[1]!).toBeCloseTo(4.5, 10);
  });
});

describe("spectralWindow against outside values", () => {
  // Source: scipy.signal.get_window, SciPy 1.17.1
  it("has the periodic windows", () => {
    const blackman = [0, 0.2007701432625305, 0.8492298567374694, 0.8492298567374694, 0.2007701432625305];
    for (const [k, value] of spectralWindow("blackman", 5).entries()) expect(value).toBeCloseTo(blackman[k]!, 14);
    for (const [k, value] of spectralWindow("hamming", 4).entries()) expect(value).toBeCloseTo([0.08, 0.54, 1, 0.54][k]!, 14);
    expect([...spectralWindow("boxcar", 3)]).toEqual([1, 1, 1]);
  });
});

describe("welchDensity properties", () => {
  const values = fc.array(fc.integer({ min: -50, max: 50 }), { minLength: 12, maxLength: 80 });

  test.prop([values, fc.integer({ min: -1000, max: 1000 }), fc.integer({ min: -20, max: 20 })])(
    "does not see the mean or the line that it takes off, and grows with the square of the size",
    (list, offset, slope) => {
      const x = Float64Array.from(list);
      const plain = welchDensity(x, { sampleRateHz: 1, segment: 10, detrend: "linear" }).density;
      const moved = welchDensity(
        x.map((value, k) => 2 * value + offset + slope * k),
        { sampleRateHz: 1, segment: 10, detrend: "linear" },
      ).density;
      for (const [j, value] of moved.entries()) expect(Math.abs(value - 4 * plain[j]!)).toBeLessThan(1e-8 * (1 + value));
    },
  );
  test.prop([values])("has the variance as the area under a single boxcar segment", (list) => {
    const x = Float64Array.from(list);
    const { density, hz } = welchDensity(x, { sampleRateHz: 7, segment: x.length, window: "boxcar" });
    const mean = list.reduce((sum, value) => sum + value, 0) / x.length;
    const variance = list.reduce((sum, value) => sum + (value - mean) ** 2, 0) / x.length;
    expect(density.reduce((sum, value) => sum + value, 0) * hz[1]!).toBeCloseTo(variance, 8);
  });
  it("has no segments, and no power, in a signal shorter than one", () => {
    const { segments, density } = welchDensity(new Float64Array(9).fill(1), { sampleRateHz: 1, segment: 10 });
    expect(segments).toBe(0);
    expect([...density]).toEqual([0, 0, 0, 0, 0, 0]);
  });
  it("leaves its input as it was", () => {
    const before = signal.slice();
    welchDensity(signal, { sampleRateHz: 10, segment: 20 });
    expect(signal).toEqual(before);
  });
});
