import type { PaceAdvice } from "../../pacing/types.js";
import { sayPercent, saySeconds } from "../say.js";
import type { PlanItem } from "../types.js";

/** Pace to begin a block at: the slower of the one that was practised and the one advised. */
export function startPace({ from, to, wanted }: PaceAdvice): NonNullable<PlanItem["pace"]> {
  return { movementTime: Math.max(from, to), hitShare: wanted };
}

/** The same in one sentence, with what may come after it. */
export function paceSentence(advice: PaceAdvice): string {
  const { movementTime, hitShare } = startPace(advice);
  const start = `Begin every block at ${saySeconds(movementTime)} a movement`;
  if (advice.advice === "speedUp") return `${start}; once a block is clean, go on at ${saySeconds(advice.to)}.`;
  return `${start}, and stay there until the advice on pace raises it: ${sayPercent(hitShare)} of first presses should hit.`;
}
