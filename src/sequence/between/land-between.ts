import type { Acquisition } from "../../movement/types.js";
import type { StepLandings } from "../steps/describe-steps.js";
import type { SequenceTrial, Visit } from "../steps/sequence-trials.js";
import type { BetweenTest } from "../types.js";
import { betweenTest, type PairedLanding } from "./between-test.js";
import { type CompetingPair, competingPair, describeLanding } from "./competing-pair.js";
import { type Ending, ownScatter, scaleOf } from "./own-scatter.js";

/** Where movements ended beside a competing target, one by one and in all. */
export interface BetweenLandings {
  readonly landings: ReadonlyMap<Visit, StepLandings>;
  readonly primary: BetweenTest;
  readonly press: BetweenTest;
}

/** Pairs every movement of the sequences with a competing target, and tests both ends against the scatter of movements that had none. */
export function landBetween(sequences: readonly SequenceTrial[], given: readonly Acquisition[], level: number): BetweenLandings {
  const visits = sequences.flatMap((sequence) => sequence.visits);
  // the last target of a sequence has no other beside it: its movement is a single one
  const singles = [...given, ...visits.filter(({ others }) => others.length === 0).map(({ row }) => row)];
  const rows = visits.map(({ row }) => row);
  const scatter = { primary: ownScatter(singles, rows, "primary"), press: ownScatter(singles, rows, "press") };
  const ends: Record<Ending, PairedLanding[]> = { primary: [], press: [] };
  const landings = new Map<Visit, StepLandings>();
  let undecidable = 0;
  for (const visit of visits) {
    const pair = competingPair(visit, scatter.primary.sd);
    if (pair === "undecidable") undecidable++;
    if (pair === undefined || pair === "undecidable") continue;
    const land = (ending: Ending): StepLandings => {
      const end = endOf(visit, pair, ending);
      if (end === undefined) return {};
      const landing = describeLanding(pair, end.along, end.left);
      ends[ending].push({ pair, landing, ...end, scale: scaleOf(visit.row, ending)! });
      return { [ending]: landing };
    };
    landings.set(visit, { ...land("primary"), ...land("press") });
  }
  return {
    landings,
    primary: betweenTest(ends.primary, undecidable, scatter.primary, level),
    press: betweenTest(ends.press, undecidable, scatter.press, level),
  };
}

/** An end point relative to the chosen centre, along the way and to the left of it. */
function endOf({ row, landing, centre }: Visit, { ux, uy }: CompetingPair, ending: Ending): { along: number; left: number } | undefined {
  if (ending === "primary" && landing !== undefined) {
    const dx = landing.x - centre.x;
    const dy = landing.y - centre.y;
    return { along: dx * ux + dy * uy, left: dx * uy - dy * ux };
  }
  const { along, across } = row.errors[ending] ?? {};
  return along === undefined || across === undefined ? undefined : { along, left: across };
}
