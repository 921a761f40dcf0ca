import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { minimumJerkSpeed } from "../../src/math/minimum-jerk.js";
import { smoothnessOf } from "../../src/movement/acquisition/smoothness-of.js";
import { arcLength } from "../../src/movement/smoothness/arc-length.js";
import { type SpectralArcLengthOptions, spectralArcLength } from "../../src/movement/spectral-arc-length.js";

/** Speed of strokes one after another with rests between, each `seconds` long, at samples k / rate. */
function strokes(count: number, seconds: number, rest: number, rate: number, size = 1): Float64Array {
  const n = Math.round((count * seconds + (count - 1) * rest) * rate) + 1;
  return Float64Array.from({ length: n }, (_, k) => {
    let v = 0;
    for (let j = 0; j < count; j++) v += size * minimumJerkSpeed((k / rate - j * (seconds + rest)) / seconds);
    return v;
  });
}

function valueFor(speed: Float64Array, options: SpectralArcLengthOptions): number {
  const estimate = spectralArcLength(speed, options);
  if (!estimate.ok) throw new Error(estimate.why);
  return estimate.value;
}

/** The sum as it is defined, bin by bin, with nothing saved. */
function plainly(speed: Float64Array, { sampleRateHz, maxHz = 20, threshold = 0.05, padLevel = 4 }: SpectralArcLengthOptions): number {
  const size = 2 ** (Math.ceil(Math.log2(speed.length)) + padLevel);
  const magnitudes: number[] = [];
  for (let k = 0; k <= size / 2; k++) {
    // a spectrum is largest at 0 Hz unless something is below 0
    if ((k * sampleRateHz) / size > maxHz && speed.every((v) => v >= 0)) break;
    let re = 0;
    let im = 0;
    for (let i = 0; i < speed.length; i++) {
      // whole turns off while the product is exact
      const angle = (2 * Math.PI * ((k * i) % size)) / size;
      re += speed[i]! * Math.cos(angle);
      im += speed[i]! * Math.sin(angle);
    }
    magnitudes.push(Math.hypot(re, im));
  }
  const top = Math.max(...magnitudes);
  const counts = magnitudes.map((value, k) => (k * sampleRateHz) / size <= maxHz && value >= threshold * top);
  const first = counts.indexOf(true);
  const last = counts.lastIndexOf(true);
  let length = 0;
  for (let k = first + 1; k <= last; k++) length += Math.hypot(1 / (last - first), (magnitudes[k]! - magnitudes[k - 1]!) / top);
  return -length;
}

describe("spectralArcLength against outside values", () => {
  // Source: printed in the docstring of the public script of the method's first author (siva82kb/SPARC, 14b377e, read): five decimals.
  it("gives the published value of a Gaussian bell", () => {
    const bell = Float64Array.from({ length: 200 }, (_, k) => Math.exp(-5 * (-1 + 0.01 * k) ** 2));
    expect(valueFor(bell, { sampleRateHz: 100, maxHz: 10 })).toBeCloseTo(-1.41403, 5);
  });

  // Source: computed from the stated steps with NumPy 1.24.2, twelve digits.
  it.each([
    ["one of 0.2 s at 250 Hz", strokes(1, 0.2, 0, 250), 250, -1.40582997023],
    ["one of 0.3 s at 125 Hz", strokes(1, 0.3, 0, 125), 125, -1.40254121558],
    ["one of 1 s at 1000 Hz", strokes(1, 1, 0, 1000), 1000, -1.40242606291],
    ["two of 0.3 s without rest", strokes(2, 0.3, 0, 1000), 1000, -2.26639756865],
    ["two of 0.3 s with 0.09 s between", strokes(2, 0.3, 0.09, 1000), 1000, -2.89678590503],
    ["two of 0.3 s with 0.18 s between", strokes(2, 0.3, 0.18, 1000), 1000, -3.31156091737],
  ])("agrees on minimum-jerk strokes: %s", (_, speed, sampleRateHz, expected) => {
    expect(valueFor(speed, { sampleRateHz })).toBeCloseTo(expected, 10);
  });

  // Source: computed from the stated steps with NumPy 1.24.2: a movement of 0.15 s reaches 11 Hz, and the literature's 10 Hz cuts it short.
  it("sees the whole of a short movement up to 20 Hz, and not up to 10", () => {
    const short = strokes(1, 0.15, 0, 1000);
    expect(valueFor(short, { sampleRateHz: 1000 })).toBeCloseTo(-1.40254108827, 10);
    expect(valueFor(short, { sampleRateHz: 1000, maxHz: 10 })).toBeCloseTo(-1.34499292153, 10);
  });

  // Source: numerical integration of the closed-form spectrum (mpmath): -1.40817755051. The cut falls on a grid of frequencies, which 2^10 points per sample make fine.
  it("tends to the continuous limit of one minimum-jerk movement", () => {
    expect(Math.abs(valueFor(strokes(1, 0.5, 0, 500), { sampleRateHz: 500, padLevel: 10 }) + 1.40817755051)).toBeLessThan(1e-3);
  });
});

