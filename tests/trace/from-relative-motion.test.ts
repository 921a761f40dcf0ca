import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { fromRelativeMotion, type RelativeMotionEvent } from "../../src/trace/from-relative-motion.js";

const count = fc.integer({ min: -127, max: 127 });
const reports = fc.array(fc.record({ wait: fc.integer({ min: 0, max: 20 }), dx: count, dy: count }), { minLength: 1, maxLength: 80 });
/** Scales from a very low to a very high gain, and one that has no short binary form. */
const scale = fc.oneof(fc.double({ min: 1e-4, max: 1, noNaN: true }), fc.constant(0.022));

function timed(list: readonly { wait: number; dx: number; dy: number }[], start = 0): RelativeMotionEvent[] {
  let ms = 0;
  return list.map(({ wait, dx, dy }) => {
    ms += wait;
    return { t: start + ms / 1024, dx, dy };
  });
}

describe("fromRelativeMotion against outside values", () => {
  // Source: definition of the scale: 360 / 0.05 = 7200 counts are one full turn, and 800 counts per inch make 7200 counts 22.86 cm (2.54 * 9).
  it("turns once around in the counts of one full turn, and does not wrap", () => {
    const perReport = 72;
    const events = Array.from({ length: 250 }, (_, i) => ({ t: i / 1000, dx: perReport, dy: 0 }));
    const { trace } = fromRelativeMotion(events, { degPerCount: 0.05 }).recording;
    expect(trace.x[99]).toBe(360);
    expect(trace.x[249]).toBe(900);
    expect((7200 / 800) * 2.54).toBeCloseTo(22.86, 10);
  });

  // Source: closed form, n * d; adding 0.1 a million times in double precision misses 100000 by 1.3e-6 (Python sum([0.1] * 10**6), computed).
  it("builds up no rounding over a million reports", () => {
    const events = Array.from({ length: 1e6 }, (_, i) => ({ t: i / 1000, dx: 1, dy: -1 }));
    const { trace } = fromRelativeMotion(events, { degPerCount: 0.1 }).recording;
    expect(trace.x[999_999]).toBe(100_000);
    expect(trace.y[999_999]).toBe(-100_000);
  });

  // Source: W3C Pointer Events Level 3, editor's draft, table of the `buttons` property.
  it("makes presses from the bits of the button mask, at the direction of that report", () => {
    const events = [
      { t: 0, dx: 0, dy: 0, buttons: 0 },
      { t: 0.5, dx: 4, dy: 2, buttons: 1 },
      { t: 0.75, dx: 4, dy: 0 },
      { t: 1, dx: 0, dy: 0, buttons: 5 },
      { t: 1.5, dx: 0, dy: 0, buttons: 4 },
    ];
    expect(fromRelativeMotion(events, { degPerCount: 0.25 }).recording.presses).toEqual([
      { t: 0.5, tUp: 1.5, by: "button", code: "0", x: 1, y: 0.5 },
      { t: 1, by: "button", code: "1", x: 2, y: 0.5 },
    ]);
  });
});

