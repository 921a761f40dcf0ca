import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { minimumJerkPosition } from "../../src/math/minimum-jerk.js";
import { createRandom } from "../../src/math/random.js";
import { type ResampledTrace, resample } from "../../src/trace/resample.js";
import type { Trace } from "../../src/trace/types.js";
import { readReference, SHARED_ABSENT, within } from "../shared.js";
import { plainLinear, rowsFrom, runningTotals } from "./plain-chain.js";

const reference = readReference("kinematics/resampling.json");
const gapCases = (readReference("kinematics/segmentation.json")?.cases ?? []).filter(({ params }) => params.maxGap !== undefined);
const columns = (t: readonly number[], x: readonly number[], y?: readonly number[]): Trace => ({
  t: Float64Array.from(t),
  x: Float64Array.from(x),
  y: y === undefined ? new Float64Array(x.length) : Float64Array.from(y),
});

/** Position on the grid at a time, `undefined` where no segment reaches. */
function at({ segments }: ResampledTrace, time: number): number | undefined {
  for (const { t0, sampleRateHz, x } of segments) {
    const i = (time - t0) * sampleRateHz;
    if (Math.abs(i - Math.round(i)) < 1e-6 && Math.round(i) in x) return x[Math.round(i)];
  }
  return undefined;
}

/** A pointer that moves by 5 px every 10 ms. */
const walk = (n: number, start = 0): Trace => {
  const index = Array.from({ length: n }, (_, i) => i);
  return columns(
    index.map((i) => start + i / 100),
    index.map((i) => 5 * i),
  );
};

describe("resample against outside values", () => {
  it.skipIf(!reference)(`has its reference table (else: ${SHARED_ABSENT})`, () => expect(reference!.cases.length).toBe(6));
  // Source: NumPy 1.24.2 interp, SciPy 1.10.1 PchipInterpolator.
  it.each(reference?.cases ?? [])("$name", ({ input, params, expected, tolerance }) => {
    const times = (params.queryTimes ?? expected.t) as number[];
    const sampleRateHz = params.sampleRateHz ?? 1 / (times[1]! - times[0]!);
    for (const [method, values] of [
      ["linear", expected.linear],
      ["monotone", expected.pchip],
    ] as const) {
      const { segments, gaps } = resample(columns(input.t, input.x), { sampleRateHz, method });
      expect(gaps).toEqual([]);
      expect(segments.length).toBe(1);
      expect(segments[0]!.x.length).toBe(values.length);
      for (const [i, value] of values.entries()) {
        expect(segments[0]!.t0 + i / sampleRateHz).toBeCloseTo(times[i]!, 9);
        expect(within(segments[0]!.x[i]!, value, tolerance), `${method} [${i}] ${segments[0]!.x[i]} ${value}`).toBe(true);
      }
    }
  });

  // Source: worked by hand and closed forms, reference/kinematics/segmentation.json.
  it.each(gapCases)("$name", ({ input, params, expected, tolerance }) => {
    const options = { sampleRateHz: 1000, start: 0, maxGap: params.maxGap };
    const trace = columns(input.t, input.x, input.y);
    const result = resample(trace, options);
    const gap = expected.gap ? { ...expected.gap, kind: "hold" } : expected.gaps[0];
    expect(result.gaps).toEqual([gap]);
    const truth = (expected.x ?? expected.truePosition) as (number | null)[];
    for (const [i, time] of (params.queryTimes as number[]).entries()) {
      const got = at(result, time);
      if (truth[i] === null) expect(got, `${time} s`).toBeUndefined();
      else expect(within(got!, truth[i]!, tolerance), `${time} s: ${got}`).toBe(true);
    }
    if (expected.heldPosition !== undefined)
      expect(at(resample(trace, { ...options, method: "monotone" }), 0.3)).toBe(expected.heldPosition);
  });

  // Source: the same lines found by looking through all samples for each grid point (second implementation).
  test.prop([
    fc.array(fc.tuple(fc.integer({ min: 0, max: 20 }), fc.integer({ min: -500, max: 500 })), { minLength: 2, maxLength: 60 }),
    fc.constantFrom(60, 125, 1000),
  ])("agrees with a plain second implementation", (steps, sampleRateHz) => {
    const t = runningTotals(steps.map(([dt]) => dt)).map((ms) => ms / 1000);
    const x = steps.map(([, value]) => value);
    const { segments } = resample(columns(t, x), { sampleRateHz, nominalRateHz: 100 });
    const { x: got, t0 } = segments[0]!;
    expect(t0).toBe(t[0]);
    const expected = plainLinear(
      t,
      x,
      Array.from(got, (_, i) => t[0]! + i / sampleRateHz),
    );
    for (let i = 0; i < got.length; i++) expect(Math.abs(got[i]! - expected[i]!)).toBeLessThan(1e-8 * 500);
    expect(t0 + (got.length - 1) / sampleRateHz).toBeLessThanOrEqual(t[t.length - 1]! + 1e-8);
    expect(t0 + got.length / sampleRateHz).toBeGreaterThan(t[t.length - 1]! - 1e-8);
  });

  // Source: SPEC of linear interpolation in any numerical text: error <= dt^2/8 |a|max; common practice, no source.
  it.each([125, 250])("errs on a smooth movement by no more than dt^2/8 of its largest acceleration (%i Hz)", (rate) => {
    const truth = (time: number): number => 400 * minimumJerkPosition((time - 0.1) / 0.3);
    const t = Array.from({ length: rate }, (_, i) => i / rate);
    const { segments } = resample(columns(t, t.map(truth)), { sampleRateHz: 1000 });
    const bound = (5.7735 * 400) / 0.3 ** 2 / (8 * rate * rate);
    const worst = segments[0]!.x.reduce((most, value, i) => Math.max(most, Math.abs(value - truth(i / 1000))), 0);
    expect(worst).toBeLessThanOrEqual(bound);
    expect(worst).toBeGreaterThan(0.9 * bound);
  });
});

