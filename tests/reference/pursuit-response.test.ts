import { describe, expect, it } from "vitest";
import { chanceCoherence, coherence, independentSegments, relativeGainError } from "../../src/math/coherence.js";
import { crossDensity } from "../../src/math/cross-density.js";
import { fourierPlan } from "../../src/math/fourier.js";
import { frequencyResponse } from "../../src/pursuit/frequency-response.js";
import { sineError } from "../../src/pursuit/response/sine-error.js";
import { integerPursuit } from "../pursuit/integer-pursuit.js";
import { type ReferenceCase, readReference, SHARED_ABSENT, within } from "../shared.js";

const table = readReference("kinematics/pursuit.json");
const cases = (start: string): [string, ReferenceCase][] =>
  (table?.cases ?? []).filter((c) => c.name.startsWith(start)).map((c) => [c.name, c]);

function expectAll(got: ArrayLike<number>, expected: readonly number[], tolerance: ReferenceCase["tolerance"]): void {
  expect(got.length).toBe(expected.length);
  for (const [i, value] of expected.entries()) {
    expect(within(got[i]!, value, tolerance), `entry ${i}: ${got[i]} for ${value}`).toBe(true);
  }
}

const radians = (deg: number): number => (deg * Math.PI) / 180;

// Source: kinematics/pursuit.json: closed forms, and SciPy 1.10.1 (signal.welch, csd, coherence) on a signal of integers.
describe.skipIf(table === undefined)(`frequency cases of the pursuit table (${table === undefined ? SHARED_ABSENT : "present"})`, () => {
  it("has the cases that are tested here", () => {
    const names = [
      "sinusoid",
      "pure delay",
      "first-order",
      "integer",
      "frequency",
      "one seg",
      "chance",
      "effective",
      "relative",
      "multisine",
    ];
    expect(names.flatMap(cases)).toHaveLength(12);
  });

  it.each(cases("sinusoid followed"))("%s", (_, { expected, tolerance }) => {
    for (const row of expected.table) {
      const phase = radians(row.phaseDeg);
      expect(within(sineError(row.gain, phase), row.rmsOverA, tolerance)).toBe(true);
      expect(within(Math.SQRT2 * sineError(row.gain, phase), row.largestErrorOverA, tolerance)).toBe(true);
      const best = Math.max(0, Math.cos(phase));
      expect(within(best, row.bestGainAtThisPhase, tolerance)).toBe(true);
      expect(within(sineError(best, phase), row.rmsAtBestGain, tolerance)).toBe(true);
    }
    expect(within(sineError(0, 0), expected.pointerAtRestOverA, tolerance)).toBe(true);
  });

  it.each(cases("pure delay"))("%s", (_, { expected, tolerance }) => {
    for (const row of expected.table) {
      const phase = -2 * Math.PI * row.hz * row.delay;
      expect(within((phase * 180) / Math.PI, row.phaseDeg, tolerance)).toBe(true);
      expect(within(sineError(1, phase), row.rmsOverA, tolerance)).toBe(true);
      expect(sineError(1, phase) > sineError(0, 0)).toBe(row.worseThanRest);
    }
    const even = sineError(1, radians(expected.phaseWhereFollowingIsNoBetterThanRestDeg));
    expect(within(even, sineError(0, 0), tolerance)).toBe(true);
  });

  it.each(cases("first-order lag on sinusoids"))("%s", (_, { expected, tolerance }) => {
    for (const row of expected.table) {
      const turn = 2 * Math.PI * row.hz * row.timeConstant;
      expect(within(1 / Math.sqrt(1 + turn * turn), row.gain, tolerance)).toBe(true);
      expect(within(sineError(row.gain, radians(row.phaseDeg)), row.rmsOverA, tolerance)).toBe(true);
    }
  });

  it.each(cases("integer pursuit signal"))("%s", (_, { expected }) => {
    const { target, pointer } = integerPursuit();
    const sum = (values: Float64Array): number => values.reduce((all, value) => all + value, 0);
    expect([...target.subarray(0, 8)]).toEqual(expected.q.first8);
    expect([...pointer.subarray(0, 8)]).toEqual(expected.p.first8);
    expect([target.at(-1), sum(target), sum(target.map((v) => v * v))]).toEqual([expected.q.last, expected.q.sum, expected.q.sumSquares]);
    const four = pointer.map((v) => 4 * v);
    expect([pointer.at(-1), sum(four), sum(four.map((v) => v * v))]).toEqual([expected.p.last, expected.p.sum4, expected.p.sumSquares16]);
  });

  it.each(cases("frequency response"))("%s", (_, { params, expected, tolerance }) => {
    const { target, pointer } = integerPursuit();
    const cross = crossDensity(target, pointer, params);
    const kept = (column: Float64Array): Float64Array => column.subarray(1, 1 + expected.frequencies.length);
    expect(cross.segments).toBe(expected.segments);
    expectAll(kept(cross.hz), expected.frequencies, tolerance);
    expectAll(kept(cross.first), expected.targetDensity, tolerance);
    expectAll(kept(cross.second), expected.pointerDensity, tolerance);
    expectAll(kept(cross.re), expected.crossRe, tolerance);
    expectAll(kept(cross.im), expected.crossIm, tolerance);
    expectAll(kept(coherence(cross)), expected.coherence, tolerance);

    const found = frequencyResponse(target, pointer, {
      sampleRateHz: params.sampleRateHz,
      window: params.window,
      segment: params.segment / params.sampleRateHz,
      overlap: params.overlap / params.segment,
      maxHz: expected.frequencies.at(-1),
      align: false,
    });
    expect(found.segments).toBe(expected.segments);
    expect(within(found.independentSegments, expected.effectiveSegments, tolerance)).toBe(true);
    expect(within(found.chanceLevel!, expected.chanceLevel95, tolerance)).toBe(true);
    expectAll(
      found.frequencies.map((f) => f.hz),
      expected.frequencies,
      tolerance,
    );
    expectAll(
      found.frequencies.map((f) => f.remnant),
      expected.remnantShare,
      tolerance,
    );
    for (const [i, f] of found.frequencies.entries()) {
      expect(f.aboveChance).toBe(expected.coherence[i] > expected.chanceLevel95);
      expect(f.gain.ok).toBe(f.aboveChance);
      if (!f.gain.ok || !f.phaseDeg.ok || !f.delay.ok) continue;
      expect(within(f.gain.value, expected.gain[i], tolerance)).toBe(true);
      expect(within(f.phaseDeg.value, expected.phaseUnwrappedDeg[i], tolerance)).toBe(true);
      expect(within(f.delay.value, -expected.phaseUnwrappedDeg[i] / (360 * expected.frequencies[i]), tolerance)).toBe(true);
      // one wrapped, one not: the same angle
      expect(Math.abs(Math.sin(radians(f.phaseDeg.value - expected.phaseDeg[i]) / 2))).toBeLessThan(1e-6);
    }
  });

  it.each(cases("frequency response: hann"))("%s: the truth of the generator lies in the intervals", (_, { params, expected }) => {
    const { target, pointer } = integerPursuit();
    const segment = params.segment / params.sampleRateHz;
    const { frequencies, delay } = frequencyResponse(target, pointer, { sampleRateHz: params.sampleRateHz, segment });
    // the true delay of low frequencies is 12.25 samples
    expect(delay).toMatchObject({ ok: true, value: expect.closeTo(0.1225, 2) });
    let held = 0;
    let all = 0;
    for (const [i, { gain, phaseDeg }] of frequencies.slice(0, expected.trueGain.length).entries()) {
      if (!gain.ok || !phaseDeg.ok) continue;
      const phase = expected.truePhaseUnwrappedDeg[i];
      held += Number(gain.interval![0] <= expected.trueGain[i] && expected.trueGain[i] <= gain.interval![1]);
      held += Number(phaseDeg.interval![0] <= phase && phase <= phaseDeg.interval![1]);
      all += 2;
    }
    // of up to 50 named 95 %, neighbours not independent: 85 % at least
    expect(all).toBeGreaterThan(15);
    expect(held / all).toBeGreaterThan(0.85);
  });

  it.each(cases("one segment"))("%s", (_, { params, expected, tolerance }) => {
    const { target, pointer } = integerPursuit();
    const first = target.slice(0, params.segment);
    const second = pointer.slice(0, params.segment);
    const shares = coherence(crossDensity(first, second, { sampleRateHz: 100, window: "boxcar", ...params }));
    expect(within(Math.min(...shares.subarray(1, -1)), expected.smallestCoherence, tolerance)).toBe(true);
    const options = { sampleRateHz: 100, window: "boxcar", segment: params.segment / 100, overlap: 0 } as const;
    const found = frequencyResponse(first, second, options);
    expect(expected.status).toBe("refuse");
    expect(found).toMatchObject({ segments: 1, frequencies: [], gain: { ok: false, why: "tooFew" }, delay: { ok: false, why: "tooFew" } });
  });

  it.each(cases("chance level of coherence"))("%s", (_, { expected, tolerance }) => {
    for (const { segments, alpha, level } of expected.table) {
      expect(within(chanceCoherence(segments, 1 - alpha), level, tolerance)).toBe(true);
    }
  });

  it.each(cases("effective number"))("%s", (_, { expected, tolerance }) => {
    for (const { K, effective } of expected.table) {
      for (const segment of [128, 250])
        expect(within(independentSegments(K, "hann", segment, segment / 2), effective, tolerance)).toBe(true);
    }
  });

  it.each(cases("relative standard error"))("%s", (_, { expected, tolerance }) => {
    for (const { coherence: share, segments, relativeSe } of expected.table) {
      expect(within(relativeGainError(share, segments), relativeSe, tolerance)).toBe(true);
    }
  });

  it.each(cases("multisine"))("%s", (_, { params, expected, tolerance }) => {
    const { m, a, phi } = { m: [3, 7, 13, 23, 37], a: [100, 80, 60, 40, 25], phi: [0, 1, 2, 3, 4] };
    const n = 2000;
    const sum = (gains: readonly number[], delays: readonly number[]): Float64Array =>
      Float64Array.from({ length: n }, (_, k) =>
        m.reduce(
          (all, line, i) =>
            all + a[i]! * gains[i]! * Math.sin((2 * Math.PI * line * k) / n + phi[i]! - ((2 * Math.PI * line) / 20) * delays[i]!),
          0,
        ),
      );
    const target = sum([1, 1, 1, 1, 1], [0, 0, 0, 0, 0]);
    const pointer = sum(params.gains, params.delays);
    const found = frequencyResponse(target, pointer, { sampleRateHz: params.sampleRateHz, drivenHz: expected.frequencies });
    expectAll(
      found.frequencies.map((f) => f.hz),
      expected.frequencies,
      tolerance,
    );
    expectAll(
      found.frequencies.map((f) => (f.gain.ok ? f.gain.value : -1)),
      expected.gain,
      tolerance,
    );
    expectAll(
      found.frequencies.map((f) => (f.phaseDeg.ok ? f.phaseDeg.value : -1)),
      expected.phaseDeg,
      tolerance,
    );
    expectAll(
      found.frequencies.map((f) => (f.delay.ok ? f.delay.value : -1)),
      expected.delay,
      tolerance,
    );
    const byLine = m.reduce((all, _, i) => all + (a[i]! * sineError(expected.gain[i], radians(expected.phaseDeg[i]))) ** 2, 0);
    expect(within(Math.sqrt(byLine), expected.rms, tolerance)).toBe(true);
    const square = target.reduce((all, value, k) => all + (pointer[k]! - value) ** 2, 0) / n;
    expect(within(Math.sqrt(square), expected.rms, tolerance)).toBe(true);
    const { re, im } = fourierPlan(n)(pointer);
    const off = re.map((value, j) => (m.includes(j) ? 0 : (2 * Math.sqrt(value * value + im[j]! * im[j]!)) / n));
    expect(within(Math.max(...off), expected.largestOffLineAmplitude, tolerance)).toBe(true);
  });
});
