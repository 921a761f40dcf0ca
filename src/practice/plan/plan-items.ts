import type { PaceAdvice } from "../../pacing/types.js";
import { PART_NAMES, partVerb } from "../part-names.js";
import { capital, sayList, sayMilliseconds } from "../say.js";
import type { Part, PlanItem } from "../types.js";
import type { PlanDiagnosis } from "./first-item.js";
import type { Stretch } from "./lay-out.js";
import { BREAK_MINUTES, SET_ACQUISITIONS, SET_REST_SECONDS, UNITS_PER_MINUTE } from "./limits.js";
import { COMBINED_DRILL, PART_DRILLS, PARTS } from "./parts.js";
import { paceSentence, startPace } from "./start-pace.js";

/** What the sentences of the items depend on. */
export interface ItemContext {
  readonly diagnosis: PlanDiagnosis | undefined;
  readonly weakest: Part | undefined;
  /** Whether the weakest part has more minutes than the others. */
  readonly shifted: boolean;
  /** Parts of this day; the others have their turn on another. */
  readonly parts: readonly Part[];
  readonly paceOf: (part: Part | "combined") => PaceAdvice | undefined;
}

const CAUTION = "Stop at once at pain, numbness, tingling or weakness.";

/** A stretch of the day in words. */
export function planItem({ kind, units }: Stretch, context: ItemContext): PlanItem {
  const minutes = units / UNITS_PER_MINUTE;
  if (kind === "break" || kind === "pause") return restItem(kind, minutes);
  const advice = context.paceOf(kind);
  const drill = kind === "combined" ? COMBINED_DRILL : PART_DRILLS[kind];
  return {
    kind: kind === "combined" ? "combined" : "part",
    ...(kind === "combined" ? {} : { part: kind }),
    minutes,
    ...(advice ? { pace: startPace(advice) } : {}),
    what: [drill, ...(advice ? [paceSentence(advice)] : []), setsSentence()].join(" "),
    ...(kind === "combined" ? combinedReason(context) : partReason(kind, context)),
    caution: CAUTION,
  };
}

function setsSentence(): string {
  return `Rest ${SET_REST_SECONDS} s after every ${SET_ACQUISITIONS} acquisitions or so.`;
}

function restItem(kind: "break" | "pause", minutes: number): PlanItem {
  const pause = kind === "pause";
  return {
    kind: "rest",
    minutes,
    what: pause
      ? "The second sitting comes hours later: the minutes here are the least."
      : `Leave the device for ${BREAK_MINUTES} to ${2 * BREAK_MINUTES} minutes, stand up, move, look away.`,
    reason: pause
      ? "Practice spread out is kept better than the same practice in one go, and the hand recovers."
      : "Short breaks often do more than long ones seldom, for work at a screen.",
    evidence: "moderate",
  };
}

function partReason(part: Part, { diagnosis, weakest, shifted }: ItemContext): Pick<PlanItem, "reason" | "evidence"> {
  if (part !== weakest) {
    const reason =
      weakest === undefined ? equalReason(diagnosis) : "It keeps its own minutes: a diagnosis can err, and what is left alone fades.";
    return { reason, evidence: "commonPractice" };
  }
  const excess = diagnosis?.parts.find((one) => one.part === part)?.excess;
  const cost = excess?.ok ? `${sayMilliseconds(excess.value)} per acquisition beyond the reference` : "beside the reference";
  const more = shifted ? ", so it gets minutes of the other parts" : "";
  return { reason: `${capital(PART_NAMES[part])} ${partVerb(part, "costs", "cost")} most, ${cost}${more}.`, evidence: "weak" };
}

function equalReason(diagnosis: PlanDiagnosis | undefined): string {
  if (diagnosis === undefined) return "No diagnosis was given: every part gets the same.";
  if (diagnosis.verdict.kind === "noWeakestPart") return "No part stands out: every part gets the same.";
  return "No part can be named yet: every part gets the same.";
}

function combinedReason({ parts }: ItemContext): Pick<PlanItem, "reason" | "evidence"> {
  const whole = "Parts have to be used together in the end, and what carries over shows only there.";
  const left = PARTS.filter((part) => !parts.includes(part));
  if (parts.length === 0) return { reason: `${whole} The time is too short to drill a part by itself.`, evidence: "commonPractice" };
  if (left.length === 0) return { reason: whole, evidence: "commonPractice" };
  const turn = `The time is too short for all parts on one day: ${sayList(left.map((part) => PART_NAMES[part]))} ${left.length === 1 ? partVerb(left[0]!, "has its", "have their") : "have their"} turn on the next days.`;
  return { reason: `${whole} ${turn}`, evidence: "commonPractice" };
}
