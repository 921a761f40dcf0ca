import { isDeepStrictEqual } from "node:util";
import { fc, test } from "@fast-check/vitest";
import { describe, expect, expectTypeOf, it } from "vitest";
import type { CsvTables } from "../../src/trace/form/csv-tables.js";
import { chunkLines, recordingLine, sessionLine } from "../../src/trace/form/json-lines.js";
import { type FormatRecordingOptions, formatRecording } from "../../src/trace/format-recording.js";
import { parseRecording } from "../../src/trace/parse-recording.js";
import type { Recording, Session } from "../../src/trace/types.js";
import { sessionArb, wildSessionArb } from "../arbitraries.js";
import { naiveJsonLines, naiveTables, plain } from "../fuzz/naive-reader.js";

const column = (...values: number[]): Float64Array => Float64Array.from(values);

/** A session with something of every kind. */
function makeSession(change: Partial<Recording> = {}): Session {
  return {
    person: 'Ada "A", L.',
    startedAt: "2026-05-04T09:30:00+02:00",
    equipment: { id: "desk", refreshHz: 144, latency: 0.03 },
    recordings: [
      {
        schema: 1,
        space: { kind: "plane", unit: "px" },
        device: "mouse",
        trace: { t: column(0, 0.008, 0.016), x: column(1, -0, 5e-324), y: column(0.1, 1e21, -1e-7) },
        presses: [
          { t: 0.5, tUp: 0.6, by: "button", code: "", x: 1, y: 2, credited: "a,1" },
          { t: 0.7, by: "key", credited: null },
          { t: 0.8, by: "wheel" },
        ],
        targets: [
          { id: "a,1", tShown: 0, tGone: 0.5, shape: { kind: "circle", diameter: 20 }, at: { x: 5, y: 6 }, role: "goal" },
          {
            id: "line\nbreak",
            tShown: 0,
            shape: { kind: "rect", width: 3, height: 4, angle: -30 },
            at: { t: column(0, 1), x: column(1, 2), y: column(3, 4), scale: column(1, 2) },
          },
        ],
        trials: [
          {
            id: "1",
            kind: "acquire",
            tStart: 0,
            tEnd: 0.6,
            goals: ["a,1"],
            block: "b",
            condition: { width: 20, hand: "left", digits: "20" },
          },
          { id: "2", kind: "sequence", tStart: 1, goals: ["later"], block: "", condition: {} },
        ],
        marks: [
          { t: 0.2, tEnd: 0.3, kind: "lift" },
          { t: 0.4, kind: "gain" },
        ],
        frames: column(0, 1 / 144),
        ...change,
      },
    ],
  };
}

function deepFreeze(value: unknown): void {
  // columns cannot be frozen; they are compared instead
  if (value === null || typeof value !== "object" || ArrayBuffer.isView(value)) return;
  Object.freeze(value);
  Object.values(value).forEach(deepFreeze);
}

describe("formatRecording against outside values", () => {
  // Source: ECMAScript's JSON.parse, line by line (jsonlines.org: one JSON value a line), put together by a second reader of tests/fuzz.
  test.prop([fc.oneof(sessionArb, wildSessionArb)])("writes lines of JSON that say what the session says", (session) => {
    expect(isDeepStrictEqual(naiveJsonLines(formatRecording(session, { samplesPerLine: 5 })), plain(session))).toBe(true);
  });

  // Source: RFC 4180 section 2 (rules 1 to 5 read, 6 and 7 from memory), as a pattern in the second reader; ECMAScript's Number for the fields.
  test.prop([fc.oneof(sessionArb, wildSessionArb)])("writes tables that say what the session says", (session) => {
    expect(
      isDeepStrictEqual(
        naiveTables(formatRecording(session, { form: "csv" }), () => false),
        plain(session),
      ),
    ).toBe(true);
  });

  // Source: ECMA-262, Number::toString: as few digits as name the number; the sign of zero from IEEE 754.
  it("writes numbers with the fewest digits that name them, and the sign of zero", () => {
    const { samples } = formatRecording(makeSession(), { form: "csv" });
    expect(samples).toBe("recording,t,x,y\n1,0,1,0.1\n1,0.008,-0,1e+21\n1,0.016,5e-324,-1e-7\n");
    expect(formatRecording(makeSession())).toContain('"t":[0,0.008,0.016],"x":[1,-0,5e-324],"y":[0.1,1e+21,-1e-7]');
  });

  // Source: RFC 4180 section 2, rules 6 and 7 (from memory).
  it("puts fields with commas, quotes and line breaks in quotes", () => {
    const { session, targets, presses } = formatRecording(makeSession(), { form: "csv" });
    expect(session).toContain('person,"Ada ""A"", L."\n');
    expect(targets).toContain('1,"a,1",0,0.5,circle,20,,,,5,6,goal\n1,"line\nbreak",0,,rect,,3,4,-30,,,\n');
    expect(presses).toBe(
      'recording,t,tUp,by,code,x,y,counted,credited\n1,0.5,0.6,button,"",1,2,hit,"a,1"\n1,0.7,,key,,,,miss,\n1,0.8,,wheel,,,,,\n',
    );
  });
});

