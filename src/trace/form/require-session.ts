import { requireColumn, show } from "../../math/require.js";
import { requireTrace } from "../require-trace.js";
import type { Mark, Press, Recording, Session, Target, Track, Trial } from "../types.js";
import { checkMark, checkPress, checkTarget, checkTrial } from "./check-entries.js";
import { checkKnown, checkObject, checkOneOf } from "./check-fields.js";
import { checkHead, checkSession } from "./check-session.js";
import { MARK_FIELDS, PRESS_FIELDS, SCHEMA, TARGET_FIELDS, TRIAL_FIELDS } from "./entry-fields.js";
import { type Problem, problem, problemText, type Raw } from "./problem.js";
import { unknownTarget } from "./session-builder.js";

const RECORDING_FIELDS = ["schema", "space", "device", "trace", "presses", "targets", "trials", "marks", "frames"];

/**
 * Throws unless a session is one that our files can hold, all of it, and that the reader takes. `completing`: in the file, presses and marks that
 * end complete the same ones given before without an end.
 */
export function requireSession(where: string, session: Session, completing: boolean): void {
  const raw = session as unknown as Raw;
  demand(
    where,
    "session",
    checkObject(raw, []) ?? checkSession(raw) ?? checkKnown(raw, [], ["person", "startedAt", "equipment", "recordings"]),
  );
  const { recordings } = session;
  requireList(where, "session.recordings", recordings);
  if (recordings.length === 0) throw new RangeError(`${where}: session.recordings must hold at least one recording, got 0`);
  for (const [i, recording] of recordings.entries()) requireRecording(where, `session.recordings[${i}]`, recording, completing);
}

function requireRecording(where: string, name: string, recording: Recording, completing: boolean): void {
  const raw = recording as unknown as Raw;
  const head = checkObject(raw, []) ?? checkOneOf(raw, [], "schema", [SCHEMA]) ?? checkHead(raw) ?? checkKnown(raw, [], RECORDING_FIELDS);
  demand(where, name, head);
  const { trace, targets, trials, presses, marks, frames } = recording;
  requireTrace(where, `${name}.trace`, trace);
  if (frames !== undefined) requireTimes(where, `${name}.frames`, frames);
  const ids = new Set<string>();
  requireEach<Target>(where, `${name}.targets`, targets, TARGET_FIELDS, (raw, { id }) => checkTarget(raw) ?? checkNew(ids, id));
  for (const [i, { at }] of targets.entries()) if ("t" in at) requireTrack(where, `${name}.targets[${i}].at`, at);
  const trialIds = new Set<string>();
  requireEach<Trial>(where, `${name}.trials`, trials, TRIAL_FIELDS, (raw, trial) => {
    return checkTrial(raw) ?? checkNew(trialIds, trial.id) ?? checkGoals(trial, ids);
  });
  const open = new Set<string>();
  const checkApart = (key: string, end: number | undefined, field: string): Problem | undefined => {
    if (end === undefined) open.add(key);
    else if (completing && open.has(key)) return problem("duplicate", [field], "not follow the same entry without one", end);
    return undefined;
  };
  requireEach<Press>(where, `${name}.presses`, presses, PRESS_FIELDS, (raw, { t, tUp, by, code, credited }) => {
    const unknown = typeof credited === "string" && !ids.has(credited) ? unknownTarget(["credited"], credited) : undefined;
    return checkPress(raw) ?? unknown ?? checkApart(JSON.stringify(["press", t, by, code]), tUp, "tUp");
  });
  requireEach<Mark>(where, `${name}.marks`, marks, MARK_FIELDS, (raw, { t, tEnd, kind }) => {
    return checkMark(raw) ?? checkApart(JSON.stringify(["mark", t, kind]), tEnd, "tEnd");
  });
}

function requireEach<T>(
  where: string,
  name: string,
  entries: readonly T[],
  fields: readonly (keyof T & string)[],
  check: (raw: Raw, entry: T) => Problem | undefined,
): void {
  requireList(where, name, entries);
  for (const [i, entry] of entries.entries()) {
    const raw = entry as unknown as Raw;
    demand(where, `${name}[${i}]`, checkObject(raw, []) ?? check(raw, entry) ?? checkKnown(raw, [], fields));
  }
}

function requireList(where: string, name: string, list: unknown): void {
  if (!Array.isArray(list)) throw new TypeError(`${where}: ${name} must be a list, got ${show(list)}`);
}

function requireTrack(where: string, name: string, track: Track): void {
  requireTrace(where, name, track);
  if (track.t.length === 0) throw new RangeError(`${where}: ${name} must have a sample, got none`);
  const { scale } = track;
  if (scale === undefined) return;
  requireColumn(where, `${name}.scale`, scale, track.t.length);
  const at = scale.findIndex((factor) => !(factor > 0));
  if (at >= 0) throw new RangeError(`${where}: ${name}.scale[${at}] must be above 0, got ${scale[at]}`);
}

function requireTimes(where: string, name: string, t: Float64Array): void {
  requireColumn(where, name, t);
  const at = t.findIndex((time, i) => i > 0 && time < t[i - 1]!);
  if (at >= 0) throw new RangeError(`${where}: ${name} must not run backward, got ${name}[${at}] = ${t[at]} after ${t[at - 1]}`);
}

function checkNew(seen: Set<string>, id: string): Problem | undefined {
  if (seen.has(id)) return problem("duplicate", ["id"], "be given once", id);
  seen.add(id);
  return undefined;
}

function checkGoals({ tEnd, goals }: Trial, ids: ReadonlySet<string>): Problem | undefined {
  const at = tEnd === undefined ? -1 : goals.findIndex((goal) => !ids.has(goal));
  return at < 0 ? undefined : unknownTarget(["goals", at], goals[at]);
}

function demand(where: string, name: string, wrong: Problem | undefined): void {
  if (!wrong) return;
  const text = `${where}: ${problemText({ ...wrong, ...(wrong.name === undefined ? {} : { name: `${name}: ${wrong.name}` }) }, name, name)}`;
  throw /^be (a number|a text|an object|a list of \w+)$/.test(wrong.must) ? new TypeError(text) : new RangeError(text);
}
