// One test for every special case of an acquisition. All recordings are made by hand, so that what is right is known without any library.
// Source of every check here: worked by hand from minimum-jerk strokes of stated onset, duration and length. Tolerance of an instant:
// 10 ms, the error of estimated onsets and ends on exact bells; of a part between two of them 20 ms.
import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/analyze.js";
import { summarize } from "../../src/movement/summarize.js";
import type { Acquisition, Budget } from "../../src/movement/types.js";
import type { Mark, Recording, Shape } from "../../src/trace/types.js";
import { circle, press, REACH, recordingOf, share, traceOf, trial } from "./hand-made.js";

const still = traceOf([]);
const reach = { onset: 0.45, duration: 0.3, dx: 300 };
const none: Budget = { latency: 0, primary: 0, correction: 0, clutch: 0, verification: 0, recovery: 0 };
const sumOf = (budget: Budget): number => Object.values(budget).reduce((sum, part) => sum + part, 0);

/** The only row of a recording, its parts adding up. */
function onlyRow(recording: Recording, options: Parameters<typeof analyze>[1] = {}): Acquisition {
  const rows = analyze(recording, options);
  expect(rows.length).toBe(1);
  expect(sumOf(rows[0].budget)).toBeCloseTo(rows[0].times.end - rows[0].times.go, 12);
  return rows[0];
}

function expectParts(budget: Budget, expected: Partial<Budget>): void {
  for (const [part, value] of Object.entries({ ...none, ...expected })) {
    expect(Math.abs(budget[part as keyof Budget] - value), `${part} ${budget[part as keyof Budget]}`).toBeLessThan(0.02);
  }
}

describe("a row whose pointer need not move", () => {
  const target = circle("a", 4, 0, 30, { tShown: 0.2 });

  it("is all verification, and says that nothing moved and that there is no axis", () => {
    const row = onlyRow({ ...REACH, trace: still, presses: [press(0.6)], targets: [target] });
    expect(row.outcome).toBe("hit");
    expect(row.budget).toEqual({ ...none, verification: expect.closeTo(0.4, 12) });
    expect(row.times).toEqual({ go: 0.2, press: 0.6, up: expect.closeTo(0.68, 12), end: 0.6 });
    expect(row.flags).toEqual(["noMovement", "noAxis"]);
    expect(row.errors).toEqual({ press: { radial: 4, inside: true } });
    expect(row.submovements).toEqual([]);
    expect(row.pressedInMotion).toBe(false);
  });

  it("is so too when tremor toggles the readings by a pixel or two", () => {
    const t = Float64Array.from({ length: 2001 }, (_, k) => k / 1000);
    const tremor = (phase: number): Float64Array => t.map((time) => Math.round(0.7 * Math.sin(2 * Math.PI * 9 * time + phase)));
    const row = onlyRow({ ...REACH, trace: { t, x: tremor(0), y: tremor(1) }, presses: [press(0.6)], targets: [target] });
    expect(row.budget).toEqual({ ...none, verification: expect.closeTo(0.4, 12) });
    expect(row.flags).toContain("noMovement");
  });

  it("is all latency when nobody pressed either: the response never came", () => {
    const row = onlyRow({ ...REACH, trace: still, presses: [] });
    expect(row.outcome).toBe("abandoned");
    expect(row.budget).toEqual({ ...none, latency: expect.closeTo(1.3, 12) });
    expect(row.flags).toEqual(["noMovement"]);
  });
});

