import { requireObject, show } from "../../math/require.js";
import { countOf } from "../count-of.js";
import { spaceName } from "../session/space-name.js";
import type { SessionSummary } from "../types.js";

/** Throws unless the list holds session summaries of one unit, at least `least` of them. */
export function requireSummaries(where: string, name: string, sessions: readonly SessionSummary[], least: number): void {
  if (!Array.isArray(sessions)) throw new TypeError(`${where}: ${name} must be an array of session summaries, got ${show(sessions)}`);
  if (sessions.length < least)
    throw new RangeError(`${where}: ${name} must hold at least ${countOf(least, "session")}, got ${sessions.length}`);
  for (const [i, session] of (sessions as readonly SessionSummary[]).entries()) {
    requireObject(where, `${name}[${i}]`, session);
    if (!Array.isArray(session.rows) || session.space === undefined) {
      throw new TypeError(`${where}: ${name}[${i}] must be a result of summarizeSession, got an object without rows and space`);
    }
    if (Number.isNaN(Date.parse(session.startedAt))) {
      throw new RangeError(`${where}: ${name}[${i}].startedAt must be a date and time of ISO 8601, got ${show(session.startedAt)}`);
    }
    requireSameUnit(where, name, sessions[0], session, i);
  }
}

function requireSameUnit(where: string, name: string, first: SessionSummary, session: SessionSummary, i: number): void {
  const [one, other] = [spaceName(first.space), spaceName(session.space)];
  if (one !== other) {
    throw new RangeError(
      `${where}: ${name} must share one space, got ${one} (${first.startedAt}) and, at [${i}], ${other} (${session.startedAt})`,
    );
  }
}

/** The sessions in the order in which they began. */
export function inOrder(sessions: readonly SessionSummary[]): SessionSummary[] {
  return [...sessions].sort((a, b) => Date.parse(a.startedAt) - Date.parse(b.startedAt));
}
