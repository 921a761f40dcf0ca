// What a row says of corrections, stop and press, on movements made by hand whose figures follow from closed forms.
import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/analyze.js";
import type { Acquisition } from "../../src/movement/types.js";
import type { Recording } from "../../src/trace/types.js";
import { circle, press, recordingOf, type Stroke, traceOf, trial } from "./hand-made.js";

interface Hand {
  readonly strokes: readonly Stroke[];
  readonly pressAt: number;
  readonly width?: number;
  readonly tUp?: number;
  readonly until?: number;
}

function recordingFrom({ strokes, pressAt, width = 30, tUp, until = 2.5 }: Hand): Recording {
  return recordingOf({
    trace: traceOf(strokes, { until }),
    presses: [press(pressAt, tUp === undefined ? {} : { tUp })],
    targets: [circle("a", 300, 0, width, { tShown: 0.2 })],
    trials: [trial(["a"], 0.2, 2.3)],
  });
}

function rowFrom(hand: Hand): Acquisition {
  const [row] = analyze(recordingFrom(hand), { cutoffHz: 60 });
  return row!;
}

const WHOLE = { onset: 0.45, duration: 0.3, dx: 300 };

describe("stop against outside values", () => {
  const { stop } = rowFrom({ strokes: [WHOLE], pressAt: 0.85 });

  // Source: closed form of the minimum-jerk movement: symmetrical bell, largest deceleration 5.7735 A/T^2 at 0.7887 T, with 0.0670 A still to go.
  // Tolerance: the ends are estimated to some milliseconds, and the filter at 60 Hz rounds the profile.
  it("reads a minimum-jerk movement: half of its time brakes, its bell has no skew", () => {
    expect(Math.abs(stop!.decelerationShare - 0.5)).toBeLessThan(0.01);
    expect(Math.abs(stop!.primaryDecelerationShare - 0.5)).toBeLessThan(0.01);
    expect(Math.abs(stop!.speedSkew!)).toBeLessThan(0.02);
    expect(stop!.peakDeceleration! / ((5.7735 * 300) / 0.3 ** 2)).toBeCloseTo(1, 2);
    expect(Math.abs(stop!.stoppingTime! - (1 - 0.7887) * 0.3)).toBeLessThan(0.006);
    expect(stop!.stoppingDistance! / (0.067 * 300)).toBeCloseTo(1, 1);
    expect(stop!.overshoot!).toBeLessThan(0.2);
    expect(stop!.settlingTime).toBe(0);
    expect(stop!.damping).toBeUndefined();
  });

  // Source: composed stop "overshoot and return" (root finding by SciPy 1.10.1 on the closed form): band 10 settled 0.168173996752 after the primary's end,
  // largest excursion beyond the final position 30. The band here is W/4 = 10 with W = 40.
  it("settles when the return from an overshoot is within a quarter of the width", () => {
    const strokes = [
      { onset: 0.3, duration: 0.25, dx: 330 },
      { onset: 0.6, duration: 0.2, dx: -30 },
    ];
    const row = rowFrom({ strokes, pressAt: 1, width: 40 });
    expect(row.stop!.overshoot!).toBeCloseTo(30, 0);
    expect(row.times.primaryEnd! + row.stop!.settlingTime).toBeCloseTo(0.55 + 0.168173996752, 2);
    expect(row.stop!.damping).toBeUndefined();
  });

  // Source: closed form, swings of 40, -20, 10 about the end point: decrement ln 2 a half period, damping ln 2 / sqrt(pi^2 + ln^2 2) = 0.2154.
  it("tells the damping of a stop that swings", () => {
    const swings = [340, -60, 30, -10].map((dx, k) => ({ onset: 0.3 + 0.24 * k, duration: 0.22, dx }));
    const row = rowFrom({ strokes: swings, pressAt: 1.6, width: 60 });
    expect(row.stop!.damping!).toBeCloseTo(0.2154, 2);
  });
});

describe("corrections against outside values", () => {
  // Source: by hand: 40 px to go, 28 of them removed after 0.12 s at rest; error, gain and pause are what was drawn.
  it("gives error, gain, latency and pause of an under-correction", () => {
    const strokes = [
      { onset: 0.3, duration: 0.25, dx: 260 },
      { onset: 0.67, duration: 0.15, dx: 28 },
    ];
    const row = rowFrom({ strokes, pressAt: 1 });
    const [correction] = row.corrections;
    expect(row.corrections.length).toBe(1);
    expect(correction!.errorBefore.along!).toBeCloseTo(-40, 0);
    expect(correction!.gain!).toBeCloseTo(0.7, 2);
    expect(correction!.amplitude).toBeCloseTo(28, 0);
    expect(Math.abs(correction!.latency - 0.12)).toBeLessThan(0.01);
    expect(correction!.pause).toBeCloseTo(correction!.latency, 9);
    // from the peak at half of the first stroke: 0.425 s
    expect(Math.abs(correction!.fromPeak - 0.245)).toBeLessThan(0.01);
    expect(correction!.reversal).toBe(false);
    expect(correction!.unnecessary).toBe(false);
    expect(correction!.counterProductive).toBe(false);
    expect(Math.abs(correction!.directionErrorDeg!)).toBeLessThan(0.1);
    expect(row.correctionPhase!.efficiency!).toBeGreaterThan(0.99);
    expect(row.correctionPhase!.netEfficiency!).toBeCloseTo(0.7, 2);
    expect(row.correctionPhase!.missing).toBe(false);
  });

  // Source: by hand: a 3-4-5 triangle. From (260, 0) the centre lies straight on; a stroke of (40, -30) leads 36.87 degrees to its left on a y-down screen.
  it("measures the angle of a correction to the left as positive", () => {
    const strokes = [
      { onset: 0.3, duration: 0.25, dx: 260 },
      { onset: 0.67, duration: 0.15, dx: 40, dy: -30 },
    ];
    const [correction] = rowFrom({ strokes, pressAt: 1 }).corrections;
    expect(correction!.directionErrorDeg!).toBeCloseTo((Math.atan2(3, 4) * 180) / Math.PI, 0);
    expect(correction!.gain!).toBeCloseTo(1, 1);
  });

  // Source: by hand: it stops 4 px short of the centre of a target 30 wide and then moves 40 px away from it.
  it("calls a correction that began on the target unnecessary, and one that leaves a larger error counter-productive", () => {
    const strokes = [
      { onset: 0.3, duration: 0.25, dx: 296 },
      { onset: 0.67, duration: 0.15, dx: -40 },
    ];
    const [correction] = rowFrom({ strokes, pressAt: 1 }).corrections;
    expect(correction!.unnecessary).toBe(true);
    expect(correction!.counterProductive).toBe(true);
    expect(correction!.reversal).toBe(true);
    expect(correction!.gain!).toBeCloseTo(-10, 0);
  });

  it("misses a correction when the primary ended off the target, nothing followed and the press missed", () => {
    expect(rowFrom({ strokes: [{ ...WHOLE, dx: 250 }], pressAt: 1 }).correctionPhase!.missing).toBe(true);
    expect(rowFrom({ strokes: [WHOLE], pressAt: 1 }).correctionPhase!.missing).toBe(false);
  });
});