describe("a row with misses", () => {
  const short = traceOf([reach, { onset: 1.0, duration: 0.15, dx: 40 }]);
  const recording = { ...REACH, trace: short, targets: [circle("a", 340, 0, 30, { tShown: 0.2, tGone: 1.3 })] };

  it("is recovered by a second press: from the first press on all is recovery", () => {
    const row = onlyRow({ ...recording, presses: [press(0.85), press(1.25)] });
    expect(row.outcome).toBe("recovered");
    expect(row.times).toMatchObject({ press: 0.85, end: 1.25, up: 1.33 });
    expectParts(row.budget, { latency: 0.25, primary: 0.3, verification: 0.1, recovery: 0.4 });
    expect(row.budget.recovery).toBeCloseTo(0.4, 12);
    // errors are those of the first press
    expect(row.errors.press).toMatchObject({ along: expect.closeTo(-40, 6), inside: false });
  });

  it("is a miss, ending at its press, when no other follows", () => {
    const row = onlyRow({ ...recording, presses: [press(0.85)] });
    expect(row).toMatchObject({ outcome: "miss", times: { press: 0.85, end: 0.85 } });
    expectParts(row.budget, { latency: 0.25, primary: 0.3, verification: 0.1 });
  });

  it("is a miss up to the last of several presses that all missed", () => {
    const row = onlyRow({ ...recording, presses: [press(0.85), press(1.0)] });
    expect(row).toMatchObject({ outcome: "miss", times: { press: 0.85, end: 1 } });
    expect(row.budget.recovery).toBeCloseTo(0.15, 12);
  });
});

describe("a row without a press", () => {
  it("is a timeout when the target went away: its time counts, and the pointer waited at the end", () => {
    const row = onlyRow({ ...REACH, presses: [], targets: [circle("a", 300, 0, 30, { tShown: 0.2, tGone: 1.2 })] });
    expect(row).toMatchObject({ outcome: "timeout", times: { go: 0.2, end: 1.2 } });
    expectParts(row.budget, { latency: 0.25, primary: 0.3, verification: 0.45 });
    expect(row.errors.press).toBeUndefined();
    const { time } = summarize([row]);
    expect(time.parts.verification.total).toBe(row.budget.verification);
    expect(time.wall).toBe(1);
  });

  it("is abandoned when the trial ended with the target still there", () => {
    expect(onlyRow({ ...REACH, presses: [] })).toMatchObject({ outcome: "abandoned", times: { end: 1.5 } });
  });

  it("is abandoned at the latest event when the recording broke off", () => {
    expect(onlyRow({ ...REACH, presses: [], trials: [trial(["a"], 0.2, undefined)] })).toMatchObject({
      outcome: "abandoned",
      times: { end: 2 },
    });
  });

  it("ends, for want of an end of its trial, where the next trial begins", () => {
    const trials = [trial(["a"], 0.2, undefined), trial(["b"], 1.1, 1.8, { id: "next" })];
    const rows = analyze({ ...REACH, presses: [], trials, targets: [...REACH.targets, circle("b", 0, 0, 20, { tShown: 1.1 })] });
    expect(rows.map(({ times, outcome }) => [times.go, times.end, outcome])).toEqual([
      [0.2, 1.1, "abandoned"],
      [1.1, 1.8, "abandoned"],
    ]);
  });
});

describe("a row with a lifted device", () => {
  const strokes = [
    { onset: 0.45, duration: 0.25, dx: 140 },
    { onset: 0.9, duration: 0.25, dx: 160 },
  ];
  const recording = { ...REACH, trace: traceOf(strokes), presses: [press(1.25)] };

  it("takes a long stop on the way as a clutch, not as a correction", () => {
    const row = onlyRow(recording);
    expectParts(row.budget, { latency: 0.25, primary: 0.5, clutch: 0.2, verification: 0.1 });
    expect(row.flags).toEqual(["clutch"]);
  });

  it("takes a marked lift as a clutch also where the stop is short", () => {
    const quick = [strokes[0], { onset: 0.75, duration: 0.25, dx: 160 }];
    const marks: Mark[] = [{ t: 0.7, tEnd: 0.75, kind: "lift" }];
    const unmarked = onlyRow({ ...recording, trace: traceOf(quick), presses: [press(1.1)] });
    const row = onlyRow({ ...recording, trace: traceOf(quick), presses: [press(1.1)], marks });
    expect(unmarked.budget.clutch).toBe(0);
    expectParts(row.budget, { latency: 0.25, primary: 0.5, clutch: 0.05, verification: 0.1 });
    expect(row.flags).toEqual(["clutch"]);
  });

  it("takes a stop near the target as a correction", () => {
    const corrected = [
      { onset: 0.45, duration: 0.25, dx: 260 },
      { onset: 0.9, duration: 0.25, dx: 40 },
    ];
    const row = onlyRow({ ...recording, trace: traceOf(corrected) });
    expectParts(row.budget, { latency: 0.25, primary: 0.25, correction: 0.45, verification: 0.1 });
    expect(row.corrections.length).toBe(1);
    expect(row.corrections[0].errorBefore.along).toBeCloseTo(-40, 0);
    expect(row.corrections[0].errorAfter.along).toBeCloseTo(0, 0);
  });
});

