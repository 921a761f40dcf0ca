import { show } from "../../math/require.js";
import type { Space } from "../types.js";
import { checkKnown } from "./check-fields.js";
import { checkHead, checkSession } from "./check-session.js";
import { pick, SCHEMA } from "./entry-fields.js";
import { countRefused, KINDS, type Line } from "./json-entries.js";
import { fieldTwice, jsonRow, parseLine } from "./json-row.js";
import { type Problem, problem, type Raw } from "./problem.js";
import { dropLine, type Reading, refuse, settle } from "./reading.js";
import { beginRecording, type RecordingBuilder, type SessionBuilder, type SessionHead } from "./session-builder.js";

const ALL_KINDS = ["session", "recording", ...Object.keys(KINDS)];

/** Takes one line of text with something on it. */
export function readJsonLine(reading: Reading, builder: SessionBuilder, text: string, number: number, whole: boolean): void {
  reading.lines.found++;
  const parsed = parseLine(text);
  const isObject = "raw" in parsed;
  // an object that closes is whole, line end or not
  const row = jsonRow(reading.file, number, text, !isObject && !whole);
  const bad = isObject ? fieldTwice(text, parsed.raw) : parsed;
  const wrong = bad?.wrong ?? readLine(reading, builder, { raw: (parsed as Line).raw, row });
  if (!wrong) {
    reading.lines.kept++;
    reading.unterminated ||= !whole;
    return;
  }
  dropLine(reading, bad ? { ...row, column: () => bad.column } : row, wrong);
  if (isObject) countRefused(reading, parsed.raw);
}

function readLine(reading: Reading, builder: SessionBuilder, line: Line): Problem | undefined {
  const { raw, row } = line;
  const { kind } = raw;
  if (kind === "session") return readSession(reading, builder, line);
  if (!builder.head) refuse(reading, row, problem("beforeSession", ["kind"], 'be "session" on the first line', kind), "taken");
  if (kind === "recording") return readHead(reading, builder, line);
  const known = typeof kind === "string" && Object.hasOwn(KINDS, kind) ? KINDS[kind] : undefined;
  if (!known) return problem("unknownKind", ["kind"], `be one of ${ALL_KINDS.join(", ")}`, kind);
  const recording = recordingOf(builder, raw);
  const wrong =
    "space" in recording ? settle(reading, row, raw, () => checkKnown(raw, [], ["kind", "recording", ...known.fields])) : recording;
  return wrong ?? known.take(reading, recording as RecordingBuilder, line);
}

function readSession(reading: Reading, builder: SessionBuilder, { raw, row }: Line): Problem | undefined {
  const { schema } = raw;
  if (schema !== SCHEMA) return problem("badValue", ["schema"], `be ${SCHEMA}`, schema, { fatal: true });
  const fields = ["schema", "person", "startedAt", "equipment"];
  const wrong = settle(reading, row, raw, () => checkKnown(raw, [], ["kind", ...fields]) ?? checkSession(raw));
  // without its session nothing in the file has an owner or a clock
  if (wrong) return { ...wrong, fatal: true };
  const head = pick<SessionHead>(raw, ["person", "startedAt", "equipment"]);
  const { head: before } = builder;
  if (before) {
    const same = JSON.stringify(before) === JSON.stringify(head);
    const got = same ? "it again" : `${show(before.person)} from ${before.startedAt} and ${show(head.person)} from ${head.startedAt}`;
    return problem("duplicate", ["kind"], "be one", "", { name: "session", got, ...(same ? {} : { fatal: true }) });
  }
  builder.head = head;
  return undefined;
}

function readHead(reading: Reading, builder: SessionBuilder, { raw, row }: Line): Problem | undefined {
  // what follows a recording that cannot be begun is not part of the one before
  builder.current = undefined;
  const { recording: given, schema = SCHEMA } = raw;
  const next = builder.highest + 1;
  const number = given === undefined ? next : given;
  if (schema !== SCHEMA) return problem("badValue", ["schema"], `be ${SCHEMA}`, schema, { fatal: true });
  if (!isNumber(number)) return problem("badValue", ["recording"], "be a whole number from 1", number);
  if (number > next) refuse(reading, row, problem("noRecording", ["recording"], `be at most ${next}, the next one`, number), "taken");
  const fields = ["kind", "recording", "schema", "space", "device"];
  const wrong = settle(reading, row, raw, () => checkKnown(raw, [], fields) ?? checkHead(raw));
  return wrong ?? beginRecording(builder, number, raw.space as Space, raw.device as string);
}

function isNumber(value: unknown): value is number {
  return Number.isSafeInteger(value) && (value as number) >= 1;
}

function recordingOf(builder: SessionBuilder, raw: Raw): RecordingBuilder | Problem {
  const number = raw.recording === undefined ? builder.current : raw.recording;
  const recording = builder.recordings.get(number as number);
  if (recording) return recording;
  return problem("noRecording", ["recording"], "be the number of a recording begun before", number);
}
