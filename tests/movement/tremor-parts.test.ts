import { describe, expect, it } from "vitest";
import { pooledSpectrum } from "../../src/movement/tremor/pooled-spectrum.js";
import { tremorBand } from "../../src/movement/tremor/tremor-band.js";
import { tremorEstimates, withoutTremor } from "../../src/movement/tremor/tremor-estimates.js";

const hz = Float64Array.from({ length: 26 }, (_, j) => j);
const at = (values: Readonly<Record<number, number>>, base = 0.001): Float64Array => hz.map((f) => values[f] ?? base);
const peaked = at({ 8: 1, 9: 4, 10: 1 }, 0);
const rest = at({ 8: 1, 9: 4, 10: 1 });

describe("tremorEstimates against outside values", () => {
  it("labels each number with its unit, its windows and its level", () => {
    const found = tremorEstimates({ hz, density: rest, without: [rest, at({ 8: 2, 9: 4, 10: 1 }), rest], windows: 7 }, "deg", 0.9);
    const labels = Object.entries(found).map(([name, e]) => [name, e.ok, e.unit, e.n, e.ok && e.level]);
    expect(labels).toEqual([
      ["rms", true, "deg", 7, 0.9],
      ["peakHz", true, "Hz", 7, 0.9],
      ["meanHz", true, "Hz", 7, 0.9],
      ["bandShare", true, "1", 7, 0.9],
    ]);
  });

  // Source: sums worked by hand: power 1 + 4 + 1 in bins of 1 Hz, symmetric about 9 Hz
  it("has the power, centre and share of three bins", () => {
    expect(tremorBand(hz, peaked)).toMatchObject({ rms: Math.sqrt(6), share: 1, meanHz: 9 });
    const band = tremorBand(hz, at({ 3: 6, 8: 1, 9: 4, 10: 1 }, 0));
    expect(band.share).toBe(0.5);
    expect(tremorBand(hz, at({ 0: 100, 8: 1, 9: 4, 10: 1 }, 0)).share).toBe(1);
    expect(band.peakHz).toBeCloseTo(9, 12);
  });

  // Source: the top of a parabola through logarithms of a Gaussian is its middle exactly
  it.each([6.3, 8.2, 9.4, 11.6])("finds the middle of a Gaussian bump at %d Hz", (middle) => {
    expect(
      tremorBand(
        hz,
        hz.map((f) => Math.exp(-((f - middle) ** 2))),
      ).peakHz,
    ).toBeCloseTo(middle, 9);
  });

  // Source: the jackknife about the estimate from all (Efron and Tibshirani, recalled), by hand: power 6.004 of the whole; Student's quantile for 2 degrees at 95 %: 4.302653 (handbook table)
  it("has intervals of the jackknife over groups", () => {
    const without = [at({ 8: 2, 9: 4, 10: 1 }), at({ 8: 1, 9: 5, 10: 1 }), at({ 8: 1, 9: 4, 10: 3 })];
    const { rms } = tremorEstimates({ hz, density: rest, without, windows: 3 }, "px", 0.95);
    // log of the root of 7.004, 7.004 and 8.004 over 6.004
    const squares = [7.004, 7.004, 8.004].reduce((sum, power) => sum + (Math.log(power / 6.004) / 2) ** 2, 0);
    const factor = Math.exp(4.302653 * Math.sqrt((2 / 3) * squares));
    if (!rms.ok) throw new Error("not ok");
    expect(rms.value).toBeCloseTo(Math.sqrt(6.004), 12);
    expect(rms.interval![0]).toBeCloseTo(rms.value / factor, 5);
    expect(rms.interval![1]).toBeCloseTo(rms.value * factor, 5);
  });

  it("has no peak when a group's spectrum has none, and then says so in hertz", () => {
    const falling = hz.map((f) => 1 / (1 + f));
    expect(tremorEstimates({ hz, density: rest, without: [rest, falling], windows: 9 }, "px", 0.95).peakHz).toEqual({
      ok: false,
      why: "notIdentified",
      unit: "Hz",
      n: 9,
    });
  });

  it("refuses each number in its own unit", () => {
    const none = (unit: string) => ({ ok: false, why: "tooFew", unit, n: 4 });
    expect(withoutTremor("tooFew", "deg", 4)).toEqual({ rms: none("deg"), peakHz: none("Hz"), meanHz: none("Hz"), bandShare: none("1") });
  });
});

describe("pooledSpectrum against outside values", () => {
  const random = (() => {
    let s = 7;
    return () => {
      s = (Math.imul(1664525, s) + 1013904223) >>> 0;
      return s / 2 ** 32 - 0.5;
    };
  })();
  const noise = (n: number): Float64Array => Float64Array.from({ length: n }, random);
  const piece = (n: number) => ({ from: 0, x: noise(n), y: noise(n) });
  const sum = (d: Float64Array): number => d.reduce((a, b) => a + b, 0);

  // Source: windows that overlap by half: floor((n - size) / (size / 2)) + 1 of each piece, none across pieces
  it("counts windows piece by piece", () => {
    expect(pooledSpectrum([piece(64), piece(96), piece(63), piece(130)], 64, 100).windows).toBe(1 + 2 + 0 + 3);
  });

  // Source: an exact relation: a mean over windows is the mean of the means of its pieces, weighted by their windows
  it("is the mean of the windows of its pieces", () => {
    const [a, b] = [piece(128), piece(64)];
    const pooled = pooledSpectrum([a, b], 64, 100);
    const [ofA, ofB] = [pooledSpectrum([a], 64, 100), pooledSpectrum([b], 64, 100)];
    for (let j = 0; j < pooled.density.length; j++) {
      expect(pooled.density[j]).toBeCloseTo((3 * ofA.density[j]! + ofB.density[j]!) / 4, 12);
    }
    // without the last window there is the first piece alone
    expect(pooled.without).toHaveLength(4);
    for (let j = 0; j < pooled.density.length; j++) expect(pooled.without[3]![j]).toBeCloseTo(ofA.density[j]!, 12);
  });

  // Source: exact relation: a window's own start decides what it sees
  it("reads each window where it lies", () => {
    const tone = Float64Array.from({ length: 256 }, (_, i) => (i >= 192 ? Math.sin((2 * Math.PI * i) / 8) : 0));
    const { without, density } = pooledSpectrum([{ from: 0, x: tone, y: new Float64Array(256) }], 64, 64);
    // seven windows; the tone lies in the last two
    expect(without).toHaveLength(7);
    expect(without.slice(0, 5).every((d) => sum(d) > sum(density))).toBe(true);
    expect(without.slice(5).every((d) => sum(d) < sum(density))).toBe(true);
  });

  it("leaves out no more than twenty groups", () => {
    expect(pooledSpectrum([piece(64 * 30)], 64, 100).without).toHaveLength(20);
  });
});
