import type { Estimate } from "../../math/estimate.js";

/** A number read off a psychometric function, with three accounts of its uncertainty. */
export interface PsychometricValue {
  /** The value with the interval of the profile likelihood. `notIdentified`: an end is open, see `within` for what the data exclude all the same. */
  readonly estimate: Estimate;
  /** From the expected information; of the natural logarithm for levels on the log scale. `null` where the data do not hold it. */
  readonly standardError: number | null;
  /** All values that the data allow at the confidence level (profile likelihood); `null` for an end that they leave open, or that lies further from the levels than their range. */
  readonly within: readonly [number | null, number | null];
  /** The same by fits to data drawn from the fitted curve; `null` without resamples, or for an open end. */
  readonly resampled: readonly [number | null, number | null] | null;
}

/** The level at which hits reach a share. */
export interface PsychometricThreshold extends PsychometricValue {
  /** Share of hits, guesses and lapses included. */
  readonly share: number;
}

/** One level that was tried. */
export interface PsychometricLevel {
  readonly level: number;
  readonly trials: number;
  readonly hits: number;
  /** Share of hits that the curve gives there. */
  readonly fitted: number;
}

/** One point of the curve with its band; the band is `null` without resamples, or where the data leave the curve open. */
export interface PsychometricPoint {
  readonly level: number;
  readonly share: number;
  readonly low: number | null;
  readonly high: number | null;
}

/** How well the curve describes the shares. */
export interface PsychometricGoodness {
  /** 2 sum k ln(k/(n p)) + (n - k) ln((n - k)/(n (1 - p))) over distinct levels. */
  readonly deviance: number;
  /** Distinct levels less fitted parameters. */
  readonly df: number;
  /** Share of drawn data sets that fit no better, counting this one; `null` without resamples, or where the data leave the curve open. Small: another shape, levels that changed meaning, or skill that changed meanwhile. */
  readonly p: number | null;
}

/** Why a reader should be careful. */
export type PsychometricWarning =
  /** At most one level lies between hardly any and nearly all hits: a steeper curve would be as likely. */
  | "separated"
  /** Hits do not grow toward easier levels. */
  | "flat"
  /** Fewer than four distinct levels. */
  | "fewLevels"
  /** Fewer than 60 trials. */
  | "fewTrials"
  /** The spread lies at an end of the range that was given. */
  | "spreadAtLimit"
  /** The lapse lies at the largest that is allowed: more misses at the easiest levels than the curve can tell. */
  | "lapseAtLimit"
  /** The curve fits worse than 95 % of data drawn from it. */
  | "poorFit"
  /** A threshold lies beyond the levels that were tried. */
  | "extrapolated";
