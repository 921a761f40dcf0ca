import type { Estimate } from "../math/estimate.js";
import { meanAndSd } from "../math/mean-and-sd.js";
import { createRandom } from "../math/random.js";
import { requireInteger, requireLevel, requireSeed } from "../math/require.js";
import { type KinematicsOptions, kinematics } from "../trace/kinematics.js";
import type { Recording } from "../trace/types.js";
import { isClean } from "./clean-rows.js";
import { likenessIntervals } from "./repetition/likeness-intervals.js";
import { pairwiseCorrelation } from "./repetition/pairwise-correlation.js";
import { type Likeness, likenessOf, profileSpread } from "./repetition/profile-spread.js";
import { speedWindows } from "./repetition/speed-windows.js";
import { requireRows } from "./require-rows.js";
import type { Acquisition } from "./types.js";

/** Options of `stopProfile`. */
export interface StopProfileOptions extends Omit<KinematicsOptions, "space"> {
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. */
  readonly level?: number;
  /** Resamples of movements for the intervals, 99 to 100000, default 999. More steady their ends and take longer. */
  readonly resamples?: number;
  /** Start of the random numbers, a 32-bit integer, default 1. */
  readonly seed?: number;
}

/** How alike the profiles are when laid beside each other at one instant. */
export interface AlignedStops {
  /** Movements used. */
  readonly n: number;
  /** Mean of the speed, in peaks of each movement's own speed, at `times`, and SD across movements (n - 1); empty under ten movements. */
  readonly mean: readonly number[];
  readonly sd: readonly number[];
  /** The headline: mean of `sd` over the window, in shares of peak speed. Smaller is more alike. */
  readonly functionalSd: Estimate;
  /** Mean correlation of all pairs, by Fisher's z; blind to differences of size. */
  readonly meanCorrelation: Estimate;
  /** Coefficient of multiple correlation: 1 when all are the same, 0 when no more alike than drawn at random. */
  readonly multipleCorrelation: Estimate;
}

/** How alike the ends of movements are. */
export interface StopProfile {
  /** Seconds before the instant that the profiles are laid on, -0.2 to 0 in steps of 0.005. */
  readonly times: readonly number[];
  /** Laid on the stop, and on the first press. */
  readonly atStop: AlignedStops;
  readonly atPress: AlignedStops;
  /** Rows without a clean movement and a stop. */
  readonly leftOut: number;
  readonly seed: number;
  /** `mixedAmplitudes`, `mixedWidths`: distances or target widths differ by more than a tenth, which the profiles then reflect; `few`: under 20 movements. */
  readonly warnings: readonly ("mixedAmplitudes" | "mixedWidths" | "few")[];
}

/** Steps of 0.005 s in the last 0.2 s. */
const STEPS = 40;
const STEPS_PER_SECOND = 200;
const LEAST = 10;
const ENOUGH = 20;
/** Amplitudes or widths that vary by more than this share of their mean are more than one condition. */
const ONE_CONDITION = 0.1;

/**
 * Does every movement come to rest in the same way?
 *
 * The speed in the last 0.2 s, over the peak speed of its own movement, is read every 0.005 s, once up to the stop and once up to the press. At each instant the standard deviation across
 * movements is taken; its mean over the window is the functional SD, in shares of peak speed. Two correlations stand beside it, which see shape alone. Even
 * identical movements differ by where their stop is found: 0.03 at a distance of 400 position steps (see the page). Give movements of one distance, width and pace.
 *
 * @param recording - the recording that the rows came from
 * @param rows - its acquisitions
 * @param options - see `StopProfileOptions`
 * @returns profiles and their likeness at stop and at press, with bootstrap (BCa) and jackknife intervals over movements; estimates not ok under ten movements
 * @throws TypeError or RangeError if an option is not as described
 * @see coefficient of multiple correlation: Kadaba et al. 1989 (recalled)
 * @example
 * ```ts
 * const { recording } = simulateRecording({ seed: 5, movements: 40, targets: { amplitude: [400, 400], widths: [40] } });
 * const { atStop } = stopProfile(recording, analyze(recording));
 * atStop.n; // => 40
 * ```
 */
export function stopProfile(recording: Recording, rows: readonly Acquisition[], options: StopProfileOptions = {}): StopProfile {
  const { level = 0.95, resamples = 999, seed = 1, ...conditioning } = options;
  requireRows("stopProfile", recording, rows);
  requireLevel("stopProfile", level);
  requireInteger("stopProfile", "options.resamples", resamples, 99, 100000);
  requireSeed("stopProfile", seed);
  const { segments } = kinematics(recording.trace, { ...conditioning, space: recording.space });
  const clean = rows.filter((row) => row.times.stop !== undefined && isClean(row));
  const times = Array.from({ length: STEPS + 1 }, (_, k) => (k - STEPS) / STEPS_PER_SECOND);
  const aligned = (at: "stop" | "press", stream: number): AlignedStops => {
    const draws = createRandom(seed, stream);
    return likenessAt(
      speedWindows(clean, segments, times, (row) => row.times[at]),
      level,
      resamples,
      (n) => Math.floor(draws.uniform(0, n)),
    );
  };
  const atStop = aligned("stop", 0);
  const warnings: StopProfile["warnings"][number][] = atStop.n < ENOUGH ? ["few"] : [];
  if (isMixed(clean.flatMap((row) => row.amplitude ?? []))) warnings.push("mixedAmplitudes");
  if (isMixed(clean.map((row) => row.width))) warnings.push("mixedWidths");
  return { times, atStop, atPress: aligned("press", 1), leftOut: rows.length - atStop.n, seed, warnings };
}

function likenessAt(profiles: readonly Float64Array[], level: number, resamples: number, draw: (n: number) => number): AlignedStops {
  const n = profiles.length;
  const meanCorrelation = pairwiseCorrelation(profiles, LEAST, level);
  if (n < LEAST) {
    const none: Estimate = { ok: false, why: "tooFew", unit: "1", n };
    return { n, mean: [], sd: [], functionalSd: none, meanCorrelation, multipleCorrelation: none };
  }
  const spread = profileSpread(
    profiles,
    profiles.map((_, i) => i),
  );
  const value = likenessOf(spread, n);
  const intervals = likenessIntervals(profiles, spread, resamples, level, draw);
  const estimate = (trait: keyof Likeness): Estimate => {
    const interval = intervals[trait];
    return { ok: true, value: value[trait], unit: "1", n, ...(interval && { interval, level }) };
  };
  return {
    n,
    mean: [...spread.mean],
    sd: Array.from(spread.squares, (square) => Math.sqrt(square / (n - 1))),
    functionalSd: estimate("functionalSd"),
    meanCorrelation,
    multipleCorrelation: estimate("multipleCorrelation"),
  };
}

function isMixed(values: readonly number[]): boolean {
  if (values.length < 2) return false;
  const { mean, sd } = meanAndSd(values);
  return sd > ONE_CONDITION * mean;
}
