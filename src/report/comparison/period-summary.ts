import type { PeriodSummary, SessionSummary } from "../types.js";

/** Count and dates of sessions in order. */
export function periodSummary(sessions: readonly SessionSummary[]): PeriodSummary {
  return {
    sessions: sessions.length,
    rows: sessions.reduce((sum, { rows }) => sum + rows.length, 0),
    from: sessions[0]!.startedAt,
    to: sessions[sessions.length - 1]!.startedAt,
  };
}
