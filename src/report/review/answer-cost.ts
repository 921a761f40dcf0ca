import type { Estimate, Reason } from "../../math/estimate.js";
import { PART_NAMES } from "../../practice/part-names.js";
import { sayCount, sayList } from "../../practice/say.js";
import type { Diagnosis, PartFinding } from "../../practice/types.js";
import { sayEstimate, sayReason, sayValue } from "./say.js";

const REFERENCE_WORDS: Readonly<Record<Diagnosis["reference"]["kind"], string>> = {
  ownBest: "this person's own best sessions",
  earlier: "the earlier sessions",
  group: "the group",
};

/** What costs most, beside the reference. */
export function answerCost(diagnosis: Diagnosis): string[] {
  const { verdict, parts, reference, hitShare, counterfactuals } = diagnosis;
  const against = `Held against ${REFERENCE_WORDS[reference.kind]} (${sayCount(reference.sessions, "session")}${reference.kind === "group" ? ` of ${sayCount(reference.people, "person", "people")}` : ""}), at the same distances and sizes`;
  const worst = parts[0];
  return [
    verdictSentence(diagnosis, against),
    ...(verdict.kind !== "cannotTell" && worst?.excess.ok ? [worstSentence(worst, worst.excess)] : []),
    ...(hitShare.ok ? [hitSentence(hitShare, counterfactuals)] : []),
  ];
}

function worstSentence({ part, probabilityLargest }: PartFinding, excess: Estimate & { ok: true }): string {
  if (!(excess.value > 0)) return "No part takes more time than the reference.";
  return `Most time beyond the reference lies in ${PART_NAMES[part]}: ${sayEstimate(excess)} per acquisition. That this part costs most held in ${(100 * probabilityLargest).toFixed(0)} % of resampled sessions.`;
}

/** Hits, and what would have changed them by a point or more. */
function hitSentence(hitShare: Estimate & { ok: true }, counterfactuals: Diagnosis["counterfactuals"]): string {
  const said = `${sayEstimate(hitShare)} of first presses hit.`;
  const telling = counterfactuals.flatMap(({ change, hitShare: then }) =>
    then.ok && Math.abs(then.value - hitShare.value) >= 0.01 ? [`${sayValue(then.value, "1")} ${CHANGE_WORDS[change]}`] : [],
  );
  if (telling.length > 0) return `${said} It would have been ${sayList(telling)}.`;
  return counterfactuals.some((one) => one.hitShare.ok)
    ? `${said} Neither better primary movements, nor corrections that remove the whole error, nor less slip would have changed that by a point.`
    : said;
}

const CHANGE_WORDS = {
  primaryError: "with the reference's errors of the primary movement",
  correctiveGain: "with corrections that remove the whole error",
  slip: "without slip during the press",
} as const;

function verdictSentence({ verdict, rulings }: Diagnosis, against: string): string {
  switch (verdict.kind) {
    case "weakestPart":
      return `${against}, the weakest part is ${PART_NAMES[verdict.part]}.`;
    case "noWeakestPart":
      return `${against}, no part stands out as the weakest.`;
    case "limitedBy": {
      const ruling = rulings.find(({ factor, ruling: kind }) => factor === verdict.factor && kind === "limits");
      return `Before any part of the movement: ${FACTOR_WORDS[verdict.factor]}.${ruling ? ` ${ruling.reason}` : ""}`;
    }
    case "cannotTell":
      return `What costs most cannot be told: ${sayDoubt(verdict.why)}.`;
  }
}

/** Why no part can be named, in words. */
export function sayDoubt(why: Reason): string {
  return DOUBTS[why] ?? sayReason(why);
}

const DOUBTS: Partial<Readonly<Record<Reason, string>>> = {
  tooFew: "it takes three sessions and 100 acquisitions on either side",
  notIdentified: "the sessions scatter too much, or there are too few of them or of people, to rule a weak part in or out",
};

const FACTOR_WORDS = {
  sampling: "the recording is too coarse for a verdict",
  equipment: "the equipment explains what is seen",
  pace: "the pace differs from the reference, so that speed was traded for accuracy",
  fatigue: "the loss comes with time on task within a session",
} as const;
