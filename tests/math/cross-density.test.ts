import { describe, expect, it } from "vitest";
import { chanceCoherence, coherence, independentSegments, relativeGainError } from "../../src/math/coherence.js";
import { crossDensity } from "../../src/math/cross-density.js";
import { createRandom } from "../../src/math/random.js";
import { welchDensity } from "../../src/math/welch-density.js";

const first = Float64Array.from({ length: 60 }, (_, k) => Math.sin(0.4 * k) + 0.01 * k);
const second = first.map((_, k) => 0.5 * first[(k + 58) % 60]! + ((k * 7) % 5) / 10);
const options = { sampleRateHz: 10, segment: 16, overlap: 8 };

describe("crossDensity and coherence against outside values", () => {
  // Source: scipy.signal.csd and coherence, SciPy 1.17.1; bins 1, 2 and 8
  it("are those of SciPy", () => {
    const cross = crossDensity(first, second, options);
    const shares = coherence(cross);
    for (const [bin, re, im, share] of [
      [1, 0.1872209620687782, -0.19324299358582286, 0.9989332837425433],
      [2, 0.053311622676758375, -0.046476476389867384, 0.9861168139548757],
      [8, 1.5385302238808067e-8, 0, 0.01836402616342065],
    ] as const) {
      expect(cross.re[bin]).toBeCloseTo(re, 12);
      expect(cross.im[bin]).toBeCloseTo(im, 12);
      expect(shares[bin]).toBeCloseTo(share, 7);
    }
  });
  // Source: closed form: 1 - alpha^(1/(L - 1)), and K/(1 + 2/36 (1 - 1/K)) for half-overlapping Hann windows
  it("have the chance level and the independent segments of the closed forms", () => {
    expect(chanceCoherence(8, 0.95)).toBeCloseTo(0.34816, 5);
    expect(chanceCoherence(2, 0.95)).toBeCloseTo(0.95, 12);
    expect(independentSegments(31, "hann", 256, 128)).toBeCloseTo(29.4183673469, 9);
    expect(independentSegments(9, "boxcar", 100, 100)).toBe(9);
    // half-overlapping boxcars have half of everything in common
    expect(independentSegments(2, "boxcar", 100, 50)).toBeCloseTo(2 / (1 + 2 * 0.25 * 0.5), 12);
    expect(relativeGainError(0.8, 16)).toBeCloseTo(0.0883883476, 9);
  });
  // Source: the meaning of the chance level, simulated with unrelated noise: 5 % of 4000 values, neighbours of 4 lines apart independent, binomial 99 % band
  it("are above the chance level of unrelated noise in 5 % of cases", () => {
    const random = createRandom(20);
    const noise = (): Float64Array => Float64Array.from({ length: 1024 }, () => random.normal());
    const level = chanceCoherence(independentSegments(15, "hann", 128, 64), 0.95);
    let above = 0;
    for (let run = 0; run < 400; run++) {
      const shares = coherence(crossDensity(noise(), noise(), { sampleRateHz: 1, segment: 128 }));
      for (let j = 6; j < 46; j += 4) if (shares[j]! > level) above++;
    }
    expect(Math.abs(above / 4000 - 0.05)).toBeLessThan(2.6 * Math.sqrt((0.05 * 0.95) / 4000) + 0.003);
  });
});

describe("crossDensity properties", () => {
  it("holds the density of each signal, and the opposite angle when they change places", () => {
    const cross = crossDensity(first, second, options);
    const back = crossDensity(second, first, options);
    expect(cross.first).toEqual(welchDensity(first, options).density);
    expect(cross.second).toEqual(welchDensity(second, options).density);
    expect(back.re).toEqual(cross.re);
    expect(back.im.map((value) => 0 - value)).toEqual(cross.im.map((value) => value + 0));
  });
  it.each([[3], [-3]])("reads the second signal %d samples later", (shift) => {
    const at = (signal: Float64Array, from: number): Float64Array => signal.slice(from, from + 57);
    const plain = crossDensity(at(first, Math.max(0, -shift)), at(second, Math.max(0, shift)), options);
    expect(crossDensity(first, second, { ...options, shift })).toEqual(plain);
  });
  it("finds one segment coherent whatever the data, and silence with nothing", () => {
    const one = coherence(crossDensity(first, second, { sampleRateHz: 10, segment: 60 }));
    for (const share of one.subarray(1, -1)) expect(share).toBeCloseTo(1, 9);
    expect([...coherence(crossDensity(first, new Float64Array(60), options))]).toEqual(Array(9).fill(0));
  });
});
