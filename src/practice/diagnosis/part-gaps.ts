import type { Part } from "../types.js";
import { detectableGap, type Gap, gapOf, type Known } from "./gap.js";
import { PARTS } from "./row-excess.js";
import { partTotal, type UnitExcess } from "./unit-excess.js";

/** Seconds per acquisition that the equipment takes from each part. */
export type Burden = Readonly<Record<Part, Known>>;

/** The person's sessions and the reference's units, in seconds beyond the reference's laws. */
export interface Compared {
  readonly now: readonly UnitExcess[];
  readonly reference: readonly UnitExcess[];
  readonly people: boolean;
}

export const NO_BURDEN: Burden = {
  nextTarget: { value: 0, variance: 0, slack: 0 },
  primary: { value: 0, variance: 0, slack: 0 },
  correction: { value: 0, variance: 0, slack: 0 },
  stopAndPress: { value: 0, variance: 0, slack: 0 },
};

/** Excess of one part over the reference, less what the equipment takes. */
export function partGap({ now, reference, people }: Compared, part: Part, burden: Burden): Gap | undefined {
  const total = (unit: UnitExcess): number => partTotal(unit, part);
  return gapOf({ now: now.map(total), reference: reference.map(total), people, known: burden[part] });
}

/** What makes an excess worth naming. */
export interface Bar {
  /** One-sided share of cases in which chance alone may pass for one part. */
  readonly tail: number;
  /** Seconds per acquisition. */
  readonly worth: number;
}

/** Whether an excess is shown, is more than people ordinarily differ by, and is worth naming. */
export function standsOut(gap: Gap | undefined, { tail, worth }: Bar): boolean {
  if (gap === undefined) return false;
  return gap.value > detectableGap(gap, tail) && gap.value > worth && gap.value > 0;
}

/** The part that stands out most, if any does. */
export function leadingPart(compared: Compared, burden: Burden, bar: Bar): Part | undefined {
  const standing = PARTS.flatMap((part) => {
    const gap = partGap(compared, part, burden);
    return gap !== undefined && standsOut(gap, bar) ? [{ part, value: gap.value }] : [];
  });
  return standing.sort((a, b) => b.value - a.value)[0]?.part;
}
