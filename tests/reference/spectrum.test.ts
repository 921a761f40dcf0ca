import { describe, expect, it } from "vitest";
import { coherence } from "../../src/math/coherence.js";
import { crossDensity } from "../../src/math/cross-density.js";
import { fourierPlan } from "../../src/math/fourier.js";
import { type SpectralWindow, spectralWindow } from "../../src/math/spectral-window.js";
import { binFrequencies, welchDensity } from "../../src/math/welch-density.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const table = readReference("kinematics/spectrum.json");
const cases = (start: string): [string, ReferenceCase][] =>
  (table?.cases ?? []).filter((c) => c.name.startsWith(start)).map((c) => [c.name, c]);
const welchInput = (): Float64Array => Float64Array.from((table!.meta.welchInput as { x: number[] }).x);

function expectAll(got: ArrayLike<number>, expected: readonly number[], tolerance: ReferenceCase["tolerance"]): void {
  expect(got.length).toBe(expected.length);
  for (const [i, value] of expected.entries()) {
    expect(within(got[i]!, value, tolerance), `entry ${i}: ${got[i]} for ${value}`).toBe(true);
  }
}

/** Area under a density by trapezoids, between two frequencies, ends included. */
function area(hz: Float64Array, density: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let j = 1; j < hz.length; j++) {
    if (hz[j - 1]! >= from && hz[j]! <= to) sum += ((density[j]! + density[j - 1]!) / 2) * (hz[j]! - hz[j - 1]!);
  }
  return sum;
}

// Source: kinematics/spectrum.json: SciPy 1.10.1 (signal.welch, periodogram, csd, coherence, get_window) and NumPy 1.24.2 (fft.rfft).
describe.skipIf(table === undefined)(`spectrum table (${table === undefined ? SHARED_ABSENT : "present"})`, () => {
  it("has the 21 cases that are tested here", () => {
    const tested = ["real FFT", "Welch density", "Welch spectrum", "periodogram", "windows", "coherence"].flatMap(cases);
    expect(tested.length).toBe(table!.cases.length);
    expect(tested.length).toBe(21);
  });

  it.each(cases("real FFT"))("%s", (_, { input, params, expected, tolerance }) => {
    const { re, im } = fourierPlan(input.x.length)(input.x);
    expectAll(re, expected.re, tolerance);
    expectAll(im, expected.im, tolerance);
    expectAll(
      re.map((value, j) => Math.sqrt(value * value + im[j]! * im[j]!)),
      expected.magnitude,
      tolerance,
    );
    expectAll(binFrequencies(input.x.length, params.sampleRateHz), expected.frequencies, tolerance);
  });

  it.each(cases("Welch density"))("%s", (_, { params, expected, tolerance }) => {
    const { hz, density } = welchDensity(welchInput(), params);
    expectAll(hz, expected.frequencies, tolerance);
    expectAll(density, expected.density, tolerance);
    expect(within(hz[density.indexOf(Math.max(...density))]!, expected.peakHz, tolerance)).toBe(true);
    expect(within(area(hz, density, 8, 12), expected.band8to12Trapezoid, tolerance)).toBe(true);
    expect(within(area(hz, density, 0, 1e9), expected.totalTrapezoid, tolerance)).toBe(true);
  });

  it.each(cases("Welch spectrum"))("%s", (_, { params, expected, tolerance }) => {
    const { hz, density } = welchDensity(welchInput(), params);
    expectAll(hz, expected.frequencies, tolerance);
    expectAll(density, expected.spectrum, tolerance);
  });

  it.each(cases("periodogram"))("%s", (_, { params, expected, tolerance }) => {
    const x = welchInput();
    const { hz, density } = welchDensity(x, { ...params, segment: x.length, overlap: 0, window: "boxcar" });
    expectAll(density.subarray(0, 40), expected.first40, tolerance);
    const sum = density.reduce((all, value) => all + value, 0) * hz[1]!;
    expect(within(sum, expected.sumTimesDf, tolerance)).toBe(true);
    expect(within(sum, expected.variance, tolerance)).toBe(true);
  });

  it.each(cases("windows"))("%s", (_, { params, expected, tolerance }) => {
    for (const [name, weights] of Object.entries<number[]>(expected)) {
      expectAll(spectralWindow(name as SpectralWindow, params.n), weights, tolerance);
    }
  });

  it.each(cases("coherence"))("%s", (_, { input, params, expected, tolerance }) => {
    const cross = crossDensity(welchInput(), Float64Array.from(input.y), params);
    expectAll(cross.hz, expected.frequencies, tolerance);
    expectAll(cross.re, expected.crossRe, tolerance);
    expectAll(cross.im, expected.crossIm, tolerance);
    expectAll(coherence(cross), expected.coherence, tolerance);
  });
});
