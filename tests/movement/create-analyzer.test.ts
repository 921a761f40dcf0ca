import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/analyze.js";
import { type AnalyzeOptions, createAnalyzer } from "../../src/movement/create-analyzer.js";
import type { Acquisition } from "../../src/movement/types.js";
import { simulateRecording } from "../../src/simulate/index.js";
import type { Chunk, Recording, Target } from "../../src/trace/types.js";
import { type CutStyle, cutRecording, latestEvent } from "../cut-recording.js";
import { circle, press, REACH, recordingOf, traceOf, trial } from "./hand-made.js";
import { deepFreeze, figuresOf, moved, simulatedArb } from "./simulated.js";

function pushAll(recording: Recording, chunks: readonly Chunk[], options: AnalyzeOptions = {}): Acquisition[] {
  const analyzer = createAnalyzer(recording.space, options);
  return [...chunks.flatMap((chunk) => analyzer.push(chunk)), ...analyzer.flush()];
}

/** Borders within the recording from shares of its length; shares given twice make empty chunks. */
const bordersOf = (recording: Recording, shares: readonly number[]): number[] =>
  shares.map((share) => share * latestEvent(recording)).sort((a, b) => a - b);

/** Borders just after, at and before the recording's own instants, where cutting is most likely to matter. */
const instantsOf = (recording: Recording): number[] =>
  [
    ...recording.presses.flatMap(({ t, tUp }) => [t, tUp!, t + 0.2]),
    ...recording.trials.flatMap(({ tStart, tEnd }) => [tStart, tEnd!, tEnd! + 0.2]),
    ...recording.marks.map(({ t }) => t),
  ].sort((a, b) => a - b);

const styleArb = fc.constantFrom<CutStyle>("whole", "live");
const emptyTrace = recordingOf({}).trace;

describe("createAnalyzer against outside values", () => {
  // Source: worked by hand, the reach of 0.25 s latency and 0.3 s movement pressed 0.1 s after its stop. Tolerance 10 ms as for `analyze`.
  it("gives the hand-made reach, cut anywhere", () => {
    for (const border of [0.1, 0.2, 0.5, 0.85, 0.9, 1.2]) {
      const [row] = pushAll(REACH, cutRecording(REACH, [border], "live"));
      const { latency, primary, verification } = row.budget;
      for (const [part, value] of [
        [latency, 0.25],
        [primary, 0.3],
        [verification, 0.1],
      ])
        expect(Math.abs(part - value)).toBeLessThan(0.01);
    }
  });
});

