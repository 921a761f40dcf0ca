import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/analyze.js";
import { createAnalyzer } from "../../src/movement/create-analyzer.js";
import type { Acquisition, Budget } from "../../src/movement/types.js";
import { simulateRecording } from "../../src/simulate/index.js";
import type { Recording } from "../../src/trace/types.js";
import { readReference, SHARED_ABSENT } from "../shared.js";
import { circle, press, REACH, recordingOf, traceOf, trial } from "./hand-made.js";
import { deepFreeze, figuresOf, moved, simulatedArb } from "./simulated.js";

const budgets = (readReference("kinematics/segmentation.json")?.cases ?? []).filter(({ name }) => name.startsWith("time budget"));
const sumOf = (budget: Budget): number => Object.values(budget).reduce((sum, part) => sum + part, 0);

/** The reference's components, all to the right, as a recording at 1000 Hz with a circle where they end. */
function recordingOfCase(input: (typeof budgets)[number]["input"]): Recording {
  const { components, tGo, press: pressed } = input;
  const total = components.reduce((sum: number, { amplitude }: { amplitude: number }) => sum + amplitude, 0);
  const strokes = components.map(({ onset, duration, amplitude }: Record<string, number>) => ({ onset, duration, dx: amplitude }));
  const [start, end] = [tGo + 1, pressed.t + 1];
  return recordingOf({
    // a second of rest before, so that the filter has something to settle on
    trace: traceOf(
      strokes.map((stroke: { onset: number }) => ({ ...stroke, onset: stroke.onset + 1 })),
      { until: 3 },
    ),
    presses: [press(end, { tUp: pressed.tUp + 1 })],
    targets: [circle("a", total, 0, 20, { tShown: start })],
    trials: [trial(["a"], start, 2.5)],
  });
}

describe("analyze against outside values", () => {
  it.skipIf(budgets.length === 0)(`has its reference table (else: ${SHARED_ABSENT})`, () => expect(budgets.length).toBe(3));

  // Source: reference/kinematics/segmentation.json, time budgets worked by hand. Tolerance: 10 ms a boundary, the error of estimated onsets
  // and ends on exact minimum-jerk bells (extrapolation 1.5 % of the duration early, filter); the sum is exact.
  it.each(budgets)("$name", ({ input, expected }) => {
    const rows = analyze(recordingOfCase(input));
    expect(rows.length).toBe(1);
    const { budget, times, pressedInMotion, flags, outcome } = rows[0];
    expect(outcome).toBe("hit");
    expect(sumOf(budget)).toBeCloseTo(expected.sum, 12);
    for (const part of ["latency", "primary", "correction"] as const)
      expect(Math.abs(budget[part] - expected[part]), part).toBeLessThan(0.01 + (part === "latency" ? 0 : 0.01));
    const onset = input.tGo + expected.latency + 1;
    const boundaries = { onset, primaryEnd: onset + expected.primary };
    for (const [name, time] of Object.entries(boundaries))
      expect(Math.abs(times[name as keyof typeof times]! - time), name).toBeLessThan(0.01);
    // positive: the press came after the stop
    const pressMinusStop = expected.pressMinusStop ?? expected.verification;
    expect(Math.abs(times.press! - times.stop! - pressMinusStop), "stop").toBeLessThan(0.01);
    expect(pressedInMotion).toBe(expected.pressedInMotion ?? false);
    if (expected.pressedInMotion) expect(budget.verification).toBe(0);
    else expect(Math.abs(budget.verification - expected.verification)).toBeLessThan(0.01);
    expect(flags).toEqual(expected.anticipation ? ["beforeGo"] : []);
  });

  // Source: closed form of the minimum-jerk bell, peak speed 1.875 A/T at half of its time (Flash and Hogan 1985, from memory). Tolerance:
  // what a 20 Hz filter leaves of a bell of 0.3 s, 0.01 %, and half a sample.
  it("gives peak speed, its time, amplitude and width of a minimum-jerk reach", () => {
    const [row] = analyze(REACH);
    expect(Math.abs(row.peakSpeed! / ((1.875 * 300) / 0.3) - 1)).toBeLessThan(2e-4);
    expect(row.times.peak).toBeCloseTo(0.6, 3);
    expect(Math.abs(row.amplitude! - 300)).toBeLessThan(0.1);
    expect(row.width).toBe(30);
    expect(row.submovements.length).toBe(1);
    expect(row.corrections).toEqual([]);
  });

  // Source: geometry by hand. The stop lies 9 beyond and 12 below the centre of a target straight to the right: below is right of travel.
  it("signs errors along the axis and to the left of travel on a screen whose y points down", () => {
    const trace = traceOf([{ onset: 0.45, duration: 0.3, dx: 309, dy: 12 }]);
    const [row] = analyze({ ...REACH, trace });
    expect(row.errors.press).toEqual({
      // the axis leads from the filtered start, 0.003 px off
      along: expect.closeTo(9, 3),
      across: expect.closeTo(-12, 3),
      radial: expect.closeTo(15, 9),
      inside: true,
    });
    expect(row.errors.stop).toMatchObject({ along: expect.closeTo(9, 0), across: expect.closeTo(-12, 0) });
  });

  // Source: the simulator's drawn truth. The medians are held to bars in the validation run; here every row of 200 is held to a wide one.
  it("finds outcome, target and the instants of simulated movements", () => {
    const { recording, truth } = simulateRecording({ seed: 41, movements: 200, sampleRateHz: 500 });
    const rows = analyze(recording);
    expect(rows.map((row) => [row.trial, row.target, row.outcome])).toEqual(truth.movements.map((m) => [m.trial, m.target, m.outcome]));
    for (const [i, { times }] of rows.entries()) {
      const { go, onset, press: pressed, end } = truth.movements[i];
      expect([times.go, times.press, times.end]).toEqual([go, pressed, end]);
      expect(Math.abs(times.onset! - onset!), `onset ${i}`).toBeLessThan(0.05);
    }
  });
});