describe("fromRelativeMotion properties", () => {
  test.prop([reports, scale])("gives the counts back from the samples", (list, degPerCount) => {
    const { recording, report } = fromRelativeMotion(timed(list), { degPerCount });
    const { x, y } = recording.trace;
    const back = list.map((_, i) => ({
      dx: Math.round((x[i]! - (x[i - 1] ?? 0)) / degPerCount),
      dy: Math.round((y[i]! - (y[i - 1] ?? 0)) / degPerCount),
    }));
    // a negative zero is a zero count too
    expect(back.map(({ dx, dy }) => [dx + 0, dy + 0])).toEqual(list.map(({ dx, dy }) => [dx + 0, dy + 0]));
    expect(report.counts.x).toBe(list.reduce((sum, { dx }) => sum + dx, 0));
  });

  test.prop([reports])("ends where it began after the same counts the other way", (list) => {
    const back = [...list].reverse().map(({ wait, dx, dy }) => ({ wait, dx: -dx, dy: -dy }));
    const { trace } = fromRelativeMotion(timed([...list, ...back]), {
      degPerCount: 0.022,
      start: { azimuth: 30, elevation: -10 },
    }).recording;
    expect([trace.x.at(-1), trace.y.at(-1)]).toEqual([30, -10]);
  });

  test.prop([reports, fc.constantFrom(0.125, 0.5, 2)])("scales every angle with the degrees per count", (list, factor) => {
    const one = fromRelativeMotion(timed(list), { degPerCount: 0.03 }).recording.trace;
    const other = fromRelativeMotion(timed(list), { degPerCount: 0.03 * factor }).recording.trace;
    expect(Array.from(other.x)).toEqual(Array.from(one.x, (v) => v * factor));
  });

  test.prop([reports])("does not change with the zero of the clock, at times as large as those since 1970", (list) => {
    const options = { degPerCount: 0.05 };
    expect(fromRelativeMotion(timed(list, 1.7e9), options).recording).toEqual(fromRelativeMotion(timed(list), options).recording);
  });

  test.prop([reports, fc.integer({ min: 1, max: 40 })])(
    "stays within the elevation limits and marks exactly the time spent at them",
    (list, limit) => {
      const elevationLimits = { min: -limit, max: limit };
      const { recording, report } = fromRelativeMotion(timed(list), { degPerCount: 0.5, elevationLimits });
      const { t, y } = recording.trace;
      // second implementation: clamp step by step; halves are exact in binary
      let elevation = 0;
      let beyond = 0;
      for (let i = 0; i < list.length; i++) {
        const free = elevation + 0.5 * list[i]!.dy;
        elevation = Math.min(limit, Math.max(-limit, free));
        if (free !== elevation) beyond++;
        expect(y[i]).toBe(elevation);
        const marked = recording.marks.some((mark) => mark.kind === "edge" && mark.t <= t[i]! && t[i]! <= mark.tEnd!);
        if (free !== elevation) expect(marked).toBe(true);
      }
      expect(report.atLimit).toBe(beyond);
      expect(recording.marks.length > 0).toBe(beyond > 0);
    },
  );

  it("marks the stay at a limit from the first lost count until the view leaves it", () => {
    const dy = [10, 30, 5, 0, -1, -2];
    const events = dy.map((value, i) => ({ t: i, dx: 1, dy: value }));
    const { recording, report } = fromRelativeMotion(events, { degPerCount: 1, elevationLimits: { min: -20, max: 20 } });
    expect(Array.from(recording.trace.y)).toEqual([10, 20, 20, 20, 19, 17]);
    expect(recording.marks).toEqual([{ t: 1, tEnd: 4, kind: "edge" }]);
    expect(report.atLimit).toBe(2);
    expect(report.counts.y).toBe(42);
  });

  it("takes no press from a button that was held before the first report", () => {
    const events = [
      { t: 0, dx: 0, dy: 0, buttons: 1 },
      { t: 1, dx: 0, dy: 0, buttons: 0 },
    ];
    expect(fromRelativeMotion(events, { degPerCount: 1 }).recording.presses).toEqual([]);
  });

  it("repairs what it can and says what it did", () => {
    const events = [
      { t: 0, dx: 1, dy: 0 },
      { t: 2, dx: 1, dy: 0 },
      { t: 1, dx: 1, dy: 0 },
      { t: 3, dx: 0.5, dy: 0 },
      { t: 4, dx: 1, dy: Number.NaN },
    ];
    const { recording, report } = fromRelativeMotion(events, { degPerCount: 1, repair: true });
    expect(Array.from(recording.trace.t)).toEqual([0, 1, 2]);
    expect(report).toMatchObject({
      sorted: 1,
      dropped: {
        total: 2,
        reasons: ["events[3].dx must be a whole number of counts, got 0.5", "events[4].dy must be a whole number of counts, got NaN"],
      },
    });
  });

  it("gives an empty recording for no reports", () => {
    expect(fromRelativeMotion([], { degPerCount: 1 })).toMatchObject({
      recording: { trace: { t: new Float64Array(0) } },
      report: { origin: 0 },
    });
  });

  it("leaves its input alone and gives a report of plain data", () => {
    const events = Object.freeze([Object.freeze({ t: 2, dx: 1, dy: 1 }), Object.freeze({ t: 1, dx: 1, dy: 1 })]);
    const { report } = fromRelativeMotion(events, Object.freeze({ degPerCount: 1, repair: true }));
    expect(events[0]!.t).toBe(2);
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
    expect(structuredClone(report)).toEqual(report);
  });
});

describe("fromRelativeMotion bad input", () => {
  const good = { t: 1, dx: 0, dy: 0 };

  it.each<[string, unknown, unknown, RegExp]>([
    ["no list", 5, { degPerCount: 1 }, /^fromRelativeMotion: events must be a list of reports, got 5$/],
    ["what is no report", [null], { degPerCount: 1 }, /events\[0\] must be a report, got null/],
    ["no options", [good], undefined, /options must give degPerCount, got undefined/],
    ["no scale", [good], {}, /options\.degPerCount must be a number, got undefined/],
  ])("refuses %s", (_, events, options, message) => {
    const read = (): unknown => fromRelativeMotion(events as RelativeMotionEvent[], options as { degPerCount: number });
    expect(read).toThrow(TypeError);
    expect(read).toThrow(message);
  });

  it.each<[string, RelativeMotionEvent[], object, RegExp]>([
    ["a scale of zero", [good], { degPerCount: 0 }, /options\.degPerCount must be finite and above 0, got 0/],
    ["counts that are pixels", [{ ...good, dx: 1.25 }], {}, /events\[0\]\.dx must be a whole number of counts, got 1\.25/],
    ["a time that is not finite", [{ ...good, t: Number.NaN }], {}, /events\[0\]\.t must be finite, got NaN/],
    ["a button mask that is none", [{ ...good, buttons: -1 }], {}, /events\[0\]\.buttons must be a whole number of at least 0, got -1/],
    ["time that runs backward", [good, { ...good, t: 0.5 }], {}, /events\[1\]\.t must not run backward, got 0\.5 after 1/],
    [
      "two clocks",
      [good, { ...good, t: 1.7e9 }],
      { repair: true },
      /events\[1\]\.t must be on one clock with the others, got 1700000000 \(seconds since 1970\) beside 1 \(seconds since a start\)/,
    ],
    ["milliseconds since 1970", [{ ...good, t: 1.7e12 }], {}, /events\[0\]\.t must be in seconds, got 1700000000000/],
    [
      "a start beyond the limits",
      [good],
      { start: { azimuth: 0, elevation: 91 }, elevationLimits: { min: -90, max: 90 } },
      /options\.start\.elevation must be at least -90 and at most 90, got 91/,
    ],
    [
      "limits the wrong way round",
      [good],
      { elevationLimits: { min: 90, max: -90 } },
      /options\.elevationLimits\.max must be finite and above 90, got -90/,
    ],
    ["an origin that is not finite", [good], { origin: Number.POSITIVE_INFINITY }, /options\.origin must be finite, got Infinity/],
  ])("refuses %s", (_, events, options, message) => {
    const read = (): unknown => fromRelativeMotion(events, { degPerCount: 1, ...options });
    expect(read).toThrow(RangeError);
    expect(read).toThrow(message);
  });
});