describe("a movement under way at go", () => {
  it("is kept with its negative latency", () => {
    const row = onlyRow({ ...REACH, trace: traceOf([{ onset: 0.14, duration: 0.3, dx: 300 }]), presses: [press(0.54)] });
    expectParts(row.budget, { latency: -0.06, primary: 0.3, verification: 0.1 });
    expect(row.flags).toEqual(["beforeGo"]);
  });

  it("is kept also when it was past its peak by then", () => {
    const row = onlyRow({ ...REACH, trace: traceOf([{ onset: 0.02, duration: 0.3, dx: 300 }]), presses: [press(0.42)] });
    expectParts(row.budget, { latency: -0.18, primary: 0.3, verification: 0.1 });
    expect(row.flags).toEqual(["beforeGo"]);
  });

  it("is no part of the row when it only brakes at the starting place", () => {
    const back = [{ onset: -0.05, duration: 0.3, dx: -200 }, reach];
    const row = onlyRow({ ...REACH, trace: traceOf(back, { from: { x: 200, y: 0 } }) });
    expectParts(row.budget, { latency: 0.25, primary: 0.3, verification: 0.1 });
    expect(row.flags).toEqual([]);
  });
});

describe("a press while moving", () => {
  it("leaves nothing to verify: the correction ends at the press, the stop comes after it", () => {
    const trace = traceOf([reach, { onset: 0.8, duration: 0.2, dx: 40 }]);
    const row = onlyRow({ ...REACH, trace, targets: [circle("a", 340, 0, 60, { tShown: 0.2 })], presses: [press(0.93)] });
    expect(row.pressedInMotion).toBe(true);
    expectParts(row.budget, { latency: 0.25, primary: 0.3, correction: 0.18 });
    expect(row.budget.verification).toBe(0);
    expect(row.times.stop).toBeGreaterThan(row.times.press!);
    expect(Math.abs(row.times.stop! - 1)).toBeLessThan(0.02);
  });
});

