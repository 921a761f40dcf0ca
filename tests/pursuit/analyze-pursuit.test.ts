import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import type { Estimate } from "../../src/math/estimate.js";
import { type AnalyzePursuitOptions, analyzePursuit } from "../../src/pursuit/analyze-pursuit.js";
import type { Pursuit } from "../../src/pursuit/types.js";
import { type SimulatePursuitOptions, simulatePursuit } from "../../src/simulate/index.js";
import type { Mark, Recording, Track } from "../../src/trace/types.js";
import { recordingOf } from "./scene.js";

const value = (estimate: Estimate): number => (estimate.ok ? estimate.value : Number.NaN);
const only = (recording: Recording, options?: AnalyzePursuitOptions): Pursuit => analyzePursuit(recording, options)[0]!;
const simulated = (options: SimulatePursuitOptions): Recording => simulatePursuit(options).recording;

/** Three sinusoids on x, two on y. */
const sines = (t: number): { x: number; y: number } => ({
  x: 100 * Math.sin(2 * Math.PI * 0.3 * t) + 40 * Math.sin(2 * Math.PI * 0.8 * t + 1) + 20 * Math.sin(2 * Math.PI * 1.1 * t + 2),
  y: 60 * Math.sin(2 * Math.PI * 0.5 * t + 3) + 25 * Math.sin(2 * Math.PI * 0.9 * t),
});

describe("analyzePursuit against outside values", () => {
  // Source: closed form: a pure delay d on sinusoids of amplitude a gives a mean square of sum of a^2 (1 - cos(2 pi f d)); whole periods of 10 s
  it("finds error, lag and gain of a delayed, scaled pointer", () => {
    const delay = 0.137;
    const pointer = (t: number): { x: number; y: number } => sines(t - delay);
    const found = only(recordingOf({ seconds: 41, target: sines, pointer, diameter: 1000 }));
    // on the target from the start: acquired after a tenth of a second
    expect(found.samples).toMatchObject({ from: expect.closeTo(0.1, 9), acquisition: "inside", sampleRateHz: 200, units: 20 });
    const square = [
      [100, 0.3],
      [40, 0.8],
      [20, 1.1],
      [60, 0.5],
      [25, 0.9],
    ].reduce((sum, [a, f]) => sum + a! ** 2 * (1 - Math.cos(2 * Math.PI * f! * delay)), 0);
    // the last 0.9 s are part of a period
    expect(value(found.error.rms) / Math.sqrt(square)).toBeCloseTo(1, 1);
    // parabola through samples 5 ms apart
    expect(Math.abs(value(found.lag.byCorrelation) - delay)).toBeLessThan(2e-4);
    expect(value(found.gain)).toBeCloseTo(1, 4);
    expect(found.lag.peak!).toBeGreaterThan(0.9999);
    expect(value(found.lag.rmsWithoutLag)).toBeLessThan(0.05);
    const slower = only(
      recordingOf({ seconds: 41, target: sines, pointer: (t) => ({ x: 0.8 * sines(t - delay).x, y: 0.8 * sines(t - delay).y }) }),
    );
    expect(value(slower.gain)).toBeCloseTo(0.8, 4);
    expect(slower.explained).toMatchObject({ ok: true, value: expect.closeTo(1, 3) });
  });

  // Source: closed form (2/pi) asin(W/(2 a)) for the share of a sinusoidal error within W/2; W 40, a 25: 0.590334 (kinematics/pursuit.json)
  it("finds the time on target of a sinusoidal error", () => {
    const target = (t: number): { x: number; y: number } => ({ x: 200 * t, y: 0 });
    const pointer = (t: number): { x: number; y: number } => ({ x: 200 * t + 25 * Math.sin(2 * Math.PI * 0.5 * t), y: 0 });
    const { onTarget } = only(recordingOf({ seconds: 60.1, target, pointer, diameter: 40, rate: 500 }));
    // from 0.1 s on, 60 s: 30 periods, each with two stays and two absences
    expect(value(onTarget.share)).toBeCloseTo(0.590334, 3);
    expect(onTarget.entries).toBe(61);
    expect(value(onTarget.medianStay)).toBeCloseTo(0.590334, 2);
    expect(value(onTarget.medianAbsence)).toBeCloseTo(0.409666, 2);
    expect(onTarget.longestStay).toBeCloseTo(0.590334, 2);
    expect(onTarget.timeToFirstEntry).toBe(0);
  });

  // Source: SPEC's check value recomputed: sqrt((1 + G^2 - 2 G cos phase)/2), G 0.8 without delay: 0.1414 A; kinematics/pursuit.json: 0.141421356237
  it("agrees with the table's error of a sine followed with a gain of 0.8", () => {
    const wave = (size: number) => (t: number) => ({ x: size * Math.sin(2 * Math.PI * 0.5 * t), y: 0 });
    const { error } = only(recordingOf({ seconds: 40.1, target: wave(100), pointer: wave(80), diameter: 60 }));
    expect(value(error.rms) / 100).toBeCloseTo(0.141421356237, 4);
  });

  // Source: closed form: a constant speed with an offset of 6 behind and 3 to the left of travel; left of travel to the right is upward, y negative
  it("tells behind from ahead and left from right", () => {
    const target = (t: number): { x: number; y: number } => ({ x: 100 * t, y: 0 });
    const { error } = only(recordingOf({ seconds: 10, target, pointer: (t) => ({ x: 100 * t - 6, y: -3 }), diameter: 20 }));
    expect(value(error.alongMotion.bias)).toBeCloseTo(-6, 6);
    expect(value(error.acrossMotion.bias)).toBeCloseTo(3, 6);
    expect(value(error.meanSquare)).toBeCloseTo(45, 5);
    expect(value(error.squaredBias)).toBeCloseTo(45, 5);
    expect(value(error.variance)).toBeCloseTo(0, 8);
    expect(value(error.inWidths.rms)).toBeCloseTo(Math.sqrt(45) / 20, 7);
    expect(value(error.inWidths.alongMotion.bias)).toBeCloseTo(-0.3, 7);
  });
});

