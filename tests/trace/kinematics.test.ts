import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { minimumJerkPosition } from "../../src/math/minimum-jerk.js";
import { createRandom } from "../../src/math/random.js";
import { noiseFloor } from "../../src/trace/condition/noise-floor.js";
import { differentiate } from "../../src/trace/differentiate.js";
import { type Kinematics, kinematics } from "../../src/trace/kinematics.js";
import type { Trace } from "../../src/trace/types.js";
import type { KinematicSegment } from "../../src/trace/uniform.js";
import { readReference } from "../shared.js";
import { designFor, plainGradient, plainLinear, plainLowpass, rowsFrom } from "./plain-chain.js";

const bells = (readReference("kinematics/minimum-jerk.json")?.cases ?? []).filter(({ name }) => name.startsWith("grid"));

/** Samples at a rate of a path given by functions of time. */
function sampled(rate: number, seconds: number, x: (t: number) => number, y: (t: number) => number = () => 0): Trace {
  const t = Float64Array.from({ length: Math.round(rate * seconds) + 1 }, (_, i) => i / rate);
  return { t, x: t.map(x), y: t.map(y) };
}

/** A session of aimed movements with rests between them, whole pixels, jittered times; reports on change only or at every interval. */
function session(rate: number, seconds: number, always = false, seed = 5): Trace {
  const random = createRandom(seed);
  const moves: { onset: number; duration: number; x: number; y: number }[] = [];
  for (let onset = 0.4; onset < seconds - 1; onset += random.uniform(0.4, 1)) {
    moves.push({ onset, duration: random.uniform(0.15, 0.4), x: random.uniform(-600, 600), y: random.uniform(-400, 400) });
  }
  const rows: [number, number, number][] = [];
  for (let i = 0; i <= rate * seconds; i++) {
    const t = i / rate + random.uniform(-0.2, 0.2) / rate;
    const share = moves.map((move) => minimumJerkPosition((t - move.onset) / move.duration));
    const x = Math.round(share.reduce((sum, part, k) => sum + part * moves[k]!.x, 0));
    const y = Math.round(share.reduce((sum, part, k) => sum + part * moves[k]!.y, 0));
    const before = rows[rows.length - 1];
    if (always || before === undefined || before[1] !== x || before[2] !== y) rows.push([t, x, y]);
  }
  return {
    t: Float64Array.from(rows, ([t]) => t),
    x: Float64Array.from(rows, ([, x]) => x),
    y: Float64Array.from(rows, ([, , y]) => y),
  };
}

const only = (result: Kinematics): KinematicSegment => {
  expect(result.status).toBe("ok");
  expect(result.segments.length).toBe(1);
  return result.segments[0]!;
};
const most = (series: Float64Array): number => series.reduce((high, value) => Math.max(high, Math.abs(value)), 0);
const largestDifference = (a: Float64Array, b: Float64Array): number => {
  expect(a.length).toBe(b.length);
  return a.reduce((high, value, i) => Math.max(high, Math.abs(value - b[i]!)), 0);
};

