// The example of many people and one worker: the queue to the worker stays bounded, and nothing is lost on the way.
import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/analyze.js";
import { createAnalyzer } from "../../src/movement/create-analyzer.js";
import type { Acquisition } from "../../src/movement/types.js";
import { simulateRecording } from "../../src/simulate/index.js";
import type { Chunk, Recording } from "../../src/trace/types.js";
import { cutRecording, latestEvent } from "../cut-recording.js";
import { simulatedArb } from "./simulated.js";

interface Played {
  readonly people: readonly {
    readonly rows: Acquisition[];
    readonly chunks: number;
    readonly messages: number;
    readonly samples: number;
    readonly mostUnanswered: number;
    readonly mostWaiting: number;
  }[];
}
type Play = (recordings: readonly Recording[], options: { most?: number; slowness?: number; pace?: number }) => Promise<Played>;

// the example uses the built package, as a stranger would
const folder = "../../examples/lab-display";
const { play }: { play: Play } = await import(`${folder}/play.mjs`);
const { joined }: { joined: (chunks: readonly Chunk[]) => Chunk } = await import(`${folder}/sender.mjs`);

const people = (count: number): Recording[] =>
  Array.from(
    { length: count },
    (_, k) => simulateRecording({ seed: 40 + k, movements: 5, sampleRateHz: 1000, recorder: { eventsOnly: false } }).recording,
  );

function expectNothingLost(recordings: readonly Recording[], played: Played): void {
  for (const [k, { rows, samples }] of played.people.entries()) {
    expect(samples).toBe(recordings[k].trace.t.length);
    expect(rows).toEqual(analyze(recordings[k]));
  }
}

describe("the lab display", () => {
  it("gives everybody the rows of the whole recording", async () => {
    const recordings = people(5);
    const played = await play(recordings, { pace: 10 });
    expectNothingLost(recordings, played);
    for (const { mostUnanswered } of played.people) expect(mostUnanswered).toBeLessThanOrEqual(2);
  });

  it("keeps the queue to a slow worker bounded, and loses nothing", async () => {
    const recordings = people(4);
    // a message would have to be answered in 0.4 ms to keep up chunk by chunk
    const played = await play(recordings, { pace: 10, slowness: 10 });
    expectNothingLost(recordings, played);
    for (const { mostUnanswered, mostWaiting, messages, chunks } of played.people) {
      expect(mostUnanswered).toBe(2);
      expect(mostWaiting).toBeGreaterThan(2);
      expect(messages).toBeLessThan(chunks / 4);
    }
  });

  it("would let the queue grow without the bound", async () => {
    const [recording] = people(1);
    const played = await play([recording], { pace: 50, slowness: 2, most: Number.POSITIVE_INFINITY });
    expectNothingLost([recording], played);
    expect(played.people[0].messages).toBe(played.people[0].chunks);
    expect(played.people[0].mostUnanswered).toBeGreaterThan(20);
  });

  test.prop(
    [simulatedArb, fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 30 }), fc.array(fc.integer({ min: 1, max: 5 }))],
    { numRuns: 20 },
  )("joins waiting chunks without a difference to the rows", ({ recording }, shares, lengths) => {
    const borders = shares.map((share) => share * latestEvent(recording)).sort((a, b) => a - b);
    const chunks = cutRecording(recording, borders, "live");
    const analyzer = createAnalyzer(recording.space);
    const rows: Acquisition[] = [];
    for (const length of [...lengths, chunks.length]) {
      if (chunks.length > 0) rows.push(...analyzer.push(joined(chunks.splice(0, length))));
    }
    expect([...rows, ...analyzer.flush()]).toEqual(analyze(recording));
  });

  it("ends with the person and the reason when a chunk is refused", async () => {
    const [good, bad] = people(2);
    const t = bad.trace.t.map((time, i) => (i === 100 ? 0 : time));
    await expect(play([good, { ...bad, trace: { ...bad.trace, t } }], { pace: 50 })).rejects.toThrow(
      /person 1: createAnalyzer: chunk\.trace\.t must not run backward/,
    );
  });
});