describe("analyzePursuit properties", () => {
  const base: SimulatePursuitOptions = {
    seed: 21,
    duration: 24,
    sampleRateHz: 125,
    target: { path: "randomWalk" },
    follower: { gain: 0.9 },
  };
  const recording = simulated(base);
  const found = only(recording);

  /** The recording with every place moved, turned or stretched. */
  const changed = (given: Recording, place: (x: number, y: number) => [number, number], factor = 1, time = (t: number) => t): Recording => {
    const move = <T extends { t: Float64Array; x: Float64Array; y: Float64Array }>(trace: T): T => {
      const places = Array.from(trace.x, (x, i) => place(x, trace.y[i]!));
      return { ...trace, t: trace.t.map(time), x: Float64Array.from(places, ([x]) => x), y: Float64Array.from(places, ([, y]) => y) };
    };
    return {
      ...given,
      trace: move(given.trace),
      targets: given.targets.map((target) => ({
        ...target,
        tShown: time(target.tShown),
        tGone: time(target.tGone!),
        shape: { kind: "circle", diameter: factor * (target.shape as { diameter: number }).diameter },
        at: move(target.at as Track),
      })),
      trials: given.trials.map((trial) => ({ ...trial, tStart: time(trial.tStart), tEnd: time(trial.tEnd!) })),
      frames: given.frames!.map(time),
    };
  };
  const figures = (one: Pursuit): number[] =>
    [
      one.error.rms,
      one.error.alongMotion.bias,
      one.error.acrossMotion.sd,
      one.lag.rmsWithoutLag,
      one.onTarget.share,
      one.lag.byCorrelation,
      one.lag.atConstantVelocity,
      one.gain,
      one.changes.pooledLatency,
      one.catchUp.rate,
      one.catchUp.smoothShare,
    ].map(value);
  /** The first four are lengths. */
  const scaled = (one: Pursuit, factor: number): number[] => figures(one).map((v, i) => (i < 4 ? v * factor : v));
  const expectSame = (got: number[], expected: number[], digits: number): void => {
    got.forEach((v, i) => {
      expect(v).toBeCloseTo(expected[i]!, digits);
    });
  };

  it("has every figure here", () => expect(figures(found).every(Number.isFinite)).toBe(true));
  test.prop([fc.integer({ min: -5000, max: 5000 }), fc.integer({ min: -5000, max: 5000 })], { numRuns: 4 })(
    "does not change with a shift",
    (dx, dy) => {
      expectSame(figures(only(changed(recording, (x, y) => [x + dx, y + dy]))), figures(found), 6);
    },
  );
  it("does not change with a quarter turn", () => {
    expectSame(figures(only(changed(recording, (x, y) => [-y, x]))), figures(found), 6);
  });
  it("changes sides with a mirror", () => {
    const mirrored = only(changed(recording, (x, y) => [x, -y]));
    expectSame(figures(mirrored), figures(found), 6);
    expect(value(mirrored.error.acrossMotion.bias)).toBeCloseTo(-value(found.error.acrossMotion.bias), 8);
  });
  it("stretches with space", () => {
    expectSame(figures(only(changed(recording, (x, y) => [2 * x, 2 * y], 2))), scaled(found, 2), 6);
  });
  it("does not change with the clock, at 1.7e9 s", () => {
    const start = 1.7e9;
    const late = only(
      changed(
        recording,
        (x, y) => [x, y],
        1,
        (t) => t + start,
      ),
    );
    // times near 1.7e9 s are whole multiples of 2.4e-7 s: the pointer moves up to 1e-4 px in that
    expectSame(figures(late), figures(found), 3);
  });
  it("takes longer in slower time", () => {
    const slow = simulated({
      seed: 3,
      duration: 30,
      follower: { delay: 0.2 },
      recorder: { timeJitterSd: 0, quantum: 0, eventsOnly: false },
    });
    const quick = only(slow, { cutoffHz: 20 });
    const slower = only(
      changed(
        slow,
        (x, y) => [x, y],
        1,
        (t) => 2 * t,
      ),
      { cutoffHz: 10, sampleRateHz: 125 },
    );
    expect(value(slower.lag.byCorrelation) / value(quick.lag.byCorrelation)).toBeCloseTo(2, 2);
    expect(value(slower.gain)).toBeCloseTo(value(quick.gain), 3);
  });

  it("gives the same in a view at the horizon as in a plane", () => {
    const recorder = { quantum: 0, eventsOnly: false } as const;
    const plane = only(simulated({ ...base, recorder }));
    for (const elevation of [0, 40]) {
      const view = only(simulated({ ...base, recorder, space: { kind: "view", degreesPerUnit: 0.01, elevation } }));
      expect(view.error.rms).toMatchObject({ unit: "deg" });
      const lengths = scaled(view, 100);
      // a pointer beside the target has a tangent plane of its own: a part in some hundreds at 40 degrees
      figures(plane).forEach((v, i) => {
        const share = elevation === 0 ? 2e-3 : 2e-2;
        // the end of the fitted rise is a sample: a hair of difference may move the latency by half of one, 4 ms
        const most = i === 8 ? 0.004 : share * (0.02 + Math.abs(v));
        expect(Math.abs(lengths[i]! - v)).toBeLessThan(most);
      });
    }
  });

  it("puts mean square together from bias and variance, and the parts of a widths' error likewise", () => {
    for (const part of [found.error, found.error.inWidths]) {
      expect(value(part.squaredBias) + value(part.variance)).toBeCloseTo(value(part.meanSquare), 9);
    }
  });

  test.prop(
    [
      fc.record({
        seed: fc.integer({ min: 1, max: 1e6 }),
        duration: fc.integer({ min: 2, max: 12 }),
        sampleRateHz: fc.constantFrom(60, 125),
        trials: fc.integer({ min: 1, max: 2 }),
        target: fc.record({ path: fc.constantFrom<"multisine" | "randomWalk" | "straight">("multisine", "randomWalk", "straight") }),
        recorder: fc.record({ dropShare: fc.constantFrom(0, 0.3), quantum: fc.constantFrom(0, 1, 20) }),
      }),
    ],
    { numRuns: 8 },
  )("gives plain data and leaves its input alone", (options) => {
    const given = simulated(options);
    const before = structuredClone(given);
    const results = analyzePursuit(given, { resamples: 100 });
    expect(given).toEqual(before);
    expect(results).toHaveLength(options.trials);
    expect(JSON.parse(JSON.stringify(results))).toEqual(results);
    expect(structuredClone(results)).toEqual(results);
    expect(analyzePursuit(given, { resamples: 100 })).toEqual(results);
  });

  it("takes half a frame off the lags, by the option or the recording's frames, and says when it cannot", () => {
    const { frames, ...without } = recording;
    const unknown = only(without);
    expect(frames!.length).toBeGreaterThan(1000);
    expect(unknown.warnings).toContain("frameRateUnknown");
    expect(unknown.lag.frameLag).toBe(0);
    const slow = only(recording, { targetFrameHz: 25 });
    expect(slow.lag.frameLag).toBeCloseTo(0.02, 12);
    for (const pick of [
      (p: Pursuit) => p.lag.byCorrelation,
      (p: Pursuit) => p.lag.atConstantVelocity,
      (p: Pursuit) => p.changes.pooledLatency,
    ]) {
      expect(value(pick(unknown)) - value(pick(slow))).toBeCloseTo(0.02, 9);
      expect(value(pick(unknown)) - value(pick(found))).toBeCloseTo(0.5 / 120, 9);
    }
    expect(value(slow.gain)).toBe(value(unknown.gain));
  });

  it("drops the first phase: a slow reach does not count", () => {
    const target = (t: number): { x: number; y: number } => ({ x: 100 * t, y: 0 });
    const reach = (until: number) => (t: number) => ({ x: 100 * t - (t < until ? 500 : 0), y: 0 });
    const soon = only(recordingOf({ seconds: 10, target, pointer: reach(0.5), diameter: 30 }));
    expect(soon.samples.acquisition).toBe("inside");
    // filtered, a jump of 500 is over in 20 ms
    expect(soon.samples.from).toBeGreaterThan(0.6);
    expect(soon.samples.from).toBeLessThan(0.64);
    expect(value(soon.error.rms)).toBeLessThan(1);
    expect(soon.onTarget.timeToFirstEntry!).toBeCloseTo(0.51, 1);
    const late = only(recordingOf({ seconds: 10, target, pointer: reach(3), diameter: 30 }));
    expect(late).toMatchObject({ samples: { acquisition: "time", from: 1 }, warnings: expect.arrayContaining(["notAcquired"]) });
    expect(value(late.onTarget.share)).toBeCloseTo(7 / 9, 1);
  });

  it("leaves out what is marked, and says so", () => {
    const mark: Mark = { t: recording.trials[0]!.tStart + 10, tEnd: recording.trials[0]!.tStart + 14, kind: "hidden" };
    const marked = only({ ...recording, marks: [mark] });
    expect(marked.warnings).toContain("missingSamples");
    expect(found.warnings).not.toContain("missingSamples");
    expect(found.samples.duration - marked.samples.duration).toBeCloseTo(4, 1);
    expect(Math.abs(value(marked.lag.byCorrelation) - value(found.lag.byCorrelation))).toBeLessThan(0.004);
    expect(only({ ...recording, marks: [{ t: mark.t, kind: "gain" }] })).toEqual(found);
  });

  it("has a shape and a size of its own for every target", () => {
    const target = (t: number): { x: number; y: number; scale: number } => ({ x: 100 * t, y: 0, scale: 1 + t / 10 });
    const pointer = (t: number): { x: number; y: number } => ({ x: 100 * t, y: 8 });
    const shape = { kind: "rect", width: 100, height: 10 } as const;
    const { onTarget, error, motion } = only(recordingOf({ seconds: 10.5, target, pointer, shape }));
    // inside once half of the height, 5 (1 + t/10), reaches 8: from 6 s on, of 1 s to 10.5 s
    expect(value(onTarget.share)).toBeCloseTo(4.5 / 9.5, 2);
    expect(onTarget.timeToFirstEntry).toBeCloseTo(6, 2);
    expect(motion.meanWidth).toBeCloseTo(10 * (1 + 5.75 / 10), 1);
    // 8 over 10 (1 + t/10), averaged over 1 s to 10.5 s: 0.8 * 10/9.5 ln(2.05/1.1)
    expect(value(error.inWidths.radial)).toBeCloseTo((8 / 9.5) * Math.log(2.05 / 1.1), 3);
  });

  it("sees spread grow with the target's size, or not", () => {
    const noise = (sizeExponent: number) => ({ sizeExponent, sd: 6 });
    const sizes = { duration: 60, target: { scale: [0.5, 2] as const }, catchUp: { deadZone: null } };
    const weber = only(simulated({ seed: 8, ...sizes, noise: noise(1) })).bySize;
    const same = only(simulated({ seed: 8, ...sizes, noise: noise(0) })).bySize;
    expect(weber.thirds).toHaveLength(3);
    expect(weber.slope.ok && weber.slope.interval![0] <= 1 && weber.slope.interval![1] >= 1).toBe(true);
    expect(same.slope.ok && same.slope.interval![0] <= 0 && same.slope.interval![1] >= 0).toBe(true);
    expect(found.bySize).toEqual({ thirds: [], slope: { ok: false, why: "noSpread", unit: "1", n: found.samples.units } });
  });

  it("reads a multisine at its own lines", () => {
    const given = simulatePursuit({ seed: 9, duration: 41, follower: { delay: 0.17, gain: 0.9 }, catchUp: { deadZone: null } });
    const { linesX, linesY } = given.truth.options.target;
    const read = only(given.recording, { drivenHz: { x: linesX, y: linesY } });
    expect(read.response.x.frequencies.map(({ hz }) => Math.round(1000 * hz) / 1000)).toEqual([...linesX]);
    expect(read.warnings).not.toContain("noWholePeriods");
    const { byPhase } = read.lag;
    expect(byPhase.ok && byPhase.interval![0] <= 0.17 && byPhase.interval![1] >= 0.17).toBe(true);
    expect(only(given.recording, { drivenHz: { x: [0.013], y: linesY } }).warnings).toContain("noWholePeriods");
  });

  it("warns of short records, of targets that repeat, and of saturated time on target", () => {
    const wave = (t: number): { x: number; y: number } => ({ x: 100 * Math.sin(2 * Math.PI * t), y: 0 });
    const sine = only(recordingOf({ seconds: 12, target: wave, pointer: (t) => wave(t - 0.1), diameter: 1000 }));
    expect(sine.warnings).toEqual(["shortRecord", "saturatedOn", "periodicTarget", "frameRateUnknown"]);
    const never = only(recordingOf({ seconds: 12, target: sines, pointer: (t) => ({ x: sines(t).x + 400, y: 0 }), diameter: 20 }));
    expect(never.warnings).toEqual(["shortRecord", "notAcquired", "saturatedOff", "frameRateUnknown"]);
    expect(never.onTarget).toMatchObject({
      entries: 0,
      longestStay: null,
      timeToFirstEntry: null,
      medianStay: { ok: false, why: "tooFew" },
    });
  });

  it("does not name a lag where pointer and target have nothing to do with each other", () => {
    let named = 0;
    for (let seed = 1; seed <= 8; seed++) {
      const mine = simulated({ seed, duration: 30, sampleRateHz: 60, target: { path: "randomWalk" } });
      const other = simulated({ seed: seed + 500, duration: 30, sampleRateHz: 60, target: { path: "randomWalk" } });
      named += Number(only({ ...mine, trace: other.trace }, { resamples: 100 }).lag.byCorrelation.ok);
    }
    // a chance peak passes 3 standard errors at some of about a dozen independent lags in few of a hundred records
    expect(named).toBeLessThanOrEqual(1);
  });

  it("says why there is nothing to tell", () => {
    const target = recording.targets[0]!;
    const still = { ...recording, targets: [{ ...target, at: { x: 3, y: 4 } }] };
    expect(only(still)).toMatchObject({ status: "noTrack", error: { rms: { ok: false, why: "tooFew" } }, warnings: [] });
    expect(only({ ...recording, targets: [] })).toMatchObject({ status: "noTrack", target: "" });
    const brief = { ...recording, trials: [{ ...recording.trials[0]!, tEnd: recording.trials[0]!.tStart + 1.5 }] };
    expect(only(brief)).toMatchObject({ status: "tooFew", samples: { count: 0, units: 0 } });
    expect(only(simulated({ duration: 4, sampleRateHz: 40 }))).toMatchObject({ status: "belowResolution" });
    const silent = { ...recording, trace: { t: Float64Array.of(0), x: Float64Array.of(0), y: Float64Array.of(0) } };
    expect(only(silent).status).toBe("tooFew");
    expect(analyzePursuit({ ...recording, trials: [{ ...recording.trials[0]!, kind: "acquire" }] })).toEqual([]);
    for (const one of [only(still), only(brief), only(silent)]) expect(JSON.parse(JSON.stringify(one))).toEqual(one);
  });

  it("gives a result for every goal, and reads a trial that still runs to the end of the trace", () => {
    const [trial] = recording.trials;
    const two = analyzePursuit({ ...recording, trials: [{ ...trial!, goals: ["target-1", "nowhere"] }] });
    expect(two.map(({ target, status }) => [target, status])).toEqual([
      ["target-1", "ok"],
      ["", "noTrack"],
    ]);
    const { tEnd, ...open } = trial!;
    expect(tEnd).toBeDefined();
    expect(only({ ...recording, trials: [open] }).samples).toEqual(found.samples);
  });
});

