import { describe, expect, it } from "vitest";
import { logDimensionlessJerk } from "../../src/movement/log-dimensionless-jerk.js";
import { pathLength } from "../../src/movement/path/path-length.js";
import { spectralArcLength } from "../../src/movement/spectral-arc-length.js";
import { kinematics } from "../../src/trace/kinematics.js";
import type { Recording, Trace, Trial } from "../../src/trace/types.js";
import { officePresses } from "../real-parts/office-presses.js";
import { polled, pureReaches, stepRepetition } from "../real-parts/polled.js";
import { reachRows } from "../real-parts/reach-rows.js";
import { rankCorrelation, type Spread, spreadOf } from "../real-parts/spread.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";
import { choiceReachPeople, convertChoiceReach } from "./convert-choice-reach.js";

const reach = sharedPath("data", "choice-reach", "facts.json");
const office = sharedPath("data", "office-remote", "facts.json");
const why = (path: string | undefined): string => (path === undefined ? `: ${SHARED_ABSENT}` : "");

/** 10, 25, 50, 75 and 90 % as NumPy prints them, to six decimals. */
function expectQuantiles(spread: Spread, expected: readonly number[]): void {
  const got = [spread.q10, spread.q25, spread.q50, spread.q75, spread.q90];
  for (const [i, value] of got.entries()) expect(Math.abs(value - expected[i]!)).toBeLessThanOrEqual(1e-6);
}

/** A trial alone, its clock from its first sample. */
function traceOf({ trace }: Recording, { tStart, tEnd }: Trial): Trace {
  const start = trace.t.findIndex((t) => t >= tStart);
  const after = trace.t.findIndex((t) => t > tEnd!);
  const cut = (column: Float64Array): Float64Array => column.slice(start, after < 0 ? undefined : after);
  return { t: cut(trace.t).map((t) => Math.round((t - tStart) * 1000) / 1000), x: cut(trace.x), y: cut(trace.y) };
}

/** Smoothness, peak speed and filtered path of a trial from the first sample that differs from the first; nothing where a sample is missing for over 30 ms. */
function smoothnessOf(trace: Trace): { arc: number; jerk: number; peak: number; path: number } | undefined {
  if (trace.t.some((t, i) => i > 0 && t - trace.t[i - 1]! > 0.0305)) return undefined;
  const { segments } = kinematics(trace, { sampleRateHz: 100, nominalRateHz: 100, quantum: 1 });
  expect(segments.length).toBe(1);
  const { x, y, vx, vy, speed } = segments[0]!;
  // the first point of the grid after the last sample that still is where the trial began
  const changed = trace.x.findIndex((value, i) => value !== trace.x[0] || trace.y[i] !== trace.y[0]);
  const from = Math.floor(trace.t[changed - 1]! * 100 + 1e-6) + 1;
  const arc = spectralArcLength(speed.slice(from), { sampleRateHz: 100 });
  const jerk = logDimensionlessJerk({ x: vx.slice(from), y: vy.slice(from) }, { sampleRateHz: 100 });
  if (!arc.ok || !jerk.ok) throw new Error("a trial without smoothness");
  return { arc: arc.value, jerk: jerk.value, peak: Math.max(...speed.slice(from)), path: pathLength(x, y, 0, x.length) };
}

