import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import type { Estimate } from "../../src/math/estimate.js";
import { createRandom } from "../../src/math/random.js";
import { type FrequencyResponseOptions, frequencyResponse } from "../../src/pursuit/frequency-response.js";
import { integerPursuit } from "./integer-pursuit.js";

const RATE = 100;
const numberOf = (estimate: Estimate): number => (estimate.ok ? estimate.value : Number.NaN);

/** A target of many sinusoids that no segment repeats, `seconds` long from time `from`; with a delay or a first-order lag in closed form. */
function wander(seconds: number, { delay = 0, gain = 1, lag = 0, from = 0 } = {}): Float64Array {
  const waves = Array.from({ length: 60 }, (_, i) => ({ hz: 0.07 + 0.0831 * i, turn: (i * i * 2.399) % 6.283, size: 1 / (1 + 0.1 * i) }));
  return Float64Array.from({ length: Math.round(seconds * RATE) }, (_, k) =>
    waves.reduce((sum, { hz, turn, size }) => {
      const w = 2 * Math.PI * hz;
      const angle = w * (from + k / RATE - delay) - Math.atan(w * lag) + turn;
      return sum + ((gain * size) / Math.sqrt(1 + (w * lag) ** 2)) * Math.sin(angle);
    }, 0),
  );
}

function noise(seed: number, n: number, sd: number): Float64Array {
  const random = createRandom(seed);
  return Float64Array.from({ length: n }, () => random.normal(0, sd));
}

const plus = (a: Float64Array, b: Float64Array): Float64Array => a.map((value, k) => value + b[k]!);

/** A multisine of whole turns in 20 s, and what a follower with these gains and delays makes of it. */
function multisine(turns: readonly number[], gains: readonly number[], delays: readonly number[], seconds: number): Float64Array {
  return Float64Array.from({ length: seconds * RATE }, (_, k) =>
    turns.reduce((sum, m, i) => sum + gains[i]! * Math.sin(2 * Math.PI * (m / 20) * (k / RATE - delays[i]!) + i), 0),
  );
}
const TURNS = [3, 7, 13, 23, 37];
const DRIVEN = TURNS.map((m) => m / 20);
const ONES = [1, 1, 1, 1, 1];
const ZEROS = [0, 0, 0, 0, 0];

/** Line, Hz, coherence, gain, unwrapped phase in degrees. */
const SCIPY = [[1, 0.390625, 0.796289987351, 1.00421243866, -10.9185063465]] as const;

