import { sayPercent } from "../say.js";
import type { Ruling } from "../types.js";
import { detectableGap, type Gap, gapOf, ordinaryGap } from "./gap.js";
import { meanOf } from "./law-within.js";
import type { Bar } from "./part-gaps.js";
import { type PlainRow, primaryErrorShare } from "./plain-row.js";
import type { ReferenceLaws } from "./reference-laws.js";

/** Paces closer than this share of the primary's time are one pace. */
const SAME_PACE = 0.05;
/** Error that changes at more than this many times the rate of the time, or its inverse, has another cause than pace. Some of the time does not go with pace, hence not 2. */
const FAR_RATE = 3;
/** Keeps logarithms finite. */
const TINY = 1e-6;

/** Rows of each session of the person, of each unit of the reference, and whether those are people. */
export interface PaceInput {
  readonly now: readonly (readonly PlainRow[])[];
  readonly reference: readonly (readonly PlainRow[])[];
  readonly people: boolean;
  readonly laws: ReferenceLaws;
  /** Its tail holds for the move along the trade-off, as for the excess of a part. */
  readonly bar: Bar;
  readonly level: number;
}

/**
 * Whether the person has moved along the trade-off between speed and accuracy instead of off it: third in the order of exclusion. Time and error of the
 * primary at the same distance and size (logarithms of their ratios to the reference) have moved in opposite directions, each beyond chance; their
 * difference, which grows along the trade-off, beyond what people ordinarily differ by; the error at a third to three times the rate of the time (1 where error
 * goes as one over time), or their sum, which is 0 there, within what people ordinarily differ by; the time by more than a twentieth; and the hits have not moved the other way.
 */
export function ruleOnPace({ now, reference, people, laws, bar, level }: PaceInput): Ruling {
  const factor = "pace";
  const gap = (of: (rows: readonly PlainRow[]) => number, amongPeople: boolean): Gap | undefined =>
    gapOf({ now: now.map(of), reference: reference.map(of), people: amongPeople });
  const timeOf = (rows: readonly PlainRow[]): number => logRatio(rows, (row) => row.primary, laws.primary);
  const errorOf = (rows: readonly PlainRow[]): number => logRatio(rows, primaryErrorShare, laws.primaryError);
  const time = gap(timeOf, false);
  const error = gap(errorOf, false);
  const along = gap((rows) => timeOf(rows) - errorOf(rows), people);
  const off = gap((rows) => timeOf(rows) + errorOf(rows), people);
  const hit = gap((rows) => meanOf(rows.map((row) => row.hit - laws.hit(row))), people);
  if (time === undefined || error === undefined || along === undefined || off === undefined || hit === undefined) {
    return { factor, ruling: "cannotTell", reason: "Too few sessions to tell one pace from another.", parts: [] };
  }
  const tail = (1 - level) / 2;
  const shown = (one: Gap): boolean => Math.abs(one.value) > detectableGap(one, tail);
  const rate = time.value === 0 ? 0 : -error.value / time.value;
  const explained = (rate > 1 / FAR_RATE && rate < FAR_RATE) || Math.abs(off.value) < ordinaryGap(off, tail);
  const beyond = Math.abs(along.value) > detectableGap(along, bar.tail);
  const moved = shown(time) && shown(error) && beyond && time.value * error.value < 0 && Math.abs(time.value) > SAME_PACE && explained;
  const against = shown(hit) && hit.value * time.value < 0;
  const figures = `At the same distance and size the primary movement takes ${factorOf(time)} times the reference's time with ${factorOf(error)} times its error, and ${sayPercent(Math.abs(hit.value))} ${hit.value < 0 ? "fewer" : "more"} of the first presses hit`;
  if (moved && !against) {
    const pace = time.value < 0 ? "quicker and less accurate" : "slower and more accurate";
    return {
      factor,
      ruling: "limits",
      reason: `${figures}: another pace, ${pace}, so that movement and corrections have no like to be set against.`,
      parts: ["primary", "correction"],
    };
  }
  return {
    factor,
    ruling: "ruledOut",
    reason: `${figures}: no move along the trade-off between speed and accuracy beyond chance.`,
    parts: [],
  };
}

function logRatio(rows: readonly PlainRow[], of: (row: PlainRow) => number, law: (row: PlainRow) => number): number {
  return Math.log(Math.max(TINY, meanOf(rows.map(of))) / Math.max(TINY, meanOf(rows.map(law))));
}

function factorOf({ value }: Gap): string {
  return Math.exp(value).toFixed(2);
}