describe("formatRecording properties", () => {
  test.prop([fc.oneof(sessionArb, wildSessionArb), fc.integer({ min: 1, max: 30 })])(
    "says the same however many samples stand on a line",
    (session, samplesPerLine) => {
      const text = formatRecording(session, { samplesPerLine });
      expect(isDeepStrictEqual(parseRecording(text).session, session)).toBe(true);
      for (const line of text.trimEnd().split("\n")) {
        const { kind, t } = JSON.parse(line);
        if (kind === "samples" || kind === "frames") expect(t.length).toBeLessThanOrEqual(samplesPerLine);
      }
    },
  );

  test.prop([sessionArb])("writes the same text for what was read from it", (session) => {
    const text = formatRecording(session);
    expect(formatRecording(parseRecording(text).session)).toBe(text);
    const tables = formatRecording(session, { form: "csv" });
    expect(formatRecording(parseRecording(tables).session, { form: "csv" })).toEqual(tables);
  });

  test.prop([sessionArb])("leaves the session as it is", (session) => {
    const before = structuredClone(session);
    deepFreeze(session);
    formatRecording(session);
    formatRecording(session, { form: "csv" });
    expect(session).toEqual(before);
  });

  it("tells frames that never came from frames that nobody watched for", () => {
    for (const form of ["jsonl", "csv"] as const) {
      const read = (change: Partial<Recording>): Recording =>
        parseRecording(formatRecording(makeSession(change), { form: form as "csv" })).session.recordings[0]!;
      expect(read({ frames: column() }).frames).toEqual(column());
      const { frames: _, ...unwatched } = makeSession().recordings[0]!;
      const session = { ...makeSession(), recordings: [unwatched] };
      expect("frames" in parseRecording(formatRecording(session, { form: form as "csv" })).session.recordings[0]!).toBe(false);
    }
  });

  it("keeps a condition of any name a condition", () => {
    const condition = JSON.parse('{"__proto__":1,"constructor":"x","":2}');
    const trials = [{ id: "1", kind: "acquire" as const, tStart: 0, goals: [], block: "", condition }];
    for (const form of ["jsonl", "csv"] as const) {
      const { session } = parseRecording(formatRecording(makeSession({ trials }), { form: form as "csv" }));
      expect(isDeepStrictEqual(session.recordings[0]!.trials, trials)).toBe(true);
    }
  });

  it("leaves out tables without rows, but for the three that a session cannot do without", () => {
    const bare = makeSession({
      presses: [],
      targets: [],
      trials: [],
      marks: [],
      frames: column(),
      trace: { t: column(), x: column(), y: column() },
    });
    expect(Object.keys(formatRecording(bare, { form: "csv" })).sort()).toEqual(["recordings", "samples", "session"]);
  });

  it("can be written line by line as chunks come, and loses one line to a crash", () => {
    const { recordings, ...head } = makeSession();
    const { trace, presses, targets } = recordings[0]!;
    const chunk = (from: number, to: number) => ({ t: trace.t.slice(from, to), x: trace.x.slice(from, to), y: trace.y.slice(from, to) });
    const lines = [
      sessionLine(head),
      recordingLine(recordings[0]!, 1),
      ...chunkLines({ trace: chunk(0, 2), targets, presses: [{ t: 0.5, by: "button", credited: "a,1" }] }, 1, 100),
      ...chunkLines({ trace: chunk(2, 3), presses: [{ t: 0.5, tUp: 0.6, by: "button", credited: "a,1" }] }, 1, 100),
    ];
    const text = `${lines.join("\n")}\n`;
    const whole = parseRecording(text);
    expect(whole.session.recordings[0]).toMatchObject({ trace, targets, presses: [{ t: 0.5, tUp: 0.6 }] });
    expect(presses).toHaveLength(3);
    const { session, report } = parseRecording(text.slice(0, -10));
    expect(report).toMatchObject({ incomplete: true, lines: { found: lines.length, kept: lines.length - 1 } });
    expect(session.recordings[0]).toMatchObject({ trace, targets, presses: [{ t: 0.5 }] });
  });

  it("writes no line that its reader would find too long", () => {
    const n = 100_000;
    const long = new Float64Array(n).map((_, i) => -1.23456789012345e-300 * (i + 1));
    const t = new Float64Array(n).map((_, i) => i / 7);
    const text = formatRecording(makeSession({ trace: { t, x: long, y: long } }), { samplesPerLine: n });
    expect(Math.max(...text.split("\n").map((line) => line.length))).toBeLessThan(2 ** 24);
    expect(parseRecording(text).session.recordings[0]!.trace.x).toEqual(long);
  });

  it("has types that follow the form", () => {
    const session = makeSession();
    expectTypeOf(formatRecording(session)).toEqualTypeOf<string>();
    expectTypeOf(formatRecording(session, { form: "jsonl" })).toEqualTypeOf<string>();
    expectTypeOf(formatRecording(session, { form: "csv" })).toEqualTypeOf<CsvTables>();
    expect(typeof formatRecording(session)).toBe("string");
  });
});

