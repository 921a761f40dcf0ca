import type { Estimate } from "../../math/estimate.js";
import { proportionEstimate } from "../../math/proportion-estimate.js";
import type { Acquisition } from "../../movement/types.js";
import type { SequenceTrial } from "./sequence-trials.js";

/** What leaving before the press did. Unit of analysis: the press that another movement followed. */
export interface Overlap {
  /** Share of these movements that began before the press. */
  readonly share: Estimate;
  /** Of the presses left too early, the share that missed, and the share that missed although the pointer had stopped on the target. */
  readonly missed: Estimate;
  readonly slippedOut: Estimate;
  /** The same shares of the other presses, to compare with. */
  readonly missedOtherwise: Estimate;
  readonly slippedOutOtherwise: Estimate;
}

/** Counts presses by whether the next movement had begun. */
export function overlapOutcomes(sequences: readonly SequenceTrial[], level: number): Overlap {
  const followed = sequences.flatMap(({ visits }) =>
    visits.flatMap(({ latency }, i) => {
      const before = visits[i - 1]?.row;
      return before?.times.press === undefined || latency === undefined ? [] : [{ before, early: latency < 0 }];
    }),
  );
  const share = (early: boolean, is: (row: Acquisition) => boolean): Estimate => {
    const presses = followed.filter((press) => press.early === early);
    return proportionEstimate(presses.filter(({ before }) => is(before)).length, presses.length, level);
  };
  return {
    share: proportionEstimate(followed.filter(({ early }) => early).length, followed.length, level),
    missed: share(true, hasMissed),
    slippedOut: share(true, hasSlippedOut),
    missedOtherwise: share(false, hasMissed),
    slippedOutOtherwise: share(false, hasSlippedOut),
  };
}

/** The deciding press missed. */
function hasMissed({ outcome }: Acquisition): boolean {
  return outcome === "miss";
}

function hasSlippedOut(row: Acquisition): boolean {
  return hasMissed(row) && row.errors.stop?.inside === true && row.errors.press?.inside === false;
}
