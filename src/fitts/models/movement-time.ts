/** One condition's mean movement time, of one person or of a group; the cells of `throughput` are such cells. Lengths in one unit. */
export interface MovementTimeCell {
  /** Nominal distance from start to target centre, above 0. */
  readonly amplitude: number;
  /** Nominal extent of the target along the approach, above 0. */
  readonly width: number;
  /** Mean movement time, seconds, above 0. */
  readonly movementTime: number;
  /** Mean distance covered; default: the nominal amplitude. Used with effective widths only. */
  readonly effectiveAmplitude?: number;
  /** 4.133 standard deviations of the endpoints along the approach; `null` or absent where there is none. */
  readonly effectiveWidth?: number | null;
  /** Trials behind the mean; only looked at for the warning `fewTrials`. Cells count alike whatever their trials. */
  readonly n?: number;
  /** Who made the trials; default: one person. */
  readonly person?: string;
}

/**
 * Which law: `fitts` MT = a + b ID; `twoPart` MT = a + b1 log2(A + cW) - b2 log2 W with c = 0, 1/2, 1 for the forms fitts, welford, shannon;
 * `squareRoot` MT = a + b sqrt(A/W); `linear` MT = a + k A/We; `power` MT = c A^p W^q.
 */
export type MovementTimeModel = "fitts" | "twoPart" | "squareRoot" | "linear" | "power";

/** Formulation of the index of difficulty: log2(A/W + 1), log2(2A/W), log2(A/W + 1/2). */
export type MovementTimeForm = "shannon" | "fitts" | "welford";

/** The letters of the laws. */
export type CoefficientName = "a" | "b" | "b1" | "b2" | "k" | "c" | "p" | "q";

/** What a reader of a fit must know before using it. */
export type MovementTimeWarning =
  /** Model fitts: the intercept lies outside -0.2..0.4 s. Model linear: the interval of the intercept leaves out 0, where the law has it. */
  | "intercept"
  /** The indices of difficulty span less than 2 bit, or there are fewer than 4 different ones: a line through them says little. */
  | "narrowRange"
  /** Time does not grow with difficulty (b, b1, b2, k or p not above 0, q not below 0). */
  | "slope"
  /** Models of two predictors: amplitudes and widths rose and fell together (r^2 of their logarithms above 0.8), so that their effects are hard to tell apart. */
  | "notSeparable"
  /** There are not at least two conditions more than coefficients. */
  | "fewConditions"
  /** Cells of several people are fitted by one law: intervals take their differences for noise, and the law of the group need not be that of anyone. */
  | "pooledPersons"
  /** A cell is the mean of fewer than 10 trials. */
  | "fewTrials"
  /** Residuals bend along the fitted times (a quadratic term is significant at 5 %): another law fits better. */
  | "curved";
