import { medianInPlace } from "../../math/median.js";
import { requireObject, show } from "../../math/require.js";
import type { Equipment } from "../../trace/types.js";
import type { PractisedSession } from "../types.js";
import { type PlainRow, plainRows } from "./plain-row.js";

/** A session with fewer readable rows has no mean worth the weight of a session. */
const LEAST_ROWS = 10;

/** One session, its readable rows in numbers, and how well it was sampled. */
export interface Sitting {
  readonly equipment: Equipment;
  readonly rows: readonly PlainRow[];
  /** Rows as they came, and how many of them were sampled too sparsely for boundaries. */
  readonly given: number;
  readonly unresolved: number;
  /** Median rate of the samples, Hz; absent where no row tells. */
  readonly rateHz?: number;
}

/** The sessions in order of time, those that hardly hold a readable row left out. Throws unless they are sessions. */
export function readSittings(where: string, name: string, sessions: readonly PractisedSession[]): Sitting[] {
  if (!Array.isArray(sessions)) throw new TypeError(`${where}: ${name} must be an array of sessions, got ${show(sessions)}`);
  const list: readonly PractisedSession[] = sessions;
  return list
    .map((session, i) => ({ at: startOf(where, `${name}[${i}]`, session), session }))
    .sort((a, b) => a.at - b.at)
    .map(({ session }) => sittingOf(session));
}

/** Those with enough readable rows to count as a unit. */
export function fullSittings(sittings: readonly Sitting[]): Sitting[] {
  return sittings.filter(({ rows }) => rows.length >= LEAST_ROWS);
}

function startOf(where: string, name: string, session: PractisedSession): number {
  requireObject(where, name, session);
  requireObject(where, `${name}.equipment`, session.equipment);
  if (!Array.isArray(session.rows))
    throw new TypeError(`${where}: ${name}.rows must be an array of acquisitions, got ${show(session.rows)}`);
  const at = typeof session.startedAt === "string" ? Date.parse(session.startedAt) : Number.NaN;
  if (Number.isNaN(at)) throw new RangeError(`${where}: ${name}.startedAt must be an ISO 8601 date, got ${show(session.startedAt)}`);
  return at;
}

function sittingOf({ equipment, rows }: PractisedSession): Sitting {
  const rates = Float64Array.from(rows.flatMap(({ resolution }) => (resolution === undefined ? [] : [resolution.sampleRateHz])));
  return {
    equipment,
    rows: plainRows(rows),
    given: rows.length,
    unresolved: rows.filter(({ flags }) => flags.includes("belowResolution")).length,
    ...(rates.length > 0 && { rateHz: medianInPlace(rates) }),
  };
}
