import type { Estimate } from "../../math/estimate.js";
import type { Evidence, Part, PartFinding, Ruling } from "../types.js";
import { detectableGap, type Gap, gapEstimate, gapOf } from "./gap.js";
import { type Bar, type Burden, type Compared, partGap, standsOut } from "./part-gaps.js";
import { type Excess, PARTS } from "./row-excess.js";
import { wholeTotal } from "./unit-excess.js";

/** What the parts are judged by. */
export interface FindingInput {
  readonly compared: Compared;
  readonly burden: Burden;
  readonly bar: Bar;
  readonly level: number;
  readonly chances: Readonly<Record<Part, number>>;
  readonly rulings: readonly Ruling[];
}

/** What each part costs beyond the reference and how well that is supported, largest first. */
export function findParts(input: FindingInput): PartFinding[] {
  const { compared, burden, bar, level, chances, rulings } = input;
  const n = compared.now.length;
  const gaps = PARTS.map((part) => ({ part, gap: partGap(compared, part, burden) }));
  const positive = gaps.reduce((sum, { gap }) => sum + Math.max(0, gap?.value ?? 0), 0);
  return gaps
    .map(({ part, gap }) => {
      const evidence = evidenceOf(gap, bar, level);
      return {
        part,
        excess: gapEstimate(gap, "s", level, n),
        own: shareOf(compared, part, "own", burden, level),
        passedOn: shareOf(compared, part, "passedOn", burden, level),
        ...(gap !== undefined && positive > 0 && { share: Math.max(0, gap.value) / positive }),
        probabilityLargest: chances[part],
        ...(gap !== undefined && { detectable: detectableGap(gap, bar.tail) }),
        ...(evidence !== undefined && { evidence }),
        confounds: rulings.filter(({ ruling, parts }) => ruling !== "ruledOut" && parts.includes(part)).map(({ factor }) => factor),
      };
    })
    .sort((a, b) => secondsOf(b.excess) - secondsOf(a.excess));
}

/** Sum of the parts' excesses. */
export function totalGap({ now, reference, people }: Compared, burden: Burden): Gap | undefined {
  const value = PARTS.reduce((sum, part) => sum + burden[part].value, 0);
  // every part's burden is the same delay, so that their errors add up before they are squared
  const variance = PARTS.reduce((sum, part) => sum + Math.sqrt(burden[part].variance), 0) ** 2;
  const slack = PARTS.reduce((sum, part) => sum + burden[part].slack, 0);
  return gapOf({ now: now.map(wholeTotal), reference: reference.map(wholeTotal), people, known: { value, variance, slack } });
}

// the equipment's share belongs to the part's own time
function shareOf({ now, reference, people }: Compared, part: Part, which: keyof Excess, burden: Burden, level: number): Estimate {
  const gap = gapOf({
    now: now.map((unit) => unit[part][which]),
    reference: reference.map((unit) => unit[part][which]),
    people,
    ...(which === "own" && { known: burden[part] }),
  });
  return gapEstimate(gap, "s", level, now.length);
}

function evidenceOf(gap: Gap | undefined, bar: Bar, level: number): Evidence | undefined {
  if (gap === undefined || gap.value <= 0) return undefined;
  if (standsOut(gap, bar)) return "strong";
  const estimate = gapEstimate(gap, "s", level, gap.n);
  return estimate.ok && estimate.interval !== undefined && estimate.interval[0] > 0 ? "moderate" : "weak";
}

function secondsOf(estimate: Estimate): number {
  return estimate.ok ? estimate.value : 0;
}