describe("a moving target", () => {
  // the target runs to the right at 400 px/s from (300, 0); the hand gets up to its speed during the stroke and then goes with it
  const speed = 400;
  const followed = (time: number): number => {
    const s = Math.min(Math.max((time - 0.45) / 0.3, 0), 1);
    // integral of the minimum-jerk share, times the stroke's duration and the target's speed; after it, steady
    return 0.3 * speed * s ** 4 * (2.5 - s * (3 - s)) + speed * Math.max(0, time - 0.75);
  };
  const where = (time: number): number => 300 + speed * (time - 0.2);
  const length = where(0.75) - followed(0.75);
  const t = Float64Array.from({ length: 1001 }, (_, k) => k / 1000);
  const trace = { t, x: t.map((time) => length * share((time - 0.45) / 0.3) + followed(time)), y: new Float64Array(t.length) };
  const at = { t: Float64Array.of(0.2, 1.2), x: Float64Array.of(where(0.2), where(1.2)), y: new Float64Array(2) };
  const recording = { ...REACH, trace, targets: [{ ...circle("a", 0, 0, 30, { tShown: 0.2 }), at }] };

  it("is left from rest on the screen and stopped at when the pointer goes with it", () => {
    const row = onlyRow(recording);
    expect(row.flags).toEqual(["movingTarget"]);
    expect(row.outcome).toBe("hit");
    expect(Math.abs(row.times.onset! - 0.45)).toBeLessThan(0.01);
    // on the screen the pointer never stops; relative to the target it does so at 0.75 s
    expect(Math.abs(row.times.primaryEnd! - 0.75)).toBeLessThan(0.02);
    expect(Math.abs(row.times.stop! - 0.75)).toBeLessThan(0.02);
    expect(row.pressedInMotion).toBe(false);
    expectParts(row.budget, { latency: 0.25, primary: 0.3, verification: 0.1 });
    expect(Math.abs(row.amplitude! - where(row.times.onset!))).toBeLessThan(1);
    expect(Math.abs(row.errors.stop!.radial)).toBeLessThan(0.5);
  });

  it("is hit where it is at the press", () => {
    const before = onlyRow({ ...recording, presses: [press(0.85, { x: where(0.85) - 30, y: 0 })] });
    expect(before.outcome).toBe("miss");
    expect(before.errors.press!.along).toBeCloseTo(-30, 6);
  });

  it("is as large as its track says at the press", () => {
    const growing = { ...at, scale: Float64Array.of(1, 3) };
    const targets = [{ ...recording.targets[0], at: growing }];
    // 20 px off: outside of the radius of 15, inside of 15 (1 + 2 * 0.65)
    const row = onlyRow({ ...recording, targets, presses: [press(0.85, { x: where(0.85) + 20, y: 0 })] });
    expect(row.outcome).toBe("hit");
  });
});

describe("the press itself", () => {
  it("lasts and slips after the sum: neither changes the budget", () => {
    const slipping = traceOf([reach, { onset: 0.85, duration: 0.1, dx: 6, dy: 3 }], { quantum: 0.25 });
    const usual = onlyRow(REACH);
    const longer = onlyRow({ ...REACH, presses: [press(0.85, { tUp: 1.02 })] });
    const slipped = onlyRow({ ...REACH, trace: slipping });
    expect(longer.budget).toEqual(usual.budget);
    expect(longer.times).toEqual({ ...usual.times, up: 1.02 });
    expectParts(slipped.budget, { ...usual.budget });
    expect(slipped.errors.press!.radial).toBeLessThan(0.25);
  });

  it("is flagged when it was not released within 0.2 s, whether later or never", () => {
    const held = onlyRow({ ...REACH, presses: [press(0.85, { tUp: 1.2 })] });
    const { tUp: _, ...open } = press(0.85);
    for (const row of [held, onlyRow({ ...REACH, presses: [open] })]) {
      expect(row.flags).toEqual(["longPress"]);
      expect(row.times.up).toBeUndefined();
    }
  });

  it("on the instant of go belongs to what came before", () => {
    expect(onlyRow({ ...REACH, presses: [press(0.2), press(0.85)] }).outcome).toBe("hit");
  });
});

describe("double presses", () => {
  it("are ignored after a hit", () => {
    expect(analyze({ ...REACH, presses: [press(0.85), press(1.0)] })).toEqual(analyze(REACH));
  });

  const two = recordingOf({
    trace: traceOf([reach, { onset: 1.1, duration: 0.3, dx: -300 }]),
    presses: [press(0.85), press(0.97), press(1.5)],
    targets: [circle("a", 300, 0, 30, { tShown: 0.2 }), circle("b", 0, 0, 30, { tShown: 0.2 })],
    trials: [trial(["a", "b"], 0.2, 1.8)],
  });

  it("are no misses of the next target in a sequence", () => {
    const rows = analyze(two);
    expect(rows.map(({ target, outcome }) => [target, outcome])).toEqual([
      ["a", "hit"],
      ["b", "hit"],
    ]);
    expectParts(rows[1].budget, { latency: 0.25, primary: 0.3, verification: 0.1 });
  });

  it("are no misses of the next trial that begins at once, whatever the tool thought of them", () => {
    const trials = [trial(["a"], 0.2, 0.85), trial(["b"], 0.85, 1.8, { id: "next" })];
    const targets = [circle("a", 300, 0, 30, { tShown: 0.2, tGone: 0.85 }), circle("b", 0, 0, 30, { tShown: 0.85 })];
    const presses = [press(0.85), press(0.97, { credited: null }), press(1.5)];
    expect(analyze({ ...two, trials, targets, presses }).map(({ outcome }) => outcome)).toEqual(["hit", "hit"]);
  });

  it("are misses when they are made elsewhere", () => {
    const rows = analyze({ ...two, presses: [press(0.85), press(1.25), press(1.5)] });
    expect(rows.map(({ outcome }) => outcome)).toEqual(["hit", "recovered"]);
  });
});

