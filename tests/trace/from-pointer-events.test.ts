import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import type { PointerEventLike } from "../../src/trace/event/pointer-event-like.js";
import { fromPointerEvents } from "../../src/trace/from-pointer-events.js";

/** An event as the standard describes it: `button` names the change, `buttons` what is held afterwards. */
function event(type: string, timeStamp: number, buttons: number, button = -1, more: Partial<PointerEventLike> = {}): PointerEventLike {
  return {
    type,
    timeStamp,
    buttons,
    button,
    clientX: timeStamp / 10,
    clientY: 7,
    pointerType: "mouse",
    pointerId: 1,
    isPrimary: true,
    ...more,
  };
}

/** Stamps that follow `start` after each of the waits. */
function stampsFrom(start: number, waits: readonly number[]): number[] {
  let t = start;
  return waits.map((wait) => {
    t += wait;
    return t;
  });
}

const times = (trace: { t: Float64Array }): number[] => Array.from(trace.t);

describe("fromPointerEvents against outside values", () => {
  // Source: W3C Pointer Events Level 3, editor's draft, "Chorded button interactions": no second pointerdown while a button is held;
  // the change shows in `button` and `buttons` of a pointermove.
  it("finds a button pressed and released while another is held", () => {
    const { presses } = fromPointerEvents([
      event("pointerdown", 1000, 1, 0),
      event("pointermove", 1100, 3, 2),
      event("pointermove", 1200, 1, 2),
      event("pointerup", 1300, 0, 0),
    ]).recording;
    expect(presses).toEqual([
      { t: 0, tUp: 0.3, by: "button", code: "0", x: 100, y: 7 },
      { t: 0.1, tUp: 0.2, by: "button", code: "2", x: 110, y: 7 },
    ]);
  });

  // Source: the same section: the first button may come up while the second stays down, and then there is no pointerup for it.
  it("closes the press of the first button when the second outlives it", () => {
    const { presses } = fromPointerEvents([
      event("pointerdown", 0, 4, 1),
      event("pointermove", 100, 5, 0),
      event("pointermove", 200, 1, 1),
      event("pointerup", 300, 0, 0),
    ]).recording;
    expect(presses.map(({ code, t, tUp }) => [code, t, tUp])).toEqual([
      ["1", 0, 0.2],
      ["0", 0.1, 0.3],
    ]);
  });

  // Source: the same document, tables of the `button` and `buttons` properties.
  it.each([
    [1, "0"],
    [2, "2"],
    [4, "1"],
    [8, "3"],
    [16, "4"],
    [32, "5"],
  ])("names bit %i of the mask as button %s", (bit, button) => {
    const { presses } = fromPointerEvents([event("pointerdown", 0, bit, Number(button))]).recording;
    expect(presses).toEqual([{ t: 0, by: "button", code: button, x: 0, y: 7 }]);
  });

  // Source: the same document, "Coalesced events": read either the parents or all of the merged events, and not both; the parent may
  // have been processed further (it is set off the list here), and its stamp is at or after the last of the list.
  it("reads the merged positions and never also the event that sums them up", () => {
    const list = [event("pointermove", 1002, 0), event("pointermove", 1004, 0), event("pointermove", 1007, 0)];
    const parent = event("pointermove", 1008, 0, -1, { clientX: 999 });
    for (const merged of [{ coalescedEvents: list }, { getCoalescedEvents: () => list }]) {
      const { recording, report } = fromPointerEvents([event("pointermove", 1000, 0), { ...parent, ...merged }]);
      expect(Array.from(recording.trace.x)).toEqual([100, 100.2, 100.4, 100.7]);
      expect(times(recording.trace)).toEqual([0, 0.002, 0.004, 0.007]);
      expect(report.merged).toBe(3);
    }
  });

  // Source: the same section: lists of pointerdown and pointerup are empty, and a list may be empty for any event a script made.
  it("reads the event itself when its list is empty", () => {
    const { trace } = fromPointerEvents([event("pointermove", 0, 0, -1, { getCoalescedEvents: () => [] })]).recording;
    expect(trace.t.length).toBe(1);
  });

  // Source: the same document, table of actual and dispatched events: raw updates come first, moves repeat them merged, then the press.
  it("does not read raw updates beside the moves that repeat them", () => {
    const raw = [event("pointerrawupdate", 1, 0), event("pointerrawupdate", 3, 0)];
    const rest = [event("pointermove", 3, 0, -1, { coalescedEvents: raw }), event("pointerdown", 4, 1, 0)];
    const both = fromPointerEvents([...raw, ...rest], { origin: 0 });
    expect(times(both.recording.trace)).toEqual([0.001, 0.003, 0.004]);
    expect(both.report.ignored).toEqual({ pointerrawupdate: 2 });
    expect(times(fromPointerEvents(raw, { origin: 0 }).recording.trace)).toEqual([0.001, 0.003]);
  });

  // Source: the same document, "Suppressing a pointer event stream": pointercancel ends the stream; no release is reported.
  it("leaves a press without a release when the browser takes the pointer away", () => {
    const { recording, report } = fromPointerEvents([
      event("pointerdown", 0, 1, 0),
      event("pointercancel", 50, 0, 0, { clientX: 0 }),
      event("pointerleave", 50, 0),
      event("pointermove", 450, 0),
      event("pointerdown", 500, 1, 0),
      event("pointerup", 600, 0, 0),
    ]);
    expect(recording.presses.map(({ t, tUp }) => [t, tUp])).toEqual([
      [0, undefined],
      [0.5, 0.6],
    ]);
    expect(recording.marks).toEqual([{ t: 0.05, tEnd: 0.45, kind: "gap" }]);
    expect(times(recording.trace)).toEqual([0, 0.45, 0.5, 0.6]);
    expect(report.untimed).toBe(1);
  });

  // Source: the same document, "primary pointer": the first finger of a touch is primary; fingers have ids of their own.
  it("follows one finger after another as touches, with the time between them marked", () => {
    const finger = { pointerType: "touch" };
    const { recording } = fromPointerEvents([
      event("pointerdown", 0, 1, 0, { ...finger, pointerId: 11 }),
      event("pointerup", 80, 0, 0, { ...finger, pointerId: 11 }),
      event("pointerdown", 400, 1, 0, { ...finger, pointerId: 12 }),
      event("pointermove", 420, 1, -1, { ...finger, pointerId: 12 }),
      event("pointerup", 480, 0, 0, { ...finger, pointerId: 12 }),
    ]);
    expect(recording.presses.map(({ t, tUp, by }) => [t, tUp, by])).toEqual([
      [0, 0.08, "touch"],
      [0.4, 0.48, "touch"],
    ]);
    expect(recording.marks).toEqual([
      { t: 0.08, tEnd: 0.4, kind: "lift" },
      { t: 0.48, kind: "lift" },
    ]);
    expect(recording.device).toBe("touch");
  });

  // Source: the same tables: bit 1 of a pen is contact, bit 2 its barrel button.
  it("tells a pen's contact from its barrel button", () => {
    const { presses } = fromPointerEvents([
      event("pointerdown", 0, 1, 0, { pointerType: "pen" }),
      event("pointermove", 10, 3, 2, { pointerType: "pen" }),
    ]).recording;
    expect(presses.map(({ by, code }) => [by, code])).toEqual([
      ["touch", "0"],
      ["button", "2"],
    ]);
  });
});

