import { readFileSync } from "node:fs";
import { isDeepStrictEqual } from "node:util";
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { formatRecording } from "../../src/trace/format-recording.js";
import { type ParsedRecording, type ParseRecordingOptions, parseRecording } from "../../src/trace/parse-recording.js";
import { sessionArb, wildSessionArb } from "../arbitraries.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";

const SESSION = '{"kind":"session","schema":1,"person":"Ada","startedAt":"2026-05-04T09:30:00+02:00","equipment":{"id":"desk"}}';
const RECORDING = '{"kind":"recording","space":{"kind":"plane","unit":"px"},"device":"mouse"}';
const TARGET = '{"kind":"target","id":"a","tShown":0,"shape":{"kind":"circle","diameter":20},"at":{"x":5,"y":6}}';
const HEAD = [SESSION, RECORDING, TARGET];
const SAMPLES = '{"kind":"samples","t":[0,0.008,0.016],"x":[1,2,3],"y":[4,5,6]}';

const jsonl = (...lines: string[]): string => `${[...HEAD, ...lines].join("\n")}\n`;
const parse = (lines: string | string[], options?: ParseRecordingOptions): ParsedRecording =>
  parseRecording(typeof lines === "string" ? lines : jsonl(...lines), options);
const only = ({ session }: ParsedRecording) => session.recordings[0]!;

async function* each<T>(pieces: Iterable<T>): AsyncGenerator<T> {
  yield* pieces;
}

/** Cuts at the given places, in any order and number. */
function cutAt<T extends string | Uint8Array>(whole: T, places: readonly number[]): T[] {
  const borders = [0, ...places.map((place) => place % (whole.length + 1)).sort((a, b) => a - b), whole.length];
  return borders.slice(1).map((to, i) => whole.slice(borders[i], to) as T);
}

describe("parseRecording against outside values", () => {
  // Source: jsonlines.org, section 3: \n ends a line, \r\n too, the last line end may be missing; section 1 knows no byte order mark, files have it.
  it("reads the same from lines with either end, with a byte order mark, empty lines and no last line end", () => {
    const expected = parse([SAMPLES]);
    const text = jsonl(SAMPLES);
    for (const other of [text.replaceAll("\n", "\r\n"), `\ufeff${text}`, text.replaceAll("\n", "\n\n \t\r\n"), text.trimEnd()]) {
      expect(parseRecording(other).session).toEqual(expected.session);
    }
  });

  // Source: RFC 4180 section 2, rules 1, 2 and 5 (read), 6 and 7 (from memory).
  it("reads fields in quotes, with commas, line breaks and quotes in them", () => {
    const { session } = parseRecording({
      session: 'key,value\r\n"schema","1"\r\nperson,"Ada, ""A"" \r\nL."\r\n',
      samples: '"t","x","y"\r\n"0",1,"2"\r\n0.5,"3",4',
    });
    expect(session.person).toBe('Ada, "A" \r\nL.');
    expect(only({ session } as ParsedRecording).trace).toEqual({
      t: Float64Array.of(0, 0.5),
      x: Float64Array.of(1, 3),
      y: Float64Array.of(2, 4),
    });
  });

  const recordings = ["traces/p07-a.csv", "traces/p20-a.csv", "traces/p29-a.csv", "traces/p35-a.csv"];
  // Source: Fülöp et al. 2016, mouse recordings of office work; rows, missing positions and path lengths of facts.json, computed with NumPy, three decimals.
  it.skipIf(!sharedPath("data", "office-remote")).each(recordings)(
    `reads %s whole but for its missing positions (skipped: ${SHARED_ABSENT})`,
    (name) => {
      const { files } = JSON.parse(readFileSync(sharedPath("data", "office-remote", "facts.json")!, "utf8"));
      const { rows, sentinelRows, pathLength_px } = files[name];
      const text = readFileSync(sharedPath("data", "office-remote", name)!, "utf8").replace("t_ms", "t");
      const parsed = parseRecording(text, { file: name, repair: true, missing: 65535 });
      expect(parsed.report).toMatchObject({ samples: { found: rows, kept: rows - sentinelRows, dropped: sentinelRows }, sorted: 0 });
      expect(parsed.report.reasons).toEqual(sentinelRows > 0 ? { missingCode: sentinelRows } : {});
      expect(parsed.report.ignored).toEqual(["samples.event", "samples.button", "samples.buttons", "samples.recorder_ms"]);
      const { x, y } = only(parsed).trace;
      let path = 0;
      for (let i = 1; i < x.length; i++) path += Math.hypot(x[i]! - x[i - 1]!, y[i]! - y[i - 1]!);
      expect(path).toBeCloseTo(pathLength_px, 3);
    },
  );
});