describe("what counts as a hit", () => {
  it("is the tool's own word where it gave one, against all geometry", () => {
    const outcome = (credited: string | null, x: number): string =>
      onlyRow({ ...REACH, presses: [press(0.85, { credited, x, y: 0 })] }).outcome;
    expect(outcome("a", 900)).toBe("hit");
    expect(outcome(null, 300)).toBe("miss");
    expect(outcome("b", 300)).toBe("miss");
  });

  const outcomeAt = (shape: Shape, x: number, y: number): string =>
    onlyRow({ ...REACH, targets: [{ ...REACH.targets[0], shape, at: { x: 0, y: 0 } }], presses: [press(0.85, { x, y })] }).outcome;

  it("is a circle up to and with its edge", () => {
    const disc = { kind: "circle", diameter: 10 } as const;
    expect(outcomeAt(disc, 3, 4)).toBe("hit");
    expect(outcomeAt(disc, 3, 4.000001)).toBe("miss");
  });

  it("is a rectangle up to and with its edge, turned clockwise on the screen", () => {
    const flat = { kind: "rect", width: 20, height: 10 } as const;
    expect(outcomeAt(flat, 10, -5)).toBe("hit");
    expect(outcomeAt(flat, 10.000001, 0)).toBe("miss");
    expect(outcomeAt(flat, 0, 5.000001)).toBe("miss");
    expect(outcomeAt({ ...flat, angle: 90 }, 0, 9.999)).toBe("hit");
    expect(outcomeAt({ ...flat, angle: 90 }, 9.999, 0)).toBe("miss");
    // a third of a right angle clockwise: the long axis points down to the right
    expect(outcomeAt({ ...flat, angle: 30 }, 8.5, 4.9)).toBe("hit");
    expect(outcomeAt({ ...flat, angle: 30 }, 8.5, -4.9)).toBe("miss");
  });

  it("counts azimuth by the cosine of the elevation in a view", () => {
    const outcome = (y: number): string =>
      onlyRow({
        ...REACH,
        space: { kind: "view", unit: "deg" },
        targets: [circle("a", 0, y, 10, { tShown: 0.2 })],
        presses: [press(0.85, { x: 9.9, y })],
      }).outcome;
    expect(outcome(60)).toBe("hit");
    expect(outcome(0)).toBe("miss");
  });

  it("is read off the trace when the press does not say where it was", () => {
    expect(onlyRow(REACH).outcome).toBe("hit");
    expect(onlyRow({ ...REACH, targets: [circle("a", 340, 0, 30, { tShown: 0.2 })] }).outcome).toBe("miss");
  });
});

