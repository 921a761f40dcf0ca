import { describe, expect, it } from "vitest";
import { butterworthSections, runSection, type Section, settledState, warpedCutoff } from "../../src/trace/condition/butterworth.js";
import { filterPair } from "../../src/trace/condition/filter-pair.js";
import { lowpass } from "../../src/trace/lowpass.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";

const butterworth = readReference("kinematics/butterworth.json");
const winter = readReference("kinematics/winter-cutoff.json");
const cases = (table: typeof butterworth, start: string) => (table?.cases ?? []).filter(({ name }) => name.startsWith(start));

/** Product of two polynomials in 1/z. */
function times(p: readonly number[], q: readonly number[]): number[] {
  const product = new Array<number>(p.length + q.length - 1).fill(0);
  for (const [i, a] of p.entries()) for (const [j, b] of q.entries()) product[i + j]! += a * b;
  return product;
}

const numerator = ({ b0, b1, b2 }: Section): number[] => (b2 === 0 ? [b0, b1] : [b0, b1, b2]);
const denominator = ({ a1, a2 }: Section): number[] => (a2 === 0 ? [1, a1] : [1, a1, a2]);

/** Size of the response at a frequency, by putting z = exp(i w) into the sections. */
function magnitude(sections: readonly Section[], frequency: number, sampleRateHz: number): number {
  const w = (2 * Math.PI * frequency) / sampleRateHz;
  const size = (c0: number, c1: number, c2: number): number =>
    Math.hypot(c0 + c1 * Math.cos(w) + c2 * Math.cos(2 * w), c1 * Math.sin(w) + c2 * Math.sin(2 * w));
  return sections.reduce((total, { b0, b1, b2, a1, a2 }) => (total * size(b0, b1, b2)) / size(1, a1, a2), 1);
}

