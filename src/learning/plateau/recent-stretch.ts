import { effectiveCount } from "../trend/effective-count.js";
import { lagOne } from "../trend/lag-one.js";
import { type RunningLines, runningLines } from "../trend/running-lines.js";
import { unbiasedLagOne } from "../trend/unbiased-lag-one.js";

/** Fewest values before a break: two fix a line, two more show whether it holds. */
const LEAST_BEFORE = 4;
/** A broken line must have a criterion this much lower than an unbroken one: "strong" in the words of Kass and Raftery 1995 (recalled). */
const STRONG = 10;
/** What a break adds: its place, a second level and a second slope. */
const ADDED = 3;

/** Where the latest stretch begins, and how strongly the values ask for that break. */
export interface RecentStretch {
  /** Index of its first value; 0 when the whole series is one stretch. */
  readonly from: number;
  /** Bayesian criterion without the last break less that with it; 0 without a break. */
  readonly support: number;
}

/**
 * The latest stretch of a series that one straight line describes: the series is cut in two where two separate lines leave the least, as long as the
 * criterion asks for it strongly, and the later part looked at again. Neighbours that are alike count as fewer values. A stretch keeps `least` values
 * over at least `span` of x. Cost O(n) for each cut.
 */
export function recentStretch(x: Float64Array, y: Float64Array, least: number, span: number): RecentStretch {
  let from = 0;
  let support = 0;
  for (;;) {
    const cut = bestCut(x.subarray(from), y.subarray(from), least, span);
    if (cut === undefined || cut.support <= STRONG) return { from, support };
    from += cut.from;
    support = cut.support;
  }
}

function bestCut(x: Float64Array, y: Float64Array, least: number, span: number): RecentStretch | undefined {
  const n = x.length;
  const early = runningLines(x, y);
  const late = runningLines(x.slice().reverse(), y.slice().reverse());
  const whole = residualSum(early, n - 1);
  let from = -1;
  let lowest = Number.POSITIVE_INFINITY;
  for (let cut = LEAST_BEFORE; cut <= n - least && x[n - 1]! - x[cut]! >= span; cut++) {
    const sum = residualSum(early, cut - 1) + residualSum(late, n - 1 - cut);
    if (sum < lowest) {
      lowest = sum;
      from = cut;
    }
  }
  if (from < 0 || !(whole > 0)) return undefined;
  // two exact lines beside one that is not
  if (!(lowest > 0)) return { from, support: Number.MAX_VALUE };
  const rest = Float64Array.from(y, (value, i) =>
    i < from ? value - lineAt(early, from - 1, x[i]!) : value - lineAt(late, n - 1 - from, x[i]!),
  );
  const count = effectiveCount(n, unbiasedLagOne(lagOne(rest) ?? 0, n, 2));
  return { from, support: count * Math.log(whole / lowest) - ADDED * Math.log(count) };
}

function residualSum({ xx, xy, yy }: RunningLines, k: number): number {
  return xx[k]! > 0 ? Math.max(0, yy[k]! - (xy[k]! * xy[k]!) / xx[k]!) : yy[k]!;
}

function lineAt({ x, y, xx, xy }: RunningLines, k: number, at: number): number {
  return y[k]! + (xx[k]! > 0 ? xy[k]! / xx[k]! : 0) * (at - x[k]!);
}