describe("trials", () => {
  it("are needed: without them there is nothing to acquire", () => {
    expect(analyze({ ...REACH, trials: [] })).toEqual([]);
  });

  it("of pursuit give no rows; their time is waiting", () => {
    const pursuit = trial(["a"], 1.4, 1.8, { id: "p", kind: "pursue" });
    const rows = analyze({ ...REACH, trials: [trial(["a"], 0.2, 1.3), pursuit] });
    expect(rows.map((row) => row.trial)).toEqual(["trial"]);
    expect(analyze({ ...REACH, trials: [{ ...pursuit, tStart: 0.2 }] })).toEqual([]);
    const { time } = summarize(rows, { span: [0, 2] });
    expect(time.waiting).toBeCloseTo(2 - 0.65, 12);
  });

  it("may be given in any order", () => {
    const trials = [trial(["b"], 1, 1.8, { id: "second" }), trial(["a"], 0.2, 0.95, { id: "first" })];
    const rows = analyze({ ...REACH, trials, targets: [...REACH.targets, circle("b", 0, 0, 20, { tShown: 1 })] });
    expect(rows.map((row) => row.trial)).toEqual(["first", "second"]);
  });

  it("that ended may not name targets that were not shown", () => {
    const late = circle("b", 0, 0, 20, { tShown: 1.9 });
    for (const targets of [REACH.targets, [...REACH.targets, late]]) {
      expect(() => analyze({ ...REACH, targets, trials: [trial(["a", "b"], 0.2, 1.5)] })).toThrow(
        /createAnalyzer: trial "trial" must name targets that were shown by its end, got "b"/,
      );
    }
  });

  it("that were broken off may name targets still to be shown", () => {
    const rows = analyze({ ...REACH, trials: [trial(["a", "b"], 0.2, undefined)] });
    expect(rows.map(({ target, outcome }) => [target, outcome])).toEqual([["a", "hit"]]);
  });
});

