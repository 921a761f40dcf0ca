import { compareEquipment } from "../../equipment/compare-equipment.js";
import type { EquipmentComparison } from "../../equipment/types.js";
import type { Equipment } from "../../trace/types.js";
import type { Part } from "../types.js";
import { meanOf } from "./law-within.js";
import type { Burden } from "./part-gaps.js";
import type { PlainRow } from "./plain-row.js";
import { PARTS } from "./row-excess.js";
import type { Sitting } from "./sitting.js";

/** A press waits for none to all of the delay: half of it, give or take half. */
const HALF = 0.5;

/** What the equipment costs the person beside the reference, or why nobody can say. */
export type EquipmentBurden =
  | { readonly kind: "same" }
  /** `waits`: how often per acquisition something waits for the display. */
  | { readonly kind: "delay"; readonly burden: Burden; readonly delay: number; readonly variance: number; readonly waits: number }
  | { readonly kind: "unknown"; readonly reason: string };

/**
 * A display that shows the scene later holds up by its delay whatever waits to see: the departure, unless the target has been in view since before the press
 * ahead of it; every correction; and the press, which may wait for the stop to be seen or come without looking: anything from none to all of the delay,
 * unless it comes while the pointer moves. That range is a bound: an excess that all of the delay would explain is not shown.
 * The delay of each session is that to the reference's records on average. Cost O(sessions records).
 */
export function equipmentBurden(now: readonly Sitting[], reference: readonly Sitting[]): EquipmentBurden {
  if (now.length === 0 || reference.length === 0) return { kind: "unknown", reason: "one side has no sessions." };
  const [mine, theirs] = [counted(now), counted(reference)];
  const pairs = mine.flatMap((one) =>
    theirs.map((other) => ({ weight: one.count * other.count, found: compareEquipment(other.record, one.record) })),
  );
  const blind = pairs.find(({ found }) => isBlind(found));
  if (blind !== undefined) return { kind: "unknown", reason: blind.found.reason };
  if (pairs.every(({ found }) => found.verdict === "same")) return { kind: "same" };
  const weights = pairs.reduce((sum, { weight }) => sum + weight, 0);
  const mean = (of: (found: EquipmentComparison) => number): number =>
    pairs.reduce((sum, { weight, found }) => sum + (weight / weights) * of(found), 0);
  const delay = mean((found) => delayOf(found).value);
  // the same doubt about a record goes into every pair that it is in
  const variance = mean((found) => delayOf(found).error) ** 2;
  const often = (of: (row: PlainRow) => number): number => meanOf(now.map(({ rows }) => meanOf(rows.map(of))));
  const waiting: Readonly<Record<Part, number>> = {
    nextTarget: often((row) => 1 - row.follows),
    primary: 0,
    correction: often((row) => row.corrections),
    stopAndPress: often((row) => (row.source.pressedInMotion || row.source.times.press === undefined ? 0 : 1)),
  };
  const shares = PARTS.map((part) => {
    const times = waiting[part] * (part === "stopAndPress" ? HALF : 1);
    const slack = part === "stopAndPress" ? Math.abs(delay) * waiting[part] * HALF : 0;
    return [part, { value: delay * times, variance: variance * times ** 2, slack }];
  });
  return {
    kind: "delay",
    delay,
    variance,
    waits: PARTS.reduce((sum, part) => sum + waiting[part] * (part === "stopAndPress" ? HALF : 1), 0),
    burden: Object.fromEntries(shares) as Burden,
  };
}

/** Records that differ in more than their delay, or in a delay nobody knows: no effect on the times of an acquisition can be told. */
function isBlind({ effects }: EquipmentComparison): boolean {
  return !effects.some(({ measure }) => measure === "latency");
}

function delayOf({ delay }: EquipmentComparison): { readonly value: number; readonly error: number } {
  if (!delay.ok) return { value: 0, error: 0 };
  // an interval at 95 % of a normal error is 3.92 standard errors long
  return { value: delay.value, error: delay.interval === undefined ? 0 : (delay.interval[1] - delay.interval[0]) / 3.92 };
}

function counted(sittings: readonly Sitting[]): { readonly record: Equipment; count: number }[] {
  const found = new Map<string, { readonly record: Equipment; count: number }>();
  for (const { equipment } of sittings) {
    const key = JSON.stringify(Object.entries(equipment).sort(([a], [b]) => (a < b ? -1 : 1)));
    const known = found.get(key);
    if (known === undefined) found.set(key, { record: equipment, count: 1 });
    else known.count++;
  }
  return [...found.values()];
}
