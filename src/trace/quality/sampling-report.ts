import type { Estimate, Reason } from "../../math/estimate.js";
import type { Gap } from "../uniform.js";

/** Whether the sampling carries a measure: `value` is what the recording offers, `needed` what the measure asks for, in `unit`. */
export type Support =
  | { readonly ok: true; readonly value: number; readonly needed: number; readonly unit: string }
  | { readonly ok: false; readonly why: Reason; readonly value?: number; readonly needed: number; readonly unit: string };

/** What a warning is about. */
export type SamplingWarningCode =
  /** Fewer than 50 intervals in motion: the figures below are rough. */
  | "fewSamples"
  /** Reports slower than 100 Hz. */
  | "lowRate"
  /** Reports slower than three quarters of `nominalHz`. */
  | "rateBelowNominal"
  /** Positions kept only once per frame of the display. */
  | "framePaced"
  /** Positions were asked for at a rate (`limit`) beside that of the device (`value`, Hz): steps hold a report more or less by turns, which looks like corrections. */
  | "polled"
  /** More than 2 % of the reports in steady motion are absent. */
  | "lostReports"
  /** More than 5 % of the stretches of motion contain a gap. */
  | "gapsInMotion"
  /** More than 5 % of the intervals in motion are shorter than a quarter of the median. */
  | "bursts"
  /** The spread of the intervals exceeds a quarter of their median. */
  | "irregular"
  /** More than 1.1 reports share a tick of the clock on average: `rate` is that of the clock, not of the device. */
  | "coarseTime"
  /** The positions are coarser than a tenth of `targetWidth`. */
  | "coarsePosition"
  /** Samples carry the code for a missing value. */
  | "missingValues"
  /** Samples lie far from both neighbours. */
  | "implausibleJumps";

/** What deserves a second look: the figure that gave rise to it and the limit that it passed. */
export interface SamplingWarning {
  readonly code: SamplingWarningCode;
  readonly value: number;
  readonly limit: number;
}

/** Intervals in motion, seconds; quantiles interpolate between order statistics. */
export interface IntervalSpread {
  readonly n: number;
  readonly min: number;
  readonly q05: number;
  readonly median: number;
  readonly q95: number;
  readonly max: number;
}

/** How a recording was sampled, and what it can carry. Times in seconds, lengths in the space's unit. */
export interface SamplingReport {
  /** Samples, those with the missing-value code left out. */
  readonly n: number;
  /** From the first sample to the last. */
  readonly duration: number;
  /** Samples left out because they carry `options.missing`. */
  readonly missing: number;
  /** Time in motion: the sum of the intervals in motion that are no gaps; its share is `timeInMotion / duration`. */
  readonly timeInMotion: number;
  /** Reports per second while moving: one over the median interval of the faster half of the motion, where the device skips no report for lack of motion. */
  readonly rate: Estimate;
  /** Intervals between samples at different positions, shorter than 1 s, 0 included; absent when nothing moves. */
  readonly interval?: IntervalSpread;
  /** Spread of the intervals in motion, gaps left out: 1.4826 times the median absolute deviation, untouched by a few stragglers. */
  readonly jitter: Estimate;
  /** The same spread as a standard deviation, stragglers included. */
  readonly jitterSd: Estimate;
  /** Samples with the time of the one before: at another position, or at the same one (repeated rows). */
  readonly duplicates: { readonly count: number; readonly withMovement: number; readonly samePosition: number };
  /** Intervals in motion shorter than a quarter of the median, which come from delivery in bunches; `of` all in motion. */
  readonly bursts: { readonly count: number; readonly of: number };
  /** Silences longer than three median intervals and 25 ms. */
  readonly gaps: {
    readonly count: number;
    /** The pointer rested: both ends agree within one quantum, or the jump is no longer than the report that follows it at once. */
    readonly holds: number;
    /** The pointer moved in between, and how is not known. */
    readonly missing: number;
    /** The longest gap, 0 when there is none. */
    readonly longest: number;
    /** The longest ones in order of time, at most `options.listed`. */
    readonly list: readonly Gap[];
  };
  /** Stretches of motion between rests of at least 0.1 s, and how many of them contain a gap with unexplained motion. */
  readonly bouts: { readonly count: number; readonly broken: number };
  /** Share of the reports of steady motion that are absent: intervals of two, three or four medians amid intervals of one; `notIdentified` when the stamps scatter by more than a quarter of an interval. */
  readonly lostReports: Estimate;
  /** Whether most intervals in motion last one frame of a display, as when only the last of a group of merged events is kept. */
  readonly framePaced: { readonly suspected: boolean; readonly refreshHz?: number };
  /** Largest step of which at least 99 % of the intervals are multiples within 2 %; every event time is uncertain by this over sqrt(12). */
  readonly timeQuantum: Estimate;
  /** Smallest change of a coordinate. */
  readonly positionQuantum: Estimate;
  /** Visits to a far-off position and back: how many samples, and the places of the first `options.listed` in the input. */
  readonly jumps: { readonly count: number; readonly indices: readonly number[] };
  readonly supports: {
    /** At least 12 reports in a movement. */
    readonly peakSpeed: Support;
    /** At least 20 reports in a movement. */
    readonly peakDeceleration: Support;
    /** At least 30 reports in a movement; the same for submovements that show only as a bend of the acceleration. */
    readonly jerk: Support;
    /** At least 60 reports per second. */
    readonly tremor: Support;
    /** Uncertainty of an event's time (`value`) below a fifth of the spread in question (`needed`). */
    readonly eventTiming: Support;
  };
  readonly warnings: readonly SamplingWarning[];
  /** What the report was made with. */
  readonly options: { readonly movementTime: number; readonly timingSd: number; readonly listed: number };
}
