import type { Trial } from "../types.js";
import { checkTrial } from "./check-entries.js";
import type { TableRow } from "./csv-rows.js";
import type { TableName } from "./csv-tables.js";
import { pick, TRIAL_FIELDS } from "./entry-fields.js";
import { type Problem, problem, type Raw } from "./problem.js";
import type { Place } from "./reading.js";
import { type RecordingBuilder, unknownTarget } from "./session-builder.js";

/** Reads the table of a name, if it was given, row by row. */
export type ReadTable = (name: TableName, take: (recording: RecordingBuilder, row: TableRow) => Problem | boolean) => void;

/** A trial while its goals and conditions come, from tables of their own. */
interface TrialParts {
  readonly raw: Raw;
  readonly goals: string[];
  /** Of the trial's row, until goals have theirs. */
  readonly places: Place[];
  readonly condition: Map<string, string | number>;
}

export function readTrials(read: ReadTable): void {
  const all = new Map<RecordingBuilder, Map<string, TrialParts>>();
  const partsOf = (recording: RecordingBuilder): Map<string, TrialParts> => {
    const parts = all.get(recording) ?? new Map<string, TrialParts>();
    all.set(recording, parts);
    return parts;
  };
  const trialOf = (recording: RecordingBuilder, row: TableRow): TrialParts | Problem => {
    const id = row.text("trial");
    return (
      partsOf(recording).get(id ?? "") ??
      problem("unknownName", ["trial"], "be the id of a trial of the recording", id, { followsCut: true })
    );
  };
  read("trials", (recording, row) => takeTrial(partsOf(recording), row));
  read("goals", (recording, row) => {
    const trial = trialOf(recording, row);
    return "reason" in trial ? trial : takeGoal(trial, row);
  });
  read("conditions", (recording, row) => {
    const trial = trialOf(recording, row);
    return "reason" in trial ? trial : takeCondition(trial, row);
  });
  for (const [{ trials }, parts] of all) {
    for (const [id, { raw, goals, places, condition }] of parts) {
      // fromEntries makes every name a field of its own, __proto__ too
      const trial = { ...pick<Trial>(raw, TRIAL_FIELDS), goals, condition: Object.fromEntries(condition) };
      trials.set(id, { trial, places, rows: 1 + goals.length + condition.size });
    }
  }
}

function takeTrial(parts: Map<string, TrialParts>, row: TableRow): Problem | boolean {
  const [tStart, tEnd] = [row.number("tStart"), row.number("tEnd")];
  const raw = { id: row.text("id"), kind: row.text("kind"), tStart, tEnd, goals: [], block: row.text("block") ?? "", condition: {} };
  const wrong = checkTrial(raw);
  if (wrong) return wrong;
  const id = raw.id!;
  if (parts.has(id)) return problem("duplicate", ["id"], "be given once", id);
  const { file, line } = row;
  parts.set(id, { raw, goals: [], places: [{ file, line, column: row.column(["id"]) }], condition: new Map() });
  return true;
}

function takeGoal({ goals, places }: TrialParts, row: TableRow): Problem | boolean {
  const goal = row.text("target");
  if (goal === undefined) return unknownTarget(["target"], goal);
  const place = { file: row.file, line: row.line, column: row.column(["target"]) };
  if (goals.length === 0) places[0] = place;
  else places.push(place);
  goals.push(goal);
  return true;
}

function takeCondition({ condition }: TrialParts, row: TableRow): Problem | boolean {
  const name = row.text("name") ?? "";
  const number = row.number("value");
  const type = row.text("type") ?? (typeof number === "number" ? "number" : "text");
  if (type !== "number" && type !== "text") return problem("badValue", ["type"], 'be "number", "text" or nothing', type);
  if (type === "number" && !Number.isFinite(number)) return problem("badValue", ["value"], "be a finite number", number ?? "");
  if (condition.has(name)) return problem("duplicate", ["name"], "be given once for a trial", name);
  condition.set(name, type === "number" ? (number as number) : (row.text("value") ?? ""));
  return true;
}
