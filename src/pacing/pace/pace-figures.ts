import { binomialTest } from "../../math/binomial-test.js";
import type { Estimate } from "../../math/estimate.js";
import { medianInPlace } from "../../math/median.js";
import { proportionEstimate } from "../../math/proportion-estimate.js";
import type { ReadTrials } from "../scatter/read-trials.js";

/** What was seen at one pace. */
export interface PaceFigures {
  readonly pace: string;
  /** Trials, and those of them without a press. */
  readonly n: number;
  readonly timeouts: number;
  /** Median movement time, seconds; trials without a press rank as the slowest. */
  readonly movementTime: number;
  /** Share of all trials that hit, those without a press counting as misses, with its Wilson interval. */
  readonly hitShare: Estimate;
  /** The same among presses alone: what the laws speak of. */
  readonly hitSharePressed: Estimate;
  /** Share of hits that the chosen law gives for these presses, `null` without one. */
  readonly expected: number | null;
  /** Exact binomial p-value of the presses' hits under `expected`. */
  readonly p: number | null;
}

/** One line a pace, fastest first; `expected` is the mean over the presses of a pace. */
export function paceFigures(
  trials: ReadTrials,
  pace: readonly string[],
  expected: ((i: number) => number) | undefined,
  level: number,
): PaceFigures[] {
  const groups = new Map<string, number[]>();
  for (const [i, label] of pace.entries()) {
    const group = groups.get(label);
    if (group === undefined) groups.set(label, [i]);
    else group.push(i);
  }
  const lines = [...groups].map(([label, members]): PaceFigures => {
    const pressed = members.filter((i) => trials.pressed[i] === 1);
    const hits = members.filter((i) => trials.hit[i] === 1).length;
    const share = expected === undefined || pressed.length === 0 ? null : pressed.reduce((sum, i) => sum + expected(i), 0) / pressed.length;
    return {
      pace: label,
      n: members.length,
      timeouts: members.length - pressed.length,
      movementTime: medianTime(trials, members),
      hitShare: proportionEstimate(hits, members.length, level),
      hitSharePressed: proportionEstimate(hits, pressed.length, level),
      expected: share,
      p: share === null ? null : binomialTest(hits, pressed.length, Math.min(1, Math.max(0, share))),
    };
  });
  return lines.sort((one, other) => one.movementTime - other.movementTime);
}

/** Median over presses and timeouts, a timeout being slower than every press. */
function medianTime({ movementTime, pressed }: ReadTrials, members: readonly number[]): number {
  const slowest = members.reduce((most, i) => Math.max(most, movementTime[i]!), 0);
  return medianInPlace(Float64Array.from(members, (i) => (pressed[i] === 1 ? movementTime[i]! : slowest)));
}