describe("parseRecording properties", () => {
  test.prop([fc.oneof(sessionArb, wildSessionArb), fc.constantFrom("jsonl", "csv")])(
    "gives back every session that was written",
    (session, form) => {
      const { session: read, report } = parseRecording(formatRecording(session, { form: form as "csv", samplesPerLine: 7 }));
      expect(isDeepStrictEqual(read, session)).toBe(true);
      expect(report).toMatchObject({
        form,
        notes: [],
        reasons: {},
        replaced: 0,
        sorted: 0,
        incomplete: false,
        unterminated: false,
        assumed: [],
        ignored: [],
      });
      expect(report.lines.kept).toBe(report.lines.found);
    },
  );

  const places = fc.array(fc.nat(), { maxLength: 10 });
  test.prop([fc.oneof(sessionArb, wildSessionArb), places, fc.constantFrom("\n", "\r\n"), fc.boolean()])(
    "reads the same from pieces of text or bytes, cut anywhere",
    async (session, at, lineEnd, alone) => {
      const text = (alone ? formatRecording(session, { form: "csv" }).samples : formatRecording(session)).replaceAll("\n", lineEnd);
      const whole = parseRecording(text);
      expect(await parseRecording(each(cutAt(text, at)))).toEqual(whole);
      expect(await parseRecording(each(cutAt(new TextEncoder().encode(text), at)))).toEqual(whole);
    },
  );

  test.prop([sessionArb, fc.nat()])("reads every whole line of a file that was cut, and says that it was", (session, place) => {
    const text = formatRecording(session, { samplesPerLine: 7 });
    // beyond the first recording line, for without it there is nothing to give back
    const first = text.indexOf("\n", text.indexOf("\n") + 1) + 1;
    const cut = text.slice(0, first + (place % (text.length - first + 1)));
    const { session: read, report } = parseRecording(cut);
    expect(read).toEqual(parseRecording(cut.slice(0, report.incomplete ? cut.lastIndexOf("\n") + 1 : cut.length)).session);
    // a line can only be whole without its end when all of it but the end is there
    expect(report.incomplete).toBe(!(cut.endsWith("\n") || text[cut.length] === "\n"));
  });

  test.prop([sessionArb, fc.infiniteStream(fc.nat())])(
    "with repair, sorts samples in any order back and counts those that came late",
    (session, draws) => {
      const { samples } = formatRecording(session, { form: "csv" });
      const [header, ...rows] = samples.trimEnd().split("\n");
      const shuffled = rows.map((row) => ({ row, key: draws.next().value! })).sort((a, b) => a.key - b.key);
      const { session: read, report } = parseRecording([header, ...shuffled.map(({ row }) => row), ""].join("\n"), { repair: true });
      const sorted = (t: Float64Array): boolean => t.every((time, i) => i === 0 || time >= t[i - 1]!);
      expect(read.recordings.every(({ trace }) => sorted(trace.t))).toBe(true);
      expect(report.samples).toEqual({ found: rows.length, kept: rows.length, dropped: 0 });
      const written = read.recordings.flatMap(({ trace: { t, x, y } }) => Array.from(t, (time, i) => [time, x[i], y[i]].join()));
      expect(written.sort()).toEqual(rows.map((row) => row.slice(row.indexOf(",") + 1)).sort());
    },
  );

  test.prop([sessionArb])("with repair, leaves a session that is in order as it is", (session) => {
    const text = formatRecording(session);
    expect(parseRecording(text, { repair: true })).toEqual(parseRecording(text));
  });

  it("keeps the order of samples of one time when it sorts", () => {
    const { session, report } = parse("t,x,y\n2,1,0\n1,2,0\n1,3,0\n2,4,0\n", { repair: true });
    expect(Array.from(session.recordings[0]!.trace.x)).toEqual([2, 3, 1, 4]);
    expect(report.sorted).toBe(2);
  });

  it("reports in plain data, and copies into plain data", () => {
    const { report } = parse(["no json", SAMPLES], { repair: true });
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
    expect(structuredClone(report)).toEqual(report);
  });

  it("keeps times since 1970 apart to the last bit", () => {
    const { t } = only(parse("t,x,y\n1700000000.0001,1,1\n1700000000.0002,2,2\n")).trace;
    expect(Array.from(t)).toEqual([1700000000.0001, 1700000000.0002]);
  });

  it("completes presses and marks by their ends, and replaces targets and trials of the same id", () => {
    const { session, report } = parse([
      '{"kind":"press","t":1,"by":"button","code":"0"}',
      '{"kind":"mark","t":1,"type":"lift"}',
      '{"kind":"trial","id":"1","type":"acquire","tStart":0,"goals":["a"],"block":"b","condition":{}}',
      '{"kind":"press","t":1,"by":"button","code":"0","tUp":1.1}',
      '{"kind":"mark","t":1,"type":"lift","tEnd":2}',
      '{"kind":"trial","id":"1","type":"acquire","tStart":0,"tEnd":3,"goals":["a"],"block":"b","condition":{}}',
      TARGET.replace('"tShown":0', '"tShown":0,"tGone":3'),
    ]);
    expect(session.recordings[0]).toMatchObject({
      presses: [{ t: 1, tUp: 1.1, by: "button", code: "0" }],
      marks: [{ t: 1, tEnd: 2, kind: "lift" }],
      trials: [{ id: "1", tEnd: 3 }],
      targets: [{ id: "a", tGone: 3 }],
    });
    expect(report).toMatchObject({ replaced: 4, lines: { found: 10, kept: 10, dropped: 0 } });
  });

  it("keeps two presses of one button at one time, and two of the wheel", () => {
    const press = '{"kind":"press","t":1,"tUp":1.1,"by":"button","code":"0"}';
    const turn = '{"kind":"press","t":1,"by":"wheel"}';
    expect(only(parse([press, press, turn, turn])).presses).toHaveLength(4);
  });

  it("lengthens the track of a moving target line by line", () => {
    const moving =
      '{"kind":"target","id":"m","tShown":0,"shape":{"kind":"rect","width":2,"height":3},"at":{"t":[0],"x":[1],"y":[2],"scale":[1]}}';
    const { targets } = only(parse([moving, '{"kind":"track","target":"m","t":[1,2],"x":[3,4],"y":[5,6],"scale":[2,3]}']));
    const [t, x, y, scale] = [
      [0, 1, 2],
      [1, 3, 4],
      [2, 5, 6],
      [1, 2, 3],
    ].map((column) => Float64Array.from(column));
    expect(targets[1]!.at).toEqual({ t, x, y, scale });
  });

  it("gives several recordings, by their number or in the order they begin", () => {
    const view = '{"kind":"recording","space":{"kind":"view","unit":"deg"},"device":"mouse"}';
    const { session } = parse([SAMPLES, view, '{"kind":"mark","t":1,"type":"gap"}', '{"kind":"mark","recording":1,"t":2,"type":"gap"}']);
    expect(session.recordings.map(({ space, marks }) => [space.kind, marks[0]!.t])).toEqual([
      ["plane", 2],
      ["view", 1],
    ]);
  });

  it("lets a running trial name a target that is still to come", () => {
    const trial = '{"kind":"trial","id":"1","type":"sequence","tStart":0,"goals":["a","later"],"block":"b","condition":{}}';
    expect(only(parse([trial])).trials[0]!.goals).toEqual(["a", "later"]);
  });

  it("takes a samples table alone, in any order of columns, and says what it assumed and what it passed over", () => {
    const { session, report } = parseRecording('pressure,"y","x","t"\n0.5,3,2,1\n');
    expect(session).toMatchObject({ person: "unknown", startedAt: "1970-01-01T00:00:00Z", equipment: { id: "unknown" } });
    expect(session.recordings).toMatchObject([
      { space: { kind: "plane", unit: "px" }, device: "unknown", trace: { t: Float64Array.of(1) } },
    ]);
    expect(report).toMatchObject({ assumed: ["person", "startedAt", "equipment.id", "space", "device"], ignored: ["samples.pressure"] });
  });

  it("reads a last row without line end, and says that a cut in it cannot be seen", () => {
    expect(parse("t,x,y\n0,1,2\n1,3,4").report).toMatchObject({ samples: { kept: 2 }, unterminated: true, incomplete: false });
    expect(parse("t,x,y\n0,1,2\n1,3").report).toMatchObject({ samples: { kept: 1, dropped: 1 }, incomplete: true, reasons: { cut: 1 } });
  });

  it("reads the files that the page on file formats shows", () => {
    const page = readFileSync(new URL("../../docs/file-formats.md", import.meta.url), "utf8");
    const [lines, table] = ["json", "csv"].map((kind) => new RegExp(`\`\`\`${kind}\\n(.*?)\`\`\``, "s").exec(page)![1]!);
    expect(parse(lines!).report).toMatchObject({ lines: { found: 8, kept: 8 }, replaced: 2, notes: [] });
    expect(parse(table!).report).toMatchObject({ samples: { found: 3, kept: 3 }, notes: [] });
  });

  it("reads a million rows of samples", () => {
    const text = `t,x,y\n${Array.from({ length: 1e6 }, (_, i) => `${i / 1000},${i % 1920},${i % 1080}`).join("\n")}\n`;
    const begun = performance.now();
    expect(only(parseRecording(text)).trace.t).toHaveLength(1e6);
    // 0.2 to 0.3 s on an idle machine; the bound is for one that is busy with other tests
    expect(performance.now() - begun).toBeLessThan(5000);
  });
});

