import type { Part } from "../types.js";
import { meanOf } from "./law-within.js";
import { type Excess, PARTS } from "./row-excess.js";
import { meanExcess, type UnitExcess, wholeTotal } from "./unit-excess.js";

/** Sessions in a row that make up a best period. */
const WINDOW = 3;

/**
 * The quickest three sessions in a row, drawn back toward all earlier sessions. How far a session is foretold by the other two of its window, both taken
 * from the mean of all sessions but itself, is a slope: 0 for sessions that scatter at random, whose best three are luck, near 1 where periods differ.
 * That slope, kept within 0 and 1, is the share of the window's lead that is believed. Cost O(sessions).
 */
export function ownBest(sessions: readonly UnitExcess[]): UnitExcess[] {
  if (sessions.length < WINDOW) return [...sessions];
  const totals = sessions.map(wholeTotal);
  const starts = totals.slice(WINDOW - 1).map((_, i) => i);
  const lead = (start: number): number => meanOf(totals.slice(start, start + WINDOW));
  const best = starts.reduce((quickest, start) => (lead(start) < lead(quickest) ? start : quickest));
  const window = sessions.slice(best, best + WINDOW);
  const [all, mean] = [meanExcess(sessions), meanExcess(window)];
  const doubt = 1 - believed(totals, starts);
  return window.map((session) => {
    const entries = PARTS.map((part): [Part, Excess] => [
      part,
      {
        own: session[part].own + doubt * (all[part].own - mean[part].own),
        passedOn: session[part].passedOn + doubt * (all[part].passedOn - mean[part].passedOn),
      },
    ]);
    return Object.fromEntries(entries) as Record<Part, Excess>;
  });
}

/** Slope of a session left out on the rest of its window, in [0, 1]; 0 where nothing tells. */
function believed(totals: readonly number[], starts: readonly number[]): number {
  let products = 0;
  let squares = 0;
  for (const start of starts) {
    for (let j = start; j < start + WINDOW; j++) {
      const others = meanOf(totals.filter((_, i) => i !== j));
      const rest = meanOf(totals.slice(start, start + WINDOW).filter((_, i) => start + i !== j)) - others;
      products += rest * (totals[j]! - others);
      squares += rest * rest;
    }
  }
  return squares > 0 ? Math.min(1, Math.max(0, products / squares)) : 0;
}
