import { describe, expect, it } from "vitest";
import { placesInOrder } from "../../docs/live/layout.js";
import { recordingOf } from "../../docs/live/recording-of.js";
import { createTapping } from "../../docs/live/tapping.js";
import { analyze, createAnalyzer } from "../../src/movement/index.js";
import { formatRecording, parseRecording } from "../../src/trace/index.js";
import type { Chunk, Press } from "../../src/trace/types.js";

const COUNT = 5;
const WIDTH = 30;
const round = (amplitude: number) => ({ amplitude, width: WIDTH, places: placesInOrder(amplitude, COUNT, { x: 200, y: 200 }) });

/** A hand that jumps: it presses these places at these times, and the task is told as the page tells it. */
function play(presses: readonly (readonly [t: number, x: number, y: number])[], rounds = [round(200)], stopAt?: number) {
  const task = createTapping(rounds);
  const chunks: Chunk[] = [];
  let waiting: Press[] = [];
  let samples: (readonly [number, number, number])[] = [];
  const give = (until: number): void => {
    const column = (k: 0 | 1 | 2) => Float64Array.from(samples, (sample) => sample[k]);
    chunks.push({ trace: { t: column(0), x: column(1), y: column(2) }, presses: waiting, ...task.news(), until });
    waiting = [];
    samples = [];
  };
  task.frame(0.5);
  let pictures: ReturnType<typeof task.frame> = [];
  for (const [t, x, y] of presses) {
    samples.push([t - 0.02, x, y], [t, x, y]);
    const credited = task.judge({ t, by: "button", code: "0", x, y });
    waiting.push({ t, by: "button", code: "0", x, y, ...(credited !== undefined && { credited }) });
    if (task.isSettled({ x, y })) give(t);
    pictures = task.frame(t + 0.016);
  }
  const end = stopAt ?? presses[presses.length - 1]![0] + 0.5;
  task.breakOff(end);
  give(end);
  const recording = recordingOf(chunks, { kind: "plane", unit: "px" }, "mouse");
  return { task, chunks, recording, pictures };
}

const at = (goal: number, dx = 0) => {
  const { x, y } = round(200).places[goal % COUNT]!;
  return [x + dx, y] as const;
};
const whole = [1, 2, 3, 4, 5].map((goal) => [1 + 0.6 * goal, ...at(goal)] as const);

describe("a round of tapping", () => {
  // Source: ISO 9241-411, recalled: movement time from press to press, from target to target, ending on the first.
  it("is one sequence whose acquisitions go from press to press", () => {
    const { recording } = play([[1, ...at(0)], ...whole]);
    const rows = analyze(recording);
    expect(rows.map(({ target, outcome }) => `${target} ${outcome}`)).toEqual(["1-1 hit", "1-2 hit", "1-3 hit", "1-4 hit", "1-5 hit"]);
    for (const { times } of rows) expect(times.press! - times.go).toBeCloseTo(0.6, 9);
    expect(recording.trials).toEqual([
      {
        id: "round 1",
        kind: "sequence",
        tStart: 1,
        tEnd: 4,
        goals: ["1-1", "1-2", "1-3", "1-4", "1-5"],
        block: "200 px away, 30 px wide",
        condition: { amplitude: 200, width: 30 },
      },
    ]);
    expect(recording.targets.every(({ tShown }) => tShown === 0.5)).toBe(true);
  });

  it("goes on after a miss, and the miss is one of the target that was due", () => {
    const { recording } = play([
      [1, ...at(0)],
      [1.6, ...at(1)],
      [2.2, ...at(2, WIDTH)],
      [2.8, ...at(3)],
      [3.4, ...at(1)],
      [4, ...at(5)],
    ]);
    expect(analyze(recording).map(({ target, outcome }) => `${target} ${outcome}`)).toEqual([
      "1-1 hit",
      "1-2 miss",
      "1-3 hit",
      "1-4 miss",
      "1-5 hit",
    ]);
  });

  it("counts a second press on the target just hit for nothing, as the analysis does", () => {
    const doubled = whole.flatMap(([t, x, y]) => [[t, x, y] as const, [t + 0.15, x, y] as const]);
    const { recording } = play([[1, ...at(0)], ...doubled]);
    expect(analyze(recording).map(({ outcome }) => outcome)).toEqual(["hit", "hit", "hit", "hit", "hit"]);
  });

  it("begins with the last press on the first target before the pointer leaves it", () => {
    const { recording, chunks } = play([[0.8, 5, 5], [1, ...at(0)], [1.2, ...at(0)], ...whole]);
    expect(recording.trials[0]!.tStart).toBe(1.2);
    expect(chunks.filter(({ trials }) => trials!.length > 0)[0]!.trials![0]!.tStart).toBe(1.2);
    expect(analyze(recording).map(({ outcome }) => outcome)).toEqual(["hit", "hit", "hit", "hit", "hit"]);
  });

  it("gives the analyzer chunk by chunk what the whole gives", () => {
    const { recording, chunks } = play([[1, ...at(0)], [1.15, ...at(0)], ...whole]);
    const analyzer = createAnalyzer(recording.space);
    const live = [...chunks.flatMap((chunk) => analyzer.push(chunk)), ...analyzer.flush()];
    expect(live).toEqual(analyze(recording));
  });

  it("shows all that is left, the next one filled", () => {
    const { pictures } = play([
      [1, ...at(0)],
      [1.6, ...at(1)],
      [2.2, ...at(2)],
    ]);
    expect(pictures.map(({ isNext }) => isNext)).toEqual([true, false, false]);
    expect([pictures[0]!.x, pictures[0]!.y]).toEqual([...at(3)]);
  });

  it("that is stopped has one target broken off, and survives a file", () => {
    const { recording, task } = play(
      [
        [1, ...at(0)],
        [1.6, ...at(1)],
        [2.2, ...at(2)],
      ],
      [round(200), round(160)],
      2.5,
    );
    expect(analyze(recording).map(({ target, outcome }) => `${target} ${outcome}`)).toEqual(["1-1 hit", "1-2 hit", "1-3 abandoned"]);
    expect(task.overAt()).toBe(2.5);
    const session = { person: "visitor", startedAt: "2026-05-06T07:08:09Z", equipment: { id: "unknown" }, recordings: [recording] };
    expect(parseRecording(formatRecording(session)).session).toEqual(session);
  });

  it("that was not begun leaves no trial", () => {
    const { recording } = play([[0.8, 5, 5]]);
    expect(recording.trials).toEqual([]);
    expect(recording.presses[0]!.credited).toBe(null);
  });
});
