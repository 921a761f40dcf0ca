import { requireInteger, requireLevel, requireNumber, requireObject, requireSeed } from "../math/require.js";
import { isTrack } from "../movement/acquisition/target-position.js";
import { DEFAULT_CUTOFF } from "../trace/condition/butterworth.js";
import { nominalRate } from "../trace/condition/nominal-rate.js";
import { positionQuantum } from "../trace/condition/position-quantum.js";
import { type Kinematics, type KinematicsOptions, kinematics } from "../trace/kinematics.js";
import { requireTrace } from "../trace/require-trace.js";
import { resample } from "../trace/resample.js";
import type { Recording } from "../trace/types.js";
import { describePursuit } from "./following/describe-pursuit.js";
import { frameRate } from "./following/frame-rate.js";
import { requireDrivenAxes } from "./following/require-driven-axes.js";
import { restoreHolds } from "./following/restore-holds.js";
import { type Conditioned, stretchOf } from "./following/stretch.js";
import type { Pursuit } from "./types.js";

const FN = "analyzePursuit";
/** A finer grid adds work, not information. */
const HIGHEST_DEFAULT_RATE = 1000;

/** Options of `analyzePursuit`. */
export interface AnalyzePursuitOptions {
  /** Rate of the even grid, Hz, above 0 and at most 1000. Default: the recording's own rate. Higher adds work, not information. */
  readonly sampleRateHz?: number;
  /** Half-power frequency of the zero-lag low-pass filter that target and pointer both pass, Hz, above 0, default 20. Lower hides quick catch-up movements. */
  readonly cutoffHz?: number;
  /** Longest silence with a jump that is bridged, seconds, default 0.05. */
  readonly maxGap?: number;
  /** Step of the position readings, in the space's unit, above 0. Default: the smallest change in the trace. */
  readonly quantum?: number;
  /** Frames per second with which the target was drawn, Hz, above 0; half a frame is taken off every lag. Default: from the recording's `frames`. */
  readonly targetFrameHz?: number;
  /** Frequencies of a multisine target on each axis, Hz, ascending. Then the response is read at these. Default: none, spectra over segments. */
  readonly drivenHz?: { readonly x?: readonly number[]; readonly y?: readonly number[] };
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. */
  readonly level?: number;
  /** Times that units of 2 s, or events, are drawn again for the intervals of lag, latency and slope, 100 to 10000, default 400. More: steadier ends, more time. */
  readonly resamples?: number;
  /** 32-bit whole number for those draws, default 1. */
  readonly seed?: number;
}

/**
 * How one person follows moving targets: error, time on target, lag, gain, catch-up movements, answers to sudden turns.
 *
 * One result per trial of the kind `"pursue"` and goal. Target and pointer are brought to one grid and through one filter. The first phase is left out: until
 * the pointer has been on the target for 0.1 s, or for 1 s. Then error = pointer - target at the same instant, along and across the target's motion (behind = negative, left
 * of travel = positive); lag = peak of the correlation of both velocities, between -0.1 and 0.6 s, refined by a parabola; gain = regression of the pointer's velocity on
 * that of the target one lag earlier. In a view distances are those of the tangent plane at the target. Errors are alike from moment to moment: intervals take stretches of
 * at least 2 s as independent, and `n` counts those. Half a frame is taken off every lag; the delay of display and device is not: tell it beside the lag.
 * Cost O(n log n).
 *
 * @param recording - a recording with trials of the kind `"pursue"`, whose goals are tracks
 * @param options - see `AnalyzePursuitOptions`
 * @returns one `Pursuit` per trial and goal, in their order; lengths in the space's unit, times in seconds; figures that the data do not allow are not ok
 * @throws TypeError or RangeError if the trace or an option is not as stated
 * @see Poulton's and Miall, Weir and Stein's measures of following (recalled); interval of a ratio: textbook of survey sampling (recalled)
 * @example
 * ```ts
 * const { recording } = simulatePursuit({ seed: 5, duration: 40 });
 * const [found] = analyzePursuit(recording);
 * const lag = found!.lag.byCorrelation;
 * lag.ok && lag.value.toFixed(2); // => "0.15"
 * ```
 */
export function analyzePursuit(recording: Recording, options: AnalyzePursuitOptions = {}): Pursuit[] {
  requireObject(FN, "recording", recording);
  requireObject(FN, "options", options);
  const { cutoffHz = DEFAULT_CUTOFF, targetFrameHz, drivenHz = {}, level = 0.95, resamples = 400, seed = 1, ...rest } = options;
  requireLevel(FN, level);
  requireInteger(FN, "options.resamples", resamples, 100, 10_000);
  requireSeed(FN, seed);
  if (options.quantum !== undefined) requireNumber(FN, "options.quantum", options.quantum, 0, undefined, true);
  if (targetFrameHz !== undefined) requireNumber(FN, "options.targetFrameHz", targetFrameHz, 0, undefined, true);
  requireDrivenAxes(FN, drivenHz);
  const grid = condition(recording, { ...rest, cutoffHz });
  const settings = {
    sampleRateHz: grid.rate,
    level,
    seed,
    resamples,
    frameHz: targetFrameHz ?? frameRate(recording),
    driven: drivenHz,
    noise: grid.chain.noiseFloor.speed,
    quantum: grid.chain.quantum,
  };
  const targets = new Map(recording.targets.map((target) => [target.id, target]));
  return recording.trials
    .filter(({ kind }) => kind === "pursue")
    .flatMap((trial) =>
      trial.goals.map((id) => {
        const target = targets.get(id);
        const still = target === undefined || !isTrack(target.at) || target.at.t.length === 0;
        const failure = grid.chain.status !== "ok" ? grid.chain.status : still ? "noTrack" : undefined;
        const stretch = failure === undefined ? stretchOf(recording, trial, target!, grid) : undefined;
        return describePursuit(recording, trial, target, stretch, failure, settings);
      }),
    );
}

/** The recording on one grid, filtered and not; at a whole number of samples per second, so that whole periods of a target fit. */
function condition(recording: Recording, options: KinematicsOptions): Conditioned & { readonly chain: Kinematics } {
  const { trace, space } = recording;
  requireTrace(FN, "recording.trace", trace);
  const nominalRateHz = options.nominalRateHz ?? nominalRate(trace);
  const quantum = options.quantum ?? positionQuantum(trace);
  const sampleRateHz = options.sampleRateHz ?? (nominalRateHz === undefined ? undefined : wholeRate(nominalRateHz));
  const whole = quantum === undefined ? trace : restoreHolds(trace, quantum);
  const known = {
    ...options,
    space,
    ...(nominalRateHz !== undefined && { nominalRateHz }),
    ...(quantum !== undefined && { quantum }),
    ...(sampleRateHz !== undefined && { sampleRateHz }),
  };
  const chain = kinematics(whole, known);
  const { cutoffHz, sampleRateHz: rate, segments: filtered } = chain;
  const { maxGap } = options;
  const unfiltered =
    filtered.length === 0
      ? []
      : resample(whole, {
          ...(maxGap !== undefined && { maxGap }),
          sampleRateHz: rate,
          nominalRateHz: chain.nominalRateHz,
          quantum: chain.quantum,
        }).segments;
  return { chain, rate, cutoffHz, filtered, unfiltered: unfiltered.filter(({ x }) => x.length >= 2) };
}

function wholeRate(hz: number): number {
  return Math.min(HIGHEST_DEFAULT_RATE, Math.max(1, Math.round(hz)));
}
