import type { Estimate } from "../../math/estimate.js";
import { meanEstimate } from "../../math/mean-estimate.js";
import { sayMilliseconds } from "../say.js";
import type { Part, Ruling } from "../types.js";
import { detectableGap, gapOf } from "./gap.js";
import { meanOf } from "./law-within.js";
import { type Bar, type Burden, leadingPart, NO_BURDEN, partGap, standsOut } from "./part-gaps.js";
import type { PlainRow } from "./plain-row.js";
import type { ReferenceLaws } from "./reference-laws.js";
import { PARTS, rowExcess } from "./row-excess.js";
import { meanExcess, partTotal, sessionExcess, type UnitExcess, wholeTotal } from "./unit-excess.js";

/** A session is told in thirds. */
const THIRD = 1 / 3;

/** The sessions of the person and those of each unit of the reference. */
export interface FatigueInput {
  readonly now: readonly (readonly PlainRow[])[];
  readonly reference: readonly (readonly (readonly PlainRow[])[])[];
  readonly people: boolean;
  readonly laws: ReferenceLaws;
  readonly burden: Burden;
  readonly bar: Bar;
  readonly level: number;
  /** The part that stands out over whole sessions. */
  readonly leader: Part | undefined;
}

/** A stretch of a session that may differ from the rest of it. */
interface Stretch {
  readonly name: string;
  readonly rest: string;
  readonly holds: (place: number) => boolean;
}

const STRETCHES: readonly Stretch[] = [
  { name: "last third", rest: "first two thirds", holds: (place) => place > 1 - THIRD },
  { name: "first third", rest: "last two thirds", holds: (place) => place < THIRD },
];

/**
 * Whether the excess sits in the tired end or the cold start of sessions: last in the order of exclusion. It does when a third costs more than the rest, in all
 * or in the part that stands out over whole sessions, beyond chance (and beyond the reference's own course, and what is worth naming), while in the rest no part stands out. Sessions are the units.
 */
export function ruleOnFatigue(input: FatigueInput): Ruling {
  const found = STRETCHES.map((stretch) => ({ stretch, ...courseOf(input, stretch) }));
  const limiting = found.find(({ shown, restStandsOut }) => shown && !restStandsOut);
  const told = limiting ?? found[0]!;
  const { stretch, difference } = told;
  if (difference === undefined) {
    return { factor: "fatigue", ruling: "cannotTell", reason: "Too few sessions to tell a course within them from chance.", parts: [] };
  }
  const figures = `Against the reference the ${stretch.name} of a session takes ${sayMilliseconds(difference)} an acquisition ${difference < 0 ? "(less)" : "more"} than its ${stretch.rest}`;
  if (limiting === undefined) {
    const why = told.shown ? "a part stands out in the rest all the same" : "no more than chance shows, or than is worth naming";
    return { factor: "fatigue", ruling: "ruledOut", reason: `${figures}: ${why}.`, parts: [] };
  }
  return {
    factor: "fatigue",
    ruling: "limits",
    reason: `${figures}, and in the rest no part stands out: ${stretch === STRETCHES[0] ? "tiredness" : "a cold start"}, not a weak part.`,
    parts: limiting.parts,
    effect: limiting.effect,
  };
}

function courseOf({ now, reference, people, laws, burden, bar, level, leader }: FatigueInput, { holds }: Stretch) {
  const split = (rows: readonly PlainRow[]): readonly PlainRow[][] => [
    rows.filter((row) => holds(row.place)),
    rows.filter((row) => !holds(row.place)),
  ];
  const whole = now.map(split).filter(bothHold);
  const others = reference.map((unit) => unit.map(split).filter(bothHold)).filter((unit) => unit.length > 0);
  const excess = (rows: readonly PlainRow[]): UnitExcess => sessionExcess(rows, laws);
  const course = ([inside, rest]: readonly PlainRow[][]): UnitExcess => {
    const [one, other] = [excess(inside!), excess(rest!)];
    const entries = PARTS.map((part) => [part, { own: partTotal(one, part) - partTotal(other, part), passedOn: 0 }]);
    return Object.fromEntries(entries) as UnitExcess;
  };
  const courses = { now: whole.map(course), reference: others.map((unit) => meanExcess(unit.map(course))), people };
  const total = gapOf({ now: courses.now.map(wholeTotal), reference: courses.reference.map(wholeTotal), people });
  const outside = {
    now: whole.map(([, rest]) => excess(rest!)),
    reference: others.map((unit) => meanExcess(unit.map(([, rest]) => excess(rest!)))),
    people,
  };
  const leading = leader === undefined ? undefined : partGap(courses, leader, NO_BURDEN);
  return {
    shown: standsOut(total, bar) || standsOut(leading, bar),
    difference: total?.value,
    restStandsOut: leadingPart(outside, burden, bar) !== undefined,
    parts: PARTS.filter((part): part is Part => {
      const gap = partGap(courses, part, NO_BURDEN);
      return gap !== undefined && gap.value > 0 && gap.value > detectableGap(gap, (1 - level) / 2);
    }),
    effect: costOf(now, laws, whole, level),
  };
}

/** Seconds per acquisition by which the whole session exceeds its rest. */
function costOf(
  now: readonly (readonly PlainRow[])[],
  laws: ReferenceLaws,
  whole: readonly (readonly PlainRow[][])[],
  level: number,
): Estimate {
  const total = (rows: readonly PlainRow[]): number => meanOf(rows.map((row) => wholeTotal(rowExcess(row, laws))));
  return meanEstimate(
    now.length === whole.length ? whole.map(([inside, rest]) => total([...inside!, ...rest!]) - total(rest!)) : [],
    "s",
    level,
  );
}

function bothHold([inside, rest]: readonly PlainRow[][]): boolean {
  return inside!.length > 0 && rest!.length > 0;
}