describe("frequencyResponse against outside values", () => {
  // Source: scipy.signal.welch, csd and coherence, SciPy 1.10.1, half-overlapping Hann segments of 512 samples; five of the lines
  it("is H1 of SciPy on a signal of whole numbers", () => {
    const { target, pointer } = integerPursuit();
    const found = frequencyResponse(target, pointer, { sampleRateHz: 100, segment: 5.12, align: false });
    expect(found.segments).toBe(15);
    expect(found.independentSegments).toBeCloseTo(14.2605633803, 9);
    expect(found.chanceLevel).toBeCloseTo(0.202212410734, 9);
    for (const [line, hz, share, gain, phaseDeg] of SCIPY) {
      const at = found.frequencies[line]!;
      expect(at.hz).toBeCloseTo(hz, 12);
      expect(at.coherence).toBeCloseTo(share, 9);
      expect(at.remnant).toBeCloseTo(1 - share, 9);
      expect(numberOf(at.gain)).toBeCloseTo(gain, 8);
      expect(numberOf(at.phaseDeg)).toBeCloseTo(phaseDeg, 6);
      expect(numberOf(at.delay)).toBeCloseTo(-phaseDeg / (360 * hz), 8);
    }
  });
  // Source: closed form: each line of a multisine has its own gain and delay
  it("reads a multisine exactly over whole periods", () => {
    const gains = [1, 0.98, 0.9, 0.75, 0.4];
    const delays = [0.12, 0.13, 0.14, 0.16, 0.2];
    const found = frequencyResponse(multisine(TURNS, ONES, ZEROS, 45), multisine(TURNS, gains, delays, 45), {
      sampleRateHz: RATE,
      drivenHz: DRIVEN,
    });
    // 45 s hold two whole periods of 20 s
    expect(found).toMatchObject({ segments: 2, segment: 20 });
    for (const [i, at] of found.frequencies.entries()) {
      expect(numberOf(at.gain)).toBeCloseTo(gains[i]!, 9);
      expect(numberOf(at.delay)).toBeCloseTo(delays[i]!, 9);
    }
  });
  // Source: closed form: RMS = A sqrt((1 + G^2 - 2 G cos phase)/2) reaches that of rest at 60 degrees of lag, 1/(6 delay) Hz, for gain 1, and where cos phase = G/2 else
  it.each([
    [1, 0.15],
    [1, 0.3],
    [0.8, 0.2],
  ])("finds where following is no better than rest, gain %d and delay %d s", (gain, delay) => {
    const found = frequencyResponse(wander(90), wander(90, { gain, delay }), { sampleRateHz: RATE });
    expect(Math.abs(numberOf(found.rmsCrossing) - Math.acos(gain / 2) / (2 * Math.PI * delay))).toBeLessThan(0.02);
    expect(Math.abs(numberOf(found.delay) - delay)).toBeLessThan(0.0005);
    expect(Math.abs(numberOf(found.gain) - gain)).toBeLessThan(0.002);
  });
  // Source: closed form of a first-order lag: gain 1/sqrt(1 + (w tau)^2), phase -atan(w tau); half power at 1/(2 pi tau)
  it("finds the gain, the phase and the band of a first-order lag", () => {
    const lag = 0.1;
    const found = frequencyResponse(wander(90), wander(90, { lag }), { sampleRateHz: RATE, segment: 10 });
    for (const { hz, gain, phaseDeg } of found.frequencies.slice(2, 35)) {
      const turn = 2 * Math.PI * hz * lag;
      expect(numberOf(gain) * Math.sqrt(1 + turn * turn)).toBeCloseTo(1, 1.5);
      expect(Math.abs(numberOf(phaseDeg) + (Math.atan(turn) * 180) / Math.PI)).toBeLessThan(2.5);
    }
    expect(Math.abs(numberOf(found.bandwidth) - 1 / (2 * Math.PI * lag))).toBeLessThan(0.05);
    // the phase of a lag never gets to where rest is better: 1 + G^2 - 2 G cos = 1 has no root for G = cos
    expect(found.rmsCrossing).toMatchObject({ ok: false, why: "outOfReach" });
  });
  // Source: closed form: a Hann window has 1 - (2 pi^2/3)(d/T)^2 in common with itself d later, to second order: 2.4 % less gain for 0.3 s in 5 s
  it("loses gain to the delay when the pointer is not moved back", () => {
    const [target, pointer] = [wander(300), wander(300, { delay: 0.3 })];
    const plain = frequencyResponse(target, pointer, { sampleRateHz: RATE, segment: 5, align: false });
    const aligned = frequencyResponse(target, pointer, { sampleRateHz: RATE, segment: 5 });
    expect(Math.abs(numberOf(plain.gain) - (1 - (2 * Math.PI ** 2 * 0.06 ** 2) / 3))).toBeLessThan(0.008);
    expect(Math.abs(numberOf(aligned.gain) - 1)).toBeLessThan(0.002);
  });
});

