// Acquisition rows of the choice-reach recordings, each with who made it, in which condition, and what the raw samples say of the same trial.
import { analyze } from "../../src/movement/analyze.js";
import type { AnalyzeOptions } from "../../src/movement/create-analyzer.js";
import type { Acquisition } from "../../src/movement/types.js";
import { isInside } from "../../src/trace/shape/target-shape.js";
import type { Recording } from "../../src/trace/types.js";
import { choiceReachPeople, convertChoiceReach } from "../data/convert-choice-reach.js";
import { type RawPath, rawPath } from "./raw-path.js";
import { recordingFacts } from "./reference.js";

/** A trial's figures in the reference, by NumPy; names and definitions as there. */
export interface ReachFacts {
  readonly responseTime_ms: number;
  readonly firstChange_ms: number;
  readonly finalHold_ms: number;
  readonly pathLength_px: number;
  readonly efficiency: number;
  readonly acrossExtreme_px: number;
}

/** One trial. */
export interface ReachRow {
  readonly person: string;
  /** `typical` words are sorted easily, `atypical` ones pull toward the wrong answer. */
  readonly word: "typical" | "atypical";
  readonly correct: boolean;
  readonly row: Acquisition;
  readonly facts: ReachFacts;
  /** The samples as recorded, by the definitions of the reference. */
  readonly raw: RawPath;
  /** Times the samples, as recorded, came onto the rectangle that was clicked. */
  readonly rawEntries: number;
}

/** All trials in order of person and trial; none when the data are absent. */
export function reachRows(options: AnalyzeOptions = {}): ReachRow[] {
  const facts: Record<string, ReachFacts> | undefined = recordingFacts("choice-reach")?.trials;
  if (facts === undefined) return [];
  return choiceReachPeople().flatMap((person) => {
    const recording = convertChoiceReach(person);
    const trials = new Map(recording.trials.map((trial) => [trial.id, trial]));
    return analyze(recording, options).map((row) => {
      const trial = trials.get(row.trial)!;
      const { word, correct } = trial.condition;
      return {
        person,
        word: word as ReachRow["word"],
        correct: correct === 1,
        row,
        facts: facts[row.trial]!,
        raw: rawPath(recording, trial),
        rawEntries: rawEntries(recording, row),
      };
    });
  });
}

function rawEntries({ trace, targets }: Recording, { target, times }: Acquisition): number {
  const { at, shape } = targets.find(({ id }) => id === target)!;
  if ("t" in at) throw new Error("choice-reach: the rectangles stand still");
  let entries = 0;
  let inside = false;
  for (let i = 0; i < trace.t.length; i++) {
    if (trace.t[i]! < times.go || trace.t[i]! > times.end) continue;
    const now = isInside(shape, trace.x[i]! - at.x, trace.y[i]! - at.y, 1);
    if (now && !inside) entries++;
    inside = now;
  }
  return entries;
}