describe("parseRecording bad input", () => {
  const refused: [string, string | string[], RegExp, ParseRecordingOptions?][] = [
    [
      "time that runs backward",
      ['{"kind":"samples","t":[1,2,1.5],"x":[1,2,3],"y":[1,2,3]}'],
      /input:4:28: t\[2\] must be at least the time before, 2, got 1.5/,
    ],
    ["time that runs backward in a table", "t,x,y\n2,0,0\n1,0,0\n", /input:3:1: t must be at least the time before, 2, got 1/],
    ["a sample that is no number", ['{"kind":"samples","t":[1],"x":[null],"y":[1]}'], /input:4:32: x\[0\] must be a number, got null/],
    ["a number too large for a double", ['{"kind":"samples","t":[1],"x":[1e999],"y":[1]}'], /x\[0\] must be finite, got Infinity/],
    ["NaN in a table", "t,x,y\n0,NaN,0\n", /input:2:3: x must be a number, got "NaN"/],
    ["an infinite number in a table", "t,x,y\n0,0,1e999\n", /input:2:5: y must be finite, got Infinity/],
    ["an empty field", "t,x,y\n0,,0\n", /input:2:3: x must be a number, got ""/],
    [
      "a missing-value code",
      "t,x,y\n0,65535,0\n",
      /input:2:3: position must not be the code of a missing position, got 65535, 0/,
      { missing: 65535 },
    ],
    [
      "a pair that is a missing-value code",
      "t,x,y\n0,0,5\n0,0,-1\n",
      /input:3:3: position must not be the code/,
      { missing: { x: 0, y: -1 } },
    ],
    ["unequal columns", ['{"kind":"samples","t":[1,2],"x":[1],"y":[1,2]}'], /input:4:33: x must have 2 entries like t, got 1/],
    ["a row with too few fields", "t,x,y\n0,1\n1,1,1\n", /input:2:1: row must have 3 fields like the header, got 2/],
    ["a row with too many", "t,x,y\n0,1,2,3\n", /input:2:1: row must have 3 fields like the header, got 4/],
    ["a width of 0", [TARGET.replace('"a"', '"b"').replace("20", "0")], /input:4:74: shape.diameter must be above 0, got 0/],
    [
      "a trial that ends before it starts",
      ['{"kind":"trial","id":"1","type":"acquire","tStart":2,"tEnd":1,"goals":[],"block":"","condition":{}}'],
      /tEnd must be at least tStart = 2, got 1/,
    ],
    [
      "a press released before it went down",
      ['{"kind":"press","t":2,"tUp":1,"by":"key"}'],
      /input:4:29: tUp must be at least t = 2, got 1/,
    ],
    ["a press with half a position", ['{"kind":"press","t":2,"x":1,"by":"key"}'], /y must be a number, got nothing/],
    ["an unknown kind", ['{"kind":"sample","t":[]}'], /input:4:9: kind must be one of session, .*, got "sample"/],
    ["a kind that objects inherit", ['{"kind":"constructor"}'], /kind must be one of/],
    [
      "an unknown field",
      ['{"kind":"press","t":1,"by":"key","tup":2}'],
      /input:4:40: field must be one of kind, recording, t, .*, got "tup"/,
    ],
    ["a field given twice", ['{"kind":"press","t":1,"by":"key","t":2}'], /input:4:34: field "t" must come once, got it twice/],
    ["another schema", SESSION.replace('"schema":1', '"schema":2'), /input:1:28: schema must be 1, got 2/],
    ["no schema", SESSION.replace('"schema":1,', ""), /input:1:1: schema must be 1, got nothing/],
    ["a start without offset", SESSION.replace("+02:00", ""), /startedAt must be a date, time and offset/],
    ["equipment that cannot be", SESSION.replace('"desk"', '"desk","refreshHz":0'), /equipment.refreshHz must be above 0, got 0/],
    [
      "a recording begun twice",
      ['{"kind":"recording","recording":1,"space":{"kind":"plane","unit":"px"},"device":"mouse"}'],
      /recording 1 must be begun once, got it again/,
    ],
    [
      "a recording left out",
      [RECORDING.replace('"space"', '"recording":3,"space"')],
      /input:4:33: recording must be at most 2, the next one, got 3/,
    ],
    [
      "a line of a recording that was not begun",
      ['{"kind":"mark","recording":2,"t":1,"type":"gap"}'],
      /input:4:28: recording must be the number of a recording begun before, got 2/,
    ],
    ["a space of mixed units", [RECORDING.replace('"px"', '"deg"')], /space.unit must be one of "px", "mm", "count", got "deg"/],
    [
      "a credit for a target that is not there",
      ['{"kind":"press","t":1,"by":"key","credited":"b"}'],
      /input:4:45: credited must be the id of a target of the recording, got "b"/,
    ],
    [
      "a goal that is not there",
      ['{"kind":"trial","id":"1","type":"acquire","tStart":0,"tEnd":1,"goals":["a","b"],"block":"","condition":{}}'],
      /input:4:71: goals\[1\] must be the id of a target/,
    ],
    [
      "a track of a target that stands",
      ['{"kind":"track","target":"a","t":[1],"x":[1],"y":[1]}'],
      /target must be the id of a moving target, got "a"/,
    ],
    ["a line that is not JSON", ["{kind}"], /input:4:2: line must be JSON, got "kind}"/],
    ["a line that is no object", ["[1]"], /input:4:1: line must be a JSON object, got an array of 1/],
    ["entries before the session", `${RECORDING}\n${SESSION}\n`, /input:1:9: kind must be "session" on the first line, got "recording"/],
    ["a line that is too long", ["x".repeat(300)], /input:4:1: line must have at most 200 characters, got more/, { maxLineLength: 200 }],
    ["a quote within a field", 't,x,y\n0,1"2,3\n', /input:2:4: field must begin with a quote to hold one/],
    ["a table without its columns", "time,x,y\n0,1,2\n", /input:1:1: header must name the columns t, x, y between commas, got "time,x,y"/],
    ["a table with another separator", "t;x;y\n0;1;2\n", /header must name the columns t, x, y between commas, got "t;x;y"/],
    ["a column named twice", "t,x,y,x\n0,1,2,3\n", /input:1:7: header must name column x once, got it twice/],
    ["an empty text", "", /input:1:1: file must have a line with content, got none/],
    ["a session line alone", SESSION, /input:1:1: file must have a whole recording line, got none/],
    ["nothing but half a session line", SESSION.slice(0, 50), /input:1:1: file must have a whole session line, got none/],
  ];
  it.each(refused)("refuses %s with its place", (_, lines, message, options) => {
    expect(() => parse(lines, options)).toThrow(RangeError);
    expect(() => parse(lines, options)).toThrow(message);
  });

  const dropped: [string, string | string[], object, ParseRecordingOptions?][] = [
    [
      "bad samples",
      ['{"kind":"samples","t":[1,2,null],"x":[1,1e999,3],"y":[1,2,3]}'],
      { samples: { found: 3, kept: 1, dropped: 2 }, reasons: { badValue: 2 } },
    ],
    [
      "samples at the missing-value code",
      "t,x,y\n0,65535,65535\n1,5,6\n",
      { samples: { found: 2, kept: 1, dropped: 1 }, reasons: { missingCode: 1 } },
      { missing: 65535 },
    ],
    [
      "unequal columns",
      ['{"kind":"samples","t":[1,2],"x":[1],"y":[1,2]}'],
      { samples: { found: 2, kept: 0, dropped: 2 }, reasons: { unequalColumns: 1 } },
    ],
    [
      "a target of no width, and the trial that wants it",
      [
        TARGET.replace('"a"', '"b"').replace("20", "0"),
        '{"kind":"trial","id":"1","type":"acquire","tStart":0,"tEnd":1,"goals":["b"],"block":"","condition":{}}',
      ],
      { lines: { found: 5, kept: 3, dropped: 2 }, reasons: { badValue: 1, unknownName: 1 } },
    ],
    ["lines that are not JSON", ["{", SAMPLES], { lines: { found: 5, kept: 4, dropped: 1 }, reasons: { notJson: 1 } }],
    [
      "lines that are too long",
      ["x".repeat(300)],
      { lines: { found: 4, kept: 3, dropped: 1 }, reasons: { tooLong: 1 } },
      { maxLineLength: 200 },
    ],
    ["lines of unknown kinds", ['{"kind":"note"}'], { reasons: { unknownKind: 1 } }],
    ["a session line that came before", [SESSION], { reasons: { duplicate: 1 } }],
    ["a row with too few fields", "t,x,y\n0,1\n1,1,1\n", { samples: { found: 2, kept: 1, dropped: 1 }, reasons: { fieldCount: 1 } }],
  ];
  it.each(dropped)("with repair drops %s and counts it", (_, lines, report, options) => {
    const parsed = parse(lines, { ...options, repair: true });
    expect(parsed.report).toMatchObject(report);
    expect(parsed.report.notes[0]).toMatchObject({
      file: "input",
      action: "dropped",
      why: expect.stringMatching(/^parseRecording: input:\d+:\d+: .* must .*, got /),
    });
  });

  it("with repair clears single fields where the rest can stand", () => {
    const { session, report } = parse(
      ['{"kind":"press","t":1,"by":"key","tup":2,"x":65535,"y":3,"credited":"gone"}', SESSION.replace('"desk"', '"desk"')],
      { repair: true, missing: 65535 },
    );
    expect(session.recordings[0]!.presses).toEqual([{ t: 1, by: "key" }]);
    expect(report.reasons).toEqual({ unknownField: 1, missingCode: 1, unknownName: 1, duplicate: 1 });
    expect(report.notes.filter(({ action }) => action === "cleared")).toHaveLength(3);
    const odd = parse(`${SESSION.replace('"desk"', '"desk","refreshHz":-5')}\n${RECORDING}\n`, { repair: true });
    expect(odd.session.equipment).toEqual({ id: "desk" });
  });

  it("lists the first hundred notes and counts them all", () => {
    const { report } = parse(`t,x,y\n${"a,b,c\n".repeat(250)}1,2,3\n`, { repair: true });
    expect(report.notes).toHaveLength(100);
    expect(report).toMatchObject({ reasons: { badValue: 250 }, samples: { found: 251, kept: 1, dropped: 250 } });
  });

  const beyond: [string, string | string[], RegExp][] = [
    ["two sessions", [SESSION.replace("Ada", "Bob")], /session must be one, got "Ada" from .* and "Bob" from/],
    [
      "two spaces in one recording",
      ['{"kind":"recording","recording":1,"space":{"kind":"view","unit":"deg"},"device":"mouse"}'],
      /got plane in px, device "mouse" and then view in deg, device "mouse"/,
    ],
    ["another schema", SESSION.replace('"schema":1', '"schema":"2"'), /schema must be 1, got "2"/],
    ["no session", `${RECORDING}\n`, /must have a whole session line/],
    ["a header without its columns", "a,b\n1,2\n", /header must name/],
  ];
  it.each(beyond)("refuses %s even where repair is asked for", (_, lines, message) => {
    expect(() => parse(lines, { repair: true })).toThrow(message);
  });

  it("names two spaces of one recording in tables", () => {
    const recordings = "recording,space,unit,device\n1,plane,px,mouse\n1,view,deg,mouse\n";
    expect(() => parseRecording({ samples: "t,x,y\n", recordings })).toThrow(
      /input\/recordings:3:1: recording 1 must be .*plane in px.*view in deg/,
    );
  });

  it("refuses what tables say of each other wrongly, with table and line", () => {
    const samples = "t,x,y\n0,1,2\n";
    const targets = "id,tShown,shape,diameter,x,y\na,0,circle,20,5,6\n";
    const trials = "id,kind,tStart,tEnd\n1,acquire,0,1\n";
    const cases: [object, RegExp][] = [
      [{ targets: `${targets}a,0,circle,20,5,6\n` }, /day\/targets:3:1: id must be given once, got "a"/],
      [{ targets: "id,tShown,shape,diameter\na,0,circle,20\n" }, /day\/targets:2:1: target must have x and y, or rows in the table tracks/],
      [{ targets, tracks: "target,t,x,y\nb,0,1,2\n" }, /day\/tracks:2:1: target must be the id of a target of the recording, got "b"/],
      [
        { targets, trials, goals: "trial,target\n1,a\n1,b\n" },
        /day\/goals:3:3: goals\[1\] must be the id of a target of the recording, got "b"/,
      ],
      [{ trials, goals: "trial,target\n2,a\n" }, /day\/goals:2:1: trial must be the id of a trial of the recording, got "2"/],
      [
        { trials, conditions: "trial,name,type,value\n1,w,number,wide\n" },
        /day\/conditions:2:12: value must be a finite number, got "wide"/,
      ],
      [
        { targets, presses: "t,by,counted,credited\n1,key,miss,a\n" },
        /day\/presses:2:7: counted must be nothing or hit where credited is not, got "miss"/,
      ],
      [{ session: "key,value\nperson,Ada\n" }, /day\/session:1:1: table must have a row with key schema/],
      [{ session: "key,value\nschema,2\n" }, /day\/session:2:8: schema must be 1, got "2"/],
      [{ session: "key,value\nschema,1\nequipment.reportHz,fast\n" }, /day\/session:3:20: equipment.reportHz must be a number, got "fast"/],
      [{ marks: "" }, /day\/marks:1:1: table must have a header row, got none/],
    ];
    for (const [tables, message] of cases) expect(() => parseRecording({ samples, ...tables }, { file: "day" })).toThrow(message);
  });

  it("takes what follows from a cut table for no mistake of its own", () => {
    const tables = {
      samples: "t,x,y\n",
      targets: "id,tShown,shape,diameter,x,y\na,0,circle,20,5,6\nb,0,circ",
      presses: "t,by,credited\n1,key,b\n",
    };
    const { session, report } = parseRecording(tables);
    expect(session.recordings[0]!.presses).toEqual([{ t: 1, by: "key" }]);
    expect(report).toMatchObject({ incomplete: true, reasons: { cut: 1, unknownName: 1 } });
  });

  it("names the line of bytes that are not UTF-8, and drops it with repair", async () => {
    const bytes = Uint8Array.from([...new TextEncoder().encode("t,x,y\n0,1,2\n"), 0xc3, 0x28, 10, ...new TextEncoder().encode("1,2,3\n")]);
    await expect(parseRecording(each([bytes]))).rejects.toThrow(/input:3:1: line must be UTF-8 text, got other bytes/);
    expect((await parseRecording(each([bytes]), { repair: true })).report).toMatchObject({ reasons: { notUtf8: 1 }, samples: { kept: 2 } });
  });

  it("does not wait for the end of a line that has none", async () => {
    let sent = 0;
    async function* endless(): AsyncGenerator<string> {
      for (;;) {
        sent++;
        yield "x".repeat(1000);
      }
    }
    await expect(parseRecording(endless(), { maxLineLength: 10_000 })).rejects.toThrow(
      /input:1:1: line must have at most 10000 characters/,
    );
    expect(sent).toBe(11);
  });

  it("refuses sources and options of the wrong kind", () => {
    const wrong =
      (options: object): (() => unknown) =>
      () =>
        parseRecording("t,x,y\n", options as ParseRecordingOptions);
    expect(() => parseRecording(5 as unknown as string)).toThrow(
      /source must be a text, tables of text or an async iterable of pieces, got 5/,
    );
    expect(() => parseRecording(new Uint8Array(1) as unknown as string)).toThrow(TypeError);
    expect(() => parseRecording({ samples: "t,x,y\n", rows: "" } as never)).toThrow(
      /source must have only the tables session, .*, got "rows"/,
    );
    expect(() => parseRecording({ samples: 5 } as never)).toThrow(/source.samples must be a text, got number/);
    expect(() => parseRecording({ samples: "t,x,y\n" }, { form: "jsonl" })).toThrow(/options.form must be "csv" for tables/);
    expect(wrong({ file: 5 })).toThrow(/options.file must be a text, got 5/);
    expect(wrong({ form: "xml" })).toThrow(/options.form must be one of "jsonl", "csv", got "xml"/);
    expect(wrong({ repair: 1 })).toThrow(/options.repair must be true or false, got 1/);
    expect(wrong({ missing: Number.NaN })).toThrow(/options.missing must be finite, got NaN/);
    expect(wrong({ missing: { x: 1 } })).toThrow(/options.missing.y must be a number, got undefined/);
    expect(wrong({ maxLineLength: 0 })).toThrow(/options.maxLineLength must be a whole number/);
  });

  it("rejects rather than throws where the source is asynchronous", async () => {
    await expect(parseRecording(each(["t,x,y\n"]), { maxLineLength: 0 })).rejects.toThrow(RangeError);
    await expect(parseRecording(each([3 as unknown as string]))).rejects.toThrow(TypeError);
  });
});