describe("frequencyResponse properties", () => {
  const target = plus(wander(60), noise(31, 6000, 0.3));
  const pointer = plus(wander(60, { delay: 0.18, gain: 0.8 }), noise(32, 6000, 6));
  const options: FrequencyResponseOptions = { sampleRateHz: RATE };
  const whole = frequencyResponse(target, pointer, options);

  test.prop([fc.integer({ min: -500, max: 500 }), fc.integer({ min: 1, max: 40 }), fc.constantFrom(-1, 1)])(
    "does not change with the origin and the unit, and turns half round with the pointer's sign",
    (offset, scale, sign) => {
      // a mirrored pointer has no delay to be moved back by
      const options = { sampleRateHz: RATE, align: false };
      const whole = frequencyResponse(target, pointer, options);
      const found = frequencyResponse(
        target.map((value) => scale * value + offset),
        pointer.map((value) => sign * scale * value - offset),
        options,
      );
      for (const [i, at] of found.frequencies.entries()) {
        const before = whole.frequencies[i]!;
        expect(at.coherence).toBeCloseTo(before.coherence, 8);
        expect(at.aboveChance).toBe(before.aboveChance);
        if (!at.gain.ok || !at.phaseDeg.ok || !before.phaseDeg.ok) continue;
        expect(at.gain.value).toBeCloseTo(numberOf(before.gain), 7);
        const turned = ((at.phaseDeg.value - before.phaseDeg.value + (sign < 0 ? 180 : 0)) * Math.PI) / 360;
        expect(Math.abs(Math.sin(turned))).toBeLessThan(1e-6);
      }
      if (sign > 0) expect(numberOf(found.delay)).toBeCloseTo(numberOf(whole.delay), 8);
    },
  );
  it("scales gain with the pointer alone, and frequencies and delays with the clock", () => {
    const larger = frequencyResponse(
      target,
      pointer.map((value) => 3 * value),
      options,
    );
    expect(numberOf(larger.gain)).toBeCloseTo(3 * numberOf(whole.gain), 9);
    const slower = frequencyResponse(target, pointer, { sampleRateHz: RATE / 2, segment: 10, maxHz: 2.5 });
    expect(slower.frequencies.map((at) => at.hz)).toEqual(whole.frequencies.map((at) => at.hz / 2));
    expect(numberOf(slower.delay)).toBeCloseTo(2 * numberOf(whole.delay), 6);
    expect(numberOf(slower.bandwidth)).toBeCloseTo(numberOf(whole.bandwidth) / 2, 9);
  });
  it.each([[2 ** 900], [2 ** -1000]])("works in a unit of any size: %d", (unit) => {
    const found = frequencyResponse(
      target.map((value) => value * unit),
      pointer.map((value) => value * unit),
      options,
    );
    expect(numberOf(found.gain)).toBeCloseTo(numberOf(whole.gain), 9);
    expect(numberOf(found.delay)).toBeCloseTo(numberOf(whole.delay), 9);
  });
  it("finds a pointer that is moved by whole samples later by as much", () => {
    const later = frequencyResponse(target.slice(20), pointer.slice(0, -20), options);
    const same = frequencyResponse(target.slice(20), pointer.slice(20), options);
    expect(Math.abs(numberOf(later.delay) - numberOf(same.delay) - 0.2)).toBeLessThan(0.01);
  });
  it("says nothing of gain and phase where the coherence is not above chance", () => {
    const silent = whole.frequencies.filter((at) => !at.aboveChance);
    expect(silent.length).toBeGreaterThan(0);
    for (const at of silent) expect([at.gain, at.phaseDeg, at.delay]).toEqual(["1", "deg", "s"].map(unidentified(whole.segments)));
    for (const at of whole.frequencies) {
      expect(at.aboveChance).toBe(at.coherence > at.chanceLevel);
      expect(at.remnant).toBe(1 - at.coherence);
      if (at.gain.ok) expect(at.gain.interval![0] < at.gain.value && at.gain.value < at.gain.interval![1]).toBe(true);
    }
  });
  it("refuses to speak of a record without eight segments, of a target at rest, and of a pointer at rest", () => {
    const short = frequencyResponse(target.slice(0, 1790), pointer.slice(0, 1790), options);
    expect(short).toMatchObject({ segment: 4, frequencies: [], chanceLevel: null, gain: { ok: false, why: "tooFew" } });
    expect(frequencyResponse(target.slice(0, 1860), pointer.slice(0, 1860), options)).toMatchObject({ segments: 8, gain: { ok: true } });
    const still = new Float64Array(6000).fill(7);
    expect(frequencyResponse(still, pointer, options)).toMatchObject({ frequencies: [], delay: { ok: false, why: "noSpread" } });
    expect(frequencyResponse(still, pointer, { ...options, drivenHz: [0.5] }).bandwidth).toMatchObject({ ok: false, why: "noSpread" });
    const rest = frequencyResponse(target, still, options);
    expect(rest.warnings).toEqual(["nothingAboveChance"]);
    for (const one of [rest.gain, rest.delay, rest.bandwidth, rest.rmsCrossing])
      expect(one).toMatchObject({ ok: false, why: "notIdentified" });
    expect(frequencyResponse(new Float64Array(0), new Float64Array(0), options)).toMatchObject({ segments: 0, frequencies: [] });
  });
  it("warns of short segments, of a band that goes on, and of a delay that could be another", () => {
    const quick = frequencyResponse(target, pointer, { ...options, segment: 2 });
    expect(quick.warnings).toContain("shortSegments");
    const exact = frequencyResponse(target, target, { ...options, maxHz: 2 });
    expect(exact.warnings).toEqual(["bandwidthAtEnd"]);
    expect(exact.bandwidth).toMatchObject({ ok: true, value: 2 });
    const wave = (delay: number): Float64Array => Float64Array.from({ length: 6000 }, (_, k) => Math.sin(4 * Math.PI * (k / RATE - delay)));
    const periodic = frequencyResponse(wave(0), plus(wave(0.05), noise(33, 6000, 0.1)), { ...options, drivenHz: [2] });
    expect(periodic.warnings).toContain("ambiguousDelay");
    expect(Math.abs(numberOf(periodic.delay) - 0.05)).toBeLessThan(0.003);
  });
  it("tells remnant from answer beside the lines of a multisine, whatever the number of periods", () => {
    const found = [60, 120, 240].map((seconds) => {
      const n = seconds * RATE;
      const answer = multisine(TURNS, ONES, [0.1, 0.1, 0.1, 0.1, 0.1], seconds);
      return frequencyResponse(multisine(TURNS, ONES, ZEROS, seconds), plus(answer, noise(34, n, 5)), {
        sampleRateHz: RATE,
        drivenHz: DRIVEN,
      });
    });
    // Source: closed form: a line of size 1 in white noise of SD 5 has 1/2 against 25 / (n/2) per period of n = 2000 samples
    const truth = 0.5 / (0.5 + 25 / 1000);
    for (const { frequencies } of found) {
      const mean = frequencies.reduce((sum, at) => sum + at.coherence, 0) / frequencies.length;
      expect(Math.abs(mean - truth)).toBeLessThan(0.02);
    }
    const width = ({ delay }: (typeof found)[number]): number => (delay.ok ? delay.interval![1] - delay.interval![0] : Number.NaN);
    expect(width(found[2]!) / width(found[0]!)).toBeCloseTo(0.5, 0.7);
  });
  it("is plain data and leaves its inputs as they were", () => {
    const before = [target.slice(), pointer.slice()];
    const found = frequencyResponse(target, pointer, options);
    expect([target, pointer]).toEqual(before);
    expect(JSON.parse(JSON.stringify(found))).toEqual(found);
    expect(structuredClone(found)).toEqual(found);
  });
});