describe("analyze properties", () => {
  test.prop([simulatedArb], { numRuns: 30 })("gives each simulated acquisition a row with its outcome", ({ recording, truth }) => {
    const rows = analyze(recording);
    expect(rows.map((row) => [row.trial, row.target, row.outcome])).toEqual(truth.movements.map((m) => [m.trial, m.target, m.outcome]));
  });

  test.prop([simulatedArb], { numRuns: 30 })(
    "splits the time of a row into parts that add up and do not go below zero",
    ({ recording }) => {
      for (const { budget, times, flags } of analyze(recording)) {
        expect(Math.abs(sumOf(budget) - (times.end - times.go))).toBeLessThan(1e-9);
        const { latency, ...rest } = budget;
        expect(latency < -1e-12).toBe(flags.includes("beforeGo"));
        for (const [part, value] of Object.entries(rest)) expect(value, part).toBeGreaterThanOrEqual(-1e-12);
      }
    },
  );

  test.prop([simulatedArb], { numRuns: 30 })("keeps the instants in order unless flagged", ({ recording }) => {
    for (const { times, flags, pressedInMotion } of analyze(recording)) {
      const { go, onset, primaryEnd, stop, press: pressed, end } = times;
      if (onset !== undefined) {
        if (!flags.includes("beforeGo")) expect(onset).toBeGreaterThanOrEqual(go);
        expect(primaryEnd).toBeGreaterThanOrEqual(onset);
        expect(stop).toBeGreaterThanOrEqual(primaryEnd!);
        if (pressed !== undefined) expect(stop! > pressed).toBe(pressedInMotion);
      } else expect([primaryEnd, stop]).toEqual([undefined, undefined]);
      expect(end).toBeGreaterThanOrEqual(pressed ?? go);
    }
  });

  test.prop([simulatedArb], { numRuns: 30 })("counts no time twice: rows follow one another, each within its trial", ({ recording }) => {
    const rows = analyze(recording);
    const trials = new Map(recording.trials.map((entry) => [entry.id, entry]));
    for (const [i, { times, trial: id }] of rows.entries()) {
      expect(times.go).toBeGreaterThanOrEqual(rows[i - 1]?.times.end ?? trials.get(id)!.tStart);
      expect(times.go).toBeGreaterThanOrEqual(trials.get(id)!.tStart);
      expect(times.end).toBeLessThanOrEqual(trials.get(id)!.tEnd!);
    }
    const covered = rows.reduce((sum, { budget }) => sum + sumOf(budget), 0);
    const waiting = rows.reduce((sum, { times }, i) => sum + times.go - (rows[i - 1]?.times.end ?? times.go), 0);
    const wall = rows[rows.length - 1].times.end - rows[0].times.go;
    expect(Math.abs(covered + waiting - wall)).toBeLessThan(1e-9 * rows.length);
  });

  test.prop([simulatedArb], { numRuns: 20 })("is plain data: it survives JSON and cloning, without NaN", ({ recording }) => {
    const rows = analyze(recording);
    expect(JSON.parse(JSON.stringify(rows))).toEqual(rows);
    expect(structuredClone(rows)).toEqual(rows);
  });

  test.prop([simulatedArb], { numRuns: 15 })("leaves the recording as it was", ({ recording }) => {
    const before = structuredClone(recording);
    analyze(deepFreeze(recording));
    expect(recording).toEqual(before);
  });

  test.prop([simulatedArb], { numRuns: 15 })(
    "is the same the second time, and the same as an analyzer's push and flush",
    ({ recording }) => {
      const rows = analyze(recording);
      expect(analyze(recording)).toEqual(rows);
      const analyzer = createAnalyzer(recording.space);
      expect([...analyzer.push(recording), ...analyzer.flush()]).toEqual(rows);
    },
  );

  /** Compares rows number by number after `back` has moved the second ones back. */
  const expectClose = (
    a: readonly Acquisition[],
    b: readonly Acquisition[],
    near: (path: string, x: number, y: number) => boolean,
  ): void => {
    expect(b.length).toBe(a.length);
    for (const [i, row] of a.entries()) {
      const [one, two] = [figuresOf(row), figuresOf(b[i])];
      expect(two.rest).toEqual(one.rest);
      expect(Object.keys(two.numbers)).toEqual(Object.keys(one.numbers));
      for (const [path, x] of Object.entries(one.numbers)) {
        const y = two.numbers[path];
        if (!near(path, x, y)) expect.fail(`row ${i} ${path}: ${x} against ${y}`);
      }
    }
  };
  const isTime = (path: string): boolean => path.startsWith("times.") || /\.(start|peak|end)$/.test(path);
  /** Durations and pure numbers: what a change of the length unit leaves alone. */
  const isUnitless = (path: string): boolean =>
    path.startsWith("budget.") ||
    /\.(latency|pause|gain|directionErrorDeg|efficiency|netEfficiency|decelerationShare|primaryDecelerationShare|speedSkew|stoppingTime)$/.test(
      path,
    ) ||
    /\.(settlingTime|damping|afterStop|fromPeak|duration|departure|reversals|entries|spectralArcLength|logDimensionlessJerk|sampleRateHz)$/.test(
      path,
    );
  const plane = simulateRecording({ seed: 43, movements: 30, sampleRateHz: 250, cases: { retry: 0.5, clutch: 0.1, anticipation: 0.1 } });
  const rows = analyze(plane.recording);

  it("does not care when the clock was zero: 1000 s later the same rows", () => {
    const shifted = analyze(moved(plane.recording, { time: (t) => t + 1000 }));
    expectClose(rows, shifted, (path, x, y) =>
      isTime(path) ? Math.abs(y - 1000 - x) <= 1e-9 : Math.abs(y - x) <= 1e-9 + 1e-6 * Math.max(1, Math.abs(x)),
    );
  });

  // Tolerance: doubles near 1.7e9 s are 0.24 microseconds apart, so that the rate told from steps of 4 ms is off by up to 6e-5 and the grid
  // of a movement, some 200 samples on, by 50 microseconds. Where two points vie for a minimum of speed the other may win: one sample.
  it("stays itself on a clock that counts from 1970", () => {
    const shifted = analyze(moved(plane.recording, { time: (t) => t + 1.7e9 }));
    let apart = 0;
    let count = 0;
    expectClose(rows, shifted, (path, x, y) => {
      if (!path.startsWith("times.") && !path.startsWith("budget.")) return true;
      const off = Math.abs(y - (path.startsWith("times.") ? 1.7e9 : 0) - x);
      count++;
      if (off > 5e-5) apart++;
      return off < 1.1 / 250;
    });
    expect(apart / count).toBeLessThan(0.02);
    for (const { budget, times } of shifted) expect(Math.abs(sumOf(budget) - (times.end - times.go))).toBeLessThan(1e-9);
  });

  it("does not care where the origin is", () => {
    const shifted = analyze(moved(plane.recording, { point: (x, y) => [x + 4096, y - 8192] }));
    expectClose(rows, shifted, (_, x, y) => Math.abs(y - x) <= 1e-8 * Math.max(1, Math.abs(x)));
  });

  it("turns with the recording by a right angle: only displacements turn", () => {
    const turned = analyze(moved(plane.recording, { point: (x, y) => [-y + 0, x] }));
    const turn = <T extends { dx: number; dy: number }>(stroke: T): T => ({
      ...stroke,
      dx: expect.closeTo(-stroke.dy, 9),
      dy: expect.closeTo(stroke.dx, 9),
    });
    for (const [i, row] of rows.entries()) {
      expect(turned[i]).toEqual({ ...row, submovements: row.submovements.map(turn), corrections: row.corrections.map(turn) });
    }
  });

  it("changes only the sign of what lies across in a mirror", () => {
    const mirrored = analyze(moved(plane.recording, { point: (x, y) => [-x + 0, y] }));
    expectClose(rows, mirrored, (path, x, y) => {
      const flips = path.endsWith(".across") || path.endsWith(".dx") || path.endsWith(".directionErrorDeg");
      return Math.abs((flips ? -y : y) - x) <= 1e-9;
    });
  });

  it.each([4, 0.02])("scales lengths and speeds with space by %d and leaves times alone", (factor) => {
    const scaled = analyze(moved(plane.recording, { point: (x, y) => [factor * x, factor * y], size: factor }));
    expectClose(rows, scaled, (path, x, y) => {
      if (isTime(path) || isUnitless(path)) return Math.abs(y - x) <= 1e-9;
      return Math.abs(y / factor - x) <= 1e-7 * Math.max(1, Math.abs(x));
    });
  });

  // the whole field lies within 0.001 degrees of the horizon, where a cosine is 1 to ten digits
  it("gives the same rows for the same movements in a plane and, turned into small angles, in a view", () => {
    const degreesPerUnit = 1e-6;
    const options = { seed: 43, movements: 30, sampleRateHz: 250, cases: { retry: 0.5, clutch: 0.1, anticipation: 0.1 } };
    const view = simulateRecording({ ...options, space: { kind: "view", degreesPerUnit } });
    expectClose(rows, analyze(view.recording), (path, x, y) => {
      if (isTime(path) || path.startsWith("budget.")) return Math.abs(y - x) <= 1e-9;
      if (isUnitless(path)) return Math.abs(y - x) <= 1e-6;
      return Math.abs(y / degreesPerUnit - x) <= 1e-6 * Math.max(1, Math.abs(x));
    });
  });

  it("measures offsets in the tangent plane at the target: at 50 degrees of elevation they agree with the plane's", () => {
    const degreesPerUnit = 1e-6;
    // positions as exact as doubles: a grid of azimuths is coarser than one of the plane
    const options = { seed: 44, movements: 30, sampleRateHz: 250, tremorAmplitude: 0, recorder: { quantum: 0 } };
    // the rate is given: told from the faster half of the motion it is a slightly other one in degrees of azimuth
    const flat = analyze(simulateRecording(options).recording, { sampleRateHz: 250 });
    const view = simulateRecording({ ...options, space: { kind: "view", degreesPerUnit, elevation: 50 } });
    const high = analyze(view.recording, { sampleRateHz: 250 });
    expect(high.map((row) => row.outcome)).toEqual(flat.map((row) => row.outcome));
    for (const [i, row] of flat.entries()) {
      expect(Math.abs(high[i].times.onset! - row.times.onset!)).toBeLessThan(1e-6);
      expect(Math.abs(high[i].amplitude! / degreesPerUnit - row.amplitude!) / row.amplitude!).toBeLessThan(1e-4);
      for (const part of ["primary", "stop", "press"] as const) {
        expect(Math.abs(high[i].errors[part]!.along! / degreesPerUnit - row.errors[part]!.along!), part).toBeLessThan(0.01);
        expect(Math.abs(high[i].errors[part]!.across! / degreesPerUnit - row.errors[part]!.across!), part).toBeLessThan(0.01);
      }
    }
  });
});

