import type { TrialRange } from "./group-trials.js";
import type { SessionStep } from "./structure.js";

/** A step from one session to the next, on the scale of the fit. */
export interface RawStep {
  readonly days: number | null;
  readonly kind: SessionStep["kind"];
  /** First block of the next session less the last block of this one. */
  readonly raw: number;
}

/** The steps between neighbouring sessions; a block has at most half of its session's trials. */
export function stepsBetween(y: Float64Array, sessions: readonly TrialRange[], block: number, breakDays: number): RawStep[] {
  return sessions.slice(1).map((next, j) => {
    const last = sessions[j]!;
    const lastBlock = Math.min(block, Math.ceil((last.to - last.from) / 2));
    const firstBlock = Math.min(block, Math.ceil((next.to - next.from) / 2));
    const raw = meanOf(y, next.from, next.from + firstBlock) - meanOf(y, last.to - lastBlock, last.to);
    if (last.day === null || next.day === null) return { days: null, kind: "night", raw };
    const days = next.day - last.day;
    const sameDay = Math.floor(next.day) === Math.floor(last.day);
    return { days, kind: days > breakDays ? "break" : sameDay ? "rest" : "night", raw };
  });
}

/** Mean of a stretch of a column, `to` excluded. */
export function meanOf(column: ArrayLike<number>, from: number, to: number): number {
  const first = column[from]!;
  let sum = 0;
  for (let i = from; i < to; i++) sum += column[i]! - first;
  return first + sum / (to - from);
}
