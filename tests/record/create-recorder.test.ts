import { fc, test } from "@fast-check/vitest";
import { describe, expect, expectTypeOf, it } from "vitest";
import { createRecorder, type Recorder, type RecorderOptions } from "../../src/record/index.js";
import type { Chunk, Press } from "../../src/trace/types.js";
import { type FakePointer, fakePage } from "./fake-page.js";

/** The columns of a chunk as plain lists. */
function columns({ trace, frames, ...rest }: Chunk) {
  return {
    t: [...trace.t],
    x: [...trace.x],
    y: [...trace.y],
    frames: [...frames!],
    presses: rest.presses!,
    marks: rest.marks!,
    until: rest.until!,
  };
}

/** Chunks put together as their contract says: columns in turn, what is given again in place of what was given before. */
function joined(chunks: readonly Chunk[]) {
  const parts = chunks.map(columns);
  const presses = new Map(parts.flatMap((part) => part.presses.map((press) => [`${press.t} ${press.code}`, press] as const)));
  const marks = new Map(parts.flatMap((part) => part.marks.map((mark) => [`${mark.t} ${mark.kind}`, mark] as const)));
  return {
    t: parts.flatMap((part) => part.t),
    x: parts.flatMap((part) => part.x),
    y: parts.flatMap((part) => part.y),
    frames: parts.flatMap((part) => part.frames),
    presses: [...presses.values()],
    marks: [...marks.values()],
  };
}

function start(options?: RecorderOptions) {
  const page = fakePage();
  return { page, recorder: createRecorder(page.element, options) };
}

