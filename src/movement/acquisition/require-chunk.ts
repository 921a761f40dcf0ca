import { requireColumn, requireNumber, show } from "../../math/require.js";
import { checkMark, checkPress, checkTarget, checkTrial } from "../../trace/form/check-entries.js";
import { checkObject } from "../../trace/form/check-fields.js";
import { type Problem, problemText, type Raw } from "../../trace/form/problem.js";
import { requireTrace } from "../../trace/require-trace.js";
import type { Chunk, Track } from "../../trace/types.js";

const WHERE = "createAnalyzer";

/** Throws unless a chunk is whole in itself and does not go back before `clock`, nor its samples before `newest`. */
export function requireChunk(chunk: Chunk, clock: number, newest: number): void {
  if (chunk === null || typeof chunk !== "object")
    throw new TypeError(`${WHERE}: chunk must be an object with a trace, got ${show(chunk)}`);
  const { trace, presses = [], targets = [], trials = [], marks = [], until } = chunk;
  requireTrace(WHERE, "chunk.trace", trace);
  if (until !== undefined) requireNumber(WHERE, "chunk.until", until, clock);
  const first = trace.t[0];
  if (first !== undefined && first < newest) {
    throw new RangeError(`${WHERE}: chunk.trace.t must not run backward across chunks, got ${first} after ${newest}`);
  }
  requireEach("presses", presses, checkPress);
  requireEach("targets", targets, checkTarget);
  requireEach("trials", trials, checkTrial);
  requireEach("marks", marks, checkMark);
  for (const [i, { at }] of targets.entries()) if ("t" in at) requireTrack(`chunk.targets[${i}].at`, at);
}

function requireEach(list: string, entries: readonly unknown[], check: (raw: Raw) => Problem | undefined): void {
  if (!Array.isArray(entries)) throw new TypeError(`${WHERE}: chunk.${list} must be a list, got ${show(entries)}`);
  for (const [i, raw] of entries.entries()) {
    const wrong = checkObject(raw, []) ?? check(raw);
    if (wrong === undefined) continue;
    const at = `chunk.${list}[${i}]`;
    const named = wrong.name === undefined ? wrong : { ...wrong, name: `${at}.${wrong.name}` };
    const text = `${WHERE}: ${problemText(named, at, at)}`;
    throw /^be an? (number|text|object|list)\b/.test(wrong.must) ? new TypeError(text) : new RangeError(text);
  }
}

function requireTrack(name: string, track: Track): void {
  requireTrace(WHERE, name, track);
  if (track.t.length === 0) throw new RangeError(`${WHERE}: ${name} must have a sample, got none`);
  const { scale } = track;
  if (scale === undefined) return;
  requireColumn(WHERE, `${name}.scale`, scale, track.t.length);
  const at = scale.findIndex((factor) => !(factor > 0));
  if (at >= 0) throw new RangeError(`${WHERE}: ${name}.scale[${at}] must be above 0, got ${scale[at]}`);
}