const unidentified = (n: number) => (unit: string) => ({ ok: false, why: "notIdentified", unit, n });

describe("frequencyResponse bad input", () => {
  const column = wander(30);
  const call = (options: object, pointer = column): unknown => frequencyResponse(column, pointer, { sampleRateHz: RATE, ...options });

  it("names the column that is wrong", () => {
    expect(() => frequencyResponse([1, 2] as never, column, { sampleRateHz: 1 })).toThrow(
      /frequencyResponse: target must be a Float64Array/,
    );
    expect(() => call({}, column.slice(1))).toThrow(/frequencyResponse: pointer must have 3000 entries like the other columns, got 2999/);
    const broken = column.slice();
    broken[7] = Number.NaN;
    expect(() => call({}, broken)).toThrow(/pointer\[7\] must be finite, got NaN/);
  });
  it.each([
    [{ sampleRateHz: 0 }, /options\.sampleRateHz must be finite and above 0, got 0/],
    [{ segment: 0.5 }, /options\.segment must be finite and at least 1, got 0\.5/],
    [{ overlap: 0.9 }, /options\.overlap must be at least 0 and at most 0\.75, got 0\.9/],
    [{ window: "hamming" }, /options\.window must be one of "hann", "boxcar", got "hamming"/],
    [{ maxHz: 51 }, /options\.maxHz must be above 0 and at most 50, got 51/],
    [{ level: 1 }, /options\.level must be above 0 and below 1, got 1/],
    [{ drivenHz: [] }, /options\.drivenHz must be a list of frequencies, got an array of 0/],
    [{ drivenHz: [1, 0.5] }, /options\.drivenHz\[1\] must be above 1 and at most 50, got 0\.5/],
    [{ drivenHz: [50] }, /options\.drivenHz\[0\] must be below half the sampling rate, got 50/],
    [{ drivenHz: [0.01] }, /options\.drivenHz must have whole periods in one stretch of the record, got 30 s of 0\.01 Hz/],
    [
      { drivenHz: [0.5, 0.512345678] },
      /options\.drivenHz must have whole periods in one stretch of the record, got 30 s of 0\.5, 0\.512345678 Hz/,
    ],
  ])("refuses %j", (options, message) => {
    expect(() => call(options)).toThrow(message);
  });
});