describe("kinematics against outside values", () => {
  // Source: the chain written out by its definitions (second implementation); its filter is SciPy's, see lowpass.test.ts.
  test.prop([
    fc.array(fc.tuple(fc.integer({ min: 7, max: 9 }), fc.integer({ min: -40, max: 40 }), fc.integer({ min: -40, max: 40 })), {
      minLength: 2,
      maxLength: 150,
    }),
    fc.constantFrom(8, 20, 40),
  ])("agrees with a plain second implementation", (steps, cutoffHz) => {
    const rows = rowsFrom(steps);
    const column = (k: 0 | 1 | 2): number[] => rows.map((row) => row[k]);
    const trace = { t: Float64Array.from(column(0)), x: Float64Array.from(column(1)), y: Float64Array.from(column(2)) };
    const { segments } = kinematics(trace, { sampleRateHz: 125, nominalRateHz: 125, cutoffHz });
    // two samples closer than one step of the grid
    if (segments.length === 0) return void expect(rows[rows.length - 1]![0] - rows[0]![0]).toBeLessThan(1 / 125);
    const n = segments[0]!.x.length;
    const grid = Array.from({ length: n }, (_, i) => column(0)[0]! + i / 125);
    const pad = Math.min(n - 1, Math.ceil((3 * 125) / cutoffHz));
    const smooth = ([1, 2] as const).map((k) => plainLowpass(plainLinear(column(0), column(k), grid), 125, designFor(cutoffHz, 125), pad));
    const velocity = smooth.map((series) => plainGradient(series, 125));
    for (let i = 0; i < n; i++) {
      expect(segments[0]!.x[i]).toBeCloseTo(smooth[0]![i]!, 7);
      expect(segments[0]!.y[i]).toBeCloseTo(smooth[1]![i]!, 7);
      expect(segments[0]!.vx[i]).toBeCloseTo(velocity[0]![i]!, 5);
      expect(segments[0]!.vy[i]).toBeCloseTo(velocity[1]![i]!, 5);
      expect(segments[0]!.speed[i]).toBeCloseTo(Math.hypot(velocity[0]![i]!, velocity[1]![i]!), 5);
    }
  });

  // Source: closed form of the minimum-jerk movement, peak speed 1.875 A/T at T/2 and peak acceleration 5.7735 A/T^2; what a 20 Hz two-pass filter keeps of
  // them: computed with SciPy 1.10 to three digits. Tolerance: half a digit, and 0.1 % for the differences at 1 kHz.
  it.each([
    [0.15, 20, 0.999, 0.998],
    [0.2, 20, 1.0, 1.001],
    [0.3, 20, 1.0, 1.0],
    [0.15, 10, 0.975, 0.9],
    [0.2, 10, 0.993, 0.963],
    [0.3, 7, 0.995, 0.97],
  ])("keeps the peaks of a movement of %s s behind a filter of %i Hz", (duration, cutoffHz, peak, acceleration) => {
    const trace = sampled(1000, 2, (t) => 400 * minimumJerkPosition((t - 0.8) / duration));
    const { speed, t0 } = only(kinematics(trace, { cutoffHz, sampleRateHz: 1000 }));
    const top = speed.indexOf(most(speed));
    expect(t0 + top / 1000).toBeCloseTo(0.8 + duration / 2, 3);
    expect(Math.abs(most(speed) / ((1.875 * 400) / duration) - peak)).toBeLessThan(0.0015);
    const tangential = differentiate(speed, { sampleRateHz: 1000 });
    expect(Math.abs(most(tangential) / ((5.7735 * 400) / duration ** 2) - acceleration)).toBeLessThan(0.0015);
  });

  // Source: closed form, 40 digits (mpmath 1.2.1), reference/kinematics/minimum-jerk.json. A cutoff of 200 Hz leaves the path alone but for the
  // kink of its acceleration at both ends: 1 part in 1e4 of the largest value.
  it.each(bells)("follows position and speed of $name", ({ input, params, expected }) => {
    const { amplitude, duration, onset } = params;
    const begin = onset - 0.5;
    const rate = 10_000;
    const trace = sampled(rate, duration + 1, (t) => amplitude * minimumJerkPosition((begin + t - onset) / duration));
    const { x, speed } = only(kinematics(trace, { sampleRateHz: rate, nominalRateHz: rate, cutoffHz: 200, quantum: 0 }));
    for (const [i, time] of (input.t as number[]).entries()) {
      const place = (time - begin) * rate;
      const k = Math.min(Math.max(Math.floor(place), 0), x.length - 2);
      if (place < 0 || place > x.length - 1) continue;
      const between = (series: Float64Array): number => series[k]! + (place - k) * (series[k + 1]! - series[k]!);
      expect(Math.abs(between(x) - expected.position[i])).toBeLessThan(1e-4 * Math.abs(amplitude));
      expect(Math.abs(between(speed) - Math.abs(expected.speed[i]))).toBeLessThan((1e-3 * Math.abs(amplitude)) / duration);
    }
  });

  // Source: simulation; rounding to whole pixels is white noise of SD 1/sqrt(12) on a path that crosses many of them. The SD of 2e5 filtered
  // values is known to 1 %.
  it("has the noise floor that rounding leaves in the velocity", () => {
    const random = createRandom(2);
    const jitter = Array.from({ length: 200_001 }, () => random.uniform(-0.5, 0.5));
    const exact = sampled(1000, 200, (t) => 137.3 * t);
    const rounded = { ...exact, x: exact.x.map((value, i) => value + jitter[i]!) };
    const result = kinematics(rounded, { quantum: 1, sampleRateHz: 1000 });
    expect(result.noiseFloor).toEqual(noiseFloor(1, 1000, 20));
    const { vx } = only(result);
    const inside = vx.subarray(500, vx.length - 500).map((value) => value - 137.3);
    const sd = Math.sqrt(inside.reduce((sum, value) => sum + value * value, 0) / inside.length);
    expect(Math.abs(sd / result.noiseFloor.speed - 1)).toBeLessThan(0.03);
  });

  // Source: spherical geometry: a step of azimuth at elevation e is cos(e) times as long. Constant rates pass the filter unchanged.
  it("shortens steps of azimuth by the cosine of the elevation in a view", () => {
    const turn = sampled(
      250,
      2,
      (t) => 90 * t,
      () => 60,
    );
    const view = only(kinematics(turn, { space: { kind: "view", unit: "deg" } }));
    expect(view.speed[250]).toBeCloseTo(45, 6);
    expect(view.vx[250]).toBeCloseTo(90, 6);
    expect(only(kinematics(turn, { space: { kind: "plane", unit: "px" } })).speed[250]).toBeCloseTo(90, 6);
    expect(only(kinematics(turn)).speed[250]).toBeCloseTo(90, 6);
  });

  // Source: closed form; the norm of filtered noise of SD s in two components has a mean of s sqrt(pi/2), while filtering a norm of unfiltered noise leaves
  // the mean of the unfiltered one, 20 times as large at 1 kHz. Tolerance: 3 standard errors.
  it("takes the norm last, so that noise at rest stays small", () => {
    const random = createRandom(9);
    const noisy = sampled(
      1000,
      100,
      () => random.uniform(-0.5, 0.5),
      () => random.uniform(-0.5, 0.5),
    );
    const { speed } = only(kinematics(noisy, { sampleRateHz: 1000, quantum: 1 }));
    const mean = speed.reduce((sum, value) => sum + value, 0) / speed.length;
    expect(Math.abs(mean / (noiseFloor(1, 1000, 20).speed * Math.sqrt(Math.PI / 2)) - 1)).toBeLessThan(0.05);
  });
});

