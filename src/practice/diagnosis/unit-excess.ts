import type { Part } from "../types.js";
import { meanOf } from "./law-within.js";
import type { PlainRow } from "./plain-row.js";
import type { ReferenceLaws } from "./reference-laws.js";
import { type Excess, PARTS, rowExcess } from "./row-excess.js";

/** Mean excess of a session, or of a person as the mean of the sessions. */
export type UnitExcess = Readonly<Record<Part, Excess>>;

/** Means over the rows of one session. */
export function sessionExcess(rows: readonly PlainRow[], laws: ReferenceLaws): UnitExcess {
  return meanExcess(rows.map((row) => rowExcess(row, laws)));
}

/** Means over units, each counting once. */
export function meanExcess(units: readonly UnitExcess[]): UnitExcess {
  const entries = PARTS.map((part): [Part, Excess] => [
    part,
    { own: meanOf(units.map((unit) => unit[part].own)), passedOn: meanOf(units.map((unit) => unit[part].passedOn)) },
  ]);
  return Object.fromEntries(entries) as Record<Part, Excess>;
}

/** Seconds of a part in a unit. */
export function partTotal(unit: UnitExcess, part: Part): number {
  return unit[part].own + unit[part].passedOn;
}

/** Seconds of all parts in a unit. */
export function wholeTotal(unit: UnitExcess): number {
  return PARTS.reduce((sum, part) => sum + partTotal(unit, part), 0);
}