describe.skipIf(reach === undefined)(`measures of the choice-reach recordings${why(reach)}`, () => {
  const rows = reachRows();
  const recordings = choiceReachPeople().map(convertChoiceReach);

  // Source: quantiles by NumPy 1.24.2 of data/choice-reach/facts.json, in seconds, without unit and in pixels
  it("spread as the reference has it where both measure the same", () => {
    expect(rows.length).toBe(304);
    expectQuantiles(spreadOf(rows.map(({ row }) => row.times.end - row.times.go)), [1.1033, 1.296, 1.624, 2.092, 3.1339]);
    expectQuantiles(spreadOf(rows.map(({ raw }) => raw.efficiency)), [0.45229, 0.694535, 0.927679, 0.97171, 0.986251]);
    expectQuantiles(spreadOf(rows.map(({ raw }) => raw.largestDeviation)), [35.945099, 63.483339, 104.399092, 312.13584, 849.303302]);
  });

  // Source: data/choice-reach/facts.json, trial by trial
  it("have the reference's path and order of efficiency from the filtered path", () => {
    for (const { raw, facts } of rows) {
      expect(raw.pathLength).toBeCloseTo(facts.pathLength_px, 5);
      expect(raw.largestDeviation).toBeCloseTo(Math.abs(facts.acrossExtreme_px), 5);
    }
    const filtered = rows.map(({ row }) => row.economy!.efficiency!);
    expect(
      rankCorrelation(
        filtered,
        rows.map(({ facts }) => facts.efficiency),
      ),
    ).toBeGreaterThan(0.95);
  });

  // Source: SciPy 1.10.1 (butter, filtfilt) and NumPy 1.24.2 (gradient, fft, quantile) on the same samples, every step written there anew
  it("are as smooth and as fast as SciPy finds the same samples", () => {
    const found = recordings.flatMap((recording) => recording.trials.flatMap((trial) => smoothnessOf(traceOf(recording, trial)) ?? []));
    expect(found.length).toBe(293);
    expectQuantiles(spreadOf(found.map(({ arc }) => arc)), [-3.638522, -2.394961, -1.778599, -1.575162, -1.486495]);
    expectQuantiles(spreadOf(found.map(({ jerk }) => jerk)), [-15.463973, -14.153555, -12.816004, -11.453932, -10.780963]);
    expectQuantiles(spreadOf(found.map(({ peak }) => peak)), [4093.217234, 5246.506992, 6587.829652, 7539.031687, 9993.206208]);
    expectQuantiles(spreadOf(found.map(({ path }) => path)), [1014.537628, 1067.640914, 1150.789499, 1508.385323, 2189.694461]);
    expect(found[0]!.arc).toBeCloseTo(-1.5638598943, 9);
    expect(found[0]!.jerk).toBeCloseTo(-15.4536542871, 8);
  });

  // Source: arithmetic of 8 ms reports read every 10 ms (five reports in four readings: every fourth step is double)
  it("have the uneven steps of a mouse of 125 Hz that was asked at 100 Hz", () => {
    expect(stepRepetition(recordings, 4)).toBeGreaterThan(0.75);
    for (const lag of [1, 2, 3]) expect(stepRepetition(recordings, lag)).toBeLessThan(-0.15);
  });
});

describe("simulated reaches that are polled", () => {
  // Source: the same arithmetic; without polling no step repeats
  it("repeat every fourth step when a mouse of 125 Hz is asked at 100 Hz, and not otherwise", () => {
    const plain = pureReaches(40, 3);
    expect(stepRepetition([polled(plain)], 4)).toBeGreaterThan(0.75);
    // a mouse of 100 Hz gives one report to each answer
    const even = { ...plain, trace: { ...plain.trace, t: plain.trace.t.map((t) => t * 1.25) } };
    expect(stepRepetition([polled(even)], 4)).toBeLessThan(0.1);
  });
});

describe.skipIf(office === undefined)(`presses of the office-remote recordings${why(office)}`, () => {
  const presses = officePresses();
  const clicks = presses.filter(({ click }) => click);

  // Source: NumPy 1.24.2 on the same rows: 3617 presses, 3361 clicks (left, at most 0.4 s and 10 px)
  it("last and slip as NumPy finds them", () => {
    expect(presses.length).toBe(3617);
    expect(clicks.length).toBe(3361);
    expectQuantiles(spreadOf(clicks.map(({ duration }) => duration)), [0.078, 0.093, 0.109, 0.14, 0.172]);
    const slips = clicks.map(({ slip }) => slip);
    expect(slips.filter((slip) => slip > 0).length).toBe(348);
    expect(slips.filter((slip) => slip > 4).length).toBe(21);
    const moved = slips.filter((slip) => slip > 0);
    expect(moved.reduce((sum, slip) => sum + slip, 0) / moved.length).toBeCloseTo(1.6506773616, 9);
  });
});

describe("spreadOf and rankCorrelation", () => {
  // Source: scipy.stats.spearmanr and numpy.quantile (SciPy 1.10.1, NumPy 1.24.2)
  it("give the figures of NumPy and SciPy", () => {
    expectQuantiles(spreadOf([3, 1, 4, 1, 5, 9, 2, 6]), [1, 1.75, 3.5, 5.25, 6.9]);
    expect(rankCorrelation([3, 1, 4, 1, 5, 9, 2, 6], [2, 7, 1, 8, 2, 8, 1, 8])).toBeCloseTo(0.1988536812, 9);
  });

  it("refuse a value that is not finite", () => {
    expect(() => spreadOf([1, Number.NaN])).toThrow(RangeError);
  });
});
