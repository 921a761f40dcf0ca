import type { PaceAdvice } from "../../pacing/types.js";
import { PART_NAMES } from "../../practice/part-names.js";
import { capital, sayCount } from "../../practice/say.js";
import type { PlanItem, PracticePlan } from "../../practice/types.js";
import { sayValue } from "./say.js";

const EVIDENCE_WORDS = {
  strong: "strong evidence",
  moderate: "moderate evidence",
  weak: "weak evidence",
  commonPractice: "common practice, no study",
} as const;

/** What to practise next, in order. */
export function answerNext(plan: PracticePlan, advice: PaceAdvice | undefined): string[] {
  const drills = firstOfEach(plan.items.filter(({ kind }) => kind === "part" || kind === "combined"));
  const sentences = drills.map(({ what }) => what.split(/(?<=\.) /));
  const common = sentences[0]?.filter((sentence) => sentences.every((one) => one.includes(sentence))) ?? [];
  const test = plan.items.find(({ kind }) => kind === "test");
  return [
    `${plan.minutes} minutes a day, ${sayCount(plan.days, "day")} a week: ${dose(plan.items)}.`,
    ...(test ? [`${capital(itemWords(test))} first: ${test.what} ${test.reason}`] : []),
    ...drills.map(
      (item, i) =>
        `${capital(itemWords(item))}: ${sentences[i]!.filter((sentence) => !common.includes(sentence)).join(" ")} ${item.reason} (${EVIDENCE_WORDS[item.evidence]})`,
    ),
    ...(drills.length > 0 && common.length > 0 ? [`In all of it: ${common.join(" ")}`] : []),
    ...(advice ? [adviceSentence(advice)] : []),
    `${plan.order.reason} ${plan.spacing.what}`,
    ...(plan.plateau ? [`${plan.plateau.what} ${plan.plateau.reason}`] : []),
  ];
}

/** Minutes of each kind of practice, turns added up. */
function dose(items: readonly PlanItem[]): string {
  const practised = items.filter(({ kind }) => kind !== "rest");
  return firstOfEach(practised)
    .map((item) => {
      const minutes = practised.filter((other) => itemWords(other) === itemWords(item)).reduce((sum, other) => sum + other.minutes, 0);
      return `${itemWords(item)} ${minutesWords(minutes)}`;
    })
    .join(", ");
}

function firstOfEach(items: readonly PlanItem[]): readonly PlanItem[] {
  return items.filter((item, i) => items.findIndex((other) => itemWords(other) === itemWords(item)) === i);
}

/** When to stop for the day, and when to ask somebody who knows. */
export function answerStop(plan: PracticePlan): string[] {
  return [...plan.stopRules.map(({ rule }) => rule), ...plan.cautions];
}

/** What a stretch of the plan is, in a few words. */
export function itemWords({ kind, part }: PlanItem): string {
  if (part !== undefined) return PART_NAMES[part];
  return { test: "a test", part: "a part", combined: "all together", rest: "rest" }[kind];
}

function minutesWords(minutes: number): string {
  return `${Number(minutes.toFixed(1))} min`;
}

function adviceSentence({ advice, from, to, reason }: PaceAdvice): string {
  switch (advice) {
    case "slowDown":
      return `Slow down from ${sayValue(from, "s")} to ${sayValue(to, "s")} per movement. ${reason}`;
    case "speedUp":
      return `Speed up from ${sayValue(from, "s")} to ${sayValue(to, "s")} per movement. ${reason}`;
    case "hold":
      return `Hold the pace at ${sayValue(from, "s")} per movement. ${reason}`;
    case "cannotTell":
      return `Whether to slow down or speed up cannot be told. ${reason}`;
  }
}
