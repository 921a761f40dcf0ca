/** One measure over practice: one value per session (or block, or trial), of one person. Columns of one length. */
export interface PracticeSeries {
  /**
   * Practice up to and with each value, in one unit: number of the trial, block or session counted from 1, minutes, or days. Finite, never falling;
   * equal entries are repeats.
   */
  readonly practice: ArrayLike<number>;
  /** The measure, in one unit. */
  readonly value: ArrayLike<number>;
  /** Trials behind each value, above 0: values of many trials count more. Default: one each. */
  readonly trials?: ArrayLike<number>;
}

/**
 * A law of practice, y at practice N: `constant` a; `linear` a + b (N - 1); `power2` b N^-c; `power3` a + b N^-c; `power4` a + b (N + e)^-c, with e
 * earlier practice; `exponential2` b exp(-c (N - 1)); `exponential3` a + b exp(-c (N - 1)); `combined` a + b N^-c exp(-d N), a power and an
 * exponential at once; `delayedExponential` a + b (d + 1)/(d + exp(c (N - 1))), whose fall begins late when d is large.
 * `a` is the asymptote, `b` the distance to it (below 0 for a measure that rises), `c` the rate.
 */
export type LearningLawName =
  | "constant"
  | "linear"
  | "power2"
  | "power3"
  | "power4"
  | "exponential2"
  | "exponential3"
  | "combined"
  | "delayedExponential";

/** A law of one's own, such as `lawFromText` makes it. */
export interface LearningLaw {
  /** The law as text, for reports. */
  readonly formula: string;
  /** Names of the parameters, in the order of the columns below. */
  readonly parameters: readonly string[];
  /** One or more starts of the search, each with a value per parameter. */
  readonly starts: readonly (readonly number[])[];
  /** Least and largest value of each parameter; -Infinity and Infinity for none. */
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  /** The law at one amount of practice. */
  readonly value: (practice: number, parameters: ArrayLike<number>) => number;
  /** Its derivative by each parameter, written into `out`. */
  readonly gradient: (practice: number, parameters: ArrayLike<number>, out: Float64Array) => void;
}