describe("analyzePursuit bad input", () => {
  const recording = recordingOf({ seconds: 3, target: sines, pointer: sines });
  it.each<[AnalyzePursuitOptions, RegExp]>([
    [{ level: 1 }, /analyzePursuit: options\.level must be above 0 and below 1, got 1/],
    [{ resamples: 10 }, /analyzePursuit: options\.resamples must be a whole number at least 100 and at most 10000, got 10/],
    [{ seed: 0.5 }, /analyzePursuit: options\.seed must be a whole number/],
    [{ targetFrameHz: 0 }, /analyzePursuit: options\.targetFrameHz must be finite and above 0, got 0/],
    [{ quantum: 0 }, /analyzePursuit: options\.quantum must be finite and above 0, got 0/],
    [{ cutoffHz: 0 }, /options\.cutoffHz must be finite and above 0, got 0/],
    [{ sampleRateHz: 0 }, /options\.sampleRateHz must be above 0/],
    [{ drivenHz: { x: [0.5, 0.4] } }, /analyzePursuit: options\.drivenHz\.x\[1\] must be finite and above 0\.5, got 0\.4/],
    [{ drivenHz: { y: 3 as never } }, /analyzePursuit: options\.drivenHz\.y must be a list of frequencies, got 3/],
    [{ drivenHz: null as never }, /analyzePursuit: options\.drivenHz must be an object of lists x and y, got null/],
  ])("refuses the options %j", (options, message) => {
    expect(() => analyzePursuit(recording, options)).toThrow(message);
  });
  it("refuses a trace that runs backward", () => {
    const trace = { ...recording.trace, t: recording.trace.t.slice().reverse() };
    expect(() => analyzePursuit({ ...recording, trace })).toThrow(/analyzePursuit: recording\.trace\.t must not run backward/);
  });
});
