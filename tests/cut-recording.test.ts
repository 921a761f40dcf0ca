import { fc, test } from "@fast-check/vitest";
import { describe, expect, it } from "vitest";
import { recordingArb } from "./arbitraries.js";
import { type CutStyle, cutRecording, latestEvent } from "./cut-recording.js";
import { REACH } from "./movement/hand-made.js";

// The tests of live analysis stand on these chunks, so that these are looked at first.
describe("cutRecording", () => {
  const bordersArb = fc
    .array(fc.double({ min: 0, max: 700, noNaN: true }), { maxLength: 6 })
    .map((borders) => borders.sort((a, b) => a - b));

  test.prop([recordingArb.filter(({ trace }) => trace.t.length > 0), bordersArb, fc.constantFrom<CutStyle>("whole", "live")])(
    "loses and repeats nothing: the last word on every entry is the recording's",
    (recording, borders, style) => {
      const chunks = cutRecording(recording, borders, style);
      expect(chunks.flatMap(({ trace }) => [...trace.t])).toEqual([...recording.trace.t]);
      expect(chunks.flatMap(({ trace }) => [...trace.x])).toEqual([...recording.trace.x]);
      const last = <T>(entries: readonly T[], key: (entry: T) => string): T[] => [
        ...new Map(entries.map((entry) => [key(entry), entry])).values(),
      ];
      const order = (a: unknown, b: unknown): number => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1);
      const presses = last(
        chunks.flatMap((chunk) => chunk.presses ?? []),
        (press) => JSON.stringify([press.t, press.by, press.code]),
      );
      expect(presses.sort(order)).toEqual([...recording.presses].sort(order));
      const targets = last(
        chunks.flatMap((chunk) => chunk.targets ?? []),
        ({ id }) => id,
      );
      expect(targets.sort(order)).toEqual([...recording.targets].sort(order));
      const trials = last(
        chunks.flatMap((chunk) => chunk.trials ?? []),
        ({ id }) => id,
      );
      expect(trials.sort(order)).toEqual([...recording.trials].sort(order));
      expect(chunks[chunks.length - 1].until).toBe(latestEvent(recording));
    },
  );

  it("gives what lasts as it begins and again as it has ended, in live style only", () => {
    const [first, second, third] = cutRecording(REACH, [0.86, 1.4], "live");
    expect(first.presses).toEqual([{ t: 0.85, by: "button" }]);
    expect(second.presses).toEqual(REACH.presses);
    expect([first.trials![0].tEnd, second.trials, third.trials![0].tEnd]).toEqual([undefined, [], 1.5]);
    expect(cutRecording(REACH, [0.86, 1.4], "whole").map(({ presses, trials }) => [presses, trials])).toEqual([
      [REACH.presses, REACH.trials],
      [[], []],
      [[], []],
    ]);
  });
});
