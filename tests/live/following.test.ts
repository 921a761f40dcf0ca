import { describe, expect, it } from "vitest";
import { createFollowing } from "../../docs/live/following.js";
import { pursuitPath } from "../../docs/live/pursuit-path.js";
import { analyzePursuit } from "../../src/pursuit/index.js";
import type { Recording, Track } from "../../src/trace/types.js";

const FRAME = 1 / 60;
const DELAY = 0.18;
const path = pursuitPath({ width: 608, height: 480 }, 12);

/** A hand that presses at 1 s and then does what the target did `DELAY` ago, sampled 250 times a second. */
function play(seconds: number, until: number): Recording {
  const task = createFollowing({ path, diameter: 48, seconds, seed: 12 });
  task.frame(0.2);
  expect(task.judge({ t: 0.6, by: "button", x: 1, y: 1 })).toBe(undefined);
  const { x, y } = path.at(0);
  expect(task.judge({ t: 1, by: "button", x, y })).toBe("moving");
  const begun = task.news();
  const frames = Array.from({ length: Math.round((until - 1) / FRAME) }, (_, i) => 1.01 + i * FRAME);
  for (const frame of frames) task.frame(frame);
  task.breakOff(until);
  const { targets, trials } = task.news();
  expect(begun.trials[0]!.tStart).toBe(trials[0]!.tStart);
  const t = Float64Array.from({ length: Math.round(250 * until) }, (_, i) => i / 250);
  const place = (time: number) => path.at(Math.max(0, time - 1 - DELAY));
  return {
    schema: 1,
    space: { kind: "plane", unit: "px" },
    device: "mouse",
    trace: { t, x: t.map((time) => place(time).x), y: t.map((time) => place(time).y) },
    presses: [{ t: 1, by: "button" }],
    targets,
    trials,
    marks: [],
    frames: Float64Array.from(frames),
  };
}

describe("following", () => {
  // Source: a pure delay has gain 1 and the delay as its lag; textbook of linear systems.
  it("lets the analysis find the delay and the gain of a hand that is known", () => {
    const [found] = analyzePursuit(play(30, 40));
    const { lag, gain, warnings } = found!;
    expect(lag.byCorrelation.ok && lag.byCorrelation.value + lag.frameLag).toBeCloseTo(DELAY, 2);
    expect(gain.ok && gain.value).toBeCloseTo(1, 2);
    expect(warnings).not.toContain("shortRecord");
  });

  it("writes the target down in each frame, until its time is over", () => {
    const { targets, trials } = play(3, 10);
    const { t, x } = targets[0]!.at as Track;
    expect([t[0], t[1]]).toEqual([0.2, 1]);
    expect(x[1]).toBe(path.at(0).x);
    for (let i = 2; i < t.length; i++) expect(x[i]).toBeCloseTo(path.at(t[i]! - 1).x, 12);
    expect(trials[0]!.tEnd).toBe(t[t.length - 1]);
    expect(trials[0]!.tEnd!).toBeGreaterThan(4 - 2 * FRAME);
    expect(trials[0]!.tEnd!).toBeLessThan(4);
  });

  it("that is stopped ends with the last frame shown, and without a press is no trial", () => {
    expect(play(30, 4).trials[0]!.tEnd).toBeLessThan(4);
    const task = createFollowing({ path, diameter: 48, seconds: 30, seed: 1 });
    task.frame(0.1);
    task.breakOff(1);
    expect(task.news()).toEqual({ targets: [], trials: [] });
  });
});