describe("createRecorder against outside values", () => {
  // Source: W3C Pointer Events level 3, example table under "Coalesced events": four moves of pointer 2 and two of pointer 1 before the press of
  // pointer 1 arrive as two merged moves and a press with none. Here pointer 1 is primary, pointer 2 is not; the times are ours.
  it("takes the merged events of the primary pointer and leaves the other pointer out", () => {
    const { page, recorder } = start();
    const part = (timeStamp: number, clientX: number): FakePointer => ({ timeStamp, clientX, clientY: 50 });
    page.fire("pointermove", { ...part(1005, 35), merged: [part(1002, 30), part(1005, 35)] });
    page.fire("pointermove", { ...part(1006, 90), isPrimary: false, merged: [1001, 1003, 1004, 1006].map((time) => part(time, 90)) });
    page.fire("pointerdown", { ...part(1007, 35), button: 0, buttons: 1 });
    const { t, x, y } = columns(recorder.take());
    expect(t).toEqual([0.002, 0.005, 0.007]);
    expect(x).toEqual([20, 25, 25]);
    expect(y).toEqual([30, 30, 30]);
  });

  // Source: W3C Pointer Events level 3, the tables of `button` and `buttons`.
  it.each([
    [0, 1],
    [1, 4],
    [2, 2],
    [3, 8],
    [4, 16],
    [5, 32],
  ])("reads button %i from bit %i of buttons, down and up", (button, bit) => {
    const { page, recorder } = start();
    const chord = button === 0 ? 2 : 1;
    page.fire("pointerdown", { timeStamp: 1001, button: button === 0 ? 2 : 0, buttons: chord });
    page.fire("pointermove", { timeStamp: 1002, button, buttons: chord | bit });
    page.fire("pointermove", { timeStamp: 1003, buttons: chord | bit });
    page.fire("pointermove", { timeStamp: 1004, button, buttons: chord });
    const presses = columns(recorder.take()).presses;
    expect(presses[1]).toMatchObject({ by: "button", code: `${button}`, t: 0.002, tUp: 0.004 });
    expect(presses).toHaveLength(2);
    expect(presses[0]!.tUp).toBeUndefined();
  });

  // Source: Chromium 156, the events it fired for a left press, a right press, a move, the left release and the right release sent over its
  // debugging protocol (button, buttons, length of the merged list; times shortened).
  it("finds both presses in what a browser fires for two buttons", () => {
    const { page, recorder } = start();
    page.fire("pointerdown", { timeStamp: 1252.82, clientX: 310, clientY: 130, button: 0, buttons: 1 });
    page.fire("pointermove", { timeStamp: 1266.745, clientX: 310, clientY: 130, button: 2, buttons: 3 });
    const moved = { timeStamp: 1278.115, clientX: 320, clientY: 130, button: -1, buttons: 3 };
    page.fire("pointermove", { ...moved, merged: [moved] });
    page.fire("pointermove", { timeStamp: 1297.17, clientX: 320, clientY: 130, button: 0, buttons: 2 });
    page.fire("pointerup", { timeStamp: 1299.875, clientX: 320, clientY: 130, button: 2, buttons: 0 });
    const { t, presses } = columns(recorder.take());
    expect(t).toHaveLength(5);
    expect(presses).toEqual([
      { t: expect.closeTo(0.25282, 9), by: "button", code: "0", x: 300, y: 110, tUp: expect.closeTo(0.29717, 9) },
      { t: expect.closeTo(0.266745, 9), by: "button", code: "2", x: 300, y: 110, tUp: expect.closeTo(0.299875, 9) },
    ]);
  });

  // Source: closed form; the time origin and the clock are those of W3C High Resolution Time: ms, t = timeOrigin + now.
  it("dates t = 0 by the time origin plus the clock", () => {
    const { page, recorder } = start();
    expect(recorder.startedAt).toBe("2026-05-06T07:08:10.000Z");
    expect(createRecorder(page.element, { origin: 400 }).startedAt).toBe("2026-05-06T07:08:09.400Z");
    expect(recorder.toSeconds(2500)).toBe(1.5);
  });

  // Source: W3C Pointer Lock as browsers do it: motion is summed over events, and that of an event is the sum over those merged into it
  // (the Pointer Lock group's discussion of device counts). Counts times degrees per count, by hand.
  it("sums motion under pointer lock to angles", () => {
    const { page, recorder } = start({ degPerCount: 0.25 });
    expect(recorder.space).toEqual({ kind: "view", unit: "deg" });
    page.lock(true, 1000);
    const part = (timeStamp: number, movementX: number, movementY: number): FakePointer => ({ timeStamp, movementX, movementY });
    page.fire("pointermove", { ...part(1008, 5, -3), merged: [part(1004, 2, -4), part(1008, 3, 1)] });
    page.fire("pointerdown", { timeStamp: 1010, button: 0, buttons: 1 });
    const { t, x, y, presses } = columns(recorder.take());
    expect(t).toEqual([0.004, 0.008, 0.01]);
    expect(x).toEqual([0.5, 1.25, 1.25]);
    expect(y).toEqual([-1, -0.75, -0.75]);
    expect(presses[0]).toMatchObject({ t: 0.01, x: 1.25, y: -0.75 });
  });

  // Source: the report that Firefox gives merged events wrong motion (bugzilla.mozilla.org 1753724, cited in winit pull request 2878): the
  // event's own motion is right and must be what the view turned by.
  it("goes by the event itself where merged motion does not add up to it", () => {
    const { page, recorder } = start({ degPerCount: 1 });
    page.lock(true, 1000);
    const part = (timeStamp: number, movementX: number): FakePointer => ({ timeStamp, movementX });
    page.fire("pointermove", { ...part(1008, 7), merged: [part(1004, 3), part(1008, 7)] });
    const { t, x } = columns(recorder.take());
    expect([t, x]).toEqual([[0.008], [7]]);
  });

  it("takes merged positions whatever their motion says", () => {
    const { page, recorder } = start();
    const part = (timeStamp: number, clientX: number): FakePointer => ({ timeStamp, clientX, movementX: 9 });
    page.fire("pointermove", { ...part(1008, 20), merged: [part(1004, 15), part(1008, 20)] });
    expect(columns(recorder.take()).x).toEqual([5, 10]);
  });
});

// One step of a page's life, to be strung together at random.
type Step =
  | { kind: "move"; gap: number; parts: number; dx: number; dy: number; inside: boolean }
  | { kind: "button"; gap: number; button: number; inside: boolean }
  | { kind: "frame"; gap: number; age: number }
  | { kind: "sight"; gap: number }
  | { kind: "leave" | "cancel" | "take"; gap: number };