describe("resample keeps rests and leaves out what is missing", () => {
  // Source: simulated truth, whole-pixel reports on change only; the first report after a rest covers several pixels at these rates.
  it.each([60, 125, 250, 1000])("sees no lost samples in the rests of a device of %i Hz that is silent at rest", (rate) => {
    const random = createRandom(3);
    for (let k = 0; k < 100; k++) {
      const amplitude = random.uniform(100, 800);
      const duration = random.uniform(0.15, 0.5);
      const onset = 0.5 + random.uniform(0, 1 / rate);
      const angle = random.uniform(0, 2 * Math.PI);
      const t: number[] = [];
      const x: number[] = [];
      const y: number[] = [];
      for (let i = 0; i < 1.5 * rate; i++) {
        const along = amplitude * minimumJerkPosition((i / rate - onset) / duration);
        const place = [Math.round(along * Math.cos(angle)), Math.round(along * Math.sin(angle))] as const;
        if (i > 0 && place[0] === x[x.length - 1] && place[1] === y[y.length - 1]) continue;
        t.push(i / rate);
        x.push(place[0]);
        y.push(place[1]);
      }
      const { gaps, segments } = resample(columns(t, x, y), { nominalRateHz: rate, quantum: 1 });
      expect(segments.length).toBe(1);
      expect(gaps.every(({ kind }) => kind === "hold")).toBe(true);
      // at rest until just before the first report
      const held = Math.floor((t[1]! - 1 / rate) * rate) - 1;
      expect(segments[0]!.x.subarray(0, held).every((value) => value === 0)).toBe(true);
    }
  });
  it("splits the grid where samples of a movement are missing", () => {
    const full = walk(40);
    const kept = [...full.t.keys()].filter((i) => i < 10 || i >= 20);
    const trace = columns(
      kept.map((i) => full.t[i]!),
      kept.map((i) => full.x[i]!),
    );
    const { segments, gaps } = resample(trace, { sampleRateHz: 100 });
    expect(gaps).toEqual([{ from: 0.09, to: 0.2, kind: "missing", jump: 55 }]);
    expect(segments.map(({ t0, x }) => [t0, x.length])).toEqual([
      [0, 10],
      [0.2, 20],
    ]);
    // bridged when asked to
    const bridged = resample(trace, { sampleRateHz: 100, maxGap: 0.2 });
    expect(bridged.gaps).toEqual([]);
    expect(Array.from(bridged.segments[0]!.x, (value) => Math.round(value * 1e9) / 1e9)).toEqual([...full.x]);
  });
  it("takes the last of several samples with one time", () => {
    const trace = columns([0, 0, 0.01, 0.01, 0.01, 0.02, 0.02], [9, 0, 7, 8, 10, 30, 20]);
    for (const method of ["linear", "monotone"] as const) {
      const { x } = resample(trace, { sampleRateHz: 100, method }).segments[0]!;
      expect(x).toEqual(Float64Array.of(0, 10, 20));
    }
    expect(resample(trace, { sampleRateHz: 200 }).segments[0]!.x).toEqual(Float64Array.of(0, 5, 10, 15, 20));
  });
  it("never goes below three nominal intervals for a missing stretch", () => {
    const trace = columns([0, 0.03, 0.06, 0.145, 0.175], [0, 10, 20, 60, 70]);
    expect(resample(trace, { maxGap: 0 }).gaps).toEqual([]);
    expect(resample(trace, { maxGap: 0, nominalRateHz: 100 }).gaps.length).toBe(1);
  });
});

