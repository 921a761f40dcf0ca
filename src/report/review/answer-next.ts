import type { PaceAdvice } from "../../pacing/types.js";
import type { PlanItem, PracticePlan } from "../../practice/types.js";
import { PART_WORDS, sayCount, sayValue } from "./say.js";

const EVIDENCE_WORDS = {
  strong: "strong evidence",
  moderate: "moderate evidence",
  weak: "weak evidence",
  commonPractice: "common practice, no study",
} as const;

/** What to practise next, in order. */
export function answerNext(plan: PracticePlan, advice: PaceAdvice | undefined): string[] {
  return [
    `${plan.minutes} minutes a day, ${sayCount(plan.days, "day")} a week: ${plan.items
      .filter(({ kind }) => kind !== "rest")
      .map((item) => `${itemWords(item)} ${minutesWords(item.minutes)}`)
      .join(", ")}.`,
    ...plan.items
      .filter(({ kind }) => kind === "part" || kind === "combined")
      .map((item) => `${item.what} ${item.reason} (${EVIDENCE_WORDS[item.evidence]})`),
    ...(advice ? [adviceSentence(advice)] : []),
    ...(plan.plateau ? [`${plan.plateau.what} ${plan.plateau.reason}`] : []),
  ];
}

/** When to stop for the day, and when to ask somebody who knows. */
export function answerStop(plan: PracticePlan): string[] {
  return [...plan.stopRules.map(({ rule }) => rule), ...plan.cautions];
}

/** What a stretch of the plan is, in a few words. */
export function itemWords({ kind, part }: PlanItem): string {
  if (part !== undefined) return PART_WORDS[part];
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