const gap = fc.double({ min: 0, max: 40, noNaN: true });
const steps: fc.Arbitrary<Step[]> = fc.array(
  fc.oneof(
    fc.record({
      kind: fc.constant("move" as const),
      gap,
      parts: fc.integer({ min: 0, max: 5 }),
      dx: fc.integer({ min: -30, max: 30 }),
      dy: fc.integer({ min: -30, max: 30 }),
      inside: fc.boolean(),
    }),
    fc.record({ kind: fc.constant("button" as const), gap, button: fc.integer({ min: 0, max: 4 }), inside: fc.boolean() }),
    fc.record({ kind: fc.constant("frame" as const), gap, age: fc.double({ min: 0, max: 30, noNaN: true }) }),
    fc.record({ kind: fc.constant("sight" as const), gap }),
    fc.record({ kind: fc.constantFrom("leave" as const, "cancel" as const, "take" as const), gap }),
  ),
  { maxLength: 60 },
);

/** Plays the steps; events are handed over in the order of their times, each some time after it, as browsers do. */
function play(script: readonly Step[], late: number, takes: boolean): { chunks: Chunk[]; expected: number } {
  const { page, recorder } = start();
  const chunks: Chunk[] = [];
  let now = 1000;
  let frame = 1000;
  let x = 100;
  let y = 100;
  let buttons = 0;
  // buttons whose press was recorded and whose release was not: while there are any, events elsewhere count too
  const held = new Set<number>();
  let expected = 0;
  const bits = [1, 4, 2, 8, 16];
  const position = (timeStamp: number): FakePointer => ({ timeStamp, clientX: x, clientY: y, buttons });
  for (const step of script) {
    const from = now;
    now += step.gap;
    page.at(now + late);
    if (step.kind === "move") {
      const merged = Array.from({ length: step.parts }, (_, i) => {
        x += step.dx;
        y += step.dy;
        return position(from + (step.gap * (i + 1)) / step.parts);
      });
      page.fire("pointermove", { ...position(now), merged, inside: step.inside });
      if (step.inside || held.size > 0) expected += Math.max(1, step.parts);
    } else if (step.kind === "button") {
      const before = buttons;
      buttons ^= bits[step.button]!;
      const type = before === 0 ? "pointerdown" : buttons === 0 ? "pointerup" : "pointermove";
      page.fire(type, { ...position(now), button: step.button, inside: step.inside });
      if (step.inside || held.size > 0) {
        expected++;
        if (buttons & bits[step.button]!) held.add(step.button);
        else held.delete(step.button);
      }
    } else if (step.kind === "frame") {
      const time = Math.max(frame, now - step.age);
      frame = time;
      page.frame(time);
    } else if (step.kind === "sight") page.show(page.page.visibilityState === "hidden", now + late);
    else if (step.kind === "leave") page.fire("pointerleave", position(now));
    else if (step.kind === "cancel") page.fire("pointercancel", position(now));
    else if (takes) chunks.push(recorder.take());
  }
  page.at(now + 100);
  chunks.push(recorder.stop());
  return { chunks, expected };
}

