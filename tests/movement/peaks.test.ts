import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { findPeaks } from "../../src/movement/bell/peaks.js";
import { readReference, SHARED_ABSENT } from "../shared.js";
import { compose } from "./bells.js";

const table = readReference("kinematics/submovements.json");

describe.skipIf(table === undefined)(
  `findPeaks against outside values (${table === undefined ? SHARED_ABSENT : "reference tables"})`,
  () => {
    for (const c of table?.cases.filter((entry) => entry.name.startsWith("composed")) ?? []) {
      for (const fs of [125, 250, 1000]) {
        // Source: SciPy 1.10.1 signal.find_peaks(v, prominence=0.05*max, height=0.05*max); kinematics/submovements.json.
        it(`finds the peaks that find_peaks finds: ${c.name}, ${fs} Hz`, () => {
          const sampled = c.expected.sampled[fs];
          const { speed } = compose(c.input.components, fs, sampled.n);
          const { index, prominence } = findPeaks(speed);
          const least = 0.05 * Math.max(...speed);
          expect(index.filter((at, k) => prominence[k]! >= least && speed[at]! >= least)).toEqual(sampled.peakIndices);
          expect(index.length).toBe(sampled.allMaxima);
        });
      }
      // Source: exact roots of the derivative of squared speed; kinematics/submovements.json. Sampled at 20 kHz: smooth peaks to 1e-5 of the
      // largest speed; a prominence may rest on a reversal, where speed comes to a point and the samples miss its tip by up to 1e-4.
      it(`gives the exact prominences: ${c.name}`, () => {
        const fs = 20_000;
        const { speed } = compose(c.input.components, fs, Math.ceil(1.2 * fs));
        const { index, prominence } = findPeaks(speed);
        const top = Math.max(...speed);
        const found = index.map((at, k) => [at / fs, speed[at]!, prominence[k]!]).filter((peak) => peak[2]! > 1e-4 * top);
        const expected: number[][] = c.expected.peaks;
        expect(found.length).toBe(expected.length);
        for (const [k, peak] of expected.entries()) {
          expect(Math.abs(found[k]![0]! - peak[0]!)).toBeLessThan(1e-4);
          expect(Math.abs(found[k]![1]! - peak[1]!)).toBeLessThan(1e-5 * top);
          expect(Math.abs(found[k]![2]! - peak[2]!)).toBeLessThan(1e-4 * top);
        }
      });
    }
  },
);

/** The definition word by word: walk out from each maximum to the first higher value on each side. */
function slowPeaks(series: readonly number[]): { index: number[]; prominence: number[] } {
  const index: number[] = [];
  const prominence: number[] = [];
  for (let i = 1; i < series.length - 1; i++) {
    let last = i;
    while (last + 1 < series.length && series[last + 1] === series[i]) last++;
    if (!(series[i - 1]! < series[i]!) || last + 1 >= series.length || !(series[last + 1]! < series[i]!)) continue;
    const at = Math.floor((i + last) / 2);
    const side = (step: number): number => {
      let low = series[at]!;
      for (let k = at; k >= 0 && k < series.length && series[k]! <= series[at]!; k += step) low = Math.min(low, series[k]!);
      return low;
    };
    index.push(at);
    prominence.push(series[at]! - Math.max(side(-1), side(1)));
  }
  return { index, prominence };
}

describe("findPeaks properties", () => {
  test.prop([fc.array(fc.integer({ min: 0, max: 8 }), { maxLength: 60 })])(
    "agrees with the definition walked out peak by peak, ties and plateaus included",
    (values) => {
      expect(findPeaks(Float64Array.from(values))).toEqual(slowPeaks(values));
    },
  );

  test.prop([
    fc.array(fc.double({ min: 0, max: 1e6, noNaN: true }), { minLength: 3, maxLength: 200 }),
    fc.double({ min: 0.5, max: 4, noNaN: true }),
  ])("keeps peaks and scales prominence when the series is scaled by a power of two", (values, factor) => {
    const power = 2 ** Math.round(factor);
    const plain = findPeaks(Float64Array.from(values));
    const scaled = findPeaks(Float64Array.from(values, (v) => v * power));
    expect(scaled.index).toEqual(plain.index);
    expect(scaled.prominence).toEqual(plain.prominence.map((p) => p * power));
  });

  it("gets through a staircase in which every peak overtops all before it", () => {
    const n = 1e5;
    const rising = Float64Array.from({ length: n }, (_, i) => i + (i % 2) * 2);
    expect(findPeaks(rising).index.length).toBe(n / 2 - 1);
  });
});

describe("findPeaks bad input", () => {
  it("finds nothing in nothing", () => expect(findPeaks(new Float64Array(0))).toEqual({ index: [], prominence: [] }));
  it("takes the ends of its range for no peaks", () => expect(findPeaks(Float64Array.of(3, 1, 2, 1, 5), 1, 4).index).toEqual([2]));
});
