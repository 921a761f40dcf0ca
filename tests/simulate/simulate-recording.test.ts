import { fc, test } from "@fast-check/vitest";
import { max, mean, sampleStandardDeviation } from "simple-statistics";
import { describe, expect, it } from "vitest";
import { type SimulateRecordingOptions, simulateRecording, type TrueMovement, type Vector } from "../../src/simulate/index.js";
import { requireTrace } from "../../src/trace/require-trace.js";
import type { Recording, Trace } from "../../src/trace/types.js";
import { kolmogorovUniform } from "./kolmogorov-uniform.js";

// The distributions, one large draw for all tests of them. Presses given early keep their own delay and are set apart.
const many = simulateRecording({ seed: 2, movements: 3000, sampleRateHz: 60 }).truth.movements;
const late = many.filter((m) => m.press! >= m.stop!);

/** How far the mean and the standard deviation lie from what they should be, in standard errors. `kurtosis` of the distribution: normal 3. */
function standardErrorsOff(values: readonly number[], m: number, sd: number, kurtosis = 3): [number, number] {
  const n = values.length;
  const seOfSd = (sd / 2) * Math.sqrt((kurtosis - 1) / n);
  return [Math.abs(mean([...values]) - m) / (sd / Math.sqrt(n)), Math.abs(sampleStandardDeviation([...values]) - sd) / seOfSd];
}

/** Kolmogorov's statistic exceeds this once in 10,000 (textbook asymptotic: 2 exp(-2 k^2) = 1e-4). */
const KOLMOGOROV = 2.226;

/** Standard errors between a count and a share of `n`. */
const shareOff = (count: number, n: number, share: number): number => Math.abs(count / n - share) / Math.sqrt((share * (1 - share)) / n);

/** The errors each correction was planned on, from the target's centre, with the correction. */
function plansOf(
  m: TrueMovement,
): { error: Vector; correction: TrueMovement["components"][number]; before: TrueMovement["components"][number] }[] {
  let error = { x: m.start.x - m.centre.x, y: m.start.y - m.centre.y };
  return m.components.flatMap((correction, i) => {
    const plan = { error, correction, before: m.components[i - 1]! };
    error = { x: error.x + correction.dx, y: error.y + correction.dy };
    return correction.role === "correction" ? [plan] : [];
  });
}
const length = ({ x, y }: Vector): number => Math.sqrt(x * x + y * y);
const plans = many.flatMap(plansOf);

/** Position held at `t`: that of the last sample up to it. */
function held({ t, x, y }: Trace, at: number): Vector {
  let i = 0;
  while (i + 1 < t.length && t[i + 1]! <= at) i++;
  return { x: x[i]!, y: y[i]! };
}