describe("fromPointerEvents properties", () => {
  it("does not invent the time of what happened outside the element", () => {
    const { recording, report } = fromPointerEvents([
      event("pointerdown", 0, 1, 0),
      event("pointerleave", 100, 1),
      event("pointermove", 900, 2),
      event("pointermove", 950, 0, 2),
    ]);
    expect(recording.presses).toEqual([{ t: 0, by: "button", code: "0", x: 0, y: 7 }]);
    expect(recording.marks).toEqual([{ t: 0.1, tEnd: 0.9, kind: "gap" }]);
    expect(report.untimed).toBe(2);
  });

  it("takes no press from a button that was held when the recording began, unless the first event is its change", () => {
    expect(fromPointerEvents([event("pointermove", 0, 1), event("pointerup", 10, 0, 0)]).recording.presses).toEqual([]);
    const { presses } = fromPointerEvents([event("pointermove", 0, 3, 2), event("pointermove", 10, 1, 2)]).recording;
    expect(presses.map(({ code, t, tUp }) => [code, t, tUp])).toEqual([["2", 0, 0.01]]);
  });

  it("starts a new press at a pointerdown when the release before it was lost", () => {
    const { presses } = fromPointerEvents([
      event("pointerdown", 0, 1, 0),
      event("pointerdown", 300, 1, 0),
      event("pointerup", 400, 0, 0),
    ]).recording;
    expect(presses.map(({ t, tUp }) => [t, tUp])).toEqual([
      [0, undefined],
      [0.3, 0.4],
    ]);
  });

  it("reads the coordinates it is told to", () => {
    const both = [event("pointermove", 0, 0, -1, { screenX: 640, screenY: 480 })];
    const { trace } = fromPointerEvents(both, { coordinates: "screen" }).recording;
    expect([trace.x[0], trace.y[0]]).toEqual([640, 480]);
  });

  it("keeps one pointer of several and counts the others", () => {
    const mixed = [
      event("pointermove", 0, 0),
      event("pointerdown", 5, 1, 0, { pointerType: "touch", pointerId: 4, isPrimary: true }),
      event("pointermove", 10, 0),
    ];
    const { recording, report } = fromPointerEvents(mixed, { only: { pointerType: "mouse" } });
    expect(recording.trace.t.length).toBe(2);
    expect(report.leftOut).toBe(1);
    expect(fromPointerEvents(mixed, { only: { pointerId: 4 } }).recording.presses.length).toBe(1);
    expect(
      fromPointerEvents([...mixed.slice(0, 1), event("pointermove", 3, 0, -1, { isPrimary: false, pointerId: 9 })], {
        only: { isPrimary: true },
      }).report.leftOut,
    ).toBe(1);
  });

  it("counts events that say nothing about position or buttons", () => {
    const { report } = fromPointerEvents([
      event("pointerover", 0, 0),
      event("click", 1, 0),
      event("pointermove", 2, 0),
      event("pointerover", 3, 0),
    ]);
    expect(report.ignored).toEqual({ pointerover: 2, click: 1 });
    expect(report.events).toBe(1);
  });

  it("gives an empty recording for no events", () => {
    const { recording, report } = fromPointerEvents([]);
    expect(recording.trace.t.length).toBe(0);
    expect(report).toMatchObject({ origin: 0, events: 0, dropped: { total: 0, reasons: [] } });
  });

  it("repairs what it can and says what it did", () => {
    const events = [
      event("pointermove", 10, 0),
      event("pointermove", 30, 0),
      event("pointermove", 20, 0),
      event("pointermove", 40, 0, -1, { clientX: Number.NaN }),
      event("pointermove", Number.NaN, 0),
      event("pointermove", 50, 0),
    ];
    const { recording, report } = fromPointerEvents(events, { repair: true, origin: 0 });
    expect(times(recording.trace)).toEqual([0.01, 0.02, 0.03, 0.05]);
    expect(report.sorted).toBe(1);
    expect(report.dropped).toEqual({
      total: 2,
      reasons: ["events[3].clientX must be finite, got NaN", "events[4].timeStamp must be finite, got NaN"],
    });
  });

  it("reads live events: the browser's type fits the parameter", () => {
    const read: (live: readonly PointerEvent[]) => unknown = (live) => fromPointerEvents(live);
    expect(read([])).toMatchObject({ report: { events: 0 } });
  });

  /** Whole milliseconds, so that seconds can be compared exactly. */
  const script = fc.array(fc.record({ wait: fc.integer({ min: 1, max: 500 }), toggle: fc.option(fc.integer({ min: 0, max: 4 })) }), {
    maxLength: 40,
  });
  const BIT = [1, 4, 2, 8, 16];

  test.prop([script])("finds exactly the presses behind a stream made by the standard's rules", (steps) => {
    const events: PointerEventLike[] = [event("pointermove", 0, 0)];
    const truth: { code: string; t: number; tUp?: number }[] = [];
    let t = 0;
    let mask = 0;
    for (const { wait, toggle } of steps) {
      t += wait;
      if (toggle === null) {
        events.push(event("pointermove", t, mask));
        continue;
      }
      const before = mask;
      mask ^= BIT[toggle]!;
      events.push(event(before === 0 ? "pointerdown" : mask === 0 ? "pointerup" : "pointermove", t, mask, toggle));
      if (mask > before) truth.push({ code: String(toggle), t: t / 1000 });
      else truth.filter((press) => press.code === String(toggle)).at(-1)!.tUp = t / 1000;
    }
    const { presses } = fromPointerEvents(events).recording;
    expect(presses.map(({ code, t: down, tUp }) => (tUp === undefined ? { code, t: down } : { code, t: down, tUp }))).toEqual(truth);
  });

  const stamps = fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 1, maxLength: 60 });
  test.prop([stamps, fc.array(fc.integer({ min: 1, max: 6 }), { minLength: 60, maxLength: 60 })])(
    "gives the same trace however the positions were merged into events",
    (waits, sizes) => {
      const single = stampsFrom(0, waits).map((t) => event("pointermove", t, 0));
      const grouped: PointerEventLike[] = [];
      let rest = single;
      for (const size of sizes) {
        const list = rest.slice(0, size);
        if (list.length > 0) grouped.push({ ...list.at(-1)!, coalescedEvents: list });
        rest = rest.slice(size);
      }
      expect(fromPointerEvents(grouped).recording).toEqual(fromPointerEvents(single).recording);
    },
  );

  test.prop([stamps])("subtracts the origin and keeps every interval, at stamps as large as those since 1970", (waits) => {
    const at = (start: number): PointerEventLike[] => stampsFrom(start, waits).map((t) => event("pointermove", t, 0, -1, { clientX: 1 }));
    expect(fromPointerEvents(at(1.7e12)).recording).toEqual(fromPointerEvents(at(0)).recording);
  });

  it("leaves its input alone and gives a report of plain data", () => {
    const events = Object.freeze([Object.freeze(event("pointermove", 9, 0)), Object.freeze(event("pointermove", 3, 0))]);
    const { report } = fromPointerEvents(events, Object.freeze({ repair: true }));
    expect(events[0]!.timeStamp).toBe(9);
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
    expect(structuredClone(report)).toEqual(report);
  });
});

