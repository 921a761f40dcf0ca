import type { Part } from "../types.js";
import { COMBINED_MINUTES, PART_MINUTES, SHORTEST_MINUTES, UNITS_PER_MINUTE } from "./limits.js";
import { PARTS } from "./parts.js";

/** The practice of one day, in half minutes. */
export interface Shares {
  /** Parts that are drilled on this day, the weakest first, else in the order of the movement. */
  readonly parts: readonly { readonly part: Part; readonly units: number }[];
  readonly combined: number;
}

/**
 * Shares a day of `units` half minutes: every part the same and twice that together. Where that leaves a part less than the shortest stretch, parts get just that,
 * then fewer parts. `weakest` then takes `shift` of what each other part has, which keeps at least the shortest stretch.
 */
export function shareMinutes(units: number, weakest: Part | undefined, shift: number): Shares {
  const shortest = SHORTEST_MINUTES * UNITS_PER_MINUTE;
  const order = weakest === undefined ? PARTS : [weakest, ...PARTS.filter((part) => part !== weakest)];
  // one stretch is always kept for all together
  const count = Math.max(0, Math.min(PARTS.length, Math.floor(units / shortest) - 1));
  const whole = PARTS.length * PART_MINUTES + COMBINED_MINUTES;
  const equal = Math.max(shortest, Math.floor((units * PART_MINUTES) / whole));
  const given = weakest === undefined ? 0 : Math.min(Math.floor(equal * shift), equal - shortest);
  const parts = order.slice(0, count).map((part) => ({ part, units: part === weakest ? equal + given * (count - 1) : equal - given }));
  return { parts, combined: units - parts.reduce((sum, one) => sum + one.units, 0) };
}
