import { PART_NAMES } from "../part-names.js";
import { sayPercent } from "../say.js";
import type { Part, PracticePlan } from "../types.js";
import { DAYS_WITHOUT_REST, SESSIONS_TO_JUDGE, TOO_EASY_HIT_SHARE } from "./limits.js";

/** The one thing to change on a plateau: the first that the figures speak for. */
export function plateauAnswer(known: {
  readonly hitShare: number | undefined;
  readonly weakest: Part | undefined;
  readonly days: number;
}): NonNullable<PracticePlan["plateau"]> {
  const { what, reason } = oneChange(known);
  return {
    what: `Change one thing: ${what} Keep the tests as they are, and judge after at least ${SESSIONS_TO_JUDGE} sessions.`,
    reason: `${reason} Two changes at once could not be told apart, and fewer sessions seldom tell anything.`,
    evidence: "weak",
  };
}

function oneChange({ hitShare, weakest, days }: Parameters<typeof plateauAnswer>[0]): { what: string; reason: string } {
  if (hitShare !== undefined && hitShare > TOO_EASY_HIT_SHARE) {
    return {
      what: "make the task harder, by smaller targets or a step of pace.",
      reason: `With ${sayPercent(hitShare)} of first presses hitting, the task may have ended before the learner did.`,
    };
  }
  if (days >= DAYS_WITHOUT_REST) {
    return {
      what: "rest for two or three days, and begin again with half of the minutes.",
      reason: `Practice on ${days} days a week leaves little rest, and tiredness looks like a plateau.`,
    };
  }
  if (weakest !== undefined) {
    return { what: `give more of the time to ${PART_NAMES[weakest]}, as here.`, reason: "It costs most beside the reference." };
  }
  return {
    what: "vary the distances, sizes and directions of the targets more than before.",
    reason: "No figure speaks for another level, more rest or another part.",
  };
}