describe("createAnalyzer properties", () => {
  test.prop([simulatedArb, fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 30 }), styleArb], { numRuns: 40 })(
    "gives the same rows wherever the recording was cut",
    ({ recording }, shares, style) => {
      expect(pushAll(recording, cutRecording(recording, bordersOf(recording, shares), style))).toEqual(analyze(recording));
    },
  );

  test.prop([simulatedArb, styleArb], { numRuns: 20 })(
    "gives the same rows when cut at its own presses and trials",
    ({ recording }, style) => {
      expect(pushAll(recording, cutRecording(recording, instantsOf(recording), style))).toEqual(analyze(recording));
    },
  );

  test.prop([simulatedArb, styleArb], { numRuns: 3 })(
    "gives the same rows sample by sample, and with empty chunks between",
    ({ recording }, style) => {
      const borders = [...recording.trace.t].flatMap((t) => [t, t]);
      expect(pushAll(recording, cutRecording(recording, borders, style))).toEqual(analyze(recording));
    },
  );

  test.prop([simulatedArb, fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 8 })], { numRuns: 10 })(
    "gives the same rows under other options, also a gap length beyond the horizon",
    ({ recording }, shares) => {
      for (const options of [
        { maxGap: 1 },
        { maxGap: 0 },
        { cutoffHz: 8, minSpacing: 0.1, prominenceShare: 0.1 },
        { sampleRateHz: 200, quantum: 2 },
      ]) {
        expect(pushAll(recording, cutRecording(recording, bordersOf(recording, shares), "live"), options)).toEqual(
          analyze(recording, options),
        );
      }
    },
  );

  it("gives the same rows when presses are held long and released in a later chunk", () => {
    const { recording } = simulateRecording({ seed: 5, movements: 12, sequence: 4, sampleRateHz: 125, press: { duration: 0.4 } });
    const rows = analyze(recording);
    expect(rows.every((row) => row.flags.includes("longPress"))).toBe(true);
    const borders = Array.from({ length: 400 }, (_, k) => k / 10);
    expect(pushAll(recording, cutRecording(recording, borders, "live"))).toEqual(rows);
  });

  it("gives the same rows when marks outlast an acquisition", () => {
    const marks = [{ t: 0.1, tEnd: 1.9, kind: "hidden" }] as const;
    const recording = { ...REACH, marks };
    const rows = analyze(recording);
    expect(rows[0].flags).toEqual(["hidden"]);
    expect(pushAll(recording, cutRecording(recording, [0.5, 1.1, 1.95], "live"))).toEqual(rows);
  });

  it("does not look for the place of a press in what comes later than the horizon, however long gaps may be", () => {
    // a silent pointer, and one sample long after the press: a straight line to it would lead off the target
    const trace = { t: Float64Array.of(0.1, 0.8, 1.3), x: Float64Array.of(1, 0, 300), y: new Float64Array(3) };
    const recording = { ...REACH, trace, targets: [circle("a", 0, 0, 30, { tShown: 0.2, tGone: 0.9 })] };
    const rows = analyze(recording, { maxGap: 1 });
    expect(rows.map((row) => row.outcome)).toEqual(["hit"]);
    expect(pushAll(recording, cutRecording(recording, [1.06], "live"), { maxGap: 1 })).toEqual(rows);
  });

  it("lets a mark end that was given open at first", () => {
    const recording = { ...REACH, marks: [{ t: 0.05, tEnd: 0.15, kind: "hidden" }] as const };
    expect(analyze(recording)[0].flags).toEqual([]);
    expect(pushAll(recording, cutRecording(recording, [0.1, 0.5], "live"))).toEqual(analyze(recording));
  });

  it("gives the same rows when the goals of a trial are shown only one after another", () => {
    const strokes = [
      { onset: 0.45, duration: 0.3, dx: 300 },
      { onset: 1.1, duration: 0.3, dx: 300 },
    ];
    const recording = recordingOf({
      trace: traceOf(strokes),
      presses: [press(0.85), press(1.5)],
      targets: [circle("a", 300, 0, 30, { tShown: 0.2, tGone: 0.85 }), circle("b", 600, 0, 30, { tShown: 0.9, tGone: 1.5 })],
      trials: [trial(["a", "b"], 0.2, 1.6)],
    });
    const rows = analyze(recording);
    expect(rows.map((row) => [row.target, row.times.go])).toEqual([
      ["a", 0.2],
      ["b", 0.9],
    ]);
    expect(pushAll(recording, cutRecording(recording, [0.3, 0.86, 0.89, 1.05, 1.55, 1.7], "live"))).toEqual(rows);
  });

  // Between its samples a track is a straight line, so that its next sample, given later, changes what came just before it.
  it("gives nearly the same rows when the track of a moving target grows chunk by chunk", () => {
    const { recording } = simulateRecording({
      seed: 6,
      movements: 8,
      sampleRateHz: 125,
      targets: { speed: [50, 150], bounds: { width: 4000, height: 4000 } },
    });
    const targets = recording.targets.map((target): Target => {
      if (!("t" in target.at)) return target;
      const [from, to] = target.at.t;
      const t = Float64Array.from({ length: 300 }, (_, k) => from + ((to - from) * k) / 299);
      const line = (column: Float64Array): Float64Array =>
        t.map((time) => column[0] + ((column[1] - column[0]) * (time - from)) / (to - from));
      return { ...target, at: { t, x: line(target.at.x), y: line(target.at.y) } };
    });
    const whole = { ...recording, targets };
    const borders = Array.from({ length: 300 }, (_, k) => k / 10);
    const chunks = cutRecording(whole, borders, "live").map((chunk) => {
      const growing = targets.filter(({ tShown, tGone }) => tShown <= chunk.until! && tGone! > chunk.until! - 0.1);
      return {
        ...chunk,
        targets: growing.map((target): Target => {
          if (!("t" in target.at)) return target;
          const count = Math.max(1, target.at.t.filter((t) => t <= chunk.until!).length);
          const { t, x, y } = target.at;
          const { tGone: _, ...open } = target;
          return {
            ...(target.tGone! <= chunk.until! ? target : open),
            at: { t: t.slice(0, count), x: x.slice(0, count), y: y.slice(0, count) },
          };
        }),
      };
    });
    const [live, batch] = [pushAll(whole, chunks), analyze(whole)];
    expect(live.map((row) => [row.target, row.outcome, row.flags])).toEqual(batch.map((row) => [row.target, row.outcome, row.flags]));
    for (const [i, row] of batch.entries()) {
      const { numbers } = figuresOf(row);
      // 0.001 of a second or pixel, the reach of the filter over the last 10 ms of a track
      for (const [path, value] of Object.entries(figuresOf(live[i]).numbers))
        expect(Math.abs(value - numbers[path]), path).toBeLessThan(0.001);
    }
  });

  test.prop([simulatedArb], { numRuns: 20 })("gives a row with the first chunk that reaches 0.2 s after its press", ({ recording }) => {
    const analyzer = createAnalyzer(recording.space);
    const presses = new Set(recording.presses.map(({ t }) => t));
    const all = analyze(recording);
    let given = 0;
    for (const chunk of cutRecording(recording, instantsOf(recording), "live")) {
      const rows = analyzer.push(chunk);
      given += rows.length;
      const next = all[given];
      // nothing that is final is kept back
      if (next?.outcome === "hit" || next?.outcome === "recovered") expect(next.times.end + 0.2).toBeGreaterThan(chunk.until!);
      for (const { times, outcome } of rows) {
        expect(times.end + 0.2).toBeLessThanOrEqual(chunk.until!);
        // a hit waits for nothing else; a miss or a timeout is one when its trial or target is over
        if (outcome === "hit" || outcome === "recovered") {
          expect(presses).toContain(times.end);
          expect(chunk.until).toBe(times.end + 0.2);
        }
      }
    }
  });

  it("gives a row neither before nor after 0.2 s past the press", () => {
    const [first, , rest] = cutRecording(REACH, [0.86, 0.87], "whole");
    const give = (until: number): number => {
      const analyzer = createAnalyzer(REACH.space);
      expect(analyzer.push(first)).toEqual([]);
      return analyzer.push({ ...rest, trace: emptyTrace, until }).length;
    };
    expect(give(0.85 + 0.2)).toBe(1);
    expect(give(0.85 + 0.2 - 1e-9)).toBe(0);
  });

  it("has no rows left after flush", () => {
    const analyzer = createAnalyzer(REACH.space);
    expect([...analyzer.push(REACH), ...analyzer.flush()].length).toBe(1);
    expect(analyzer.flush()).toEqual([]);
    expect(createAnalyzer(REACH.space).flush()).toEqual([]);
  });

  it("takes chunks without anything in them, also first", () => {
    const analyzer = createAnalyzer(REACH.space);
    expect(analyzer.push({ trace: emptyTrace })).toEqual([]);
    expect([...analyzer.push(REACH), ...analyzer.flush()]).toEqual(analyze(REACH));
  });

  test.prop([simulatedArb], { numRuns: 10 })("leaves chunks as they were", ({ recording }) => {
    const chunks = cutRecording(recording, [1, 2, 3], "live");
    const before = structuredClone(chunks);
    pushAll(recording, deepFreeze(chunks));
    expect(chunks).toEqual(before);
  });

  /** The same short recording over and over, each time later and under other names. */
  function* endless(times: number): Generator<Chunk> {
    const { recording } = simulateRecording({ seed: 8, movements: 4, sampleRateHz: 1000, recorder: { eventsOnly: false } });
    const length = latestEvent(recording) + 0.5;
    for (let k = 0; k < times; k++) {
      const again = moved(recording, { time: (t) => t + k * length });
      const named = (id: string): string => `${id} ${k}`;
      const targets = again.targets.map((target) => ({ ...target, id: named(target.id) }));
      const trials = again.trials.map((entry) => ({ ...entry, id: named(entry.id), goals: entry.goals.map(named) }));
      yield { ...again, targets, trials, presses: again.presses.map(({ credited: _, ...entry }) => entry), until: (k + 1) * length };
    }
  }

  it("holds on to the last seconds only, however long the recording", async () => {
    setFlagsFromString("--expose-gc");
    const collect: () => void = runInNewContext("gc");
    /** Bytes of columns still held; freed ones may be given back a little later. */
    const columns = async (): Promise<number> => {
      let least = Number.POSITIVE_INFINITY;
      for (let k = 0; k < 2; k++) {
        collect();
        await new Promise((done) => setTimeout(done, 10));
        least = Math.min(least, process.memoryUsage().arrayBuffers);
      }
      return least;
    };
    const analyzer = createAnalyzer({ kind: "plane", unit: "px" });
    let bytes = 0;
    let rows = 0;
    let k = 0;
    let early = 0;
    for (const chunk of endless(80)) {
      rows += analyzer.push(chunk).length;
      if (++k === 10) early = await columns();
      if (k > 10) bytes += 24 * chunk.trace.t.length;
    }
    expect(rows).toBe(320);
    // three columns of eight bytes a sample: a recording kept would show
    expect(bytes).toBeGreaterThan(8e6);
    expect((await columns()) - early).toBeLessThan(bytes / 5);
    expect(analyzer.flush()).toEqual([]);
  });

  it("forgets targets that are gone, also when one trial follows another without a pause", () => {
    const analyzer = createAnalyzer({ kind: "plane", unit: "px" });
    const shown = (k: number): Target => circle(`t${k}`, 0, 0, 10, { tShown: k, tGone: k + 1 });
    for (let k = 0; k < 20; k++) {
      analyzer.push({ trace: emptyTrace, targets: [shown(k)], trials: [trial([`t${k}`], k, k + 1, { id: `${k}` })], until: k + 0.99 });
    }
    // a name still held may not be given to another target
    expect(() => analyzer.push({ trace: emptyTrace, targets: [{ ...shown(19), tShown: 20 }], until: 20 })).toThrow(/must keep its tShown/);
    expect(() => analyzer.push({ trace: emptyTrace, targets: [{ ...shown(3), tShown: 20, tGone: 21 }], until: 20 })).not.toThrow();
  });
});