describe("createRecorder properties", () => {
  test.prop([steps, fc.double({ min: 0, max: 45, noNaN: true })])("gives the same recording in one chunk or in many", (script, late) => {
    expect(joined(play(script, late, true).chunks)).toEqual(joined(play(script, late, false).chunks));
  });

  test.prop([steps, fc.double({ min: 0, max: 45, noNaN: true })])("keeps samples in time order and frames increasing", (script, late) => {
    const { t, frames } = joined(play(script, late, true).chunks);
    expect(t.every((time, i) => time >= (i === 0 ? 0 : t[i - 1]!))).toBe(true);
    expect(frames.every((time, i) => time > (i === 0 ? 0 : frames[i - 1]!))).toBe(true);
  });

  // later than is allowed for, too: then times are moved up, and the promise still holds
  test.prop([steps, fc.double({ min: 0, max: 500, noNaN: true })])(
    "never gives anything earlier than an until given before",
    (script, late) => {
      const seen = new Set<string>();
      let until = 0;
      for (const chunk of play(script, late, true).chunks.map(columns)) {
        const keyed = [...chunk.presses.map((item) => [item.t, item.code]), ...chunk.marks.map((item) => [item.t, item.kind])];
        const fresh = keyed.filter((key) => !seen.has(String(key))).map(([time]) => time as number);
        for (const key of keyed) seen.add(String(key));
        for (const time of [...fresh, ...chunk.t, ...chunk.frames]) expect(time).toBeGreaterThanOrEqual(until);
        expect(chunk.until).toBeGreaterThanOrEqual(until);
        until = chunk.until;
      }
    },
  );

  test.prop([steps.map((list) => list.filter((step) => step.kind === "move" || step.kind === "frame" || step.kind === "button"))])(
    "gives one sample per merged event, or one for an event without any, and never both",
    (script) => {
      const { chunks, expected } = play(script, 0, false);
      expect(joined(chunks).t).toHaveLength(expected);
    },
  );

  test.prop([steps, fc.double({ min: 0, max: 45, noNaN: true })])("ends every press and mark no earlier than it began", (script, late) => {
    const { presses, marks } = joined(play(script, late, true).chunks);
    for (const press of presses) if (press.tUp !== undefined) expect(press.tUp).toBeGreaterThanOrEqual(press.t);
    for (const mark of marks) expect(mark.tEnd).toBeGreaterThanOrEqual(mark.t);
  });

  it("is exact on a clock that has run since 1970 (t0 = 1.7e9 s)", () => {
    const page = fakePage(1.7e12);
    const recorder = createRecorder(page.element);
    for (let i = 1; i <= 8; i++) page.fire("pointermove", { timeStamp: 1.7e12 + 0.125 * i, clientX: 10 + i });
    expect(columns(recorder.take()).t).toEqual([1, 2, 3, 4, 5, 6, 7, 8].map((i) => (0.125 * i) / 1000));
  });
});

