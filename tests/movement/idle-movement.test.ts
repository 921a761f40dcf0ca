import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/analyze.js";
import { type IdleMovement, idleMovement } from "../../src/movement/idle-movement.js";
import type { Acquisition } from "../../src/movement/types.js";
import type { Recording, Trace } from "../../src/trace/types.js";
import { circle, press, recordingOf, type Stroke, traceOf, trial } from "./hand-made.js";
import { rowOf } from "./rows.js";
import { deepFreeze, moved, simulatedArb } from "./simulated.js";

/** A row that keeps the person busy from `go` to `end`. */
function busy(go: number, end: number): Acquisition {
  return rowOf(go, { primary: end - go });
}

function recordingFrom(strokes: readonly Stroke[], until: number, more: Partial<Recording> = {}, rateHz = 250): Recording {
  return recordingOf({ trace: traceOf(strokes, { until, rateHz, quantum: 1 }), ...more });
}

function figures({ pathLength, movingTime }: IdleMovement): [number, number] {
  if (!pathLength.ok || !movingTime.ok) throw new Error("no figures");
  return [pathLength.value, movingTime.value];
}

/** To a target at 300 px and, once it is pressed, back to the start by two sides of a 3-4-5 triangle. */
const THERE_AND_BACK: readonly Stroke[] = [
  { onset: 0.45, duration: 0.3, dx: 300 },
  { onset: 1.2, duration: 0.3, dx: -48, dy: 64 },
  { onset: 1.8, duration: 0.4, dx: -252, dy: -64 },
];

describe("idleMovement against outside values", () => {
  const recording = recordingFrom(THERE_AND_BACK, 2.8, {
    presses: [press(0.85)],
    targets: [circle("a", 300, 0, 30, { tShown: 0.2, tGone: 0.85 })],
    trials: [trial(["a"], 0.2, 0.85)],
  });

  // Source: by hand: 80 and 260 px (sides 48-64-80 and 252-64-260) in 0.3 and 0.4 s; the 0.2 s before the target are still. A path rounded to pixels and
  // filtered is known to about a pixel a stroke; a stroke of least jerk covers its first and last two pixels in some 0.02 to 0.04 s, which its time may lose.
  it("gives path and time of what was done between the acquisitions, and nothing of the acquisition", () => {
    const rows = analyze(recording);
    expect(rows.map((row) => row.outcome)).toEqual(["hit"]);
    const idle = idleMovement(recording, rows);
    const [path, time] = figures(idle);
    expect(Math.abs(path - 340)).toBeLessThan(3);
    expect(Math.abs(time - 0.7)).toBeLessThan(0.06);
    expect(idle.stretches.map(({ from, to }) => [from, to])).toEqual([
      [0, 0.2],
      [0.85, 2.8],
    ]);
    expect(idle.stretches[0]).toMatchObject({ pathLength: 0, movingTime: 0, missingTime: 0 });
    expect(idle.idleTime).toBeCloseTo(0.2 + 1.95, 12);
    expect(idle.missingTime).toBe(0);
    expect(idle.movingShare).toMatchObject({ ok: true, value: expect.closeTo(time / 2.15, 12), unit: "1", n: 2, level: 0.95 });
  });

  // Source: closed form: readings that toggle by one quantum on both axes; a square wave's fundamental swings by 4/pi of it. Slow ones ring on each step.
  it.each([1, 4, 7, 9, 12])("makes no path of a pointer whose readings toggle %d times a second", (hz) => {
    const t = Float64Array.from({ length: 2001 }, (_, k) => k / 500);
    const toggle = t.map((s) => Math.floor(2 * hz * s) % 2);
    const idle = idleMovement(recordingOf({ trace: { t, x: toggle, y: toggle.slice() } }), []);
    expect(figures(idle)).toEqual([0, 0]);
    expect(idle.idleTime).toBe(4);
  });

  // Source: by hand: at an elevation of 60 degrees a turn of 20 degrees of azimuth leads 10 degrees over the sphere (cos 60 = 1/2).
  it("shortens steps of azimuth away from the horizon in view space", () => {
    const trace = traceOf([{ onset: 0.3, duration: 0.4, dx: 20 }], { until: 1, rateHz: 250, quantum: 0.05, from: { x: 0, y: 60 } });
    const [path] = figures(idleMovement(recordingOf({ trace, space: { kind: "view", unit: "deg" } }), []));
    expect(Math.abs(path - 10)).toBeLessThan(0.15);
    // up and down along a meridian far from azimuth 0, nothing is shortened
    const up = traceOf([{ onset: 0.3, duration: 0.4, dx: 0, dy: 30 }], { until: 1, rateHz: 250, quantum: 0.05, from: { x: 80, y: 20 } });
    const [rise] = figures(idleMovement(recordingOf({ trace: up, space: { kind: "view", unit: "deg" } }), []));
    expect(Math.abs(rise - 30)).toBeLessThan(0.15);
  });

  // Source: by hand: the return of 340 px is the same at every rate; read at 100 Hz behind one filter it differs by a pixel or so.
  it.each([60, 125, 500, 1000])("tells the same at %d Hz as at 250", (rateHz) => {
    const rows = [busy(0.2, 0.85)];
    const [path, time] = figures(idleMovement(recordingFrom(THERE_AND_BACK, 2.8, {}, rateHz), rows));
    const [path250, time250] = figures(idleMovement(recording, rows));
    expect(Math.abs(path - path250)).toBeLessThan(3);
    expect(Math.abs(time - time250)).toBeLessThan(0.04);
  });
});

