import type { Mark, Press, Target, Trial } from "../types.js";
import { checkMark, checkPress, checkTarget, checkTrial } from "./check-entries.js";
import { MARK_FIELDS, PRESS_FIELDS, pick, TARGET_FIELDS, TRIAL_FIELDS } from "./entry-fields.js";
import { createColumns, type GrowingColumns } from "./growing-columns.js";
import { type Path, type Problem, problem, type Raw } from "./problem.js";
import { type Reading, type Row, settle, type Tally } from "./reading.js";
import { addMark, addPress, type RecordingBuilder } from "./session-builder.js";
import { checkCoded, takePoint } from "./take-point.js";

/** A line in hand: its object and where its parts stand. */
export interface Line {
  readonly raw: Raw;
  readonly row: Row;
}

type Take = (reading: Reading, recording: RecordingBuilder, line: Line) => Problem | undefined;

/** Fields of each kind of line beside `kind`, and how it is taken into its recording. */
export const KINDS: Readonly<Record<string, { readonly fields: readonly string[]; readonly take: Take }>> = {
  samples: { fields: ["t", "x", "y"], take: takeSamples },
  press: { fields: PRESS_FIELDS, take: takePress },
  target: { fields: TARGET_FIELDS, take: takeTarget },
  track: { fields: ["target", "t", "x", "y", "scale"], take: takeTrack },
  trial: { fields: typed(TRIAL_FIELDS), take: takeTrial },
  mark: { fields: typed(MARK_FIELDS), take: takeMark },
  frames: { fields: ["t"], take: takeFrames },
};
function takeSamples(reading: Reading, { samples }: RecordingBuilder, { raw, row }: Line): Problem | undefined {
  return takeColumns(reading, row, raw, [], ["t", "x", "y"], samples, reading.samples, true);
}

function takeFrames(reading: Reading, recording: RecordingBuilder, { raw, row }: Line): Problem | undefined {
  const frames = recording.frames ?? createColumns(1);
  const wrong = takeColumns(reading, row, raw, [], ["t"], frames, reading.frames, false);
  if (!wrong) recording.frames = frames;
  return wrong;
}

/** Lists of numbers, equally long, one after the other into columns. */
function takeColumns(
  reading: Reading,
  row: Row,
  raw: Raw,
  prefix: Path,
  fields: readonly ("t" | "x" | "y" | "scale")[],
  columns: GrowingColumns,
  tally: Tally,
  coded: boolean,
): Problem | undefined {
  const lists = fields.map((field) => raw[field]);
  const wrong = checkLists(raw, prefix, fields);
  if (wrong) return wrong;
  const [t, x, y, scale] = lists as readonly (readonly unknown[] | undefined)[];
  const stream = { columns, tally, row, prefix, coded };
  for (let i = 0; i < t!.length; i++) takePoint(reading, stream, i, t![i], x ? x[i] : 0, y ? y[i] : 0, scale ? scale[i] : 1);
  return undefined;
}

function checkLists(raw: Raw, prefix: Path, fields: readonly string[]): Problem | undefined {
  for (const field of fields) {
    const list = raw[field];
    const reason = list === undefined ? "missingField" : "badValue";
    if (!Array.isArray(list)) return problem(reason, [...prefix, field], "be a list of numbers", list);
    const { length } = raw.t as unknown[];
    if (list.length !== length) {
      const got = `${list.length}`;
      return problem("unequalColumns", [...prefix, field], `have ${length} entries like t`, "", { got });
    }
  }
  return undefined;
}

function takePress(reading: Reading, recording: RecordingBuilder, { raw, row }: Line): Problem | undefined {
  const wrong = settle(reading, row, raw, () => checkPress(raw) ?? checkCoded(reading, raw));
  if (wrong) return wrong;
  const { file, line } = row;
  if (addPress(recording, pick<Press>(raw, PRESS_FIELDS), { file, line, column: row.column(["credited"]) })) reading.replaced++;
  return undefined;
}

