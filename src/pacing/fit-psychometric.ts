import { requireObject } from "../math/require.js";
import { curvePoints } from "./psychometric/curve-points.js";
import { devianceOf } from "./psychometric/deviance.js";
import { fitCurve, isFlat, isSeparated, problemOf } from "./psychometric/fit-curve.js";
import { levelCounts, type PsychometricData } from "./psychometric/level-counts.js";
import { shareAt } from "./psychometric/maximize.js";
import type { Quantity } from "./psychometric/places.js";
import { emptyValues, quantityValues, type ValueContext } from "./psychometric/quantity-values.js";
import { LARGEST_LAPSE, readShares, readSpreads, requireOptions } from "./psychometric/read-options.js";
import { resampleCurve } from "./psychometric/resample-curve.js";
import { axisOf } from "./psychometric/scale.js";
import { type PsychometricShape, standardShape } from "./psychometric/shapes.js";
import type {
  PsychometricGoodness,
  PsychometricLevel,
  PsychometricPoint,
  PsychometricThreshold,
  PsychometricValue,
  PsychometricWarning,
} from "./psychometric/types.js";

const WHERE = "fitPsychometric";
/** Fewest trials for any value, and below which a warning is given; fewest levels without one. */
const TRIALS = 20;
const MANY_TRIALS = 60;
const MANY_LEVELS = 4;
const POOR = 0.05;
/** Deviances of one data set differ by no more than this share. */
const SAME = 1e-9;

/** Options of `fitPsychometric`. */
export interface FitPsychometricOptions {
  /** Shape F: `"weibull"` (default; exact for a round target and normal scatter that does not depend on the level), `"logistic"`, `"normal"` or `"gumbel"`. */
  readonly shape?: PsychometricShape;
  /** `"log"` (default): F runs over the logarithm of the level. `"linear"`: over the level; not for `"weibull"`. */
  readonly scale?: "log" | "linear";
  /** Which way difficulty grows: `"down"` (default) where hits rise with the level (width, time limit), `"up"` where they fall (speed, distance). */
  readonly harder?: "down" | "up";
  /** Share of hits without any skill, 0 to 0.9, default 0: a press anywhere seldom hits a small target. 1/m for m alternatives. */
  readonly guess?: number;
  /** Spread sigma of the transition: `"fit"` (default), a value above 0 taken as known, or the range in which it is fitted, such as [0.5, 1]. Needed for staircases, whose levels lie too close to tell it. */
  readonly spread?: number | readonly [number, number] | "fit";
  /** Share of misses at any level, 0 to 0.06, taken as known; or `"fit"` (default), fitted in that range. Set to 0, one careless miss at an easy level flattens the curve. */
  readonly lapse?: number | "fit";
  /** Shares of hits, above `guess` and below 1, whose levels are wanted; one or a list, default 0.8. */
  readonly thresholdAt?: number | readonly number[];
  /** Data sets drawn from the curve, 0 to 100000, default 999; 0 leaves out the band, `resampled` and the test of the fit. Raised, steadier ends, slower. */
  readonly resamples?: number;
  /** Start of the random numbers, a 32-bit integer, default 1. */
  readonly seed?: number;
  /** Confidence level, above 0 and below 1, default 0.95. Raised, intervals grow. */
  readonly level?: number;
  /** Label of the unit of the levels, default "px". */
  readonly unit?: string;
}

/** Share of hits as a function of difficulty. */
export interface PsychometricFit {
  /** Trials in all. */
  readonly n: number;
  readonly unit: string;
  readonly shape: PsychometricShape;
  readonly scale: "log" | "linear";
  readonly harder: "down" | "up";
  readonly guess: number;
  readonly level: number;
  readonly seed: number;
  readonly resamples: number;
  /** Level m at which F is 1/2 (logistic, normal) or 1 - 1/e (weibull, gumbel). */
  readonly location: PsychometricValue;
  /** Spread sigma of the transition: unit of the levels (linear) or natural logarithms (log). A Weibull's exponent is 1/sigma. */
  readonly spread: PsychometricValue;
  /** Share of misses at any level; without an interval where it was given. */
  readonly lapse: PsychometricValue;
  /** In the order of `thresholdAt`. */
  readonly thresholds: readonly PsychometricThreshold[];
  /** Every distinct level, from small to large. */
  readonly levels: readonly PsychometricLevel[];
  /** 41 points over the levels that were tried. Empty where nothing was fitted. */
  readonly curve: readonly PsychometricPoint[];
  /** Without the binomial coefficients; `null` like `goodness` where nothing was fitted. */
  readonly logLikelihood: number | null;
  readonly goodness: PsychometricGoodness | null;
  readonly warnings: readonly PsychometricWarning[];
}

/**
 * How the share of hits depends on difficulty, and the level at which it reaches a wanted share.
 *
 * psi(x) = g + (1 - g - l) F((x - m)/sigma), x the level or its logarithm (negated where larger is harder): F logistic, normal, gumbel 1 - exp(-e^z), or weibull, the gumbel of log x.
 * Most likely m, sigma and lapse l within bounds; intervals by the profile likelihood, which stay honest where one end is open, and by parametric bootstrap; goodness by deviance and bootstrap.
 * Where the data leave a value open (separated, flat) it is not ok, and `within` says what they exclude. Cost O(resamples trials), 0.1 to 0.2 s for 140 trials in 7 levels or 100 in 40; a tenth of it without resamples.
 *
 * @param data - levels with hits and trials, or single trials; the state of a staircase will do. All by one person, in one condition but for the level
 * @param options - see `FitPsychometricOptions`
 * @returns location, spread, lapse and thresholds with their uncertainty, the curve with its band, the goodness of fit and warnings
 * @throws TypeError or RangeError if a column or an option is not as described
 * @see Wichmann and Hill 2001, parts I and II (lapses, bootstrap and goodness of fit): from memory
 * @example
 * ```ts
 * const widths = { levels: [12, 18, 27, 40, 60], trials: [30, 30, 30, 30, 30], hits: [3, 8, 15, 26, 30] };
 * const fit = fitPsychometric(widths, { thresholdAt: [0.5, 0.8], lapse: 0 });
 * fit.thresholds.map((t) => t.estimate); // => [{ ok: true, value: 25.99, unit: "px", … }, { ok: true, value: 36.43, unit: "px", … }]
 * fit.warnings; // => []
 * ```
 */
