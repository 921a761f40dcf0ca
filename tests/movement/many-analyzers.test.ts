// Analyzers beside each other in one thread, and analyzers that run for long: neither what others are given nor what was given long ago may count.
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import {
  appendSamples,
  createSampleBuffer,
  forgetSamples,
  heldSamples,
  samplesBetween,
} from "../../src/movement/acquisition/sample-buffer.js";
import { analyze } from "../../src/movement/analyze.js";
import { createAnalyzer } from "../../src/movement/create-analyzer.js";
import type { Acquisition } from "../../src/movement/types.js";
import { simulateRecording } from "../../src/simulate/index.js";
import type { Chunk, Trial } from "../../src/trace/types.js";
import { cutRecording, latestEvent } from "../cut-recording.js";
import { heldBytes } from "../held-bytes.js";
import { chunksOf, liveStream } from "../live-stream.js";
import { recordingOf, trial } from "./hand-made.js";
import { simulatedArb } from "./simulated.js";

const emptyTrace = recordingOf({}).trace;

describe("analyzers beside each other", () => {
  test.prop(
    [
      fc.array(fc.tuple(simulatedArb, fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 30 })), {
        minLength: 2,
        maxLength: 4,
      }),
      fc.infiniteStream(fc.nat()),
    ],
    { numRuns: 15 },
  )("give the rows that each gives alone, whose turn it ever is", (some, turns) => {
    const people = some.map(([{ recording }, shares]) => {
      const borders = shares.map((share) => share * latestEvent(recording)).sort((a, b) => a - b);
      const chunks = cutRecording(recording, borders, "live");
      return { recording, chunks, analyzer: createAnalyzer(recording.space), rows: [] as Acquisition[] };
    });
    for (let open = people; open.length > 0; open = open.filter(({ chunks }) => chunks.length > 0)) {
      const { analyzer, chunks, rows } = open[turns.next().value! % open.length];
      rows.push(...analyzer.push(chunks.shift()!));
    }
    for (const { analyzer, rows } of people) rows.push(...analyzer.flush());
    // toEqual compares numbers by Object.is
    for (const { recording, rows } of people) expect(rows).toEqual(analyze(recording));
  });
});

describe("an analyzer that runs for long", () => {
  test.prop([simulatedArb], { numRuns: 20 })("gives the same rows when all but the samples was given ahead", ({ recording }) => {
    const { trace, ...entries } = recording;
    const samples = cutRecording(recordingOf({ trace }), [1, 2, 2.5, 4, 7], "live");
    const analyzer = createAnalyzer(recording.space);
    const ahead: Chunk = { ...entries, trace: emptyTrace, until: Math.min(...trace.t.slice(0, 1), 0) };
    const rows = [ahead, ...samples].flatMap((chunk) => analyzer.push(chunk));
    expect([...rows, ...analyzer.flush()]).toEqual(analyze(recording));
  });

  it.each([{ ended: true }, { ended: false }])(
    "holds no more after an hour than after twenty minutes, ends of trials told: $ended",
    async ({ ended }) => {
      const { recording } = simulateRecording({ seed: 12, movements: 40, sampleRateHz: 250, recorder: { eventsOnly: false } });
      const analyzer = createAnalyzer(recording.space);
      const stream = liveStream(chunksOf(recording, 16), { ended });
      let rows = 0;
      const goOnUntil = (end: number): void => {
        for (let until = 0; until < end; ) {
          const chunk = stream.next().value;
          rows += analyzer.push(chunk).length;
          until = chunk.until!;
        }
      };
      goOnUntil(1200);
      const [early, earlyRows] = [await heldBytes(), rows];
      goOnUntil(3600);
      expect(rows - earlyRows).toBeGreaterThan(1400);
      // 600 000 samples are 14 MB, 1400 rows several more, and targets that nobody let go of 1 MB (measured); the engine's own notes on the
      // code that runs came to 0.1 to 0.45 MB, by machine. benchmarks/session.ts shows over four hours that these do not go on
      expect((await heldBytes()) - early).toBeLessThan(700_000);
      expect(analyzer.flush()).toBeDefined();
    },
  );

  it("knows the last thousand trials whose end was not told, and no more", () => {
    const analyzer = createAnalyzer({ kind: "plane", unit: "px" });
    const endless = (k: number): Trial => {
      const { tEnd: _, ...open } = trial([], k, k + 1, { id: `trial ${k}` });
      return open;
    };
    for (let k = 0; k < 1200; k++) analyzer.push({ trace: emptyTrace, trials: [endless(k)], until: k + 0.9 });
    const endOf = (k: number) => () => analyzer.push({ trace: emptyTrace, trials: [{ ...endless(k), tEnd: k + 1 }] });
    expect(endOf(1199)).not.toThrow();
    expect(endOf(200)).not.toThrow();
    expect(endOf(199)).toThrow(/trial "trial 199" must not begin before what was given already/);
  });

  it("gives the memory of a long wait back", async () => {
    const buffer = createSampleBuffer();
    const before = await heldBytes();
    const push = (from: number, count: number): void => {
      const t = Float64Array.from({ length: count }, (_, i) => from + i);
      appendSamples(buffer, { t, x: t, y: t });
    };
    for (let k = 0; k < 100; k++) push(10_000 * k, 10_000);
    expect(heldSamples(buffer)).toBe(1_000_000);
    expect((await heldBytes()) - before).toBeGreaterThan(24e6);
    forgetSamples(buffer, 999_000);
    for (let k = 0; k < 200; k++) {
      push(1_000_000 + 10_000 * k, 10_000);
      forgetSamples(buffer, 1_000_000 + 10_000 * k + 9_000);
    }
    expect((await heldBytes()) - before).toBeLessThan(3e6);
    expect(samplesBetween(buffer, 2_999_990, 2_999_999).x).toEqual(Float64Array.from({ length: 10 }, (_, i) => 2_999_990 + i));
  });
});