function takeTarget(reading: Reading, { targets }: RecordingBuilder, { raw, row }: Line): Problem | undefined {
  const wrong = settle(reading, row, raw, checkTarget);
  if (wrong) return wrong;
  const { at, ...target } = pick<Target>(raw, TARGET_FIELDS);
  const { file, line } = row;
  const place = { file, line, column: row.column(["at"]) };
  const add = (centre: { readonly x: number; readonly y: number } | GrowingColumns): undefined => {
    // set anew at the same place in the order
    if (targets.has(target.id)) reading.replaced++;
    targets.set(target.id, { target, at: centre, place });
  };
  if (!("t" in at)) return add(at);
  const columns = createColumns("scale" in at ? 4 : 3);
  const bad = takeTrackPoints(reading, row, at as unknown as Raw, ["at"], columns);
  if (bad) {
    countRefused(reading, { ...at, kind: "track" });
    return bad;
  }
  if (columns.length === 0) return problem("badValue", ["at"], "have a sample", "", { name: "track", got: "none" });
  return add(columns);
}

/** More samples of the track of a target that moves. */
function takeTrack(reading: Reading, { targets }: RecordingBuilder, { raw, row }: Line): Problem | undefined {
  const { target: id } = raw;
  const at = targets.get(id as string)?.at;
  if (!at) return problem("unknownName", ["target"], "be the id of a target given before", id);
  if (!("width" in at)) return problem("badValue", ["target"], "be the id of a moving target", id);
  const scaled = raw.scale !== undefined;
  if (scaled !== at.width > 3) {
    const [must, got] = at.width > 3 ? ["be there as before", "nothing"] : ["be absent as before", "one"];
    return problem("badValue", scaled ? ["scale"] : [], must!, "", { name: "scale", got: got! });
  }
  return takeTrackPoints(reading, row, raw, [], at);
}

function takeTrackPoints(reading: Reading, row: Row, raw: Raw, prefix: Path, columns: GrowingColumns): Problem | undefined {
  const fields = columns.width > 3 ? (["t", "x", "y", "scale"] as const) : (["t", "x", "y"] as const);
  return takeColumns(reading, row, raw, prefix, fields, columns, reading.trackPoints, false);
}

function takeTrial(reading: Reading, { trials }: RecordingBuilder, { raw, row }: Line): Problem | undefined {
  const wrong = settle(reading, row, raw, () => checkTrial(raw, "type"));
  if (wrong) return wrong;
  const trial = pick<Trial>({ ...raw, kind: raw.type }, TRIAL_FIELDS);
  const { file, line } = row;
  if (trials.has(trial.id)) reading.replaced++;
  trials.set(trial.id, { trial, places: [{ file, line, column: row.column(["goals"]) }], rows: 1 });
  return undefined;
}

function takeMark(reading: Reading, recording: RecordingBuilder, { raw, row }: Line): Problem | undefined {
  const wrong = settle(reading, row, raw, () => checkMark(raw, "type"));
  if (wrong) return wrong;
  if (addMark(recording, pick<Mark>({ ...raw, kind: raw.type }, MARK_FIELDS))) reading.replaced++;
  return undefined;
}

/** Counts what stood on a line that was refused as a whole. */
export function countRefused({ samples, frames, trackPoints }: Reading, raw: Raw): void {
  const tally = raw.kind === "samples" ? samples : raw.kind === "frames" ? frames : raw.kind === "track" ? trackPoints : undefined;
  if (!tally) return;
  const count = Math.max(...[raw.t, raw.x, raw.y, raw.scale].map((list) => (Array.isArray(list) ? list.length : 0)));
  tally.found += count;
  tally.dropped += count;
}

/** `kind` names the line, so the kind of what stands on it is called `type`. */
function typed(fields: readonly string[]): readonly string[] {
  return fields.map((field) => (field === "kind" ? "type" : field));
}