describe("fromPointerEvents bad input", () => {
  const first = event("pointermove", 500, 0);

  it.each<[string, unknown[], RegExp]>([
    [
      "a stamp that runs backward",
      [first, event("pointermove", 400, 0)],
      /^fromPointerEvents: events\[1\]\.timeStamp must not run backward, got 400 after 500 \(events\[0\]\)$/,
    ],
    [
      "a merged stamp that runs backward",
      [first, { ...first, coalescedEvents: [event("pointermove", 510, 0), event("pointermove", 505, 0)] }],
      /events\[1\]\.coalescedEvents\[1\]\.timeStamp must not run backward, got 505 after 510/,
    ],
    [
      "two clocks",
      [first, event("pointermove", 1.7e12, 0)],
      /events\[1\]\.timeStamp must be on one clock with the others, got 1700000000000 \(milliseconds since 1970\) beside events\[0\] = 500 \(milliseconds since the page was opened\)/,
    ],
    [
      "a position that is not finite",
      [event("pointermove", 0, 0, -1, { clientY: Number.POSITIVE_INFINITY })],
      /events\[0\]\.clientY must be finite, got Infinity/,
    ],
    [
      "a position that is absent",
      [{ type: "pointermove", timeStamp: 0, buttons: 0 }],
      /events\[0\]\.clientX must be finite, got undefined/,
    ],
    ["a stamp that is not finite", [event("pointermove", Number.NaN, 0)], /events\[0\]\.timeStamp must be finite, got NaN/],
    ["a cancel without a stamp", [event("pointercancel", Number.NaN, 0)], /events\[0\]\.timeStamp must be finite, got NaN/],
    [
      "no button state",
      [{ type: "pointermove", timeStamp: 0, clientX: 0, clientY: 0 }],
      /events\[0\]\.buttons must be a whole number of at least 0, got undefined/,
    ],
    ["a press of no button", [event("pointerdown", 0, 0, 0)], /events\[0\]\.buttons must name a held button at a pointerdown, got 0/],
    [
      "two devices",
      [first, event("pointermove", 600, 0, -1, { pointerType: "pen" })],
      /events\[1\]\.pointerType must be the same throughout, got "pen" after "mouse"; choose one by options\.only/,
    ],
    [
      "two pointers",
      [first, event("pointermove", 600, 0, -1, { pointerId: 2 })],
      /events\[1\]\.pointerId must be the same throughout, got 2 after 1; choose one by options\.only/,
    ],
    [
      "two fingers at once",
      [event("pointerdown", 0, 1, 0, { pointerType: "touch" }), event("pointerdown", 5, 1, 0, { pointerType: "touch", pointerId: 2 })],
      /events\[1\]\.pointerId must be the same throughout, got 2 after 1/,
    ],
  ])("refuses %s", (_, events, message) => {
    const read = (): unknown => fromPointerEvents(events as PointerEventLike[]);
    expect(read).toThrow(RangeError);
    expect(read).toThrow(message);
  });

  it("refuses two clocks even when asked to repair, and an origin on another clock", () => {
    expect(() => fromPointerEvents([first, event("pointermove", 1.7e12, 0)], { repair: true })).toThrow(/must be on one clock/);
    expect(() => fromPointerEvents([first], { origin: 1.7e12 })).toThrow(
      /got 500 \(milliseconds since the page was opened\) beside options\.origin = 1700000000000/,
    );
  });

  it("refuses what is no list, no event, no coordinate pair, no origin", () => {
    expect(() => fromPointerEvents(undefined as unknown as PointerEventLike[])).toThrow(TypeError);
    expect(() => fromPointerEvents([3 as unknown as PointerEventLike])).toThrow(
      "fromPointerEvents: events[0] must be a pointer event with a type, got 3",
    );
    expect(() => fromPointerEvents([first], { coordinates: "movement" as "client" })).toThrow(/options\.coordinates must be one of/);
    expect(() => fromPointerEvents([first], { origin: Number.NaN })).toThrow(/options\.origin must be finite, got NaN/);
  });
});
