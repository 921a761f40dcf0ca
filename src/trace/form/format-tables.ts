import type { Press, Recording, Session, Target, Trial } from "../types.js";
import { csvField } from "./csv-record.js";
import { type CsvTables, TABLES, type TableName } from "./csv-tables.js";
import { EQUIPMENT_FIELDS, SCHEMA } from "./entry-fields.js";
import { numberText } from "./number-text.js";

/** A number, a text (an empty one goes into quotes), or nothing. */
type Cell = number | string | undefined;
type Row = Readonly<Record<string, Cell>>;

/** The tables of a session; those without rows are left out, but for the first three. */
export function formatTables(session: Session): CsvTables {
  const { recordings } = session;
  const numbered = (rowsOf: (recording: Recording) => Iterable<Row>): Iterable<Row> => rowsWithNumber(recordings, rowsOf);
  return {
    samples: table(
      "samples",
      numbered(({ trace }) => columnRows(trace)),
    ),
    session: table("session", sessionRows(session)),
    recordings: table(
      "recordings",
      numbered((recording) => [headRow(recording)]),
    ),
    ...optional(
      "presses",
      numbered(({ presses }) => presses.map(pressRow)),
    ),
    ...optional(
      "targets",
      numbered(({ targets }) => targets.map(targetRow)),
    ),
    ...optional(
      "tracks",
      numbered(({ targets }) => trackRows(targets)),
    ),
    ...optional(
      "trials",
      numbered(({ trials }) => trials.map(({ id, kind, tStart, tEnd, block }) => ({ id, kind, tStart, tEnd, block }))),
    ),
    ...optional(
      "goals",
      numbered(({ trials }) => trials.flatMap(({ id, goals }) => goals.map((target) => ({ trial: id, target })))),
    ),
    ...optional(
      "conditions",
      numbered(({ trials }) => trials.flatMap(conditionRows)),
    ),
    ...optional(
      "marks",
      numbered(({ marks }) => marks.map(({ t, tEnd, kind }) => ({ t, tEnd, kind }))),
    ),
    ...optional(
      "frames",
      numbered(({ frames }) => columnRows({ t: frames ?? new Float64Array(0) })),
    ),
  };
}

function optional(name: TableName, rows: Iterable<Row>): Partial<CsvTables> {
  const text = table(name, rows);
  return text.indexOf("\n") === text.length - 1 ? {} : { [name]: text };
}

function table(name: TableName, rows: Iterable<Row>): string {
  const { columns } = TABLES[name];
  const lines = [columns.join()];
  for (const row of rows) lines.push(columns.map((column) => cell(row[column])).join());
  return `${lines.join("\n")}\n`;
}

function cell(value: Cell): string {
  if (value === undefined) return "";
  return typeof value === "number" ? numberText(value) : csvField(value);
}

function* rowsWithNumber(recordings: readonly Recording[], rowsOf: (recording: Recording) => Iterable<Row>): Generator<Row> {
  for (const [i, recording] of recordings.entries()) {
    for (const row of rowsOf(recording)) yield { recording: i + 1, ...row };
  }
}

function* columnRows({ t, x, y }: { readonly t: Float64Array; readonly x?: Float64Array; readonly y?: Float64Array }): Generator<Row> {
  for (let i = 0; i < t.length; i++) yield { t: t[i], x: x?.[i], y: y?.[i] };
}

function* sessionRows({ person, startedAt, equipment }: Session): Generator<Row> {
  yield { key: "schema", value: SCHEMA };
  yield { key: "person", value: person };
  yield { key: "startedAt", value: startedAt };
  for (const field of EQUIPMENT_FIELDS) {
    if (equipment[field] !== undefined) yield { key: `equipment.${field}`, value: equipment[field] };
  }
}

function headRow({ space, device, frames }: Recording): Row {
  return { space: space.kind, unit: space.unit, device, frames: frames && "yes" };
}

function pressRow({ t, tUp, by, code, x, y, credited }: Press): Row {
  const counted = credited === undefined ? undefined : credited === null ? "miss" : "hit";
  return { t, tUp, by, code, x, y, counted, credited: credited ?? undefined };
}

function targetRow({ id, tShown, tGone, shape, at, role }: Target): Row {
  const { kind, ...size } = shape;
  return { id, tShown, tGone, shape: kind, ...size, ...("t" in at ? {} : { x: at.x, y: at.y }), role };
}

function* trackRows(targets: readonly Target[]): Generator<Row> {
  for (const { id: target, at } of targets) {
    if (!("t" in at)) continue;
    for (let i = 0; i < at.t.length; i++) yield { target, t: at.t[i], x: at.x[i], y: at.y[i], scale: at.scale?.[i] };
  }
}

function conditionRows({ id: trial, condition }: Trial): Row[] {
  return Object.entries(condition).map(([name, value]) => ({ trial, name, type: typeof value === "number" ? "number" : "text", value }));
}
