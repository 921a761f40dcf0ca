// Reads the choice-reach recordings: 16 people, 19 trials each, a reach from a start button to one of two rectangles, polled every 10 ms.
// Source of the data: Kieslich and Henninger 2017, doi:10.3758/s13428-017-0900-z (after Dale, Kehoe and Spivey 2007); GPL-3, kept outside.
import { readdirSync } from "node:fs";
import type { Mark, Press, Recording, Target, Trial } from "../../src/trace/types.js";
import { sharedPath } from "../shared.js";
import { readTable } from "./read-table.js";

/** Where every trial begins; pixels from the screen's centre, y down. It is no target: nothing is to be acquired there. */
export const START_BUTTON = { x: 0, y: 440, width: 350, height: 170 } as const;

const RECTANGLE = { kind: "rect", width: 350, height: 170 } as const;
const CENTRES = { left: { x: -665, y: -440 }, right: { x: 665, y: -440 } } as const;

/** The people whose recordings are at hand, `"s01"` and so on; none when the data are absent. */
export function choiceReachPeople(): string[] {
  const folder = sharedPath("data", "choice-reach", "traces");
  return folder === undefined
    ? []
    : readdirSync(folder)
        .map((file) => file.replace(".csv", ""))
        .sort();
}

/**
 * All trials of one person on one clock, seconds from the first trial's first sample. The goal of a trial is the rectangle that was clicked,
 * so that the movement is measured against what was aimed at; whether it was the right answer stands in `condition.correct`. The other
 * rectangle is a distractor. The press is the last sample. Nothing was recorded between trials: that time is marked as a gap.
 */
export function convertChoiceReach(person: string): Recording {
  const rows = readTable(folderFile("traces", `${person}.csv`));
  const facts = readTable(folderFile("trials.csv")).filter((trial) => trial.participant === person);
  const begun = new Map(facts.map((trial) => [trial.trial, Number(trial.tRaw0_ms)]));
  const origin = begun.get(rows[0]!.trial)!;
  const column = (value: (row: Record<string, string>) => number): Float64Array => Float64Array.from(rows, value);
  const trace = {
    t: column((row) => (begun.get(row.trial)! - origin + Number(row.t_ms)) / 1000),
    x: column((row) => Number(row.x)),
    y: column((row) => Number(row.y)),
  };
  const presses: Press[] = [];
  const targets: Target[] = [];
  const trials: Trial[] = [];
  const marks: Mark[] = [];
  for (const { trial, side, condition, correct, trialNo } of facts) {
    const first = rows.findIndex((row) => row.trial === trial);
    const last = rows.map((row) => row.trial).lastIndexOf(trial);
    const [tStart, tEnd] = [trace.t[first]!, trace.t[last]!];
    const before = trials.at(-1)?.tEnd;
    if (before !== undefined) marks.push({ t: before, tEnd: tStart, kind: "gap" });
    for (const place of ["left", "right"] as const) {
      const role = place === side ? "goal" : "distractor";
      targets.push({ id: `${trial}-${place}`, tShown: tStart, tGone: tEnd, shape: RECTANGLE, at: CENTRES[place], role });
    }
    presses.push({ t: tEnd, by: "button", code: "0", x: trace.x[last]!, y: trace.y[last]!, credited: `${trial}-${side}` });
    const conditions = { word: condition!, side: side!, correct: Number(correct), number: Number(trialNo) };
    trials.push({ id: trial!, kind: "acquire", tStart, tEnd, goals: [`${trial}-${side}`], block: person, condition: conditions });
  }
  return { schema: 1, space: { kind: "plane", unit: "px" }, device: "mouse", trace, presses, targets, trials, marks };
}

function folderFile(...parts: string[]): string {
  const path = sharedPath("data", "choice-reach", ...parts);
  if (path === undefined) throw new Error(`choice-reach: ${parts.join("/")} is absent`);
  return path;
}
