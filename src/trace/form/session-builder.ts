import { show } from "../../math/require.js";
import type { Equipment, Mark, Press, Recording, Session, Space, Target, Trace, Track, Trial } from "../types.js";
import { spaceText } from "./check-session.js";
import { createColumns, finishColumns, type GrowingColumns } from "./growing-columns.js";
import { type Path, type Problem, problem } from "./problem.js";
import { type Place, type Reading, type Row, refuse } from "./reading.js";

/** What a line or row of the session says. */
export interface SessionHead {
  readonly person: string;
  readonly startedAt: string;
  readonly equipment: Equipment;
}

/** A target whose track, when it moves, still grows. */
export interface TargetBuilder {
  readonly target: Omit<Target, "at">;
  at: { readonly x: number; readonly y: number } | GrowingColumns;
  readonly place: Place;
}

export interface TrialBuilder {
  readonly trial: Trial;
  /** Where each goal stands; shorter than the goals: the last one holds for the rest. */
  readonly places: readonly Place[];
  /** Lines or rows that it is made of. */
  readonly rows: number;
}

/** A recording that is being read. */
export interface RecordingBuilder {
  readonly space: Space;
  readonly device: string;
  readonly samples: GrowingColumns;
  readonly presses: { press: Press; readonly place: Place }[];
  readonly targets: Map<string, TargetBuilder>;
  readonly trials: Map<string, TrialBuilder>;
  readonly marks: Mark[];
  /** Where presses and marks stand that have no end yet, by what tells them apart. */
  readonly open: Map<string, number>;
  frames: GrowingColumns | undefined;
}

export interface SessionBuilder {
  head: SessionHead | undefined;
  /** By their number, from 1. */
  readonly recordings: Map<number, RecordingBuilder>;
  /** Highest number so far. */
  highest: number;
  /** The one that lines without a number belong to. */
  current: number | undefined;
}

export function createSessionBuilder(): SessionBuilder {
  return { head: undefined, recordings: new Map(), highest: 0, current: undefined };
}

/** Begins a recording. One that was begun already is refused; with another space or device, beyond repair. */
export function beginRecording(builder: SessionBuilder, number: number, space: Space, device: string): Problem | undefined {
  const before = builder.recordings.get(number);
  if (before) {
    builder.current = number;
    const head = ({ space, device }: Pick<RecordingBuilder, "space" | "device">): string => `${spaceText(space)}, device ${show(device)}`;
    const [first, again] = [head(before), head({ space, device })];
    const got = first === again ? "it again" : `${first} and then ${again}`;
    return problem("duplicate", [], "be begun once", "", { name: `recording ${number}`, got, ...(first === again ? {} : { fatal: true }) });
  }
  builder.current = number;
  builder.highest = Math.max(builder.highest, number);
  builder.recordings.set(number, {
    ...{ space, device, samples: createColumns(3), frames: undefined },
    ...{ presses: [], targets: new Map(), trials: new Map(), marks: [], open: new Map() },
  });
  return undefined;
}

/** Adds a press; one with `tUp` completes the same press given before without. Answers whether it did. */
export function addPress(recording: RecordingBuilder, press: Press, place: Place): boolean {
  const key = JSON.stringify(["press", press.t, press.by, press.code]);
  return addOpenEnded(recording, recording.presses, { press, place }, key, press.tUp !== undefined);
}

/** Adds a mark; one with `tEnd` completes the same mark given before without. Answers whether it did. */
export function addMark(recording: RecordingBuilder, mark: Mark): boolean {
  return addOpenEnded(recording, recording.marks, mark, JSON.stringify(["mark", mark.t, mark.kind]), mark.tEnd !== undefined);
}

function addOpenEnded<T>({ open }: RecordingBuilder, list: T[], entry: T, key: string, ended: boolean): boolean {
  const before = ended ? open.get(key) : undefined;
  if (before === undefined) {
    if (!ended) open.set(key, list.length);
    list.push(entry);
    return false;
  }
  open.delete(key);
  list[before] = entry;
  return true;
}

/** The session, once all is read. Names that lead nowhere are refused here, since what they name may come later in a file. */
export function finishSession(reading: Reading, { head, recordings }: SessionBuilder): Session {
  const { person, startedAt, equipment } = head!;
  const ordered = [...recordings].sort(([a], [b]) => a - b);
  return { person, startedAt, equipment, recordings: ordered.map(([, recording]) => finishRecording(reading, recording)) };
}

function finishRecording(reading: Reading, recording: RecordingBuilder): Recording {
  const { space, device, samples, presses, targets, trials, marks, frames } = recording;
  const columns = finishColumns(samples);
  reading.sorted += samples.backward + (frames?.backward ?? 0);
  return {
    schema: 1,
    space,
    device,
    trace: { t: columns.t, x: columns.x, y: columns.y },
    presses: presses.map((entry) => finishPress(reading, entry, targets)),
    targets: [...targets.values()].map((entry) => finishTarget(reading, entry)),
    trials: [...trials.values()].flatMap((entry) => (hasItsTargets(reading, entry, targets) ? [entry.trial] : [])),
    marks,
    ...(frames ? { frames: finishColumns(frames).t } : {}),
  };
}

/** A credit for a target that is not there is no credit; the press stays. */
function finishPress(reading: Reading, { press, place }: { press: Press; place: Place }, targets: ReadonlyMap<string, unknown>): Press {
  const { credited, ...rest } = press;
  if (typeof credited !== "string" || targets.has(credited)) return press;
  refuse(reading, rowAt(place), unknownTarget(["credited"], credited), "cleared");
  return rest;
}

function finishTarget(reading: Reading, { target, at }: TargetBuilder): Target {
  const { role, ...rest } = target;
  const more = role === undefined ? {} : { role };
  if (!("width" in at)) return { ...rest, at, ...more };
  reading.sorted += at.backward;
  const { t, x, y, scale } = finishColumns(at);
  const track: Trace | Track = at.width > 3 ? { t, x, y, scale } : { t, x, y };
  return { ...rest, at: track, ...more };
}

/** A trial that runs may name targets still to be shown; one that has ended may not. */
function hasItsTargets(reading: Reading, { trial, places, rows }: TrialBuilder, targets: ReadonlyMap<string, unknown>): boolean {
  if (trial.tEnd === undefined) return true;
  const at = trial.goals.findIndex((goal) => !targets.has(goal));
  if (at < 0) return true;
  const place = places[Math.min(at, places.length - 1)]!;
  refuse(reading, rowAt(place), unknownTarget(["goals", at], trial.goals[at]));
  reading.lines.kept -= rows;
  reading.lines.dropped += rows;
  return false;
}

export function unknownTarget(path: Path, id: unknown): Problem {
  return problem("unknownName", path, "be the id of a target of the recording", id, { followsCut: true });
}

/** What was refused later than it was read, at the place it was read from. */
export function rowAt({ file, line, column }: Place): Row {
  return { file, line, unit: "row", mayBeCut: false, column: () => column };
}