describe("simulateRecording against outside values", () => {
  // Sources for all checks of distributions: textbook moments and sampling errors (SE of a mean sd/sqrt(n), of a standard deviation
  // sd/2 sqrt((kurtosis - 1)/n)), within 4 of them; the figures are those of the study's stated distributions.

  // Source: ex-Gaussian: mean mu + tau, variance sigma^2 + tau^2, fourth cumulant 6 tau^4 (textbook)
  it("draws latencies from the ex-Gaussian", () => {
    const variance = 0.03 ** 2 + 0.06 ** 2;
    const off = standardErrorsOff(
      many.map((m) => m.latency!),
      0.26,
      Math.sqrt(variance),
      3 + (6 * 0.06 ** 4) / variance ** 2,
    );
    expect(max(off)).toBeLessThan(4);
  });

  it("lands the primary 3 % short, with 5 % of the distance as spread along and 2.5 % across", () => {
    expect(
      max(
        standardErrorsOff(
          many.map((m) => m.primaryError!.along / m.amplitude),
          -0.03,
          0.05,
        ),
      ),
    ).toBeLessThan(4);
    expect(
      max(
        standardErrorsOff(
          many.map((m) => m.primaryError!.across / m.amplitude),
          0,
          0.025,
        ),
      ),
    ).toBeLessThan(4);
  });

  // Source: Fitts' law in Shannon's form with the study's intercept and slope; logarithm of the rest normal
  it("takes 0.12 s and 0.05 s a bit for the primary, with 8 % of spread", () => {
    const rest = many.map((m) => Math.log(m.components[0]!.duration / (0.12 + 0.05 * Math.log2(m.amplitude / m.width + 1))));
    expect(max(standardErrorsOff(rest, 0, 0.08))).toBeLessThan(4);
  });

  it("draws bells and widths evenly", () => {
    for (const bell of ["minimumJerk", "earlySkewed", "lateSkewed"]) {
      expect(shareOff(many.filter((m) => m.bell === bell).length, many.length, 1 / 3)).toBeLessThan(4);
    }
    for (const width of [16, 24, 40, 64, 100]) {
      expect(shareOff(many.filter((m) => m.width === width).length, many.length, 1 / 5)).toBeLessThan(4);
    }
  });

  // Source: Kolmogorov's limit distribution (textbook)
  it("draws distances and directions uniformly", () => {
    expect(
      kolmogorovUniform(
        many.map((m) => m.amplitude),
        150,
        800,
      ),
    ).toBeLessThan(KOLMOGOROV);
    expect(
      kolmogorovUniform(
        many.map((m) => m.directionDeg),
        -180,
        180,
      ),
    ).toBeLessThan(KOLMOGOROV);
    // also where the bounds mirror most
    expect(
      kolmogorovUniform(
        many.filter((m) => m.amplitude > 600).map((m) => m.directionDeg),
        -180,
        180,
      ),
    ).toBeLessThan(KOLMOGOROV);
  });

  it("leaves a fifth of the movements without any correction", () => {
    const pure = many.filter((m) => m.pure);
    expect(shareOff(pure.length, many.length, 0.2)).toBeLessThan(4);
    expect(pure.every((m) => m.components.length === 1)).toBe(true);
  });

  it("corrects while the error exceeds 0.4 W, four times at most", () => {
    for (const m of many) {
      for (const { error } of plansOf(m)) expect(length(error)).toBeGreaterThan(0.4 * m.width);
      const corrections = m.components.length - 1;
      expect(corrections).toBeLessThanOrEqual(4);
      const left = Math.sqrt(m.stopError!.along ** 2 + m.stopError!.across ** 2);
      if (!m.pure && corrections < 4) expect(left).toBeLessThanOrEqual(0.4 * m.width + 1e-9);
    }
  });

  it("draws gains about 0.7, 1 and 1.25, sideways noise of 6 %, durations of 0.1 to 0.2 s, onsets -0.1 to 0.2 s after the end before", () => {
    const along = plans.map(({ error, correction }) => -(correction.dx * error.x + correction.dy * error.y) / length(error) ** 2);
    const across = plans.map(({ error, correction }) => (correction.dx * error.y - correction.dy * error.x) / length(error) ** 2);
    plans.forEach(({ correction }, i) => {
      expect(correction.gain).toBeCloseTo(along[i]!, 9);
    });
    // Source: mixture of three normals with equal shares: variance within plus variance between, fourth moment likewise (textbook)
    const centres = [0.7, 1, 1.25].map(Math.log);
    const middle = mean(centres);
    const second = mean(centres.map((c) => 0.08 ** 2 + (c - middle) ** 2));
    const fourth = mean(centres.map((c) => 3 * 0.08 ** 4 + 6 * 0.08 ** 2 * (c - middle) ** 2 + (c - middle) ** 4));
    expect(max(standardErrorsOff(along.map(Math.log), middle, Math.sqrt(second), fourth / second ** 2))).toBeLessThan(4);
    expect(max(standardErrorsOff(across, 0, 0.06))).toBeLessThan(4);
    expect(
      kolmogorovUniform(
        plans.map(({ correction }) => correction.duration),
        0.1,
        0.2,
      ),
    ).toBeLessThan(KOLMOGOROV);
    const spacing = plans.map(({ correction, before }) => correction.onset - before.onset - before.duration);
    expect(kolmogorovUniform(spacing, -0.1, 0.2)).toBeLessThan(KOLMOGOROV);
  });

  it("presses N(0.07, 0.03) s after the stop, or in 3 % of the cases 0.03 s before it", () => {
    const early = many.filter((m) => m.press! < m.stop!);
    expect(shareOff(early.length, many.length, 0.03)).toBeLessThan(4);
    for (const m of early) expect(m.stop! - m.press!).toBeCloseTo(0.03, 9);
    // Source: moments of a normal variable whose values below 0 are set to 0, with z = mean/sd: mean m Phi(z) + s phi(z), second moment
    // (m^2 + s^2) Phi(z) + m s phi(z) (textbook); Phi(7/3) = .990185 and phi(7/3) = .026221 from tables
    const first = 0.07 * 0.990185 + 0.03 * 0.026221;
    const second = (0.07 ** 2 + 0.03 ** 2) * 0.990185 + 0.07 * 0.03 * 0.026221;
    const delays = late.map((m) => m.press! - m.stop!);
    expect(max(standardErrorsOff(delays, first, Math.sqrt(second - first ** 2)))).toBeLessThan(4);
  });

  it("holds the button for N(0.085, 0.015) s and slips by N(0, 0.6)", () => {
    expect(
      max(
        standardErrorsOff(
          many.map((m) => m.tUp! - m.press!),
          0.085,
          0.015,
        ),
      ),
    ).toBeLessThan(4);
    expect(
      max(
        standardErrorsOff(
          many.map((m) => m.slip!.x),
          0,
          0.6,
        ),
      ),
    ).toBeLessThan(4);
    expect(
      max(
        standardErrorsOff(
          many.map((m) => m.slip!.y),
          0,
          0.6,
        ),
      ),
    ).toBeLessThan(4);
  });

  // Source: the definition across = (p - target).(u_y, -u_x), u from start to target, worked on a press with the record's own position
  it("gives errors along and across the axis from the start to the target", () => {
    const { recording, truth } = simulateRecording({ movements: 50, tremorAmplitude: 0, recorder: { quantum: 0 } });
    truth.movements.forEach((m, i) => {
      const u = { x: (m.centre.x - m.start.x) / m.amplitude, y: (m.centre.y - m.start.y) / m.amplitude };
      const p = { x: recording.presses[i]!.x! - m.centre.x, y: recording.presses[i]!.y! - m.centre.y };
      expect(m.pressError!.along).toBeCloseTo(p.x * u.x + p.y * u.y, 9);
      expect(m.pressError!.across).toBeCloseTo(p.x * u.y - p.y * u.x, 9);
    });
  });

  // Source: minimum-jerk position at s = 0.25 and 0.5 is 0.103515625 and 0.5 of the way (reference/kinematics/minimum-jerk.json)
  it("follows the bell on the way", () => {
    const { recording, truth } = simulateRecording({
      movements: 30,
      sampleRateHz: 4000,
      tremorAmplitude: 0,
      primary: { bells: ["minimumJerk"] },
      recorder: { quantum: 0, timeJitterSd: 0, eventsOnly: false },
    });
    for (const m of truth.movements) {
      const [primary, second] = m.components;
      for (const [s, share] of [
        [0.25, 0.103515625],
        [0.5, 0.5],
      ] as const) {
        const t = primary!.onset + s * primary!.duration;
        if (second && second.onset < t) continue;
        const at = held(recording.trace, t);
        // no more than a sample's way: peak speed 1.875 A/T times 1/4000 s
        const way = (1.875 * m.amplitude) / primary!.duration / 4000;
        expect(Math.abs(at.x - m.start.x - share * primary!.dx)).toBeLessThan(way);
        expect(Math.abs(at.y - m.start.y - share * primary!.dy)).toBeLessThan(way);
      }
    }
  });
});

