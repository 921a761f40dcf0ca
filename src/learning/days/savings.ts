import type { Estimate } from "../../math/estimate.js";
import { requireInteger, requireNumber, requireObject, show } from "../../math/require.js";
import { requireList } from "../../math/require-list.js";
import { uncertainMean } from "../../math/welch.js";
import { describeRatio } from "./describe-ratio.js";

/** Trials of a first learning and of a relearning, each in order; one pair, or one pair for each of several tasks. */
export interface SavingsData {
  readonly first: readonly ArrayLike<number>[];
  readonly again: readonly ArrayLike<number>[];
  /** The level to reach, in the unit of the measure. */
  readonly criterion: number;
  /** Trials in a row that must be at the criterion or better, at least 1, default 1. Raised, a lucky trial counts for less. */
  readonly run?: number;
}

/** What relearning saved. */
export interface Savings {
  readonly criterion: number;
  readonly run: number;
  /** Trials up to and with the run that met the criterion; `null` when it was not met. */
  readonly first: readonly (number | null)[];
  readonly again: readonly (number | null)[];
  /** 100 (N1 - N2)/N1 of the mean numbers, %; Fieller's interval from two tasks each on; `notIdentified` when a criterion was not met. */
  readonly percent: Estimate;
  /** Where savings lie at least and at most, %, when some criterion was not met; `null` for no bound. Both are the value when all were met. */
  readonly bounds: readonly [number | null, number | null];
}

/** Checks the lists and counts the trials. */
export function savings(where: string, data: SavingsData, better: "lower" | "higher", level: number): Savings {
  requireObject(where, "scores.savings", data);
  const { criterion, run = 1 } = data;
  requireNumber(where, "scores.savings.criterion", criterion);
  requireInteger(where, "scores.savings.run", run, 1);
  const counts = (["first", "again"] as const).map((name) => {
    const lists = data[name];
    if (!Array.isArray(lists) || lists.length === 0) {
      throw new TypeError(`${where}: scores.savings.${name} must be an array of at least one list, got ${show(lists)}`);
    }
    return lists.map((list: ArrayLike<number>, i) => {
      requireList(where, `scores.savings.${name}[${i}]`, list);
      return { reached: trialsTo(list, criterion, run, better), given: list.length };
    });
  }) as [Count[], Count[]];
  const [first, again] = counts.map((list) => list.map(({ reached }) => reached)) as [(number | null)[], (number | null)[]];
  return { criterion, run, first, again, percent: percentOf(first, again, level), bounds: boundsOf(counts[0], counts[1]) };
}

interface Count {
  readonly reached: number | null;
  readonly given: number;
}

function trialsTo(list: ArrayLike<number>, criterion: number, run: number, better: "lower" | "higher"): number | null {
  let good = 0;
  for (let i = 0; i < list.length; i++) {
    good = (better === "lower" ? list[i]! <= criterion : list[i]! >= criterion) ? good + 1 : 0;
    if (good === run) return i + 1;
  }
  return null;
}

function percentOf(first: readonly (number | null)[], again: readonly (number | null)[], level: number): Estimate {
  const unit = "%";
  const n = Math.min(first.length, again.length);
  const [before, after] = [first, again].map((list) => list.filter((count) => count !== null)) as [number[], number[]];
  if (before.length < first.length || after.length < again.length) return { ok: false, why: "notIdentified", unit, n };
  if (n < 2) {
    const mean = (list: readonly number[]): number => list.reduce((sum, count) => sum + count, 0) / list.length;
    return { ok: true, value: 100 * (1 - mean(after) / mean(before)), unit, n };
  }
  // 1 - N2/N1, so that the numerator is one estimate alone
  const saved = describeRatio([{ estimate: uncertainMean(after), factor: 1 }], [{ estimate: uncertainMean(before), factor: 1 }], -100, {
    unit,
    n,
    level,
  });
  if (!saved.ok) return saved;
  const [low, high] = saved.interval!;
  return { ...saved, value: 100 + saved.value, interval: [100 + low, 100 + high] };
}

// a criterion not met in n trials takes n + 1 or more
function boundsOf(first: readonly Count[], again: readonly Count[]): [number | null, number | null] {
  const mean = (list: readonly Count[]): number => list.reduce((sum, { reached, given }) => sum + (reached ?? given + 1), 0) / list.length;
  const missed = (list: readonly Count[]): boolean => list.some(({ reached }) => reached === null);
  const value = 100 * (1 - mean(again) / mean(first));
  return [missed(again) ? null : value, missed(first) ? null : value];
}
