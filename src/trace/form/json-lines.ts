import type { Chunk, Recording, Session, Target, Track } from "../types.js";
import { MARK_FIELDS, PRESS_FIELDS, SCHEMA, TARGET_FIELDS, TRIAL_FIELDS } from "./entry-fields.js";
import { numberText } from "./number-text.js";

// The lines of our JSON Lines form, without their line ends. A program that records writes `sessionLine` once, `recordingLine` at the start of
// each recording and `chunkLines` as chunks come; each line stands for itself, so that a crash costs the last one at most.

export function sessionLine({ person, startedAt, equipment }: Omit<Session, "recordings">): string {
  return jsonText({ kind: "session", schema: SCHEMA, person, startedAt, equipment });
}

/** `number` counts the recordings of a session, from 1; so do the lines that belong to them. */
export function recordingLine({ space, device }: Pick<Recording, "space" | "device">, number: number): string {
  return jsonText({ kind: "recording", recording: number, space, device });
}

/** What a chunk holds, in lines of at most `samplesPerLine` samples. A recording is one large chunk. */
export function* chunkLines(chunk: Chunk, number: number, samplesPerLine: number): Generator<string> {
  const { trace, presses = [], targets = [], trials = [], marks = [], frames } = chunk;
  for (const target of targets) yield* targetLines(target, number, samplesPerLine);
  for (const { kind: type, ...trial } of trials) yield line("trial", number, { type, ...trial }, typeFirst(TRIAL_FIELDS));
  for (const [from, to] of pieces(trace.t.length, samplesPerLine)) yield line("samples", number, slices(trace, from, to));
  for (const press of presses) yield line("press", number, press, PRESS_FIELDS);
  for (const { kind: type, ...mark } of marks) yield line("mark", number, { type, ...mark }, typeFirst(MARK_FIELDS));
  if (!frames) return;
  // a line without times says that frames were watched for, and none came
  if (frames.length === 0) yield line("frames", number, { t: frames });
  for (const [from, to] of pieces(frames.length, samplesPerLine)) yield line("frames", number, { t: frames.subarray(from, to) });
}

function* targetLines(target: Target, number: number, samplesPerLine: number): Generator<string> {
  const { at, id } = target;
  if (!("t" in at)) return yield line("target", number, target, TARGET_FIELDS);
  const [first = [0, 0], ...rest] = pieces(at.t.length, samplesPerLine);
  yield line("target", number, { ...target, at: slices(at, ...first) }, TARGET_FIELDS);
  for (const [from, to] of rest) yield line("track", number, { target: id, ...slices(at, from, to) });
}

/** Half-open stretches of at most `size` that make up 0 to `length`. */
function pieces(length: number, size: number): [number, number][] {
  return Array.from({ length: Math.ceil(length / size) }, (_, i) => [i * size, Math.min(length, (i + 1) * size)]);
}

function slices({ t, x, y, scale }: Track, from: number, to: number): object {
  return { t: t.subarray(from, to), x: x.subarray(from, to), y: y.subarray(from, to), ...(scale && { scale: scale.subarray(from, to) }) };
}

/** `kind` names the line, so the kind of what stands on it is called `type`. */
function typeFirst(fields: readonly string[]): string[] {
  return fields.map((field) => (field === "kind" ? "type" : field));
}

function line(kind: string, number: number, entry: object, fields: readonly string[] = Object.keys(entry)): string {
  const raw = entry as Readonly<Record<string, unknown>>;
  return jsonText({ kind, recording: number, ...Object.fromEntries(fields.map((field) => [field, raw[field]])) });
}

/** As JSON.stringify, but a negative zero stays one and typed arrays are lists. */
function jsonText(value: unknown): string {
  if (typeof value === "number") return numberText(value);
  if (value === null || typeof value !== "object") return JSON.stringify(value);
  if (value instanceof Float64Array) return `[${Array.from(value, numberText).join()}]`;
  if (Array.isArray(value)) return `[${value.map(jsonText).join()}]`;
  const fields = Object.entries(value).filter(([, entry]) => entry !== undefined);
  return `{${fields.map(([key, entry]) => `${JSON.stringify(key)}:${jsonText(entry)}`).join()}}`;
}