describe("createRecorder chunks", () => {
  it("gives empty columns when nothing happened, and the same until", () => {
    const { recorder } = start();
    expect(recorder.take()).toEqual({
      trace: { t: new Float64Array(0), x: new Float64Array(0), y: new Float64Array(0) },
      presses: [],
      marks: [],
      frames: new Float64Array(0),
      until: 0,
    });
  });

  it("moves until along with the frames while the hand rests, 0.05 s behind", () => {
    const { page, recorder } = start();
    page.fire("pointermove", { timeStamp: 1010 });
    page.frame(1016);
    expect(recorder.take().until).toBe(0.01);
    page.frame(1200);
    const resting = columns(recorder.take());
    expect(resting).toMatchObject({ t: [], until: expect.closeTo(0.15, 12) });
    page.frame(1217);
    expect(recorder.take().until).toBeCloseTo(0.167, 12);
  });

  it("does not promise more than a page that was busy can know", () => {
    const { page, recorder } = start();
    page.frame(1100);
    // the page computed for half a second; what happened meanwhile waits to be handed over
    page.at(1600);
    expect(recorder.take().until).toBe(0.05);
    page.fire("pointermove", { timeStamp: 1120 });
    expect(columns(recorder.take()).t).toEqual([0.12]);
  });

  it("moves an event that comes later than allowed for up to the until given", () => {
    const { page, recorder } = start();
    page.frame(1500);
    expect(recorder.take().until).toBe(0.45);
    page.fire("pointermove", { timeStamp: 1440 });
    page.fire("pointermove", { timeStamp: 1460 });
    expect(columns(recorder.take()).t).toEqual([0.45, 0.46]);
  });

  it("keeps time from running backward where a browser's does, a gap's end included", () => {
    const { page, recorder } = start();
    page.fire("pointermove", { timeStamp: 1010 });
    page.fire("pointermove", { timeStamp: 1005 });
    page.fire("pointerleave", { timeStamp: 1050 });
    page.fire("pointermove", { timeStamp: 1040 });
    const { t, marks } = columns(recorder.take());
    expect(t).toEqual([0.01, 0.01, 0.04]);
    expect(marks).toEqual([{ t: 0.05, tEnd: 0.05, kind: "gap" }]);
  });

  it("does not let until pass the newest frame, since the next may be earlier than the newest event", () => {
    const { page, recorder } = start();
    page.frame(1016);
    page.fire("pointerdown", { timeStamp: 1040, button: 0, buttons: 1 });
    expect(recorder.take().until).toBe(0.016);
    page.frame(1033);
    expect(columns(recorder.take())).toMatchObject({ frames: [0.033], until: 0.033 });
  });

  it("gives a press as it goes down and again, with tUp, when it goes up in a later chunk", () => {
    const { page, recorder } = start();
    page.fire("pointerdown", { timeStamp: 1001, clientX: 13, clientY: 24, button: 0, buttons: 1 });
    const [down] = columns(recorder.take()).presses;
    expect(down).toEqual({ t: 0.001, by: "button", code: "0", x: 3, y: 4 });
    page.fire("pointerup", { timeStamp: 1090, button: 0, buttons: 0 });
    expect(columns(recorder.take()).presses).toEqual([{ ...down, tUp: 0.09 }]);
    // what was given stays as it was given
    expect(down).not.toHaveProperty("tUp");
  });

  it("gives a press once when it begins and ends between two chunks, and touch as touch", () => {
    const { page, recorder } = start();
    page.fire("pointerdown", { timeStamp: 1001, button: 0, buttons: 1, pointerType: "touch" });
    page.fire("pointerup", { timeStamp: 1090, button: 0, buttons: 0, pointerType: "touch" });
    expect(columns(recorder.take()).presses).toEqual([{ t: 0.001, tUp: 0.09, by: "touch", code: "0", x: -10, y: -20 }]);
  });

  it("calls onChunk in steps of `every`, when the page goes out of sight, and at the end", () => {
    const told: number[] = [];
    const { page, recorder } = start({ onChunk: (chunk) => told.push(chunk.frames!.length), every: 0.05 });
    for (let i = 1; i <= 10; i++) page.frame(1000 + 20 * i);
    expect(told).toEqual([3, 3, 3]);
    page.show(false, 1210);
    expect(told).toEqual([3, 3, 3, 1]);
    recorder.stop();
    recorder.stop();
    expect(told).toEqual([3, 3, 3, 1, 0]);
  });

  it("goes on drawing frames when onChunk throws", () => {
    const { page, recorder } = start({
      onChunk: () => {
        throw new Error("listener");
      },
    });
    expect(() => page.frame(1200)).toThrow("listener");
    page.frame(1250);
    expect(columns(recorder.take()).frames).toEqual([0.25]);
  });

  it("keeps everything for take when nobody listens", () => {
    const { page, recorder } = start();
    for (let i = 1; i <= 100; i++) {
      page.fire("pointermove", { timeStamp: 999 + 20 * i });
      page.frame(1000 + 20 * i);
    }
    expect(columns(recorder.take()).t).toHaveLength(100);
  });
});

