/** Pointing trials as equally long columns, in the order they were made; lengths in one unit. */
export interface PointingTrials {
  /** Nominal distance from start to target centre, above 0. */
  readonly amplitude: Float64Array;
  /** Nominal extent of the target along the approach, above 0. */
  readonly width: Float64Array;
  /** Movement time, seconds, above 0; measured in the same way throughout. */
  readonly movementTime: Float64Array;
  /** Endpoint minus target centre along the task axis, signed: positive beyond the centre. */
  readonly along: Float64Array;
  /** Distance covered along the task axis; default `amplitude + along`. */
  readonly travelled?: Float64Array;
  /** 1 where the target was hit, 0 where it was missed, by the rule of the task; default: |along| at most half the width. */
  readonly hit?: Float64Array;
  /** Who made each trial; default: one person. */
  readonly person?: readonly string[];
}

/** One person's trials of one amplitude and width, in figures. */
export interface PointingCell {
  readonly person: string;
  /** Nominal amplitude and width, length unit. */
  readonly amplitude: number;
  readonly width: number;
  /** Trials used, hits and misses. */
  readonly n: number;
  /** Mean movement time, seconds. */
  readonly movementTime: number;
  /** Share of the trials that hit. */
  readonly hitShare: number;
  /** Mean of `along`, length unit: the bias. */
  readonly bias: number;
  /** Sample standard deviation (n - 1) of `along`; `null` with fewer than two trials. */
  readonly sd: number | null;
  /** 4.133 standard deviations; `null` without spread. */
  readonly effectiveWidth: number | null;
  /** Mean distance covered. */
  readonly effectiveAmplitude: number;
  /** log2(effective amplitude / effective width + 1), bit; `null` without spread. */
  readonly effectiveDifficulty: number | null;
  /** Effective difficulty over movement time, bit/s; `null` without spread. */
  readonly throughput: number | null;
}