describe("idleMovement properties", () => {
  const strokes = [0.5, 1.5, 2.5, 3.5].map((onset, k) => ({ onset, duration: 0.3, dx: k % 2 === 0 ? 100 : -100 }));

  it("takes the union of acquisitions that overlap, in any order", () => {
    const recording = recordingFrom(strokes, 4.5);
    const rows = [busy(2.2, 3), busy(0.2, 1), busy(0.4, 2.2)];
    const idle = idleMovement(recording, rows);
    expect(idle.stretches.map(({ from, to }) => [from, to])).toEqual([
      [0, 0.2],
      [3, 4.5],
    ]);
    expect(Math.abs(figures(idle)[0] - 100)).toBeLessThan(2);
    expect(idleMovement(recording, [...rows].reverse())).toEqual(idle);
  });

  it("takes one acquisition within another for no end of the outer, and clock readings of one instant for no stretch", () => {
    const recording = recordingFrom(strokes, 4.5);
    const spans = (rows: readonly Acquisition[]): number[][] => idleMovement(recording, rows).stretches.map(({ from, to }) => [from, to]);
    expect(spans([busy(0.2, 3), busy(0.4, 1)])).toEqual([
      [0, 0.2],
      [3, 4.5],
    ]);
    expect(spans([busy(0, 2), busy(2 + 4e-7, 4)])).toEqual([[4, 4.5]]);
    expect(spans([busy(0, 2), busy(2.001, 4)]).length).toBe(2);
  });

  it("does not count pursuits, to their end or to the next trial", () => {
    const trials = [
      trial(["p"], 0, 1, { id: "1", kind: "pursue" }),
      trial(["q"], 2.2, undefined, { id: "2", kind: "pursue" }),
      trial(["a"], 3, 3.2, { id: "3" }),
    ];
    const idle = idleMovement(recordingFrom(strokes, 4.5, { trials }), []);
    expect(idle.stretches.map(({ from, to }) => [from, to])).toEqual([
      [1, 2.2],
      [3, 4.5],
    ]);
    const last = idleMovement(recordingFrom(strokes, 4.5, { trials: trials.slice(0, 2) }), []);
    expect(last.stretches.map(({ from, to }) => [from, to])).toEqual([[1, 2.2]]);
  });

  it("tells what is missing, and leaves the jump over it out of the path", () => {
    const whole = traceOf(strokes, { until: 4.5, rateHz: 250, quantum: 1 });
    const kept = [...whole.t.keys()].filter((i) => whole.t[i]! <= 1.6 || whole.t[i]! >= 2);
    const only = (column: Float64Array): Float64Array => Float64Array.from(kept, (i) => column[i]!);
    const trace: Trace = { t: only(whole.t), x: only(whole.x), y: only(whole.y) };
    const idle = idleMovement(recordingOf({ trace }), [busy(2.2, 4.5)]);
    const [{ pathLength, missingTime }] = idle.stretches as [IdleMovement["stretches"][number]];
    // a third of the second stroke was seen: 1/3 of its time is 17/81 of its way
    expect(Math.abs(pathLength - (100 + (100 * 17) / 81))).toBeLessThan(3);
    expect(Math.abs(missingTime - 0.4)).toBeLessThan(0.01);
    expect(idle.missingTime).toBe(missingTime);
  });

  it("knows nothing of the pointer while page or pointer are marked as hidden", () => {
    const marks = [
      { t: 1.4, tEnd: 1.9, kind: "hidden" as const },
      { t: 3.4, kind: "gap" as const },
      { t: 0.6, kind: "lift" as const },
    ];
    const idle = idleMovement(recordingFrom(strokes, 4.5, { marks }), []);
    expect(Math.abs(figures(idle)[0] - 200)).toBeLessThan(3);
    expect(idle.missingTime).toBeCloseTo(0.5 + 1.1, 9);
    expect(idleMovement(recordingFrom(strokes, 4.5, { marks: [{ t: 0, kind: "hidden" }] }), []).pathLength).toMatchObject({
      ok: false,
      why: "missingData",
      n: 0,
    });
  });

  it("takes a stretch marked as hidden that ends before it begins for none", () => {
    const backward = idleMovement(recordingFrom(strokes, 4.5, { marks: [{ t: 3, tEnd: 1, kind: "hidden" }] }), []);
    expect(backward).toEqual(idleMovement(recordingFrom(strokes, 4.5), []));
  });

  it("does not depend on when the recording began", () => {
    const recording = recordingFrom(strokes, 4.5);
    const here = figures(idleMovement(recording, [busy(1.2, 2.2)]));
    const there = figures(idleMovement(moved(recording, { time: (t) => t + 1.7e9 }), [busy(1.7e9 + 1.2, 1.7e9 + 2.2)]));
    // times near 1.7e9 s are 2.4e-7 s apart, and steps about the dead band may change sides
    expect(Math.abs(there[0] - here[0])).toBeLessThan(0.01);
    expect(there[1]).toBeCloseTo(here[1], 3);
  });

  test.prop([simulatedArb], { numRuns: 30 })(
    "tiles the recording with the acquisitions, and moves no longer than it is known",
    ({ recording }) => {
      const rows = analyze(recording);
      const frozen = deepFreeze(structuredClone(rows));
      const before = structuredClone(recording);
      const idle = idleMovement(recording, frozen);
      expect(recording).toEqual(before);
      const first = recording.trace.t[0]!;
      const last = recording.trace.t.at(-1)!;
      const used = rows.reduce((sum, { times }) => sum + Math.max(0, Math.min(times.end, last) - Math.max(times.go, first)), 0);
      expect(idle.idleTime + used).toBeCloseTo(last - first, 4);
      for (const { from, to, pathLength, movingTime, missingTime } of idle.stretches) {
        expect(rows.every(({ times }) => times.end <= from + 1e-9 || times.go >= to - 1e-9)).toBe(true);
        expect(pathLength).toBeGreaterThanOrEqual(0);
        expect(missingTime).toBeGreaterThanOrEqual(0);
        expect(movingTime).toBeLessThanOrEqual(to - from - missingTime + 1e-9);
      }
      expect(JSON.parse(JSON.stringify(idle))).toEqual(idle);
      expect(structuredClone(idle)).toEqual(idle);
    },
  );

  test.prop([fc.constantFrom(0, 1, 2, 3), fc.constantFrom(2, 8)])("turns with the pointer and grows with it", (quarters, factor) => {
    const recording = recordingFrom(THERE_AND_BACK, 2.8);
    const turns = [
      (x: number, y: number) => [x, y],
      (x: number, y: number) => [-y + 0, x],
      (x: number, y: number) => [-x + 0, -y + 0],
      (x: number, y: number) => [y, -x + 0],
    ] as const;
    const there = moved(recording, { point: (x, y) => turns[quarters]!(x, y).map((v) => factor * v) as [number, number], size: factor });
    const [path, time] = figures(idleMovement(recording, []));
    const [grown, sameTime] = figures(idleMovement(there, []));
    expect(grown / factor).toBeCloseTo(path, 6);
    expect(sameTime).toBeCloseTo(time, 9);
  });
});

