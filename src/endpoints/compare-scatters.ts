import type { Reason } from "../math/estimate.js";
import { meanAndSd } from "../math/mean-and-sd.js";
import { requireInteger, requireLevel, requireSeed } from "../math/require.js";
import { type AccuracyChange, accuracyChange } from "./inference/accuracy-change.js";
import { type BiasChange, biasChange } from "./inference/bias-change.js";
import { distancesFrom } from "./inference/distances.js";
import { bivariateSd, type Moments, moments } from "./inference/moments.js";
import { requireEndpoints } from "./inference/require-endpoints.js";
import { type SpreadChange, spreadChange } from "./inference/spread-change.js";
import type { Endpoints } from "./types.js";

/** Options of `compareScatters`. */
export interface CompareScattersOptions {
  /** Label of the length unit, default "px". */
  readonly unit?: string;
  /** Confidence level, above 0 and below 1, default 0.95. Raised, the intervals grow and a change is shown less often. */
  readonly level?: number;
  /** Start of the random numbers of the permutation test, a 32-bit integer, default 1. */
  readonly seed?: number;
  /** Random exchanges of the permutation test, 99 to 100000, default 1999. More give a finer p-value (its smallest is 1/(permutations + 1)) and take longer. */
  readonly permutations?: number;
}

/** One of the two sets, in figures. */
export interface ScatterFigures {
  readonly n: number;
  /** Mean endpoint minus the target's centre. */
  readonly offset: readonly [number, number];
  /** Root of the summed variances (n - 1) of both axes. */
  readonly bivariateSd: number;
  /** Mean distance from the target's centre. */
  readonly meanRadialError: number;
}

/** What changed from one set of endpoints to another. */
export type ScatterComparison =
  | {
      readonly ok: true;
      readonly unit: string;
      readonly level: number;
      readonly seed: number;
      readonly before: ScatterFigures;
      readonly after: ScatterFigures;
      /** Did the mean endpoint move? `null` when both sets together lie on one line. */
      readonly bias: BiasChange | null;
      /** Did the scatter about its own middle change, whatever the mean did? */
      readonly spread: SpreadChange;
      /** Did the distance from the target's centre change: bias and spread together? */
      readonly accuracy: AccuracyChange;
      /**
       * `trialsAsUnits`, always: every figure speaks of the sittings in which the trials were made; how much a person changes from day to day is not in them.
       * `few`: a set of under 20, too few for a spread; `fewToCompare`: a set of under 50, which shows gross changes of spread only.
       */
      readonly warnings: readonly ("trialsAsUnits" | "few" | "fewToCompare")[];
    }
  /** `tooFew`: a set of under four endpoints, `n` in it; `noSpread`: a set whose endpoints coincide. */
  | { readonly ok: false; readonly why: Reason; readonly unit: string; readonly n: number };

const LEAST = 4;
const ENOUGH = 20;
const ENOUGH_TO_COMPARE = 50;

/**
 * Did bias, spread or accuracy change between two sets of endpoints?
 *
 * Bias: Hotelling's two-sample test for unlike covariances (degrees of freedom of Krishnamoorthy and Yu), Welch intervals per axis. Spread: ratio of
 * the bivariate SDs with a jackknife interval (log scale, Welch's degrees of freedom), and a seeded permutation test of the distances from each
 * set's own median. Accuracy: difference of the mean radial errors with its Welch interval. Unlike sizes, shapes and tails are allowed.
 * Give both sets in the same frame, of one person, condition and pace. To judge practice compare sessions, not trials. Cost O(n permutations).
 *
 * @param before - offsets from the target's centre, at least four
 * @param after - the same of the other set, made independently
 * @param options - see `CompareScattersOptions`
 * @returns three comparisons, each with a p-value and a verdict of its own; not ok when a set is too small or has no spread
 * @throws TypeError or RangeError if a column or an option is not as described
 * @see Krishnamoorthy and Yu 2004 (formula read); Welch 1947; Brown and Forsythe 1974; Anderson 2006; the jackknife (all recalled)
 * @example
 * ```ts
 * const before = { x: Float64Array.of(9, -8, 12, -3, 7, -11, 4, 10), y: Float64Array.of(-6, 9, 5, -10, 8, 2, -9, 3) };
 * const after = { x: Float64Array.of(2, -1, 3, -2, 1, -3, 0, 2), y: Float64Array.of(-1, 2, 1, -3, 2, 0, -2, 1) };
 * const change = compareScatters(before, after);
 * change.ok && change.spread.verdict; // => "tighter"
 * ```
 */
export function compareScatters(before: Endpoints, after: Endpoints, options: CompareScattersOptions = {}): ScatterComparison {
  const { unit = "px", level = 0.95, seed = 1, permutations = 1999 } = options;
  requireEndpoints("compareScatters", "before", before);
  requireEndpoints("compareScatters", "after", after);
  requireLevel("compareScatters", level);
  requireSeed("compareScatters", seed);
  requireInteger("compareScatters", "options.permutations", permutations, 99, 100000);
  const least = Math.min(before.x.length, after.x.length);
  if (least < LEAST) return { ok: false, why: "tooFew", unit, n: least };
  const both = [moments(before), moments(after)] as const;
  const flat = both.find((set) => set.scale === 0);
  if (flat !== undefined) return { ok: false, why: "noSpread", unit, n: flat.n };
  const radial = [distancesFrom(before, [0, 0]), distancesFrom(after, [0, 0])] as const;
  const warnings: ("trialsAsUnits" | "few" | "fewToCompare")[] = ["trialsAsUnits"];
  if (least < ENOUGH_TO_COMPARE) warnings.push(least < ENOUGH ? "few" : "fewToCompare");
  return {
    ok: true,
    unit,
    level,
    seed,
    before: figures(both[0], radial[0]),
    after: figures(both[1], radial[1]),
    bias: biasChange(before, after, both, unit, level),
    spread: spreadChange(before, after, both, { level, permutations, seed }),
    accuracy: accuracyChange(radial[0], radial[1], unit, level),
    warnings,
  };
}

function figures(set: Moments, radial: Float64Array): ScatterFigures {
  return { n: set.n, offset: [set.mean[0], set.mean[1]], bivariateSd: bivariateSd(set), meanRadialError: meanAndSd(radial).mean };
}
