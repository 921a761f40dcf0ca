import { show } from "../../math/require.js";
import type { Mark, Press, Target } from "../types.js";
import { checkMark, checkPress, checkTarget } from "./check-entries.js";
import { readRows, type TableRow } from "./csv-rows.js";
import type { TableName } from "./csv-tables.js";
import { type ReadTable, readTrials } from "./csv-trials.js";
import { MARK_FIELDS, PRESS_FIELDS, pick, TARGET_FIELDS } from "./entry-fields.js";
import { createColumns, type GrowingColumns } from "./growing-columns.js";
import { type Problem, problem, type Raw } from "./problem.js";
import { type Reading, refuse, settle, type Tally } from "./reading.js";
import { type RecordingBuilder, rowAt, unknownTarget } from "./session-builder.js";
import { checkCoded, takePoint } from "./take-point.js";

/** Reads all tables but those of the session, the recordings and the samples. What is referred to comes first. */
export function readEntries(
  reading: Reading,
  texts: ReadonlyMap<TableName, string>,
  recordingOf: (row: TableRow) => RecordingBuilder | Problem,
): void {
  const used = new Set<RecordingBuilder>();
  const read: ReadTable = (name, take) => {
    const text = texts.get(name);
    if (text === undefined) return;
    readRows(reading, name, text, (row) => {
      const recording = recordingOf(row);
      if ("reason" in recording) return recording;
      used.add(recording);
      return take(recording, row);
    });
  };
  read("targets", (recording, row) => takeTarget(reading, recording, row));
  read("tracks", (recording, row) => takeTrackRow(reading, recording, row));
  for (const recording of used) dropWithoutTrack(reading, recording);
  readTrials(read);
  read("presses", (recording, row) => takePress(reading, recording, row));
  read("marks", takeMark);
  read("frames", (recording, row) => takeFrame(reading, recording, row));
}

/** The fields that are there. */
function present(fields: Raw): Raw {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
}

function takeTarget(reading: Reading, { targets }: RecordingBuilder, row: TableRow): Problem | boolean {
  const shape = present({
    kind: row.text("shape"),
    diameter: row.number("diameter"),
    width: row.number("width"),
    height: row.number("height"),
    angle: row.number("angle"),
  });
  const centre = present({ x: row.number("x"), y: row.number("y") });
  const moves = Object.keys(centre).length === 0;
  const [tShown, tGone] = [row.number("tShown"), row.number("tGone")];
  const raw = { id: row.text("id"), tShown, tGone, shape, at: moves ? { t: [] } : centre, role: row.text("role") };
  const wrong = settle(reading, row, raw, checkTarget);
  if (wrong) return wrong;
  const { at, ...target } = pick<Target>(raw, TARGET_FIELDS);
  if (targets.has(target.id)) return problem("duplicate", ["id"], "be given once", target.id);
  targets.set(target.id, {
    target,
    at: moves ? createColumns(3) : (at as { x: number; y: number }),
    place: { file: row.file, line: row.line, column: 1 },
  });
  return true;
}

function takeTrackRow(reading: Reading, { targets }: RecordingBuilder, row: TableRow): Problem | boolean {
  const id = row.text("target");
  const [t, x, y, scale] = ["t", "x", "y", "scale"].map((name) => row.number(name));
  const refused = (problem: Problem): Problem => {
    reading.trackPoints.found++;
    reading.trackPoints.dropped++;
    return problem;
  };
  const entry = targets.get(id ?? "");
  if (!entry) return refused(unknownTarget(["target"], id));
  if (!("width" in entry.at)) return refused(problem("badValue", ["target"], "be the id of a target without x and y", id));
  // the first row tells whether the track has a scale
  if (entry.at.length === 0 && scale !== undefined) entry.at = createColumns(4);
  const columns = entry.at as GrowingColumns;
  if ((scale !== undefined) !== columns.width > 3) {
    return refused(problem("badValue", ["scale"], "be there in all rows of a track or in none", scale ?? ""));
  }
  return takeOne(reading, row, columns, reading.trackPoints, [t, x, y, scale ?? 1]);
}

function takeFrame(reading: Reading, recording: RecordingBuilder, row: TableRow): Problem | boolean {
  recording.frames ??= createColumns(1);
  return takeOne(reading, row, recording.frames, reading.frames, [row.number("t"), 0, 0, 1]);
}

function takeOne(reading: Reading, row: TableRow, columns: GrowingColumns, tally: Tally, [t, x, y, scale]: readonly unknown[]): boolean {
  return takePoint(reading, { columns, tally, row, prefix: [], coded: false }, -1, t ?? "", x ?? "", y ?? "", scale);
}

/** A target that moves must have been somewhere. */
function dropWithoutTrack(reading: Reading, { targets }: RecordingBuilder): void {
  for (const [id, { at, place }] of targets) {
    if (!("width" in at) || at.length > 0) continue;
    const must = "have x and y, or rows in the table tracks";
    refuse(reading, rowAt(place), problem("badValue", [], must, "", { name: "target", got: `neither for ${show(id)}`, followsCut: true }));
    targets.delete(id);
    reading.lines.kept--;
    reading.lines.dropped++;
  }
}

function takePress(reading: Reading, { presses }: RecordingBuilder, row: TableRow): Problem | boolean {
  const [x, y, credited, counted] = [row.number("x"), row.number("y"), row.text("credited"), row.text("counted")];
  const raw: Raw = { t: row.number("t"), tUp: row.number("tUp"), by: row.text("by"), code: row.text("code"), x, y };
  raw.credited = counted === "miss" && credited === undefined ? null : credited;
  const verdict = (): Problem | undefined => {
    const allowed = credited === undefined ? [undefined, "miss"] : [undefined, "hit"];
    if (allowed.includes(counted)) return undefined;
    const must = `be nothing or ${allowed[1]} where credited is ${credited === undefined ? "empty" : "not"}`;
    return problem("badValue", ["counted"], must, counted);
  };
  const wrong = settle(reading, row, raw, () => checkPress(raw) ?? verdict() ?? checkCoded(reading, raw));
  if (wrong) return wrong;
  const place = { file: row.file, line: row.line, column: row.column(["credited"]) };
  presses.push({ press: pick<Press>(raw, PRESS_FIELDS), place });
  return true;
}

function takeMark({ marks }: RecordingBuilder, row: TableRow): Problem | boolean {
  const raw = { t: row.number("t"), tEnd: row.number("tEnd"), kind: row.text("kind") };
  const wrong = checkMark(raw);
  if (!wrong) marks.push(pick<Mark>(raw, MARK_FIELDS));
  return wrong ?? true;
}