describe("createRecorder presses and marks", () => {
  const press = { clientX: 50, clientY: 50, button: 0, buttons: 1 };
  const pressesOf = (recorder: Recorder): Press[] => [...columns(recorder.take()).presses];

  it("leaves out what happened before it was started, the press that started it included", () => {
    const { page, recorder } = start();
    page.fire("pointerdown", { ...press, timeStamp: 990 });
    page.fire("pointermove", { timeStamp: 1004, buttons: 1, merged: [998, 1002, 1004].map((timeStamp) => ({ timeStamp, buttons: 1 })) });
    page.fire("pointerup", { timeStamp: 1030, button: 0, buttons: 0 });
    const { t, presses } = columns(recorder.take());
    expect(t).toEqual([0.002, 0.004, 0.03]);
    expect(presses).toEqual([]);
  });

  it("follows a press off the element until it is released, and marks the gap from then on", () => {
    const { page, recorder } = start();
    page.fire("pointerdown", { ...press, timeStamp: 1001 });
    page.fire("pointerleave", { timeStamp: 1002, buttons: 1 });
    page.fire("pointermove", { timeStamp: 1002, clientX: 900, buttons: 1, inside: false });
    page.fire("pointerup", { timeStamp: 1003, clientX: 910, button: 0, inside: false });
    page.fire("pointermove", { timeStamp: 1004, clientX: 920, inside: false });
    page.fire("pointermove", { timeStamp: 1050, clientX: 60, merged: [{ timeStamp: 1045 }, { timeStamp: 1050 }] });
    const { t, x, presses, marks } = columns(recorder.take());
    expect(t).toEqual([0.001, 0.002, 0.003, 0.045, 0.05]);
    expect(x.slice(0, 3)).toEqual([40, 890, 900]);
    expect(presses).toMatchObject([{ tUp: 0.003 }]);
    expect(marks).toEqual([{ t: 0.004, tEnd: 0.045, kind: "gap" }]);
  });

  it("ignores a press made elsewhere, also when it is dragged in", () => {
    const { page, recorder } = start();
    page.fire("pointerdown", { ...press, timeStamp: 1001, inside: false });
    page.fire("pointermove", { timeStamp: 1002, buttons: 1 });
    page.fire("pointerup", { timeStamp: 1003, button: 0 });
    const { t, presses } = columns(recorder.take());
    expect([t.length, presses.length]).toEqual([2, 0]);
  });

  it("gives no release that it did not see", () => {
    const { page, recorder } = start();
    page.fire("pointerdown", { ...press, timeStamp: 1001 });
    // say, a dialog took the release
    page.fire("pointermove", { timeStamp: 1500, buttons: 0 });
    page.fire("pointerdown", { ...press, timeStamp: 1600 });
    page.fire("pointerdown", { ...press, timeStamp: 1700 });
    page.fire("pointercancel", { timeStamp: 1750 });
    page.fire("pointerup", { timeStamp: 1800, button: 0 });
    expect(pressesOf(recorder).map(({ t, tUp }) => [t, tUp])).toEqual([
      [0.001, undefined],
      [0.6, undefined],
      [0.7, undefined],
    ]);
  });

  it("sees a button pressed again after a release that it did not see", () => {
    const { page, recorder } = start();
    page.fire("pointerdown", { ...press, timeStamp: 1001 });
    page.fire("pointermove", { timeStamp: 1002, button: 2, buttons: 3 });
    page.fire("pointermove", { timeStamp: 1003, buttons: 1 });
    page.fire("pointermove", { timeStamp: 1004, button: 2, buttons: 3 });
    page.fire("pointermove", { timeStamp: 1005, button: 2, buttons: 1 });
    expect(pressesOf(recorder).map(({ t, tUp, code }) => [code, t, tUp])).toEqual([
      ["0", 0.001, undefined],
      ["2", 0.002, undefined],
      ["2", 0.004, 0.005],
    ]);
  });

  it("counts one press where each move of a drag names the button, as mouse events do", () => {
    const { page, recorder } = start();
    page.fire("pointerdown", { ...press, timeStamp: 1001 });
    for (let i = 2; i < 5; i++) page.fire("pointermove", { ...press, timeStamp: 1000 + i });
    page.fire("pointerup", { timeStamp: 1005, button: 0 });
    expect(pressesOf(recorder)).toMatchObject([{ t: 0.001, tUp: 0.005 }]);
  });

  it("marks the time the page is hidden, in the chunk it begins and again when it ends", () => {
    const { page, recorder } = start();
    page.show(false, 1100);
    expect(columns(recorder.take()).marks).toEqual([{ t: 0.1, kind: "hidden" }]);
    page.show(true, 1400);
    expect(columns(recorder.take()).marks).toEqual([{ t: 0.1, tEnd: 0.4, kind: "hidden" }]);
  });

  it("records nothing and marks hidden while a pointer that should be locked is not", () => {
    const { page, recorder } = start({ degPerCount: 0.5 });
    page.fire("pointermove", { timeStamp: 1010, movementX: 100 });
    page.fire("pointerdown", { ...press, timeStamp: 1020 });
    page.lock(true, 1030);
    page.fire("pointerup", { timeStamp: 1035, button: 0 });
    page.fire("pointermove", { timeStamp: 1040, movementX: 4 });
    page.lock(false, 1050);
    page.fire("pointermove", { timeStamp: 1060, movementX: 100 });
    page.at(1100);
    const { t, x, presses, marks } = columns(recorder.stop());
    expect([t, x, presses]).toEqual([[0.035, 0.04], [0, 2], []]);
    expect(marks).toEqual([
      { t: 0, tEnd: 0.03, kind: "hidden" },
      { t: 0.05, tEnd: 0.1, kind: "hidden" },
    ]);
  });

  it("forgets a press whose release may fall into a time out of sight", () => {
    const { page, recorder } = start();
    page.fire("pointerdown", { ...press, timeStamp: 1001 });
    page.show(false, 1100);
    page.show(true, 1400);
    page.fire("pointerup", { timeStamp: 1410, button: 0 });
    expect(pressesOf(recorder)[0]!.tUp).toBeUndefined();
  });

  it("closes open marks at the end", () => {
    const { page, recorder } = start();
    page.fire("pointerleave", { timeStamp: 1050 });
    page.at(1200);
    const last = columns(recorder.stop());
    expect(last).toMatchObject({ marks: [{ t: 0.05, tEnd: 0.2, kind: "gap" }], until: 0.2 });
  });
});