describe("simulateRecording properties", () => {
  const options: fc.Arbitrary<SimulateRecordingOptions> = fc.record({
    seed: fc.integer(),
    movements: fc.integer({ min: 1, max: 12 }),
    sampleRateHz: fc.constantFrom(60, 125, 250),
    space: fc.constantFrom({ kind: "plane" } as const, { kind: "view", elevation: 30, degreesPerUnit: 0.02 } as const),
    sequence: fc.constantFrom(0, 1, 3),
    cases: fc.record({
      timeout: fc.constantFrom(0, 0.3),
      anticipation: fc.constantFrom(0, 0.3),
      clutch: fc.constantFrom(0, 0.3),
      retry: fc.constantFrom(0, 1),
    }),
    recorder: fc.record({ timeQuantum: fc.constantFrom(0, 0.001), quantum: fc.constantFrom(0, 1), dropShare: fc.constantFrom(0, 0.2) }),
  });
  const bytes = (value: unknown): string => JSON.stringify(value, (_, v) => (v instanceof Float64Array ? Array.from(v) : v));

  test.prop([options])("says the same twice, and something else from another seed", (o) => {
    const once = bytes(simulateRecording(o));
    expect(bytes(simulateRecording(o))).toBe(once);
    expect(bytes(simulateRecording({ ...o, seed: (o.seed! + 1) | 0 }))).not.toBe(once);
  });

  test.prop([options])("tells a truth of plain data", (o) => {
    const { truth } = simulateRecording(o);
    expect(JSON.parse(JSON.stringify(truth))).toEqual(truth);
    expect(structuredClone(truth)).toEqual(truth);
    expect(truth.seed).toBe(o.seed);
    expect(truth.movements).toHaveLength(o.movements!);
  });

  test.prop([options])("gives a sound recording: time in order, ids that fit, presses within their trials", (o) => {
    const { recording, truth } = simulateRecording(o);
    requireTrace("test", "trace", recording.trace);
    const { presses, targets, trials } = recording;
    for (let i = 1; i < presses.length; i++) expect(presses[i]!.t).toBeGreaterThanOrEqual(presses[i - 1]!.tUp!);
    expect(trials.flatMap(({ goals }) => goals)).toEqual(targets.map(({ id }) => id));
    for (const target of targets) expect(target.tGone).toBeGreaterThan(target.tShown);
    for (let i = 1; i < trials.length; i++) expect(trials[i]!.tStart).toBeGreaterThan(trials[i - 1]!.tEnd!);
    for (const m of truth.movements) {
      const trial = trials.find(({ id }) => id === m.trial)!;
      expect(trial.goals).toContain(m.target);
    }
    expect(recording.trace.t.at(-1)).toBeLessThanOrEqual(trials.at(-1)!.tEnd! + 0.31);
  });

  test.prop([options])("keeps go, onset, primary end, stop and press in order unless flagged", (o) => {
    for (const m of simulateRecording(o).truth.movements) {
      const pairs = [
        [m.go, m.onset, "beforeGo"],
        [m.onset, m.primaryEnd, ""],
        [m.primaryEnd, m.stop, ""],
        [m.stop, m.press, "pressedInMotion"],
        [m.press, m.end, ""],
      ] as const;
      for (const [before, after, flag] of pairs) {
        if (before === undefined || after === undefined) continue;
        expect(before <= after || m.flags.some((f) => f === flag), `${before} ${after} ${flag}`).toBe(true);
      }
    }
  });

  test.prop([options])("draws the same movements whatever the recorder", (o) => {
    const all = (recorder: SimulateRecordingOptions["recorder"], sampleRateHz: number): TrueMovement[] =>
      simulateRecording({ ...o, cases: {}, recorder: recorder!, sampleRateHz }).truth.movements.map((m) => ({ ...m, outcome: "hit" }));
    expect(all({ timeQuantum: 0.01, quantum: 2 }, 100)).toEqual(all({ eventsOnly: false }, 30));
  });

  test.prop([fc.integer()])("holds the true position at every stop, within half a quantum and the tremor", (seed) => {
    const { recording, truth } = simulateRecording({ seed, movements: 5 });
    for (const m of truth.movements) {
      if (m.press! - m.stop! < 0.02) continue;
      const at = held(recording.trace, m.press! - 0.001);
      const rest = m.components.reduce((p, c) => ({ x: p.x + c.dx, y: p.y + c.dy }), m.start);
      // the hold may begin up to a sample before the stop; the bell's last 4 ms make less than 0.1 of the way
      expect(Math.abs(at.x - rest.x)).toBeLessThan(0.5 + 0.6 + 0.1);
      expect(Math.abs(at.y - rest.y)).toBeLessThan(0.5 + 0.6 + 0.1);
    }
  });

  test.prop([options])("leaves its options alone", (o) => {
    const freeze = <T>(value: T): T => {
      if (value !== null && typeof value === "object") Object.values(Object.freeze(value)).forEach(freeze);
      return value;
    };
    expect(simulateRecording(freeze(o)).truth.options.movements).toBe(o.movements);
  });

  test.prop([fc.integer(), fc.constantFrom(0, -30, 60), fc.constantFrom(0.002, 0.02)])(
    "makes the same movements in a view as in a plane, seen from each target",
    (seed, elevation, degreesPerUnit) => {
      const free = { seed, movements: 8, tremorAmplitude: 0, recorder: { quantum: 0, timeJitterSd: 0, eventsOnly: false } };
      const plane = simulateRecording(free);
      const view = simulateRecording({ ...free, space: { kind: "view", elevation, degreesPerUnit } });
      view.truth.movements.forEach((m, i) => {
        const p = plane.truth.movements[i]!;
        const close = (got: number, expected: number): void => expect(got / degreesPerUnit).toBeCloseTo(expected, 6);
        close(m.amplitude, p.amplitude);
        close(m.width, p.width);
        close(m.stopError!.along, p.stopError!.along);
        close(m.pressError!.across, p.pressError!.across);
        expect(m.directionDeg).toBeCloseTo(p.directionDeg, 6);
        expect(m.outcome).toBe(p.outcome);
        expect(m.press).toBeCloseTo(p.press!, 9);
        // the path itself, in the tangent plane at the target
        const t = (m.onset! + m.primaryEnd!) / 2;
        const [inView, inPlane] = [held(view.recording.trace, t), held(plane.recording.trace, t)];
        close((inView.x - m.centre.x) * Math.cos((m.centre.y * Math.PI) / 180), inPlane.x - p.centre.x);
        close(inView.y - m.centre.y, inPlane.y - p.centre.y);
      });
    },
  );

  it("goes from press to press in a sequence, through separate targets that are all shown at its start", () => {
    const { recording, truth } = simulateRecording({ movements: 60, sequence: 6 });
    expect(recording.trials).toHaveLength(10);
    for (const trial of recording.trials) {
      const own = truth.movements.filter((m) => m.trial === trial.id);
      expect(trial.kind).toBe("sequence");
      expect(own.map((m) => m.target)).toEqual(trial.goals);
      own.forEach((m, i) => {
        expect(m.go).toBe(i === 0 ? trial.tStart : own[i - 1]!.press);
        own.slice(0, i).forEach((other) => {
          expect(length({ x: m.centre.x - other.centre.x, y: m.centre.y - other.centre.y })).toBeGreaterThan((m.width + other.width) / 2);
        });
      });
      for (const target of recording.targets.filter(({ id }) => trial.goals.includes(id))) expect(target.tShown).toBe(trial.tStart);
    }
  });

  it("credits a press exactly when its recorded position lies on the target", () => {
    const { recording, truth } = simulateRecording({ movements: 200 });
    truth.movements.forEach((m, i) => {
      const { x, y, credited } = recording.presses[i]!;
      const inside = length({ x: x! - m.centre.x, y: y! - m.centre.y }) <= m.width / 2;
      expect([credited, m.outcome]).toEqual(inside ? [m.target, "hit"] : [null, "miss"]);
    });
  });

  it("ends timeouts without a press, 3 s after go", () => {
    const { recording, truth } = simulateRecording({ movements: 20, cases: { timeout: 1 } });
    expect(recording.presses).toEqual([]);
    for (const m of truth.movements) {
      expect(m).toMatchObject({ outcome: "timeout", end: m.go + 3 });
      expect(m.press).toBeUndefined();
    }
  });

  it("ends a sequence at a timeout, with the rest of its targets untried", () => {
    const { recording, truth } = simulateRecording({ movements: 10, sequence: 5, cases: { timeout: 1 } });
    expect(recording.trials).toHaveLength(10);
    expect(truth.movements.every((m, i) => m.trial === recording.trials[i]!.id && m.outcome === "timeout")).toBe(true);
  });

  it("presses without moving when the target appears under the pointer", () => {
    const { truth } = simulateRecording({ movements: 50, cases: { noMovement: 1 } });
    for (const m of truth.movements) {
      expect(m).toMatchObject({ components: [], flags: ["noMovement"] });
      expect(m.amplitude).toBeLessThanOrEqual(m.width / 4 + 1e-9);
      expect([m.onset, m.stop, m.primaryError]).toEqual([undefined, undefined, undefined]);
    }
  });

  it("leaves before go when it anticipates, never before the stop before", () => {
    for (const sequence of [0, 5]) {
      const { movements } = simulateRecording({ movements: 50, sequence, cases: { anticipation: 1 } }).truth;
      const own = movements.filter((m) => m.flags.includes("beforeGo"));
      expect(own.length).toBeGreaterThan(40);
      for (const m of own) expect(m.latency).toBeLessThan(0);
      movements.slice(1).forEach((m, i) => {
        expect(m.onset).toBeGreaterThanOrEqual(movements[i]!.stop!);
      });
    }
  });

  it("lifts the device between two parts of the primary, and marks it", () => {
    const { recording, truth } = simulateRecording({ movements: 40, cases: { clutch: 1 }, recorder: { eventsOnly: false } });
    expect(recording.marks).toHaveLength(40);
    truth.movements.forEach((m, i) => {
      const { t, tEnd, kind } = recording.marks[i]!;
      expect([kind, t, tEnd]).toEqual(["lift", m.primaryEnd, m.components[1]!.onset]);
      expect(tEnd! - t).toBeGreaterThanOrEqual(0.12 - 1e-9);
      expect(m.flags).toContain("clutch");
      const [first, second] = m.components as [Step, Step];
      const share = length({ x: first.dx, y: first.dy }) / length({ x: first.dx + second.dx, y: first.dy + second.dy });
      expect(share).toBeGreaterThan(0.4);
      expect(share).toBeLessThan(0.6);
    });
    type Step = TrueMovement["components"][number];
  });

  it("repeats missed presses after one more stroke, and then mostly hits", () => {
    const { recording, truth } = simulateRecording({ movements: 200, correction: { pureShare: 1 }, cases: { retry: 1 } });
    const again = truth.movements.filter((m) => m.components.at(-1)!.role === "recovery");
    expect(again.length).toBeGreaterThan(50);
    expect(again.filter((m) => m.outcome === "recovered").length / again.length).toBeGreaterThan(0.9);
    for (const m of again) {
      const own = recording.presses.filter(({ t }) => t === m.press || t === m.end);
      expect(own).toHaveLength(2);
      expect(own[0]!.credited).toBe(null);
      expect(own[1]!.credited).toBe(m.outcome === "recovered" ? m.target : null);
    }
  });

  it("stays on a moving target from the stop to the press, with the error it stopped at", () => {
    const { recording, truth } = simulateRecording({
      movements: 30,
      sampleRateHz: 1000,
      tremorAmplitude: 0,
      targets: { speed: [100, 300] },
      recorder: { quantum: 0, timeJitterSd: 0, eventsOnly: false },
    });
    truth.movements.forEach((m, i) => {
      const { x, y } = m.velocity!;
      const speed = length(m.velocity!);
      expect(speed).toBeGreaterThanOrEqual(100);
      expect(speed).toBeLessThanOrEqual(300);
      const track = recording.targets[i]!.at as Trace;
      expect(track.x[1]! - track.x[0]!).toBeCloseTo(x * (track.t[1]! - track.t[0]!), 6);
      expect(m.centre.x).toBeCloseTo(track.x[0]! + x * (m.onset! - track.t[0]!), 6);
      if (m.flags.includes("pressedInMotion")) return;
      const error = Math.sqrt(m.stopError!.along ** 2 + m.stopError!.across ** 2);
      expect(Math.sqrt(m.pressError!.along ** 2 + m.pressError!.across ** 2)).toBeCloseTo(error, 6);
      const at = held(recording.trace, m.stop!);
      const from = { x: at.x - m.centre.x - x * (m.stop! - m.onset!), y: at.y - m.centre.y - y * (m.stop! - m.onset!) };
      // a sample is at most 1 ms old, 0.3 units at 300 units/s
      expect(Math.abs(length(from) - error)).toBeLessThan(0.35);
    });
  });

  it("holds the pointer within the edges, marks the stays and flags the movements", () => {
    const edges = { width: 1000, height: 1000 };
    const { recording, truth } = simulateRecording({
      movements: 100,
      targets: { bounds: edges, amplitude: [150, 450] },
      recorder: { edges },
    });
    for (const column of [recording.trace.x, recording.trace.y]) {
      expect(Math.min(...column)).toBeGreaterThanOrEqual(0);
      expect(Math.max(...column)).toBeLessThanOrEqual(1000);
    }
    expect(recording.marks.length).toBeGreaterThan(0);
    expect(recording.marks.every(({ kind }) => kind === "edge")).toBe(true);
    for (const m of truth.movements) {
      const touched = recording.marks.some(({ t, tEnd }) => t <= m.end && tEnd! >= m.onset!);
      expect(m.flags.includes("edge")).toBe(touched);
    }
  });

  it("keeps the targets within the bounds", () => {
    const { truth } = simulateRecording({ movements: 300, sampleRateHz: 30, targets: { bounds: { width: 1200, height: 700 } } });
    for (const { centre } of truth.movements) {
      expect(Math.abs(centre.x - 600)).toBeLessThanOrEqual(600);
      expect(Math.abs(centre.y - 350)).toBeLessThanOrEqual(350);
    }
  });

  it("trembles at the amplitude asked for while the hand rests", () => {
    const still = { latency: { mu: 5, sigma: 0, tau: 0 }, recorder: { quantum: 0, eventsOnly: false } };
    const { recording, truth } = simulateRecording({ ...still, movements: 1, sampleRateHz: 1000 });
    const rest = (column: "x" | "y"): number[] => Array.from(trace[column]).filter((_, i) => trace.t[i]! < 5);
    const { trace }: Recording = recording;
    for (const axis of ["x", "y"] as const) {
      const values = rest(axis);
      const middle = truth.movements[0]!.start[axis];
      expect(max(values.map((v) => Math.abs(v - middle)))).toBeCloseTo(0.3, 2);
      // crossings of the middle: twice the frequency, 8 to 11 Hz, over 5 s
      const crossings = values.filter((v, i) => i > 0 && v > middle !== values[i - 1]! > middle).length;
      expect(crossings).toBeGreaterThanOrEqual(2 * 8 * 5 - 2);
      expect(crossings).toBeLessThanOrEqual(2 * 11 * 5 + 2);
    }
  });
});

