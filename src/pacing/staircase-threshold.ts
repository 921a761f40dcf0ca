import type { Estimate } from "../math/estimate.js";
import { proportionEstimate } from "../math/proportion-estimate.js";
import { requireInteger, requireLevel, requireObject } from "../math/require.js";
import { type FitPsychometricOptions, fitPsychometric, type PsychometricFit } from "./fit-psychometric.js";
import { requireState } from "./staircase/require-state.js";
import { reversalMean } from "./staircase/reversal-mean.js";
import type { StaircaseState } from "./staircase/staircase-state.js";

const WHERE = "staircaseThreshold";
/** Reversals left out at the beginning, at least. */
const DISCARD = 4;
/** Spread of hits over the logarithm of the level: 0.5 for a round target and a scatter that stays the same, 0.7 to 0.8 for a strip (closed forms), more where the scatter varies. */
const SPREADS = [0.5, 1] as const;
/** Fewer reversals in the mean than this deserve a warning. */
const FEW_REVERSALS = 8;

/** Options of `staircaseThreshold`. */
export interface StaircaseThresholdOptions {
  /** Reversals left out at the beginning, 0 to 1000; one more where an odd number would be left. Default: 4, or as many as were made with coarser steps. Raised, less of the way in is averaged, and less is left. */
  readonly discard?: number;
  /** Shape of the function fitted to all trials, as in `fitPsychometric`, default `"weibull"` on the log scale and `"normal"` on the linear one. */
  readonly shape?: FitPsychometricOptions["shape"];
  /** Spread of that function: a value, a range or `"fit"`. Default [0.5, 1] on the log scale, where hits are decided by the scatter of endpoints; `"fit"` on the linear one. */
  readonly spread?: FitPsychometricOptions["spread"];
  /** Lapse of that function: 0 to 0.06, or `"fit"` (default). */
  readonly lapse?: number | "fit";
  /** Data sets drawn from the fitted function, 0 to 100000, default 999. */
  readonly resamples?: number;
  /** Start of the random numbers, a 32-bit integer, default 1. */
  readonly seed?: number;
  /** Confidence level, above 0 and below 1, default 0.95. Raised, intervals grow. */
  readonly level?: number;
  /** Label of the unit of the levels, default "px". */
  readonly unit?: string;
}

/** Why a reader should be careful. */
export type StaircaseWarning =
  /** A bound cut a step short within the stretch that would be averaged: the target lies at the bound or beyond. */
  | "boundReached"
  /** Fewer than eight reversals are left to average. */
  | "fewReversals";

/** The level that a staircase found. */
export interface StaircaseThreshold {
  /** Share of hits that the rule holds. */
  readonly target: number;
  readonly level: number;
  /** Mean level of an even number of reversals, geometric on the log scale. `outOfReach`: a bound was reached. Without an interval: neighbouring reversals are alike. */
  readonly reversals: Estimate;
  /** Level at which the function fitted to all trials gives the target. Better than the reversals where there are few of them. */
  readonly threshold: Estimate;
  /** The fit behind it. */
  readonly fit: PsychometricFit;
  /** Share of hits of all trials. Held by the rule: never a measure of progress. */
  readonly hitShare: Estimate;
  /** Which bound cut steps short within the averaged stretch; `null`: none. */
  readonly bound: "lowest" | "highest" | null;
  readonly warnings: readonly StaircaseWarning[];
}

/**
 * The level at which a person hits the target share, from a staircase: by its reversals, and by a psychometric function fitted to all its trials.
 *
 * The first reversals are left out, and one more where needed for an even number, so that upper and lower turning points weigh alike. Where a bound cut a step short among the
 * rest nothing is averaged. The fit uses every trial and knows the share exactly where finite steps make the reversals stand a little off. Follow the threshold over sessions,
 * not the share of hits: that is held by the rule. Cost that of `fitPsychometric`.
 *
 * @param state - from `stepStaircase`
 * @param options - see `StaircaseThresholdOptions`
 * @returns both thresholds with their intervals, the fit, the bound that was reached, and warnings
 * @throws TypeError or RangeError if the state or an option is not as described
 * @see Levitt 1971 (mean of reversals), Wichmann and Hill 2001 (fit): from memory
 * @example
 * ```ts
 * // an invented person who needs some 30 px for four hits in five
 * let state = createStaircase({ start: 60 });
 * for (let i = 0; i < 80; i++) state = stepStaircase(state, 1 - Math.exp(-1.61 * (state.level / 30) ** 2) > ((i * 0.618) % 1));
 * const { reversals, threshold, target } = staircaseThreshold(state);
 * target; // => 0.8
 * reversals; // => { ok: true, value: 28.22, unit: "px", n: 28 }
 * threshold; // => { ok: true, value: 28.22, unit: "px", n: 80, … }
 * ```
 */
export function staircaseThreshold(state: StaircaseState, options: StaircaseThresholdOptions = {}): StaircaseThreshold {
  requireState(WHERE, state);
  requireObject(WHERE, "options", options);
  const { scale, harder, target, steps, stepReversals } = state.settings;
  const { discard = Math.max(DISCARD, stepReversals * (steps.length - 1)), level = 0.95, unit = "px" } = options;
  const { spread = scale === "log" ? SPREADS : "fit", shape = scale === "log" ? "weibull" : "normal", ...rest } = options;
  requireInteger(WHERE, "options.discard", discard, 0, 1000);
  requireLevel(WHERE, level);
  const fit = fitPsychometric(
    { levels: state.levels, hits: state.hits },
    { ...picked(rest), shape, spread, scale, harder, thresholdAt: target },
  );
  const { estimate, used, bound } = reversalMean(state, discard, unit);
  const warnings: StaircaseWarning[] = [];
  if (bound !== null) warnings.push("boundReached");
  if (used < FEW_REVERSALS) warnings.push("fewReversals");
  const n = state.hits.length;
  const hits = state.hits.reduce((sum, hit) => sum + hit, 0);
  return {
    target,
    level,
    reversals: estimate,
    threshold: fit.thresholds[0]!.estimate,
    fit,
    hitShare: proportionEstimate(hits, n, level),
    bound,
    warnings,
  };
}

function picked({ lapse, resamples, seed, level, unit }: StaircaseThresholdOptions): FitPsychometricOptions {
  const given = { lapse, resamples, seed, level, unit };
  return Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined));
}