describe("analyze bad input", () => {
  it("names columns of unequal length", () => {
    const trace = { ...REACH.trace, y: REACH.trace.y.slice(1) };
    expect(() => analyze({ ...REACH, trace })).toThrow(
      /createAnalyzer: chunk\.trace\.y must have 2001 entries like the other columns, got 2000/,
    );
  });
  it("names a sample that is no number", () => {
    const trace = { ...REACH.trace, x: REACH.trace.x.map((x, i) => (i === 7 ? Number.NaN : x)) };
    expect(() => analyze({ ...REACH, trace })).toThrow(/createAnalyzer: chunk\.trace\.x\[7\] must be finite, got NaN/);
  });
  it("names the sample at which time runs backward", () => {
    const trace = { ...REACH.trace, t: REACH.trace.t.map((t, i) => (i === 5 ? 0.001 : t)) };
    expect(() => analyze({ ...REACH, trace })).toThrow(
      /chunk\.trace\.t must not run backward, got chunk\.trace\.t\[5\] = 0\.001 after 0\.004/,
    );
  });
  it("names a target without size", () => {
    expect(() => analyze({ ...REACH, targets: [circle("a", 300, 0, 0)] })).toThrow(
      /chunk\.targets\[0\]\.shape\.diameter must be above 0, got 0/,
    );
  });
  it("names a goal that was never given", () => {
    expect(() => analyze({ ...REACH, trials: [trial(["a", "b"], 0.2, 1.5)] })).toThrow(
      /trial "trial" must name targets that were shown by its end, got "b"/,
    );
  });
  it("names an option out of range", () => {
    expect(() => analyze(REACH, { cutoffHz: 1 })).toThrow(/createAnalyzer: options\.cutoffHz must be at least 4 and at most 400, got 1/);
  });
  it("gives no rows for an empty recording", () => expect(analyze(recordingOf({}))).toEqual([]));
  it("gives no rows for a recording without trials", () => expect(analyze({ ...REACH, trials: [] })).toEqual([]));
});

// Arbitrary recordings that nobody made with a pointer must not break anything either.
describe("analyze on recordings of any kind", () => {
  test.prop([fc.array(fc.integer({ min: -5, max: 5 }), { minLength: 1, maxLength: 200 }), fc.integer({ min: 1, max: 200 })])(
    "gives sums that hold and plain data on random walks",
    (steps, pressAt) => {
      let at = 0;
      const x = Float64Array.from(steps, (step) => (at += step));
      const t = x.map((_, i) => i / 125);
      const walk = recordingOf({
        trace: { t, x, y: x.map((value) => -value) },
        presses: [press(pressAt / 125)],
        targets: [circle("a", 20, 0, 15)],
        trials: [trial(["a"], 0, 2)],
      });
      const rows = analyze(walk);
      expect(rows.length).toBe(1);
      expect(JSON.parse(JSON.stringify(rows))).toEqual(rows);
      expect(Math.abs(sumOf(rows[0].budget) - (rows[0].times.end - rows[0].times.go))).toBeLessThan(1e-9);
    },
  );
});
