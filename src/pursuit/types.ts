import type { Estimate } from "../math/estimate.js";
import type { FrequencyResponse } from "./frequency-response.js";

/** What to know before the figures of one pursuit are used. */
export type PursuitWarning =
  /** Less than 20 s are left: too short for a figure to be relied on. */
  | "shortRecord"
  /** The target was not held for 0.1 s within the first second; the figures begin there all the same. */
  | "notAcquired"
  /** Samples are missing, or marked as not to be trusted, and are left out. */
  | "missingSamples"
  /** On target for less than a twentieth of the time: time on target says little. */
  | "saturatedOff"
  /** On target for more than 19 twentieths of the time: time on target says little. */
  | "saturatedOn"
  /** The target repeats itself within 5 s: people anticipate, and the lag comes out near 0 or as a lead. */
  | "periodicTarget"
  /** Neither `targetFrameHz` nor the recording's frames tell the frame rate: lags hold half a frame of the display. */
  | "frameRateUnknown"
  /** A driven line has no whole period in the record: the response is taken from segments instead. */
  | "noWholePeriods"
  /** Fewer than 10 changes of direction or speed: their response is not pooled. */
  | "fewChanges";

/** Which samples the figures rest on. Times in seconds. */
export interface PursuitSamples {
  /** First and last sample used; the time before, in which the target is acquired, is left out. */
  readonly from: number;
  readonly to: number;
  /** Seconds of samples used; gaps and marked stretches are left out. */
  readonly duration: number;
  readonly count: number;
  /** Rate of the grid that target and pointer are brought to, Hz. */
  readonly sampleRateHz: number;
  /** Stretches of at least 2 s that the intervals take as independent. */
  readonly units: number;
  /** How the first phase ended: the pointer had been inside for 0.1 s, or a second was over. */
  readonly acquisition: "inside" | "time";
}

/** What the target did. */
export interface TargetMotion {
  /** Mean speed, unit/s (in a view: in the tangent plane). */
  readonly meanSpeed: number;
  /** Mean width (diameter, or shorter side), in the unit. */
  readonly meanWidth: number;
  /** Mean speed in target widths per second: what makes following hard. */
  readonly widthsPerSecond: number;
  /** Share of the samples in which it was fast enough to have a direction. */
  readonly movingShare: number;
}

/** Pointer minus target, in one unit of length. */
export interface PursuitErrorIn {
  /** Root mean square of the distance from the centre. */
  readonly rms: Estimate;
  /** Mean distance from the centre. */
  readonly radial: Estimate;
  /** Along the target's motion: mean (negative = behind) and standard deviation. While the target moves. */
  readonly alongMotion: { readonly bias: Estimate; readonly sd: Estimate };
  /** Across it: positive to the left of the target's travel on a y-down screen. */
  readonly acrossMotion: { readonly bias: Estimate; readonly sd: Estimate };
  /** While the target moves: mean squared error = squared length of the bias + variance. */
  readonly meanSquare: Estimate;
  readonly squaredBias: Estimate;
  readonly variance: Estimate;
}

/** Error in the space's unit and in target widths of the moment. */
export interface PursuitError extends PursuitErrorIn {
  readonly inWidths: PursuitErrorIn;
}

/** How long and how steadily the pointer was on the target. Times in seconds. */
export interface TimeOnTarget {
  /** Share of the time. */
  readonly share: Estimate;
  /** Times the pointer came in, a first stay included. */
  readonly entries: number;
  /** Lengths of the stays; one that the record cuts off counts as it is. */
  readonly medianStay: Estimate;
  readonly longestStay: number | null;
  /** Time from leaving to coming back. */
  readonly medianAbsence: Estimate;
  /** From the target's appearance to the first sample on it; `null` when there is none. */
  readonly timeToFirstEntry: number | null;
}

/** How late the pointer follows. Seconds, positive = late. Half a frame is taken off where the frame rate is known; delay of display and device is not. */
export interface PursuitLag {
  /** Peak of the correlation of both velocities, -0.1 to 0.6 s. `notIdentified`: no peak, a peak at the edge, or several alike. */
  readonly byCorrelation: Estimate;
  /** Height of the peak. */
  readonly peak: number | null;
  /** Lags of peaks nearly as high as the highest, that included: more than one makes the lag ambiguous. */
  readonly candidates: readonly number[];
  /** From the phases of the frequency response of both axes. */
  readonly byPhase: Estimate;
  /** Mean distance behind over mean speed: the lag, where the target goes straight at constant speed; less where it turns. */
  readonly atConstantVelocity: Estimate;
  /** Half a frame, which has been taken off the three; 0 when the frame rate is not known. */
  readonly frameLag: number;
  /** RMS distance from where the target was one lag earlier (the frame included): what is left of the error when its lateness is forgiven. */
  readonly rmsWithoutLag: Estimate;
}