export function fitPsychometric(data: PsychometricData, options: FitPsychometricOptions = {}): PsychometricFit {
  requireObject(WHERE, "options", options);
  const { shape = "weibull", scale = "log", harder = "down", guess = 0, spread = "fit", lapse = "fit" } = options;
  const { resamples = 999, seed = 1, level = 0.95, unit = "px" } = options;
  requireOptions(WHERE, { shape, scale, harder, guess, lapse, resamples, seed, level });
  const spreads = readSpreads(WHERE, spread);
  const shares = readShares(WHERE, options.thresholdAt, guess);
  const axis = axisOf(scale, harder, shape);
  const counts = levelCounts(WHERE, data, axis);
  const n = counts.trials.reduce((sum, count) => sum + count, 0);
  const axisUnit = axis.log ? "log" : unit;
  const echoed = { n, unit, shape, scale, harder, guess, level, seed, resamples };
  const quantities: readonly Quantity[] = [
    { kind: "location" },
    { kind: "spread" },
    { kind: "lapse" },
    ...shares.map((share) => ({ kind: "threshold", share }) as const),
  ];
  const placed = Array.from(counts.levels, (at, i) => ({ level: at, trials: counts.trials[i]!, hits: counts.hits[i]! }));
  const inOrder = <T>(list: readonly T[]): readonly T[] => (harder === "up" ? [...list].reverse() : list);
  const few: PsychometricWarning[] = [];
  if (counts.at.length < MANY_LEVELS) few.push("fewLevels");
  if (n < MANY_TRIALS) few.push("fewTrials");
  if (n < TRIALS || counts.at.length < 2) {
    const why = n < TRIALS ? "tooFew" : "notIdentified";
    const known = {
      ...(spreads !== undefined && spreads[0] === spreads[1] && { spread: spreads[0] }),
      ...(lapse !== "fit" && { lapse }),
    };
    return {
      ...echoed,
      ...named(emptyValues(quantities, why, { unit, axisUnit, n, ...known }), shares),
      levels: inOrder(placed.map((line) => ({ ...line, fitted: line.hits / line.trials }))),
      curve: [],
      logLikelihood: null,
      goodness: null,
      warnings: few,
    };
  }
  const lapses = lapse === "fit" ? ([0, Math.min(LARGEST_LAPSE, 1 - guess - 0.01)] as const) : ([lapse, lapse] as const);
  const problem = problemOf(counts, { shape: standardShape(shape), guess, lapses, ...(spreads && { spreads }) });
  const curve = fitCurve(problem);
  const flat = isFlat(problem, curve);
  const separated = !flat && spreads === undefined && isSeparated(problem, curve);
  const open = flat || separated;
  // a curve that the data leave open tells nothing by data drawn from it
  const draws = open ? [] : resampleCurve(problem, curve, resamples, seed);
  const deviance = devianceOf(problem, curve);
  const worse = draws.filter((draw) => draw.deviance >= deviance * (1 - SAME)).length;
  const p = draws.length === 0 ? null : (1 + worse) / (draws.length + 1);
  const context: ValueContext = { problem, curve, draws, axis, level, unit, n, open, axisUnit };
  const values = named(quantityValues(context, quantities), shares);
  const warnings: PsychometricWarning[] = [...few];
  if (separated) warnings.push("separated");
  if (flat) warnings.push("flat");
  const [flattest, steepest] = problem.slopes;
  if (spreads !== undefined && flattest < steepest && (curve.slope <= flattest || curve.slope >= steepest)) warnings.push("spreadAtLimit");
  if (lapse === "fit" && curve.lapse >= lapses[1]) warnings.push("lapseAtLimit");
  if (p !== null && p < POOR) warnings.push("poorFit");
  const [smallest, largest] = [inOrder(placed)[0]!.level, inOrder(placed).at(-1)!.level];
  if (values.thresholds.some(({ estimate }) => estimate.ok && (estimate.value < smallest || estimate.value > largest))) {
    warnings.push("extrapolated");
  }
  return {
    ...echoed,
    ...values,
    levels: inOrder(placed.map((line, i) => ({ ...line, fitted: shareAt(problem, curve, counts.at[i]!) }))),
    curve: inOrder(curvePoints(problem, curve, draws, axis, level)),
    logLikelihood: curve.logLikelihood,
    goodness: { deviance, df: counts.at.length - 1 - (flattest < steepest ? 1 : 0) - (lapse === "fit" ? 1 : 0), p },
    warnings,
  };
}

/** Values under their names, in the order location, spread, lapse, thresholds. */
function named(
  values: readonly PsychometricValue[],
  shares: readonly number[],
): Pick<PsychometricFit, "location" | "spread" | "lapse" | "thresholds"> {
  const [location, spread, lapse, ...rest] = values;
  return {
    location: location!,
    spread: spread!,
    lapse: lapse!,
    thresholds: rest.map((value, i) => ({ share: shares[i]!, ...value })),
  };
}