describe("formatRecording bad input", () => {
  const trial = makeSession().recordings[0]!.trials[0]!;
  const target = makeSession().recordings[0]!.targets[0]!;
  const track = (more: object) => [{ ...target, at: { t: column(0, 1), x: column(1, 2), y: column(3, 4), ...more } }];
  const cases: [string, object, RegExp][] = [
    [
      "a sample that is not finite",
      { trace: { t: column(0), x: column(Number.NaN), y: column(0) } },
      /session\.recordings\[0\]\.trace\.x\[0\] must be finite, got NaN/,
    ],
    [
      "time that runs backward",
      { trace: { t: column(1, 0), x: column(0, 0), y: column(0, 0) } },
      /recordings\[0\]\.trace\.t must not run backward/,
    ],
    ["frames that run backward", { frames: column(1, 0) }, /recordings\[0\]\.frames must not run backward, got .*frames\[1\] = 0 after 1/],
    [
      "unequal columns",
      { trace: { t: column(0, 1), x: column(0), y: column(0, 0) } },
      /trace\.x must have 2 entries like the other columns, got 1/,
    ],
    ["columns of another kind", { trace: { t: [0], x: [0], y: [0] } }, /trace\.t must be a Float64Array, got an array of 1/],
    ["another schema", { schema: 2 }, /recordings\[0\]\.schema must be 1, got 2/],
    ["a space of mixed units", { space: { kind: "view", unit: "px" } }, /recordings\[0\]\.space\.unit must be "deg", got "px"/],
    ["a field that no file has room for", { pilot: true }, /session\.recordings\[0\]: field must be one of schema, .*, got "pilot"/],
    [
      "such a field of an entry",
      { marks: [{ t: 0, kind: "lift", note: "x" }] },
      /marks\[0\]: field must be one of t, tEnd, kind, got "note"/,
    ],
    ["an id given twice", { targets: [target, target] }, /targets\[1\]\.id must be given once, got "a,1"/],
    ["an empty id", { targets: [{ ...target, id: "" }] }, /targets\[0\]\.id must be a text that is not empty, got ""/],
    [
      "a width of 0",
      { targets: [{ ...target, shape: { kind: "rect", width: 0, height: 1 } }] },
      /targets\[0\]\.shape\.width must be above 0, got 0/,
    ],
    [
      "a track without samples",
      { targets: track({ t: column(), x: column(), y: column() }) },
      /targets\[0\]\.at must have a sample, got none/,
    ],
    ["a scale of 0", { targets: track({ scale: column(1, 0) }) }, /targets\[0\]\.at\.scale\[1\] must be above 0, got 0/],
    [
      "a goal that is not there",
      { trials: [{ ...trial, goals: ["a,1", "b"] }] },
      /trials\[0\]\.goals\[1\] must be the id of a target of the recording, got "b"/,
    ],
    [
      "a condition that is neither number nor text",
      { trials: [{ ...trial, condition: { a: null } }] },
      /trials\[0\]\.condition\.a must be a text or a finite number, got null/,
    ],
    ["a credit for no target", { presses: [{ t: 0, by: "key", credited: "b" }] }, /presses\[0\]\.credited must be the id of a target/],
    ["a press released before it went down", { presses: [{ t: 1, tUp: 0, by: "key" }] }, /presses\[0\]\.tUp must be at least t = 1, got 0/],
    ["a list that is none", { marks: undefined }, /recordings\[0\]\.marks must be a list, got undefined/],
  ];
  it.each(cases)("refuses %s", (_, change, message) => {
    const session = makeSession(change as Partial<Recording>);
    for (const form of ["jsonl", "csv"] as const) expect(() => formatRecording(session, { form: form as "csv" })).toThrow(message);
  });

  it("refuses a press that a reader of lines would take for the end of the one before", () => {
    const presses = [
      { t: 1, by: "button" as const },
      { t: 1, tUp: 2, by: "button" as const },
    ];
    expect(() => formatRecording(makeSession({ presses }))).toThrow(/presses\[1\]\.tUp must not follow the same entry without one, got 2/);
    const { session } = parseRecording(formatRecording(makeSession({ presses }), { form: "csv" }));
    expect(session.recordings[0]!.presses).toEqual(presses);
  });

  it("refuses half a character in tables, where it would not survive the file, and keeps it in JSON", () => {
    const session = makeSession({ device: "\ud83d" });
    expect(() => formatRecording(session, { form: "csv" })).toThrow(
      /session must have whole characters in table recordings, got half a pair/,
    );
    expect(parseRecording(formatRecording(session)).session).toEqual(session);
  });

  it("refuses what is no session, and options out of range", () => {
    const format =
      (session: unknown, options?: object): (() => unknown) =>
      () =>
        formatRecording(session as Session, options as FormatRecordingOptions as never);
    expect(format(undefined)).toThrow(/^formatRecording: session must be an object, got nothing$/);
    expect(format({ ...makeSession(), recordings: [] })).toThrow(/session\.recordings must hold at least one recording, got 0/);
    expect(format({ ...makeSession(), recordings: 5 })).toThrow(/session\.recordings must be a list, got 5/);
    expect(format({ ...makeSession(), startedAt: "yesterday" })).toThrow(
      /session\.startedAt must be a date, time and offset as in .*, got "yesterday"/,
    );
    expect(format({ ...makeSession(), equipment: { id: "e", reportHz: "fast" } })).toThrow(
      /session\.equipment\.reportHz must be a number, got "fast"/,
    );
    expect(format(makeSession(), { form: "xml" })).toThrow(/options\.form must be one of "jsonl", "csv", got "xml"/);
    expect(format(makeSession(), { samplesPerLine: 0 })).toThrow(
      /options\.samplesPerLine must be a whole number at least 1 and at most 100000, got 0/,
    );
  });

  it("tells a wrong kind from a wrong value", () => {
    expect(() => formatRecording(makeSession({ presses: [{ t: "1", by: "key" }] as never }))).toThrow(TypeError);
    expect(() => formatRecording(makeSession({ presses: [{ t: Number.NaN, by: "key" }] }))).toThrow(RangeError);
  });
});