describe("parseRecording with inputs that were once read wrongly", () => {
  const fixture = (name: string): string => readFileSync(new URL(`../fixtures/recordings/${name}`, import.meta.url), "utf8");

  it("does not take a recording number null for none", () => {
    expect(() => parse(fixture("null-number.jsonl"))).toThrow(
      /input:3:28: recording must be the number of a recording begun before, got null/,
    );
  });

  it("tells of recordings and a session that came in another order", () => {
    expect(parse(fixture("recordings-swapped.jsonl"), { repair: true }).report.notes).toMatchObject([{ line: 2, action: "taken" }]);
    expect(parse(fixture("session-second.jsonl"), { repair: true }).report.notes).toMatchObject([
      { line: 1, action: "taken", reason: "beforeSession" },
    ]);
  });

  it("does not pass over a row whose first field is blank and whose second is broken", () => {
    const tables = { samples: "t,x,y\n", marks: fixture("space-before-quote.csv") };
    expect(() => parseRecording(tables)).toThrow(/input\/marks:3:4: field must begin with a quote/);
    expect(parseRecording(tables, { repair: true }).report.lines).toEqual({ found: 3, kept: 2, dropped: 1 });
  });

  it("makes no recording of a number that only a cut row has", () => {
    expect(parse(fixture("cut-in-second-recording.csv")).session.recordings).toHaveLength(1);
  });

  it("names an object whatever the object calls itself", () => {
    expect(() => parse(fixture("object-named-by-itself.jsonl"))).toThrow(/input:3:20: t must be a number, got an object$/);
  });

  it("refuses an empty samples table as it refuses any other", () => {
    expect(() => parseRecording({ samples: "" })).toThrow(/input\/samples:1:1: table must have a header row, got none/);
  });

  it("keeps its messages short", () => {
    const long = "é".repeat(5000);
    const goals = `trial,target\n${long}"\n`;
    const mistakes = [() => parse([`{"${long}":1,"${long}":2}`]), () => parseRecording({ samples: "t,x,y\n", goals })];
    for (const mistake of mistakes) expect(mistake).toThrow(/^.{0,300}$/);
  });
});