describe("pressing against outside values", () => {
  // Source: by hand: pressed 0.1 s after the stop for 0.08 s, and moved 3 px right and 4 px down meanwhile.
  it("gives time after the stop, duration and slip", () => {
    const strokes = [WHOLE, { onset: 0.86, duration: 0.06, dx: 3, dy: 4 }];
    const { pressing } = rowFrom({ strokes, pressAt: 0.85 });
    expect(Math.abs(pressing!.afterStop! - 0.1)).toBeLessThan(0.006);
    expect(pressing!.duration).toBeCloseTo(0.08, 9);
    expect(pressing!.slip!.length).toBeCloseTo(5, 1);
    expect(pressing!.slip!.along!).toBeCloseTo(3, 1);
    // down is to the right of travel to the right
    expect(pressing!.slip!.across!).toBeCloseTo(-4, 1);
    expect(pressing!.disturbance!).toBeCloseTo(5, 1);
    expect(pressing!.releasedInside).toBe(true);
    expect(pressing!.departure).toBeUndefined();
    expect(pressing!.speed!).toBeLessThan(1);
  });

  // Source: by hand: the pointer leaves 0.04 s after the press, while the button is still down.
  it("does not take the departure for the next target for slip", () => {
    const strokes = [WHOLE, { onset: 0.89, duration: 0.3, dx: 0, dy: 300 }];
    const { pressing } = rowFrom({ strokes, pressAt: 0.85, tUp: 0.97 });
    expect(Math.abs(pressing!.departure! - 0.04)).toBeLessThan(0.01);
    expect(pressing!.slip!.length).toBeLessThan(0.5);
    expect(pressing!.duration).toBeCloseTo(0.12, 9);
  });

  // Source: by hand: the press 30 ms before the end of the stroke; closed-form speed of a minimum-jerk movement 20 ms before that, about 300 px/s.
  it("is negative after a press in motion, which has no slip", () => {
    const { pressing, pressedInMotion } = rowFrom({ strokes: [WHOLE], pressAt: 0.69 });
    expect(pressedInMotion).toBe(true);
    expect(Math.abs(pressing!.afterStop! + 0.06)).toBeLessThan(0.01);
    expect(pressing!.slip).toBeUndefined();
    expect(pressing!.disturbance).toBeUndefined();
    expect(pressing!.speed!).toBeGreaterThan(300);
  });

  // Source: by hand: nobody knows what the pointer did once positions ended to be recorded.
  it("tells no disturbance where a mark says that positions end with the press", () => {
    const recording = recordingFrom({ strokes: [WHOLE], pressAt: 0.85 });
    const [row] = analyze({ ...recording, marks: [{ t: 0.86, tEnd: 2, kind: "gap" }] });
    expect(row!.pressing!.disturbance).toBeUndefined();
    expect(row!.pressing!.speed).toBeUndefined();
    expect(row!.pressing!.afterStop).toBeDefined();
  });

  it("says that a press on the target was released off it", () => {
    const strokes = [
      { ...WHOLE, dx: 287 },
      { onset: 0.86, duration: 0.06, dx: -6 },
    ];
    const { pressing } = rowFrom({ strokes, pressAt: 0.85 });
    expect(pressing!.releasedInside).toBe(false);
  });

  it("has no duration without a release, and no stop without a movement", () => {
    const recording = recordingFrom({ strokes: [WHOLE], pressAt: 0.85 });
    const [held] = analyze({ ...recording, presses: recording.presses.map(({ tUp: _, ...rest }) => rest) });
    expect(held!.pressing!.duration).toBeUndefined();
    expect(held!.pressing!.slip).toBeUndefined();
    const [still] = analyze({ ...recording, targets: [circle("a", 0, 0, 30, { tShown: 0.2 })], presses: [press(0.3)] });
    expect(still!.stop).toBeUndefined();
    expect(still!.economy).toBeUndefined();
    expect(still!.pressing!.duration).toBeCloseTo(0.08, 9);
  });
});
