// The tool builder's five lines: a recorder in a page, an analyzer beside it, rows while the person plays.
import { describe, expect, it } from "vitest";
import { analyze, createAnalyzer } from "../../src/movement/index.js";
import type { Acquisition } from "../../src/movement/types.js";
import { createRecorder } from "../../src/record/index.js";
import { simulateRecording } from "../../src/simulate/index.js";
import type { Chunk, Target, Trial } from "../../src/trace/types.js";
import { type FakePointer, fakePage } from "./fake-page.js";

const FRAME_MS = 1000 / 60;
const { recording } = simulateRecording({ seed: 17, movements: 12, sampleRateHz: 250, press: { earlyShare: 0 } });

/** Plays the simulated recording as a browser would: moves merged once per frame, presses at once. Returns each row with the time it came. */
function play(): { row: Acquisition; at: number }[] {
  const page = fakePage(5000);
  const came: { row: Acquisition; at: number }[] = [];
  let now = 0;
  const pendingTargets = [...recording.targets];
  const pendingTrials = [...recording.trials];
  const take = <Entry>(from: Entry[], isDue: (entry: Entry) => boolean): Entry[] => from.splice(0, from.findIndex((e) => !isDue(e)) >>> 0);
  const push = (chunk: Chunk): void => {
    const until = chunk.until!;
    const targets = take<Target>(pendingTargets, (target) => target.tShown <= until);
    const trials = take<Trial>(pendingTrials, (trial) => trial.tStart <= until);
    for (const row of analyzer.push({ ...chunk, targets, trials })) came.push({ row, at: now });
  };
  const recorder = createRecorder(page.element, { origin: 5000, onChunk: push });
  const analyzer = createAnalyzer(recorder.space);

  const ms = (t: number): number => 5000 + 1000 * t;
  const place = (i: number): { clientX: number; clientY: number } => ({
    clientX: recording.trace.x[i]! + page.box.left,
    clientY: recording.trace.y[i]! + page.box.top,
  });
  const buttons = recording.presses.flatMap((press) => [
    { t: press.t, type: "pointerdown", down: 1 },
    { t: press.tUp!, type: "pointerup", down: 0 },
  ]);
  const end = recording.trace.t[recording.trace.t.length - 1]! + 1;
  let sample = 0;
  let held = 0;
  let waiting: FakePointer[] = [];
  const hand = (): void => {
    const last = waiting[waiting.length - 1];
    if (last !== undefined) page.fire("pointermove", { ...last, buttons: held, merged: waiting });
    waiting = [];
  };
  for (let frame = 1; frame * FRAME_MS < 1000 * end; frame++) {
    now = (frame * FRAME_MS) / 1000;
    while (buttons.length > 0 && buttons[0]!.t <= now) {
      const { t, type, down } = buttons.shift()!;
      while (sample < recording.trace.t.length && recording.trace.t[sample]! <= t)
        waiting.push({ timeStamp: ms(recording.trace.t[sample]!), ...place(sample++) });
      hand();
      held = down;
      page.fire(type, { timeStamp: ms(t), ...place(Math.max(0, sample - 1)), button: 0, buttons: down });
    }
    while (sample < recording.trace.t.length && recording.trace.t[sample]! <= now)
      waiting.push({ timeStamp: ms(recording.trace.t[sample]!), ...place(sample++) });
    hand();
    page.frame(ms(now));
  }
  push(recorder.stop());
  for (const row of analyzer.flush()) came.push({ row, at: Number.POSITIVE_INFINITY });
  return came;
}

describe("a recorder with an analyzer beside it", () => {
  const live = play();
  const batch = analyze(recording);

  it("gives the rows that the whole recording gives", () => {
    expect(live.length).toBe(12);
    expect(live.map(({ row }) => [row.trial, row.target, row.outcome])).toEqual(batch.map((row) => [row.trial, row.target, row.outcome]));
    for (const [i, { row }] of live.entries()) {
      const whole = batch[i]!;
      // a press is a sample more than the recording had, which moves a boundary by less than one interval
      expect(Math.abs(row.times.onset! - whole.times.onset!)).toBeLessThan(0.004);
      expect(Math.abs(row.times.stop! - whole.times.stop!)).toBeLessThan(0.004);
      expect(row.corrections.length).toBe(whole.corrections.length);
      expect(Math.abs(row.times.press! - whole.times.press!)).toBeLessThan(1e-6);
    }
  });

  it("gives them while the person plays: final 0.2 s after the press, told with the next chunk", () => {
    for (const { row, at } of live) expect(at - row.times.end).toBeLessThan(0.2 + 0.1 + 0.05 + 2 * (FRAME_MS / 1000));
  });
});