describe("sequences", () => {
  // three circles in a row; 0.25 s, 0.3 s and 0.1 s each time
  const strokes = [reach, { onset: 1.1, duration: 0.3, dx: 300 }, { onset: 1.75, duration: 0.3, dx: -900 }];
  const targets = [circle("a", 300, 0, 30), circle("b", 600, 0, 30), circle("c", -300, 0, 30)].map((target) => ({
    ...target,
    tShown: 0.2,
  }));
  const sequence = recordingOf({
    trace: traceOf(strokes, { until: 3 }),
    presses: [press(0.85), press(1.5), press(2.15)],
    targets,
    trials: [trial(["a", "b", "c"], 0.2, 2.5)],
  });
  const told = (rows: readonly Acquisition[]): unknown[] =>
    rows.map(({ target, outcome, times }) => [target, outcome, times.go, times.end]);

  it("are rows one after another, each from the press before", () => {
    const rows = analyze(sequence);
    expect(told(rows)).toEqual([
      ["a", "hit", 0.2, 0.85],
      ["b", "hit", 0.85, 1.5],
      ["c", "hit", 1.5, 2.15],
    ]);
    for (const { budget } of rows) expectParts(budget, { latency: 0.25, primary: 0.3, verification: 0.1 });
  });

  it("may be taken in another order than the goals stand in", () => {
    const rows = analyze({ ...sequence, trials: [trial(["c", "b", "a"], 0.2, 2.5)] });
    expect(rows.map(({ target }) => target)).toEqual(["a", "b", "c"]);
  });

  it("may name a goal more than once, as in going to and fro", () => {
    const strokes = [reach, { onset: 1.1, duration: 0.3, dx: -300 }, { onset: 1.75, duration: 0.3, dx: 300 }];
    const rows = analyze({
      ...sequence,
      trace: traceOf(strokes, { until: 3 }),
      targets: [circle("a", 300, 0, 30), circle("b", 0, 0, 30)],
      trials: [trial(["a", "b", "a"], 0.2, 2.5)],
    });
    expect(rows.map(({ target, outcome }) => [target, outcome])).toEqual([
      ["a", "hit"],
      ["b", "hit"],
      ["a", "hit"],
    ]);
  });

  it("go on after a miss that took its target away", () => {
    const gone = targets.map((target) => (target.id === "b" ? { ...target, tGone: 1.5 } : target));
    const rows = analyze({ ...sequence, targets: gone, presses: [press(0.85), press(1.5, { credited: null }), press(2.15)] });
    expect(told(rows)).toEqual([
      ["a", "hit", 0.2, 0.85],
      ["b", "miss", 0.85, 1.5],
      ["c", "hit", 1.5, 2.15],
    ]);
    expectParts(rows[2].budget, { latency: 0.25, primary: 0.3, verification: 0.1 });
  });

  it("count a press after a miss, also at the same place, as one for the next target", () => {
    const gone = targets.map((target) => (target.id === "b" ? { ...target, tGone: 1.5 } : target));
    const presses = [press(0.85), press(1.5, { credited: null }), press(1.6, { credited: null }), press(2.15)];
    const rows = analyze({ ...sequence, targets: gone, presses });
    expect(rows.map(({ target, outcome }) => [target, outcome])).toEqual([
      ["a", "hit"],
      ["b", "miss"],
      ["c", "recovered"],
    ]);
  });

  it("leave a stroke that passes one target on the way to the next with the row in which it was fastest", () => {
    const through = {
      ...sequence,
      trace: traceOf([{ onset: 0.45, duration: 0.4, dx: 600 }], { quantum: 1 }),
      trials: [trial(["a", "b"], 0.2, 1.5)],
    };
    const rows = analyze({ ...through, presses: [press(0.66, { credited: "a" }), press(1.1)] });
    expect(rows.map(({ target, outcome, pressedInMotion }) => [target, outcome, pressedInMotion])).toEqual([
      ["a", "hit", true],
      ["b", "hit", false],
    ]);
    expect(rows.map((row) => row.submovements.length)).toEqual([1, 0]);
  });

  it("of targets shown one by one begin when each is shown, also after one that went away unpressed", () => {
    const oneByOne = [
      { ...targets[0], tShown: 0.2, tGone: 0.85 },
      { ...targets[1], tShown: 0.95, tGone: 1.6 },
      { ...targets[2], tShown: 1.7, tGone: 2.4 },
    ];
    const rows = analyze({ ...sequence, targets: oneByOne, presses: [press(0.85), press(2.15)] });
    expect(told(rows)).toEqual([
      ["a", "hit", 0.2, 0.85],
      ["b", "timeout", 0.95, 1.6],
      ["c", "hit", 1.7, 2.15],
    ]);
  });

  it("end with one row for what was left when the trial ended", () => {
    expect(told(analyze({ ...sequence, presses: [press(0.85)] }))).toEqual([
      ["a", "hit", 0.2, 0.85],
      ["b", "abandoned", 0.85, 2.5],
    ]);
  });
});