/** One movement that takes off an error. */
export interface CatchUp {
  /** Seconds. */
  readonly start: number;
  readonly peak: number;
  readonly end: number;
  /** Displacement beyond steady following, in the space's unit. */
  readonly dx: number;
  readonly dy: number;
  /** Distance from the target's centre at the start. */
  readonly error: number;
}

/** Movements that stand out of steady following. */
export interface CatchUpSummary {
  readonly movements: readonly CatchUp[];
  /** Those that lead away from where the target was one lag earlier; not counted above. */
  readonly away: number;
  /** Per second. */
  readonly rate: Estimate;
  /** Median length, in the space's unit. */
  readonly amplitude: Estimate;
  /** Median distance from the target at the start. */
  readonly errorAtStart: Estimate;
  /** Median time from one start to the next, seconds. */
  readonly interval: Estimate;
  /** Share of the pointer's path that is not made by them. */
  readonly smoothShare: Estimate;
}

/** What followed one unannounced change of the target's direction or speed. */
export interface ChangeResponse {
  /** Time of the change, seconds. */
  readonly t: number;
  /** How far the target's direction turned, degrees; 180 = back where it came from. */
  readonly turnDeg: number;
  /** From the change to the pointer's answer, seconds, half a frame taken off as for the lags; `null` where none could be told. */
  readonly latency: number | null;
  /** Greatest distance that the pointer was ahead of the target in the old direction, in the unit. */
  readonly overshoot: number;
  /** From the change until the pointer came back to stay for 0.1 s; 0 when it never left, `null` when it did not come back before the next change. */
  readonly timeBack: number | null;
  /** Integral of the distance over half a second, unit times seconds. */
  readonly errorIntegral: number;
}

/** Answers to changes of the target's direction or speed. Seconds. */
export interface ChangeSummary {
  readonly events: readonly ChangeResponse[];
  /** Changes too close to another, or to missing samples. */
  readonly leftOut: number;
  /** Break in the average of all events' velocities; from 10 events on. */
  readonly pooledLatency: Estimate;
  /** Median of the latencies of single events. */
  readonly latency: Estimate;
  readonly overshoot: Estimate;
  /** Median of those that left the target and came back. */
  readonly timeBack: Estimate;
  readonly errorIntegral: Estimate;
}

/** How the error goes with the target's size. */
export interface SizeEffect {
  /** Smallest, middle and largest third of the widths: mean width, and spread of the error about its mean, lag forgiven where it is known. */
  readonly thirds: readonly { readonly width: number; readonly sd: Estimate }[];
  /** Slope of log spread on log width: 0 = the same spread at every size, 1 = in proportion to it. `noSpread`: the size hardly changes. */
  readonly slope: Estimate;
}

/** One person following one target in one trial. */
export interface Pursuit {
  readonly trial: string;
  readonly target: string;
  /** `belowResolution`: recorded too slowly for the filter; `tooFew`: under 2 s are left; `noTrack`: the target stands still or is not in the recording. */
  readonly status: "ok" | "belowResolution" | "tooFew" | "noTrack";
  readonly samples: PursuitSamples;
  readonly motion: TargetMotion;
  readonly error: PursuitError;
  readonly onTarget: TimeOnTarget;
  readonly lag: PursuitLag;
  /** Velocity of the pointer over that of the target one lag earlier, by regression through 0: below 1, the pointer falls behind. */
  readonly gain: Estimate;
  /** Share of the variance of the pointer's velocity that the delayed target explains: the square of `lag.peak`. */
  readonly explained: Estimate;
  /** Gain, phase and coherence frequency by frequency, for each axis. */
  readonly response: { readonly x: FrequencyResponse; readonly y: FrequencyResponse };
  readonly catchUp: CatchUpSummary;
  readonly changes: ChangeSummary;
  readonly bySize: SizeEffect;
  readonly warnings: readonly PursuitWarning[];
}