describe("butterworth design against outside values", () => {
  it.skipIf(!butterworth)(`has its reference table (else: ${SHARED_ABSENT})`, () => expect(cases(butterworth, "design").length).toBe(20));
  // Source: SciPy 1.10.1 signal.butter, lfilter_zi; magnitude in closed form. Ten digits and more stored.
  it.each(cases(butterworth, "design"))("$name", ({ input, params, expected, tolerance }) => {
    const { order, cutoffHz, sampleRateHz } = params;
    const sections = butterworthSections(order, warpedCutoff(cutoffHz, sampleRateHz, order, 1));
    const b = sections.map(numerator).reduce(times);
    const a = sections.map(denominator).reduce(times);
    for (const [i, value] of expected.b.entries()) expect(within(b[i]!, value, tolerance), `b[${i}] ${b[i]}`).toBe(true);
    for (const [i, value] of expected.a.entries()) expect(within(a[i]!, value, tolerance), `a[${i}] ${a[i]}`).toBe(true);
    for (const [i, frequency] of input.frequencies.entries()) {
      const once = magnitude(sections, frequency, sampleRateHz);
      expect(within(once, expected.magnitudeOnePass[i], tolerance), `magnitude at ${frequency} Hz`).toBe(true);
      expect(within(once * once, expected.magnitudeTwoPass[i], tolerance), `both passes at ${frequency} Hz`).toBe(true);
    }
    if (order <= 2) {
      const state = settledState(sections[0]!);
      for (const [i, value] of expected.lfilterZi.entries()) expect(within(state[i]!, value, tolerance), `state ${i}`).toBe(true);
    }
  });

  // Source: SciPy 1.10.1 signal.lfilter from rest.
  it.each(cases(butterworth, "single pass"))("$name", ({ input, params, expected, tolerance }) => {
    const series = Float64Array.from(input.x as number[]);
    const sections = butterworthSections(params.order, warpedCutoff(params.cutoffHz, params.sampleRateHz, params.order, 1));
    for (const section of sections) runSection(series, section, false, [0, 0]);
    for (const [i, value] of expected.y.entries()) expect(within(series[i]!, value, tolerance), `y[${i}]`).toBe(true);
  });

  // Source: closed form (the power gain of all passes at the wanted cutoff is 1/2), reference/kinematics/winter-cutoff.json.
  it.each(cases(winter, "correction"))("$name", ({ params, expected, tolerance }) => {
    const { order, passes, cutoffHz, sampleRateHz } = params;
    const warped = warpedCutoff(cutoffHz, sampleRateHz, order, passes);
    expect(within(Math.tan((Math.PI * cutoffHz) / sampleRateHz) / warped, expected.correctionFactor, tolerance)).toBe(true);
    expect(within((sampleRateHz / Math.PI) * Math.atan(warped), expected.designCutoffHz, tolerance)).toBe(true);
    const power = magnitude(butterworthSections(order, warped), cutoffHz, sampleRateHz) ** (2 * passes);
    expect(within(power, expected.powerGainAtWantedCutoff, tolerance)).toBe(true);
  });

  // Source: a straight line fitted to residuals computed with SciPy 1.10.1 sosfiltfilt (odd padding 9, cutoff not corrected); the rule is Winter's, recalled.
  it.each(cases(winter, "residual analysis"))("gives the residuals of a $name", ({ input, params, expected, tolerance }) => {
    const { sampleRateHz, cutoffsHz, lineFitFromHz, lineFitToHz } = params;
    const x = Float64Array.from(input.x as number[]);
    const residuals = (cutoffsHz as number[]).map((cutoffHz) => {
      const smooth = lowpass(x, { sampleRateHz, cutoffHz, correctForPasses: false, padLength: 9 });
      return Math.sqrt(smooth.reduce((sum, value, i) => sum + (value - x[i]!) ** 2, 0) / x.length);
    });
    for (const [i, value] of expected.residualRms.entries())
      expect(within(residuals[i]!, value, tolerance), `${cutoffsHz[i]} Hz`).toBe(true);
    const tail = residuals.flatMap((rms, i) => (cutoffsHz[i] >= lineFitFromHz && cutoffsHz[i] <= lineFitToHz ? [[cutoffsHz[i], rms]] : []));
    const meanHz = tail.reduce((sum, [hz]) => sum + hz!, 0) / tail.length;
    const meanRms = tail.reduce((sum, [, rms]) => sum + rms!, 0) / tail.length;
    const slope =
      tail.reduce((sum, [hz, rms]) => sum + (hz! - meanHz) * (rms! - meanRms), 0) /
      tail.reduce((sum, [hz]) => sum + (hz! - meanHz) ** 2, 0);
    expect(within(slope, expected.lineSlope, tolerance)).toBe(true);
    const intercept = meanRms - slope * meanHz;
    expect(within(intercept, expected.lineIntercept, tolerance)).toBe(true);
    expect(cutoffsHz[residuals.findIndex((rms) => rms <= intercept)]).toBe(expected.firstCutoffAtOrBelowInterceptHz);
  });
});

describe("filterPair properties", () => {
  // Source: the padded, one-column form of the same filter, which is tested against SciPy's filtfilt in lowpass.test.ts. Rounding only.
  it.each([
    [400, 150],
    [400, 399],
    [10, 3],
    [2, 1],
    [2, 0],
    [1, 0],
  ])("equals filtering each column alone (%i samples, padding %i)", (n, padding) => {
    const x = Float64Array.from({ length: n }, (_, i) => 300 * Math.sin(i / 30) + ((i * 7919) % 13));
    const y = Float64Array.from({ length: n }, (_, i) => 1000 - i + ((i * 104729) % 17));
    const options = { sampleRateHz: 1000, cutoffHz: 20, padLength: padding };
    const expectedX = lowpass(x, options);
    const expectedY = lowpass(y, options);
    filterPair(x, y, butterworthSections(2, warpedCutoff(20, 1000, 2, 2))[0]!, padding);
    for (let i = 0; i < n; i++) {
      expect(x[i]).toBeCloseTo(expectedX[i]!, 9);
      expect(y[i]).toBeCloseTo(expectedY[i]!, 9);
    }
  });
});