describe("flags", () => {
  const flagsWith = (mark: Mark): readonly string[] => onlyRow({ ...REACH, marks: [mark] }).flags;

  it.each([
    ["gap", "missingData"],
    ["edge", "edge"],
    ["hidden", "hidden"],
    ["gain", "gainChanged"],
    ["lift", "clutch"],
  ] as const)("tell of a mark of kind %s while the row lasted", (kind, flag) => {
    expect(flagsWith({ t: 0.5, tEnd: 0.6, kind })).toEqual([flag]);
    expect(flagsWith({ t: 0, tEnd: 1.9, kind })).toEqual([flag]);
    expect(flagsWith({ t: 0, tEnd: 0.1, kind })).toEqual([]);
    // what only touches go or the end did not last while the row did
    expect(flagsWith({ t: 0, tEnd: 0.2, kind })).toEqual([]);
    expect(flagsWith({ t: 0.85, tEnd: 1.9, kind })).toEqual([]);
    expect(flagsWith({ t: 0.9, tEnd: 1.9, kind })).toEqual([]);
  });

  it("tell of absence that has no end yet, but not of an instant long past", () => {
    expect(flagsWith({ t: 0.1, kind: "hidden" })).toEqual(["hidden"]);
    expect(flagsWith({ t: 0.1, kind: "gap" })).toEqual(["missingData"]);
    expect(flagsWith({ t: 0.1, kind: "gain" })).toEqual([]);
    expect(flagsWith({ t: 0.5, kind: "gain" })).toEqual(["gainChanged"]);
  });

  it("tell of samples that are missing in the movement, and never bridge them", () => {
    const keep = REACH.trace.t.map((t) => +(t < 0.55 || t > 0.66));
    const cut = (column: Float64Array): Float64Array => column.filter((_, i) => keep[i] === 1);
    const row = onlyRow({ ...REACH, trace: { t: cut(REACH.trace.t), x: cut(REACH.trace.x), y: cut(REACH.trace.y) } });
    expect(row.flags).toContain("missingData");
    expect(row.flags).not.toContain("noMovement");
  });

  it("tell that the rate is too low for the filter, and only when there was a movement to look at", () => {
    const slow = onlyRow({ ...REACH, trace: traceOf([reach], { rateHz: 40, quantum: 1 }) });
    expect(slow.flags).toEqual(["belowResolution"]);
    expect(slow.times.onset).toBeUndefined();
    expect(slow.budget.verification).toBeCloseTo(0.65, 12);
    expect(onlyRow({ ...REACH, trace: traceOf([reach], { rateHz: 60, quantum: 1 }) }).flags).toEqual([]);
    // the cutoff decides what is too low
    expect(onlyRow({ ...REACH, trace: traceOf([reach], { rateHz: 40, quantum: 1 }) }, { cutoffHz: 8 }).flags).toEqual([]);
  });

  it("tell that the samples are too few to look at a movement that must have been", () => {
    const trace = { t: Float64Array.of(0.1, 0.6), x: Float64Array.of(0, 300), y: new Float64Array(2) };
    expect(onlyRow({ ...REACH, trace }, { quantum: 1 }).flags).toEqual(["belowResolution"]);
  });

  it("tell that no samples were there at all; the press still says whether it hit", () => {
    const empty = recordingOf({}).trace;
    const row = onlyRow({ ...REACH, trace: empty, presses: [press(0.85, { x: 305, y: 0 })] });
    expect(row).toMatchObject({ outcome: "hit", width: 30, errors: { press: { radial: 5, inside: true } } });
    expect(row.flags).toContain("missingData");
    expect(row.amplitude).toBeUndefined();
    expect(onlyRow({ ...REACH, trace: empty }).outcome).toBe("miss");
  });

  it("tell of a primary that covered less than half of the way", () => {
    const row = onlyRow({
      ...REACH,
      trace: traceOf([
        { onset: 0.45, duration: 0.3, dx: 130 },
        { onset: 0.8, duration: 0.3, dx: 110 },
        { onset: 1.15, duration: 0.15, dx: 60 },
      ]),
      presses: [press(1.4)],
    });
    expect(row.flags).toEqual(["shortPrimary"]);
  });
});

describe("the filter's ringing", () => {
  // Source: SciPy 1.17.1 signal.butter and filtfilt, 20 Hz behind both passes, fs 500 Hz: a minimum-jerk step of 0.15 s overshoots by
  // 0.11 %. A position read to a thousandth shows that.
  it.each([0.1, 0.15, 0.2, 0.3])("is no correction after a movement of %d s", (duration) => {
    const row = onlyRow({ ...REACH, trace: traceOf([{ onset: 0.45, duration, dx: 300 }], { quantum: 0.001, rateHz: 500 }) });
    expect(row.corrections).toEqual([]);
    expect(Math.abs(row.times.stop! - 0.45 - duration)).toBeLessThan(0.01);
  });

  it("does not hide a correction of a hundredth of the way", () => {
    const trace = traceOf(
      [
        { onset: 0.45, duration: 0.15, dx: 303 },
        { onset: 0.6, duration: 0.15, dx: -3 },
      ],
      { quantum: 0.001, rateHz: 500 },
    );
    expect(onlyRow({ ...REACH, trace }).corrections.length).toBe(1);
  });
});
