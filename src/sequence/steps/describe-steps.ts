import type { BetweenLanding, SequenceStep } from "../types.js";
import { lateStarts } from "./late-starts.js";
import { longestPause } from "./longest-pause.js";
import type { SequenceTrial, Visit } from "./sequence-trials.js";
import { turnDeg } from "./turns.js";

/** A longer rest on the way is a hesitation, seconds (a choice of this library). */
export const LONG_PAUSE = 0.15;
/** A target shown this little after the press before was there at the press, seconds: clock readings of one instant may differ by rounding. */
const SAME_INSTANT = 1e-6;

/** Where a step's movement ended beside its pair. */
export interface StepLandings {
  readonly primary?: BetweenLanding;
  readonly press?: BetweenLanding;
}

/** The steps of all sequences, in the order of `sequences`; `landings` by visit. */
export function describeSteps(sequences: readonly SequenceTrial[], landings: ReadonlyMap<Visit, StepLandings>): SequenceStep[][] {
  const turns = sequences.map(({ visits }) => visits.map((visit, i) => turnDeg(visits[i - 1], visit)));
  const late = findLate(sequences, turns);
  return sequences.map(({ visits }, s) =>
    visits.map((visit, i): SequenceStep => {
      const { row, latency } = visit;
      const before = visits[i - 1]?.row;
      const turn = turns[s]![i];
      const pause = longestPause(row);
      const isLate = late.has(visit);
      return {
        target: row.target,
        outcome: row.outcome,
        ...(before && { interval: row.times.end - before.times.end, waiting: waitingOf(visits, i) }),
        budget: row.budget,
        ...(latency !== undefined && { latency }),
        ...(turn !== undefined && { turnDeg: turn }),
        overlap: before?.times.press !== undefined && latency !== undefined && latency < 0,
        late: isLate,
        pause,
        hesitation: isLate || pause > LONG_PAUSE,
        ...landings.get(visit),
      };
    }),
  );
}

/** Seconds that the target was not there yet after the end of the step before. */
function waitingOf(visits: readonly Visit[], i: number): number {
  const waiting = visits[i]!.row.times.go - visits[i - 1]!.row.times.end;
  return waiting > SAME_INSTANT ? waiting : 0;
}

function findLate(sequences: readonly SequenceTrial[], turns: readonly (readonly (number | undefined)[])[]): Set<Visit> {
  const starts = sequences.flatMap(({ visits }, s) =>
    visits.flatMap((visit, i) => {
      const { latency, row } = visit;
      const turn = turns[s]![i];
      if (i === 0 || latency === undefined || latency <= 0 || turn === undefined || row.amplitude === undefined) return [];
      return [{ visit, latency, amplitude: row.amplitude, width: row.width, turn: Math.abs(turn) }];
    }),
  );
  const late = lateStarts(starts);
  return new Set(starts.filter((_, k) => late[k]).map(({ visit }) => visit));
}