describe("resample properties", () => {
  const traceArb = fc
    .array(fc.tuple(fc.integer({ min: 0, max: 120 }), fc.integer({ min: -30, max: 30 }), fc.integer({ min: -30, max: 30 })), {
      minLength: 3,
      maxLength: 60,
    })
    .map((steps) => {
      const rows = rowsFrom(steps);
      return columns(
        rows.map((row) => row[0]),
        rows.map((row) => row[1]),
        rows.map((row) => row[2]),
      );
    });
  const optionsArb = fc.record({
    sampleRateHz: fc.constantFrom(60, 128, 1000),
    nominalRateHz: fc.constantFrom(60, 125, 1000),
    quantum: fc.constantFrom(0, 1, 8),
    method: fc.constantFrom("linear" as const, "monotone" as const),
  });

  test.prop([traceArb, optionsArb])("covers the time between its gaps, and no value leaves the range of the samples", (trace, options) => {
    const { segments, gaps } = resample(trace, options);
    const [low, high] = [Math.min(...trace.x), Math.max(...trace.x)];
    for (const { t0, x, y, sampleRateHz } of segments) {
      expect(y.length).toBe(x.length);
      expect(sampleRateHz).toBe(options.sampleRateHz);
      const last = t0 + (x.length - 1) / sampleRateHz;
      for (const gap of gaps) if (gap.kind === "missing") expect(last <= gap.from + 1e-8 || t0 >= gap.to - 1e-8).toBe(true);
      for (const value of x) expect(value >= low - 1e-9 && value <= high + 1e-9).toBe(true);
    }
    for (const [i, gap] of gaps.entries()) {
      expect(gap.to - gap.from).toBeGreaterThan(3 / options.nominalRateHz - 1e-12);
      if (i > 0) expect(gap.from).toBeGreaterThanOrEqual(gaps[i - 1]!.to);
    }
  });
  test.prop([traceArb, optionsArb, fc.integer({ min: -1000, max: 1000 })])("moves with the samples", (trace, options, shift) => {
    const moved = { ...trace, x: trace.x.map((value) => value + shift) };
    const base = resample(trace, options);
    const got = resample(moved, options);
    expect(got.gaps).toEqual(base.gaps);
    for (const [k, segment] of got.segments.entries()) {
      for (const [i, value] of segment.x.entries()) expect(Math.abs(value - shift - base.segments[k]!.x[i]!)).toBeLessThan(1e-8);
    }
  });
  // times near 1.7e9 s are known to 2.4e-7 s, which is worth 0.03 px at the largest speed drawn: 30 px within 1 ms
  test.prop([traceArb])("gives the same at any zero of time", (trace) => {
    const options = { sampleRateHz: 125, nominalRateHz: 125, quantum: 1 };
    const base = resample(trace, options);
    const got = resample({ ...trace, t: trace.t.map((time) => time + 1.7e9) }, options);
    expect(got.segments.length).toBe(base.segments.length);
    for (const [k, { t0, x }] of got.segments.entries()) {
      const expected = base.segments[k]!;
      expect(Math.abs(t0 - 1.7e9 - expected.t0)).toBeLessThan(1e-6);
      expect(x.length).toBe(expected.x.length);
      for (const [i, value] of x.entries()) {
        expect(Math.abs(value - expected.x[i]!)).toBeLessThan(0.03);
      }
    }
  });
  test.prop([fc.integer({ min: -50, max: 50 })])("keeps the phase of its grid when a window begins later", (k) => {
    const start = 0.0033 + k / 60;
    const all = resample(walk(100), { sampleRateHz: 60, start }).segments[0]!;
    const window = walk(100);
    const part = { t: window.t.subarray(30), x: window.x.subarray(30), y: window.y.subarray(30) };
    const { t0, x } = resample(part, { sampleRateHz: 60, start }).segments[0]!;
    const offset = Math.round((t0 - all.t0) * 60);
    expect(Math.abs((t0 - all.t0) * 60 - offset)).toBeLessThan(1e-9);
    expect(t0).toBeGreaterThanOrEqual(part.t[0]!);
    for (const [i, value] of x.entries()) expect(value).toBeCloseTo(all.x[offset + i]!, 9);
  });
  it("takes the nominal rate for its grid, at most 1000 per second", () => {
    expect(resample(walk(10)).sampleRateHz).toBeCloseTo(100, 9);
    const fast = walk(10);
    expect(resample({ ...fast, t: fast.t.map((time) => time / 80) }).sampleRateHz).toBe(1000);
  });
  it("has nothing to give when the rate is not known", () => {
    expect(resample(columns([], []))).toEqual({ sampleRateHz: 0, segments: [], gaps: [] });
    expect(resample(columns([0, 1], [5, 5]))).toEqual({ sampleRateHz: 0, segments: [], gaps: [] });
    expect(resample(columns([3], [5]), { sampleRateHz: 100 }).segments).toEqual([
      { t0: 3, sampleRateHz: 100, x: Float64Array.of(5), y: Float64Array.of(0) },
    ]);
  });
  it("leaves its input and its options as they were, and its result can be copied", () => {
    const trace = Object.freeze(walk(20));
    const copy = structuredClone(trace);
    const result = resample(trace, Object.freeze({ sampleRateHz: 60 }));
    expect(trace).toEqual(copy);
    expect(structuredClone(result)).toEqual(result);
  });
});