describe("spectralArcLength on values below 0", () => {
  // Source: computed from the stated steps with NumPy 1.24.2: a stroke of 0.5 s with a tremor of 120 units/s at 9 Hz, which takes its slow ends below 0.
  it("takes what a filter or a tremor left below 0 as it is", () => {
    const speed = strokes(1, 0.5, 0, 250, 600).map((v, k) => v + 120 * Math.sin((2 * Math.PI * 9 * k) / 250 + 0.3));
    expect(speed.some((v) => v < 0)).toBe(true);
    expect(valueFor(speed, { sampleRateHz: 250 })).toBeCloseTo(-1.74424986506, 9);
    expect(valueFor(speed, { sampleRateHz: 250, maxHz: 10 })).toBeCloseTo(-1.73430645466, 9);
  });

  const signedArb = fc
    .array(fc.integer({ min: -4000, max: 4000 }), { minLength: 8, maxLength: 60 })
    .filter((values) => values.some((v) => v < 0))
    .map((values) => Float64Array.from(values, (v) => v / 8));
  test.prop([signedArb, fc.constantFrom(5, 10, 20, 62.5), fc.constantFrom(0.05, 0.2, 0.9)])(
    "follows the definition of a band that begins above 0 Hz",
    (speed, maxHz, threshold) => {
      const options = { sampleRateHz: 125, maxHz, threshold, padLevel: 2 };
      const estimate = spectralArcLength(speed, options);
      const plain = plainly(speed, options);
      if (estimate.ok) expect(Math.abs(estimate.value - plain)).toBeLessThan(1e-9 * -plain);
      else expect(plain).toBeCloseTo(0, 12);
    },
  );

  it("has no value where all that counts lies above the limit", () => {
    const fast = Float64Array.from({ length: 100 }, (_, k) => (k % 2 === 0 ? 1 : -1));
    expect(spectralArcLength(fast, { sampleRateHz: 250, threshold: 0.5 })).toMatchObject({ ok: false, why: "belowResolution" });
  });
});

describe("spectralArcLength properties", () => {
  const speedArb = fc
    .array(fc.integer({ min: 0, max: 4000 }), { minLength: 4, maxLength: 60 })
    .filter((values) => values.some((value) => value > 0))
    .map((values) => Float64Array.from(values, (value) => value / 8));
  const optionsArb = fc.record({
    sampleRateHz: fc.constantFrom(60, 125, 250, 1000),
    maxHz: fc.constantFrom(5, 10, 20, 100),
    threshold: fc.constantFrom(0.02, 0.05, 0.2),
    padLevel: fc.integer({ min: 1, max: 6 }),
  });

  test.prop([speedArb, optionsArb])("agrees with the sum written out plainly", (speed, options) => {
    const estimate = spectralArcLength(speed, options);
    const plain = plainly(speed, options);
    if (estimate.ok) expect(Math.abs(estimate.value - plain)).toBeLessThan(1e-9 * -plain);
    else expect(plain).toBeCloseTo(0, 12);
  });

  // Source: the definition, summed plainly. Below a million products the bins are summed one by one, above it they are transformed together.
  it.each([
    ["summed", 700, { sampleRateHz: 500 }],
    ["summed, a long profile and few bins", 60000, { sampleRateHz: 1000, maxHz: 0.15, padLevel: 0 }],
    ["transformed, just above the limit", 800, { sampleRateHz: 250 }],
    ["transformed, bins past a quarter of the rate", 40, { sampleRateHz: 50, maxHz: 25, padLevel: 1 }],
  ] as const)("is the same to 1e-9 whichever way it is computed: %s", (_, n, options) => {
    const speed = Float64Array.from({ length: n }, (_, i) => minimumJerkSpeed(((3 * i) / n) % 1) * (1 + 0.2 * Math.sin(0.3 * i)));
    expect(Math.abs(valueFor(speed, options) - plainly(speed, options))).toBeLessThan(1e-9);
  });

  test.prop([speedArb, optionsArb, fc.constantFrom(0.125, 3, 1000)])(
    "does not change with the size of the movement",
    (speed, options, factor) => {
      const once = spectralArcLength(speed, options);
      const grown = spectralArcLength(
        speed.map((value) => factor * value),
        options,
      );
      expect(grown.ok).toBe(once.ok);
      if (once.ok && grown.ok) expect(Math.abs(grown.value - once.value)).toBeLessThan(1e-9);
    },
  );

  test.prop([speedArb, fc.constantFrom(0.5, 2, 4)])(
    "does not change with pace: only rate and limit together say what a second is",
    (speed, factor) => {
      const options = { sampleRateHz: 125, maxHz: 20 };
      expect(spectralArcLength(speed, { sampleRateHz: factor * 125, maxHz: factor * 20 })).toEqual(spectralArcLength(speed, options));
    },
  );

  test.prop([speedArb, optionsArb])("is the same backward, and at most minus one", (speed, options) => {
    const forward = spectralArcLength(speed, options);
    const backward = spectralArcLength(speed.slice().reverse(), options);
    expect(backward.ok).toBe(forward.ok);
    if (!forward.ok || !backward.ok) return;
    // the curve spans the whole width, so that it is no shorter than that
    expect(forward.value).toBeLessThanOrEqual(-1);
    expect(Math.abs(backward.value - forward.value)).toBeLessThan(1e-7);
  });

  it("hardly sees rest before and after, and sees rest between", () => {
    const speed = strokes(1, 0.3, 0, 250);
    const padded = new Float64Array(speed.length + 100);
    padded.set(speed, 50);
    expect(Math.abs(valueFor(padded, { sampleRateHz: 250 }) - valueFor(speed, { sampleRateHz: 250 }))).toBeLessThan(0.01);
    const rests = [0, 0.1, 0.2, 0.3].map((rest) => valueFor(strokes(2, 0.3, rest, 250), { sampleRateHz: 250 }));
    expect(rests).toEqual([...rests].sort((a, b) => b - a));
  });

  it("leaves its input as it was and gives plain data", () => {
    const speed = strokes(1, 0.3, 0, 250);
    const before = speed.slice();
    const estimate = spectralArcLength(speed, Object.freeze({ sampleRateHz: 250 }));
    expect(speed).toEqual(before);
    expect(JSON.parse(JSON.stringify(estimate))).toEqual(estimate);
    expect(structuredClone(estimate)).toEqual(estimate);
  });

  it("reads the part of a column that it is given", () => {
    const speed = strokes(1, 0.3, 0, 250);
    const within = new Float64Array(speed.length + 20).fill(7);
    within.set(speed, 12);
    const settings = { sampleRateHz: 250, maxHz: 20, threshold: 0.05, padLevel: 4 };
    expect(arcLength(within, 12, 12 + speed.length, settings)).toBe(valueFor(speed, settings));
    // values below 0 are transformed together
    const rung = speed.map((v, k) => v - (k < 3 ? 0.01 : 0));
    within.set(rung, 12);
    expect(arcLength(within, 12, 12 + speed.length, settings)).toBe(valueFor(rung, settings));
  });

  // Source: the project's own rule: under 0.1 s or 20 samples there is no spectrum to speak of.
  it("is given to a row from 0.1 s and 20 samples on, as is the jerk", () => {
    const segmentAt = (sampleRateHz: number) => {
      const speed = strokes(1, 0.3, 0, sampleRateHz);
      let at = 0;
      const x = speed.map((v) => (at += v / sampleRateHz));
      return { t0: 0, sampleRateHz, x, y: new Float64Array(x.length), speed };
    };
    const given = (rate: number, from: number, to: number) => Object.keys(smoothnessOf(segmentAt(rate), from, to));
    expect(given(1000, 0.1, 0.195)).toEqual([]);
    expect(given(1000, 0.1, 0.205)).toEqual(["spectralArcLength", "logDimensionlessJerk"]);
    expect(given(100, 0.05, 0.2)).toEqual([]);
    expect(given(100, 0.03, 0.25)).toEqual(["spectralArcLength", "logDimensionlessJerk"]);
  });
});

