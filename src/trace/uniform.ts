/** Positions on an even time grid: sample `i` lies at `t0 + i / sampleRateHz`. */
export interface UniformSegment {
  /** Time of the first sample, seconds. */
  readonly t0: number;
  readonly sampleRateHz: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Filtered positions with their velocity and speed on the same even grid, in the space's unit and seconds. */
export interface KinematicSegment extends UniformSegment {
  readonly vx: Float64Array;
  readonly vy: Float64Array;
  /** Norm of the velocity: the components are filtered first, so that noise does not add up to a false speed at rest. */
  readonly speed: Float64Array;
}

/** A stretch without samples. */
export interface Gap {
  readonly from: number;
  readonly to: number;
  /** `hold`: the pointer rested, both ends agree within a quantum or the jump is the first report of a movement; `missing`: samples were lost and nothing may be assumed. */
  readonly kind: "hold" | "missing";
  /** Distance between the two ends, in the space's unit. */
  readonly jump: number;
}
