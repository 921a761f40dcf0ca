import type { Estimate } from "../../math/estimate.js";
import { permutationTest } from "../../math/permutation-test.js";
import { uncertainMean, welch } from "../../math/welch.js";
import type { Endpoints } from "../types.js";
import { distancesFromMedian } from "./distances.js";
import { jackknifeLogSd } from "./jackknife-log-sd.js";
import { bivariateSd, type Moments } from "./moments.js";

/** Whether the scatter about its own middle changed from one set to another. */
export interface SpreadChange {
  /** Bivariate SD after over before: below 1 is tighter. Interval by the jackknife of its logarithm. */
  readonly ratio: Estimate;
  /** Distances from each set's own median compared by exchanging them between the sets; `null` when all are equal. */
  readonly p: number | null;
  /** Exchanges made; 0 when the sets are so large that the p-value is that of Welch's t. */
  readonly permutations: number;
  /** By `p`; `notShown` is no proof of an equal spread. */
  readonly verdict: "tighter" | "wider" | "notShown";
}

/** Beyond so many endpoints the mean distances are normal to any digit that matters, and exchanging them is a waste. */
const LARGE = 20000;
/** An interval over more than this many powers of e says nothing, and its ends may not fit into a double. */
const WIDEST = 300;

export function spreadChange(
  before: Endpoints,
  after: Endpoints,
  moments: readonly [Moments, Moments],
  options: { readonly level: number; readonly permutations: number; readonly seed: number },
): SpreadChange {
  const { level, seed } = options;
  const n = before.x.length + after.x.length;
  const permutations = n > LARGE ? 0 : options.permutations;
  const distances = [distancesFromMedian(before), distancesFromMedian(after)] as const;
  const larger = welch(uncertainMean(distances[0]), uncertainMean(distances[1]), level);
  const p = (permutations === 0 ? larger?.p : permutationTest(distances[0], distances[1], permutations, seed)) ?? null;
  const shown = p !== null && p < 1 - level && larger !== undefined;
  return {
    ratio: ratioOfSds(before, after, moments, n, level),
    p,
    permutations,
    verdict: shown ? (larger.difference < 0 ? "tighter" : "wider") : "notShown",
  };
}

function ratioOfSds(before: Endpoints, after: Endpoints, moments: readonly [Moments, Moments], n: number, level: number): Estimate {
  const value = bivariateSd(moments[1]) / bivariateSd(moments[0]);
  const ratio = { ok: true, value, unit: "1", n } as const;
  const one = jackknifeLogSd(before, moments[0]);
  const other = jackknifeLogSd(after, moments[1]);
  const test = one && other && welch(one, other, level);
  if (test === undefined) return ratio;
  const half = (test.interval[1] - test.interval[0]) / 2;
  return half < WIDEST ? { ...ratio, interval: [value * Math.exp(-half), value * Math.exp(half)], level } : ratio;
}