describe("createAnalyzer bad input", () => {
  const pushAfter = (until: number) => {
    const analyzer = createAnalyzer(REACH.space);
    const samples = REACH.trace.t.findIndex((t) => t > until);
    const cut = (column: Float64Array): Float64Array => column.slice(0, samples);
    analyzer.push({ trace: { t: cut(REACH.trace.t), x: cut(REACH.trace.x), y: cut(REACH.trace.y) }, until });
    return (chunk: Partial<Chunk>) => () => analyzer.push({ trace: emptyTrace, ...chunk });
  };
  const at = (t: number) => ({ t: Float64Array.of(t), x: Float64Array.of(0), y: Float64Array.of(0) });

  it.each([
    [{ sampleRateHz: 0 }, /createAnalyzer: options\.sampleRateHz must be above 0 and at most 1000, got 0/],
    [{ sampleRateHz: 2000 }, /options\.sampleRateHz must be above 0 and at most 1000, got 2000/],
    [{ quantum: 0 }, /options\.quantum must be finite and above 0, got 0/],
    [{ cutoffHz: 3 }, /options\.cutoffHz must be at least 4 and at most 400, got 3/],
    [{ maxGap: -1 }, /options\.maxGap must be at least 0 and at most 10, got -1/],
    [{ prominenceShare: 0 }, /options\.prominenceShare must be above 0 and at most 1, got 0/],
    [{ minSpacing: Number.NaN }, /options\.minSpacing must be at least 0 and at most 1, got NaN/],
  ])("names an option out of range: %o", (options, message) => {
    expect(() => createAnalyzer(REACH.space, options)).toThrow(message);
    expect(() => createAnalyzer(REACH.space, options)).toThrow(RangeError);
  });

  it("names a space that is none", () => {
    expect(() => createAnalyzer({ kind: "screen" } as never)).toThrow(
      /createAnalyzer: space\.kind must be one of "plane", "view", got "screen"/,
    );
    expect(() => createAnalyzer(undefined as never)).toThrow(/createAnalyzer: space must be an object with a kind, got undefined/);
  });

  it("names a chunk without a trace", () => {
    expect(() => createAnalyzer(REACH.space).push({} as never)).toThrow(
      /createAnalyzer: chunk\.trace must be a trace with columns t, x, y, got undefined/,
    );
    expect(() => createAnalyzer(REACH.space).push(null as never)).toThrow(/createAnalyzer: chunk must be an object with a trace, got null/);
  });

  it("names unequal columns and samples that are no numbers", () => {
    expect(pushAfter(1)({ trace: { ...at(1.5), x: new Float64Array(2) } })).toThrow(
      /chunk\.trace\.x must have 1 entries like the other columns, got 2/,
    );
    expect(pushAfter(1)({ trace: at(Number.POSITIVE_INFINITY) })).toThrow(/chunk\.trace\.t\[0\] must be finite, got Infinity/);
    expect(pushAfter(1)({ trace: { ...at(1.5), y: [0] } as never })).toThrow(TypeError);
  });

  it("names time that runs backward, within a chunk and across chunks", () => {
    const trace = { t: Float64Array.of(1.5, 1.4), x: new Float64Array(2), y: new Float64Array(2) };
    expect(pushAfter(1)({ trace })).toThrow(/chunk\.trace\.t must not run backward, got chunk\.trace\.t\[1\] = 1\.4 after 1\.5/);
    expect(pushAfter(1)({ trace: at(0.5) })).toThrow(
      /createAnalyzer: chunk\.trace\.t must not run backward across chunks, got 0\.5 after 1/,
    );
    expect(pushAfter(1)({ until: 0.9 })).toThrow(/createAnalyzer: chunk\.until must be finite and at least 1, got 0\.9/);
  });

  it("names a press that comes before what was given, released or not", () => {
    const { tUp: _, ...open } = press(0.5);
    const message = /createAnalyzer: a press must not come before what was given already \(1\), got t 0\.5/;
    expect(pushAfter(1)({ presses: [open] })).toThrow(message);
    expect(pushAfter(1)({ presses: [press(0.5)] })).toThrow(message);
    // its release may come later
    expect(pushAfter(1)({ presses: [press(0.5, { tUp: 1.2 })] })).not.toThrow();
  });

  it("names a trial that begins before what was given, and one that changes its start", () => {
    expect(pushAfter(1)({ trials: [trial(["a"], 0.5, 2)] })).toThrow(
      /trial "trial" must not begin before what was given already \(1\), got tStart 0\.5/,
    );
    const push = pushAfter(1);
    push({ trials: [trial(["a"], 1.2, undefined)], until: 1.3 })();
    expect(push({ trials: [trial(["a"], 1.3, 2)] })).toThrow(
      /trial "trial" must keep its tStart \(1\.2\) when it is given again, got 1\.3/,
    );
  });

  it("names a target that changes when it was shown", () => {
    const targets = [circle("a", 0, 0, 10), circle("a", 50, 0, 10, { tShown: 1 })];
    expect(() => analyze({ ...REACH, targets })).toThrow(/target "a" must keep its tShown \(0\) when it is given again, got 1/);
  });

  it("names entries that are not as they should be", () => {
    const push = pushAfter(1);
    expect(push({ presses: [press(Number.NaN)] })).toThrow(/createAnalyzer: chunk\.presses\[0\]\.t must be finite, got NaN/);
    expect(push({ presses: [{ by: "button" } as never] })).toThrow(/chunk\.presses\[0\]\.t must be a number, got nothing/);
    expect(push({ presses: [press(1.5, { x: "4" as never, y: 0 })] })).toThrow(TypeError);
    expect(push({ presses: press(1.5) as never })).toThrow(/chunk\.presses must be a list, got an object of type Object/);
    expect(push({ targets: [{ ...circle("a", 0, 0, 1), shape: { kind: "rect", width: 4, height: -2 } }] })).toThrow(
      /chunk\.targets\[0\]\.shape\.height must be above 0, got -2/,
    );
    expect(push({ targets: [{ ...circle("a", 0, 0, 1), at: { ...emptyTrace } }] })).toThrow(
      /chunk\.targets\[0\]\.at must have a sample, got none/,
    );
    expect(push({ targets: [{ ...circle("a", 0, 0, 1), at: { ...at(1), scale: Float64Array.of(0) } }] })).toThrow(
      /chunk\.targets\[0\]\.at\.scale\[0\] must be above 0, got 0/,
    );
    expect(push({ trials: [trial(["a"], 1.5, 1.2)] })).toThrow(/chunk\.trials\[0\]\.tEnd must be at least tStart = 1\.5, got 1\.2/);
    expect(push({ trials: [{ ...trial(["a"], 1.5, 2), kind: "chase" as never }] })).toThrow(/chunk\.trials\[0\]\.kind must be one of/);
    expect(push({ marks: [{ t: 1, kind: "blink" as never }] })).toThrow(/chunk\.marks\[0\]\.kind must be one of/);
  });
});