describe("resample bad input", () => {
  const trace = walk(5);
  it("names what is wrong and what is allowed", () => {
    // @ts-expect-error no trace
    expect(() => resample(null)).toThrow(new TypeError("resample: trace must be a trace with columns t, x, y, got null"));
    expect(() => resample({ ...trace, x: trace.x.subarray(1) })).toThrow(
      new RangeError("resample: trace.x must have 5 entries like the other columns, got 4"),
    );
    expect(() => resample(columns([0, 2, 1], [0, 1, 2]))).toThrow(
      new RangeError("resample: trace.t must not run backward, got trace.t[2] = 1 after 2"),
    );
    expect(() => resample(columns([0, 1], [0, Number.NaN]))).toThrow(new RangeError("resample: trace.x[1] must be finite, got NaN"));
    expect(() => resample(trace, { sampleRateHz: 0 })).toThrow(
      new RangeError("resample: options.sampleRateHz must be above 0 and at most 20000, got 0"),
    );
    expect(() => resample(trace, { maxGap: -1 })).toThrow(/options\.maxGap must be finite and at least 0, got -1/);
    expect(() => resample(trace, { quantum: -1 })).toThrow(/options\.quantum must be finite and at least 0, got -1/);
    expect(() => resample(trace, { nominalRateHz: 0 })).toThrow(/options\.nominalRateHz must be finite and above 0, got 0/);
    expect(() => resample(trace, { start: Number.POSITIVE_INFINITY })).toThrow(/options\.start must be finite, got Infinity/);
    // @ts-expect-error not offered
    expect(() => resample(trace, { method: "cubic" })).toThrow('resample: options.method must be one of "linear", "monotone", got "cubic"');
  });
  it("refuses times that cannot be one recording", () => {
    const mixed = columns([0, 0.001, 0.002, 1.7e9], [0, 1, 2, 2]);
    expect(() => resample(mixed)).toThrow(
      /resample: trace must span at most 200000000 grid points, got 17\d+ \(1700000000 s at \d+(\.\d+)? Hz\)/,
    );
  });
});