describe("idleMovement bad input", () => {
  const still = { t: Float64Array.of(0, 0.5, 1), x: Float64Array.of(5, 5, 5), y: Float64Array.of(5, 5, 5) };

  it("says so when too little moves, or the sampling is too slow for the filter", () => {
    expect(idleMovement(recordingOf({ trace: still }), []).pathLength).toMatchObject({ ok: false, why: "tooFew" });
    const empty = idleMovement(recordingOf({}), []);
    expect(empty).toMatchObject({ idleTime: 0, missingTime: 0, stretches: [], movingShare: { ok: false, why: "tooFew", n: 0 } });
    const slow = idleMovement(recordingFrom(THERE_AND_BACK, 2.8, {}, 30), []);
    expect(slow.movingShare).toMatchObject({ ok: false, why: "belowResolution", n: 0 });
    expect(slow.missingTime).toBe(2.8);
  });
  it("has no idle path, and no share, where the acquisitions leave nothing", () => {
    const none = idleMovement(recordingFrom(THERE_AND_BACK, 2.8), [busy(0, 3)]);
    expect(none).toMatchObject({
      idleTime: 0,
      stretches: [],
      pathLength: { ok: true, value: 0, n: 0 },
      movingShare: { ok: false, why: "tooFew" },
    });
  });
  it("asks for a recording and for rows", () => {
    expect(() => idleMovement(null as never, [])).toThrow(TypeError);
    expect(() => idleMovement(recordingOf({ trace: still }), undefined as never)).toThrow(/^idleMovement: rows must be/);
  });
  it("names what is wrong with the trace or an option", () => {
    const backward = { ...still, t: Float64Array.of(0, 1, 0.5) };
    expect(() => idleMovement(recordingOf({ trace: backward }), [])).toThrow("idleMovement: trace.t must not run backward");
    expect(() => idleMovement(recordingOf({ trace: still }), [], { level: 1 })).toThrow(
      "idleMovement: options.level must be above 0 and below 1, got 1",
    );
    expect(() => idleMovement(recordingOf({ trace: still }), [], { cutoffHz: 0 })).toThrow(
      "idleMovement: options.cutoffHz must be finite and above 0, got 0",
    );
    expect(() => idleMovement(recordingOf({ trace: still }), [], { quantum: -1 })).toThrow("idleMovement: options.quantum must be");
  });
});