describe("spectralArcLength bad input", () => {
  const speed = strokes(1, 0.3, 0, 250);

  it("has no value for a pointer at rest, for three samples, and where no frequency counts", () => {
    expect(spectralArcLength(new Float64Array(40), { sampleRateHz: 250 })).toEqual({ ok: false, why: "noSpread", unit: "1", n: 40 });
    expect(spectralArcLength(speed.slice(0, 3), { sampleRateHz: 250 })).toEqual({ ok: false, why: "tooFew", unit: "1", n: 3 });
    const coarse = { ok: false, why: "belowResolution", unit: "1", n: speed.length };
    expect(spectralArcLength(speed, { sampleRateHz: 250, maxHz: 0.1, padLevel: 0 })).toEqual(coarse);
    expect(spectralArcLength(new Float64Array(40).fill(1e307), { sampleRateHz: 250 }).ok).toBe(false);
  });
  it("asks for options, without which no sample has a time", () => {
    expect(() => spectralArcLength(speed, undefined as never)).toThrow(/^spectralArcLength: options must be/);
  });
  it("names a speed that is no number", () => {
    expect(() => spectralArcLength(Float64Array.of(0, Number.NaN, 1, 0), { sampleRateHz: 250 })).toThrow(
      "speed[1] must be finite, got NaN",
    );
    expect(() => spectralArcLength([0, 1, 0] as never, { sampleRateHz: 250 })).toThrow("speed must be a Float64Array, got an array of 3");
  });
  it.each([
    [{ sampleRateHz: 0 }, /options\.sampleRateHz must be finite and above 0, got 0/],
    [{ sampleRateHz: 250, maxHz: -1 }, /options\.maxHz must be finite and above 0, got -1/],
    [{ sampleRateHz: 250, threshold: 0 }, /options\.threshold must be above 0 and at most 1, got 0/],
    [{ sampleRateHz: 250, padLevel: 1.5 }, /options\.padLevel must be a whole number at least 0 and at most 10, got 1\.5/],
  ])("refuses %j", (options, message) => {
    expect(() => spectralArcLength(speed, options)).toThrow(message);
  });
});