describe("createRecorder and the page", () => {
  it("looks the element's box up once after each frame that events follow", () => {
    const { page, recorder } = start();
    for (let i = 1; i <= 3; i++) page.fire("pointermove", { timeStamp: 1000 + i, clientX: 50 });
    page.frame(1016);
    page.frame(1033);
    page.box.left = 30;
    for (let i = 1; i <= 3; i++) page.fire("pointermove", { timeStamp: 1040 + i, clientX: 50 });
    expect(columns(recorder.take()).x).toEqual([40, 40, 40, 20, 20, 20]);
    expect(page.lookups.count).toBe(2);
  });

  it("works where the browser does not know of merged events", () => {
    const { page, recorder } = start();
    page.fire("pointermove", { timeStamp: 1005, clientX: 11, clientY: 22, merged: null });
    expect(columns(recorder.take())).toMatchObject({ t: [0.005], x: [1], y: [2] });
  });

  it("lets go of the page when it stops: no listener and no frame is left", () => {
    const { page, recorder } = start();
    expect(page.hooks()).toBe(9);
    page.frame(1016);
    expect(page.hooks()).toBe(9);
    recorder.stop();
    expect(page.hooks()).toBe(0);
    page.fire("pointermove", { timeStamp: 1100 });
    page.frame(1200);
    expect(columns(recorder.take())).toMatchObject({ t: [], frames: [] });
    expect(columns(recorder.stop()).until).toBe(0.016);
  });

  it("lets two recorders share a clock by their origin", () => {
    const { page, recorder } = start();
    page.at(4000);
    const second = createRecorder(page.element, { origin: 1000 });
    page.fire("pointermove", { timeStamp: 4010 });
    expect(columns(second.take()).t).toEqual([3.01]);
    expect(columns(recorder.take()).t).toEqual([3.01]);
    expect(second.startedAt).toBe(recorder.startedAt);
  });

  it("has the types that it says", () => {
    expectTypeOf(createRecorder).toBeCallableWith(null as unknown as HTMLElement, { degPerCount: 0.02, every: 1 });
    expectTypeOf(createRecorder).returns.toEqualTypeOf<Recorder>();
    expectTypeOf<Recorder["take"]>().returns.toEqualTypeOf<Chunk>();
  });
});

describe("createRecorder bad input", () => {
  it.each([null, undefined, 5, {}, { ownerDocument: null }])("refuses %s for an element", (element) => {
    expect(() => createRecorder(element as unknown as Element)).toThrow(TypeError);
    expect(() => createRecorder(element as unknown as Element)).toThrow(
      `createRecorder: element must be an element of a shown page, got ${element}`,
    );
  });

  it.each([
    [{ degPerCount: 0 }, "options.degPerCount must be finite and above 0, got 0"],
    [{ degPerCount: Number.NaN }, "options.degPerCount must be finite and above 0, got NaN"],
    [{ every: -1 }, "options.every must be finite and above 0, got -1"],
    [{ origin: Number.POSITIVE_INFINITY }, "options.origin must be finite and above -Infinity, got Infinity"],
  ])("refuses %o", (options, message) => {
    const page = fakePage();
    expect(() => createRecorder(page.element, options)).toThrow(RangeError);
    expect(() => createRecorder(page.element, options)).toThrow(`createRecorder: ${message}`);
    // and has not begun to listen
    expect(page.hooks()).toBe(0);
  });
});
