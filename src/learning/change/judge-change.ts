import type { Estimate } from "../../math/estimate.js";
import { type ChangeScale, carried, carriedPair } from "./change-scale.js";
import type { ChangeChances, ChangeSize, ComparisonVerdict, Equivalence } from "./comparison.js";
import type { Effect } from "./effect.js";

/** What a change comes to, in its own unit. */
export interface JudgedChange {
  readonly change: Estimate;
  /** `null` where no interval can be given. */
  readonly equivalence: Equivalence | null;
  /** `null` where the change cannot be judged. */
  readonly chances: ChangeChances | null;
  readonly verdict: ComparisonVerdict;
  readonly size: ChangeSize;
}

/** `worthwhile` in the unit of the change. */
export function judgeChange(
  effect: Effect,
  scale: ChangeScale,
  n: number,
  { worthwhile, better, level }: { readonly worthwhile: number; readonly better: "lower" | "higher"; readonly level: number },
): JudgedChange {
  const marks = [scale.onScale(-worthwhile), scale.onScale(worthwhile)] as const;
  const interval = effect.interval(level);
  const estimate = { ok: true, value: effect.value, unit: scale.unit, n } as const;
  const change = carried(interval === undefined ? estimate : { ...estimate, interval, level }, scale.change, scale.unit);
  // 0.9 and not 0.8999999999999999 from 0.95
  const narrowLevel = Math.round((2 * level - 1) * 1e12) / 1e12;
  const narrow = effect.interval(narrowLevel);
  const shown = narrow && carriedPair(narrow, scale.change);
  const within = narrow !== undefined && marks[0] <= narrow[0] && narrow[1] <= marks[1];
  const beyond = narrow !== undefined && (narrow[1] < marks[0] || marks[1] < narrow[0]);
  return {
    change,
    equivalence: shown === undefined ? null : { interval: shown, level: narrowLevel, within },
    chances: chancesOf(effect, marks, better),
    verdict: verdictOf(interval, within, better),
    size: within ? "trivial" : beyond ? "worthwhile" : "unclear",
  };
}

function chancesOf(effect: Effect, [low, high]: readonly [number, number], better: "lower" | "higher"): ChangeChances {
  const falls = effect.below(0);
  const fallsFar = effect.below(low);
  const risesFar = 1 - effect.below(high);
  return better === "lower"
    ? { improvement: falls, worthwhileImprovement: fallsFar, worthwhileLoss: risesFar }
    : { improvement: 1 - falls, worthwhileImprovement: risesFar, worthwhileLoss: fallsFar };
}

function verdictOf(interval: readonly [number, number] | undefined, within: boolean, better: "lower" | "higher"): ComparisonVerdict {
  if (interval !== undefined && (interval[1] < 0 || interval[0] > 0)) return interval[1] < 0 === (better === "lower") ? "better" : "worse";
  return within ? "equivalent" : "cannotTell";
}