describe("kinematics properties", () => {
  const trace = session(250, 12);
  const options = { sampleRateHz: 250, nominalRateHz: 250, quantum: 1, start: trace.t[0]! } as const;
  const base = only(kinematics(trace, options));

  it("gives the same for a window with 3 / cutoff seconds of samples on either side as for the whole recording", () => {
    let worst = 0;
    for (const [from, to] of [
      [2, 3.2],
      [5.3, 6],
      [8, 10.5],
    ] as const) {
      const margin = 3 / 20;
      const begin = trace.t.findIndex((time) => time > from - margin) - 1;
      // one sample more, from which the last gap tells whether it was a rest
      const end = trace.t.findIndex((time) => time >= to + margin) + 2;
      const cut = (column: Float64Array): Float64Array => column.subarray(begin, end);
      const window = only(kinematics({ t: cut(trace.t), x: cut(trace.x), y: cut(trace.y) }, options));
      const offset = Math.round((window.t0 - base.t0) * 250);
      for (let i = 0; i < window.x.length; i++) {
        const time = window.t0 + i / 250;
        if (time >= from && time <= to) worst = Math.max(worst, Math.abs(window.speed[i]! - base.speed[offset + i]!));
      }
    }
    expect(worst / most(base.speed)).toBeLessThan(1e-6);
  });
  test.prop([fc.double({ min: -Math.PI, max: Math.PI, noNaN: true }), fc.integer({ min: -3000, max: 3000 })])(
    "has a speed that neither turns nor shifts of the frame change",
    (angle, shift) => {
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      const turned = {
        t: trace.t,
        x: trace.x.map((x, i) => c * x - s * trace.y[i]! + shift),
        y: trace.y.map((y, i) => s * trace.x[i]! + c * y - shift),
      };
      // a hold is told by steps along x and y, which a turn changes: sqrt(2) quanta hold in any frame
      const got = only(kinematics(turned, { ...options, quantum: 1.5 }));
      const same = only(kinematics(trace, { ...options, quantum: 1.5 }));
      expect(largestDifference(got.speed, same.speed)).toBeLessThan(1e-8 * most(same.speed));
      expect(
        largestDifference(
          got.vx,
          same.vx.map((vx, i) => c * vx - s * same.vy[i]!),
        ),
      ).toBeLessThan(1e-8 * most(same.speed));
    },
  );
  // what counts as a gap is fixed in seconds, so a device that reports at rest, too, is taken here
  test.prop([fc.integer({ min: 1, max: 1000 }), fc.constantFrom(1 / 4, 1 / 2, 2, 4)])(
    "scales with lengths and with time",
    (length, time) => {
      const whole = session(250, 6, true);
      const scaled = { t: whole.t.map((t) => t * time), x: whole.x.map((x) => x * length), y: whole.y.map((y) => y * length) };
      const expected = kinematics(whole, { sampleRateHz: 250, cutoffHz: 8 });
      const got = kinematics(scaled, { sampleRateHz: 250 / time, cutoffHz: 8 / time });
      const factor = length / time;
      expect(
        largestDifference(
          only(got).speed,
          only(expected).speed.map((speed) => speed * factor),
        ),
      ).toBeLessThan(1e-8 * factor * most(only(expected).speed));
      expect(got.noiseFloor.speed / (expected.noiseFloor.speed * factor)).toBeCloseTo(1, 9);
    },
  );
  it("runs the same backward in time, away from the ends", () => {
    const smooth = sampled(
      250,
      4,
      (t) => 300 * Math.sin(3 * t) + 40 * Math.cos(11 * t),
      (t) => 200 * Math.cos(2 * t),
    );
    const turned = { t: smooth.t, x: smooth.x.slice().reverse(), y: smooth.y.slice().reverse() };
    const forward = only(kinematics(smooth, { sampleRateHz: 250, quantum: 0 }));
    const backward = only(kinematics(turned, { sampleRateHz: 250, quantum: 0 }));
    const inside = (series: Float64Array): Float64Array => series.slice(100, 901);
    expect(largestDifference(inside(forward.speed), inside(backward.speed).reverse())).toBeLessThan(1e-7 * most(forward.speed));
    expect(largestDifference(inside(forward.vx), inside(backward.vx.map((v) => -v)).reverse())).toBeLessThan(1e-7 * most(forward.speed));
  });
  // doubles near 1.7e9 s are 2.4e-7 s apart: 6e-5 of a sample, so that times and speeds are known to that share of a step
  it("gives the same at a time of 1.7e9 s", () => {
    const later = { ...trace, t: trace.t.map((t) => t + 1.7e9) };
    const got = only(kinematics(later, { ...options, start: later.t[0]! }));
    expect(Math.abs(got.t0 - 1.7e9 - base.t0)).toBeLessThan(1e-6);
    expect(got.x.length).toBe(base.x.length);
    expect(largestDifference(got.speed, base.speed)).toBeLessThan(1e-3 * most(base.speed));
  });
  it("says why there is nothing", () => {
    const slow = sampled(40, 3, (t) => 100 * t);
    expect(kinematics(slow)).toMatchObject({ status: "belowResolution", segments: [], cutoffHz: 20 });
    expect(kinematics(slow).sampleRateHz).toBeCloseTo(40, 6);
    // a finer grid adds no information
    expect(kinematics(slow, { sampleRateHz: 500 }).status).toBe("belowResolution");
    expect(kinematics(slow, { cutoffHz: 15 }).status).toBe("ok");
    const still = sampled(100, 1, () => 5);
    expect(kinematics(still)).toMatchObject({ status: "tooFew", sampleRateHz: 0, quantum: 0, segments: [], gaps: [] });
    const empty = { t: new Float64Array(0), x: new Float64Array(0), y: new Float64Array(0) };
    expect(kinematics(empty, { sampleRateHz: 100 })).toMatchObject({ status: "tooFew", segments: [] });
    const single = { t: Float64Array.of(1), x: Float64Array.of(2), y: Float64Array.of(3) };
    expect(kinematics(single, { sampleRateHz: 100 })).toMatchObject({ status: "tooFew", segments: [] });
  });
  it("filters each side of a missing stretch by itself", () => {
    const full = sampled(250, 4, (t) => 500 * t);
    const keep = (column: Float64Array): Float64Array => column.filter((_, i) => i < 400 || i >= 500);
    const cut = { t: keep(full.t), x: keep(full.x), y: keep(full.y) };
    const { segments, gaps } = kinematics(cut);
    expect(gaps).toMatchObject([{ kind: "missing", from: 399 / 250, to: 2 }]);
    expect(segments.map(({ x }) => x.length)).toEqual([400, 501]);
    for (const { speed } of segments) for (const value of speed) expect(value).toBeCloseTo(500, 2);
  });
  it("leaves its input and its options as they were, and its result can be copied", () => {
    const frozen = Object.freeze(session(125, 2));
    const copy = structuredClone(frozen);
    const result = kinematics(frozen, Object.freeze({}));
    expect(frozen).toEqual(copy);
    expect(structuredClone(result)).toEqual(result);
    for (const { x, y, vx, vy, speed } of result.segments) {
      for (const column of [x, y, vx, vy, speed]) expect(column.every(Number.isFinite)).toBe(true);
    }
  });
});

describe("kinematics bad input", () => {
  const trace = sampled(100, 1, (t) => 100 * t);
  it("names what is wrong and what is allowed", () => {
    // @ts-expect-error no trace
    expect(() => kinematics(undefined)).toThrow(new TypeError("kinematics: trace must be a trace with columns t, x, y, got undefined"));
    expect(() => kinematics({ ...trace, y: trace.y.subarray(1) })).toThrow(/kinematics: trace\.y must have 101 entries .* got 100/);
    expect(() => kinematics({ ...trace, t: trace.t.slice().reverse() })).toThrow(/kinematics: trace\.t must not run backward/);
    expect(() => kinematics(trace, { cutoffHz: 0 })).toThrow(
      new RangeError("kinematics: options.cutoffHz must be finite and above 0, got 0"),
    );
    expect(() => kinematics(trace, { sampleRateHz: 30_000 })).toThrow(
      new RangeError("kinematics: options.sampleRateHz must be above 0 and at most 20000, got 30000"),
    );
    expect(() => kinematics(trace, { maxGap: Number.NaN })).toThrow(/kinematics: options\.maxGap must be finite and at least 0, got NaN/);
  });
});
