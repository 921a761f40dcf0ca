/** What both ways of measuring give for one frequency, before it is put into words. */
export interface ResponseLine {
  /** Frequency, Hz. */
  readonly hz: number;
  /** Pointer over target: their ratio of sizes. */
  readonly gain: number;
  /** Angle of pointer over target, radians, within half a turn of 0; negative where the pointer comes later. */
  readonly phase: number;
  /** Share of the pointer's power that is a linear response to the target, 0 to 1. */
  readonly coherence: number;
  /** What the coherence stays below by chance. */
  readonly chanceLevel: number;
  /** Whether the target moves at this frequency and the coherence is above chance. */
  readonly aboveChance: boolean;
  /** Standard error of pointer over target, along it and across it each; `Infinity` where the target does not move. */
  readonly error: number;
  /** Degrees of freedom of that error. */
  readonly df: number;
}

/** Frequencies of a record, and what they rest on. */
export interface ResponseLines {
  readonly lines: readonly ResponseLine[];
  /** Segments averaged, or whole periods used. */
  readonly segments: number;
  /** Independent segments that those are worth. */
  readonly independent: number;
  /** Lines that are worth one independent line. */
  readonly linesPerIndependent: number;
  /** Seconds per segment or period. */
  readonly segment: number;
}

/** No hand follows more exactly than this; below it a computed error is rounding, and no measure of how far to trust a line. */
const LEAST_ERROR = 1e-6;

/** Standard error of the logarithm of the gain, and of the phase in radians. */
export function relativeError({ error, gain }: ResponseLine): number {
  return error / gain;
}

/** What a line weighs beside others of the same kind: one over its squared error, absolute or relative. */
export function weightOf(error: number): number {
  return 1 / Math.max(error, LEAST_ERROR) ** 2;
}
