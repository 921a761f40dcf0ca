/** Endpoints as offsets from the target's centre, in one length unit: two columns of equal length. */
export interface Endpoints {
  /** To the right on the screen, or along the movement axis (positive beyond the centre): whichever frame the caller keeps to. */
  readonly x: Float64Array;
  /** Downward on the screen, or across the movement axis (positive to the left of travel). */
  readonly y: Float64Array;
}

/** A two-dimensional normal distribution of endpoints about the target's centre, stated instead of estimated. */
export interface NormalScatter {
  /** Mean endpoint minus target centre, length unit: the bias. */
  readonly mean: readonly [number, number];
  /** Variances and covariance, length unit squared; symmetric, not negative definite. */
  readonly covariance: readonly [readonly [number, number], readonly [number, number]];
}
