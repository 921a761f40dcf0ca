import { describe, expect, it } from "vitest";
import { analyze } from "../../src/movement/analyze.js";
import { summarize } from "../../src/movement/summarize.js";
import type { Acquisition } from "../../src/movement/types.js";
import type { Recording } from "../../src/trace/types.js";
import { SHARED_ABSENT, sharedPath } from "../shared.js";
import { choiceReachPeople, convertChoiceReach, START_BUTTON } from "./convert-choice-reach.js";

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const holds = (box: Box, x: number, y: number): boolean => Math.abs(x - box.x) <= box.width / 2 && Math.abs(y - box.y) <= box.height / 2;

/** Recorded position at `t`: that of the last sample up to it. */
function placeAt({ trace }: Recording, t: number): { x: number; y: number } {
  const after = trace.t.findIndex((time) => time > t);
  const at = (after < 0 ? trace.t.length : after) - 1;
  return { x: trace.x[at], y: trace.y[at] };
}

/** Whether a row begins in the start button and ends, pressed, in the rectangle that was chosen. */
function leadsFromStartToGoal(recording: Recording, row: Acquisition): boolean {
  const { onset, press } = row.times;
  if (onset === undefined || press === undefined) return false;
  const { at, shape } = recording.targets.find(({ id }) => id === row.target)!;
  if ("t" in at || shape.kind !== "rect") return false;
  const [start, end] = [placeAt(recording, onset), placeAt(recording, press)];
  return holds(START_BUTTON, start.x, start.y) && holds({ ...at, ...shape }, end.x, end.y);
}

const path = sharedPath("data", "choice-reach", "traces");

// Source: the recordings' own layout (Kieslich and Henninger 2017): each trial is one reach from the start button to one of two rectangles.
describe.skipIf(path === undefined)(`movements of the choice-reach recordings${path === undefined ? `: ${SHARED_ABSENT}` : ""}`, () => {
  const recordings = choiceReachPeople().map(convertChoiceReach);
  const found = recordings.map((recording) => ({ recording, rows: analyze(recording) }));

  it("are one row for each trial", () => {
    for (const { recording, rows } of found) expect(rows.map((row) => row.trial)).toEqual(recording.trials.map(({ id }) => id));
  });

  it("lead from the start button to the rectangle chosen in at least 95 % of the trials", () => {
    const all = found.flatMap(({ recording, rows }) => rows.map((row) => leadsFromStartToGoal(recording, row)));
    expect(all.length).toBe(304);
    expect(all.filter(Boolean).length / all.length).toBeGreaterThanOrEqual(0.95);
  });

  it("are hits whose time is all accounted for", () => {
    for (const { rows } of found) {
      for (const { outcome, budget, times } of rows) {
        expect(outcome).toBe("hit");
        expect(Object.values(budget).reduce((sum, part) => sum + part, 0)).toBeCloseTo(times.end - times.go, 9);
      }
      // the gaps between trials touch the rows and do not spoil them
      expect(rows.filter(({ flags }) => flags.includes("missingData")).length).toBeLessThan(2);
      expect(summarize(rows).time.waiting).toBeGreaterThan(0);
    }
  });
});