describe("simulateRecording bad input", () => {
  const refused = (options: unknown) => expect(() => simulateRecording(options as SimulateRecordingOptions));

  it("wants an object of options, and objects for its groups", () => {
    refused(null).toThrow("simulateRecording: options must be an object, got null");
    refused({ press: 3 }).toThrow("simulateRecording: options.press must be an object, got 3");
  });

  it("names the option, its range and its value", () => {
    refused({ seed: 1.5 }).toThrow(/options\.seed must be a whole number .*, got 1\.5/);
    refused({ movements: 0 }).toThrow(/options\.movements must be a whole number finite and at least 1, got 0/);
    refused({ sampleRateHz: 0 }).toThrow(/options\.sampleRateHz must be above 0 and at most 1000000, got 0/);
    refused({ tremorAmplitude: Number.NaN }).toThrow(/options\.tremorAmplitude must be finite and at least 0, got NaN/);
    refused({ pause: [1, 0.5] }).toThrow(/options\.pause\[1\] must be finite and at least 1, got 0\.5/);
    refused({ pause: 1 }).toThrow(/options\.pause must be an array of lowest and highest, got 1/);
    refused({ correction: { gains: [1, -1] } }).toThrow(/options\.correction\.gains\[1\] must be finite and above 0, got -1/);
    refused({ primary: { bells: [] } }).toThrow(/options\.primary\.bells must be an array of at least one bell, got an array of 0/);
    refused({ primary: { bells: ["square"] } }).toThrow(/options\.primary\.bells\[0\] must be one of "minimumJerk".*, got "square"/);
    refused({ press: { earlyShare: 1.1 } }).toThrow(/options\.press\.earlyShare must be at least 0 and at most 1, got 1\.1/);
    refused({ recorder: { eventsOnly: 1 } }).toThrow(/options\.recorder\.eventsOnly must be true or false, got 1/);
    refused({ recorder: { dropShare: 1 } }).toThrow(/options\.recorder\.dropShare must be at least 0 and at most 0\.99, got 1/);
    refused({ recorder: { edges: 3 } }).toThrow(/options\.recorder\.edges must be a box, got 3/);
    refused({ space: { kind: "room" } }).toThrow(/options\.space\.kind must be one of "plane", "view", got "room"/);
  });

  it("refuses what does not go together", () => {
    refused({ cases: { timeout: 0.6, clutch: 0.6 } }).toThrow(/options\.cases without retry must add up to at most 1, got 1\.2/);
    refused({ cases: { noMovement: 0.1 }, sequence: 3 }).toThrow(/noMovement must be 0 in sequences/);
    refused({ cases: { clutch: 0.1 }, targets: { speed: [1, 2] } }).toThrow(/clutch must be 0 with moving targets/);
    refused({ cases: { retry: 0.1 }, targets: { speed: [1, 2] } }).toThrow(/retry must be 0 with moving targets, got 0\.1/);
    refused({ space: { kind: "view" }, recorder: { edges: { width: 1, height: 1 } } }).toThrow(/edges must be null in a view/);
    refused({ space: { kind: "view", elevation: 70 } }).toThrow(/options\.space\.elevation must be at least -60 and at most 60, got 70/);
    refused({ space: { kind: "view", degreesPerUnit: 0.1 } }).toThrow(/within 80 degrees of elevation, got half a height of 100/);
  });

  it("says when the targets do not fit", () => {
    refused({ targets: { bounds: { width: 200, height: 200 } } }).toThrow(/options\.targets\.amplitude\[0\] must be at most 100/);
    refused({ sequence: 60, targets: { bounds: { width: 400, height: 400 } } }).toThrow(/must leave room for \d+ separate targets/);
  });
});
