// What a row says of its parts beside times and errors: how it was corrected, stopped and pressed, and what it cost in path.

/** A displacement, in the space's unit. */
export interface Displacement {
  /** Along the movement axis, positive away from the start; across it, positive to the left. Absent without an axis. */
  readonly along?: number;
  readonly across?: number;
  readonly length: number;
}

/** From the end of the primary submovement to the stop. */
export interface CorrectionPhase {
  /** Seconds at rest between the submovements; part of `budget.correction`. */
  readonly pause: number;
  /** Distance gained on the centre over the length of the path from the primary's end to the stop: 1 for straight strokes. Absent without a path. */
  readonly efficiency?: number;
  /** Share of the primary's error that was gone at the stop; negative when it grew. Absent without an error. */
  readonly netEfficiency?: number;
  /** The primary ended off the target, nothing corrected it, and the first press missed. */
  readonly missing: boolean;
}

/** How the movement came to rest. Positions are relative to the target, so that a moving one is stopped on, not at. */
export interface Stop {
  /** Share of the time from onset to stop that came after the largest speed; 0.5 for a minimum-jerk movement. */
  readonly decelerationShare: number;
  /** The same for the primary submovement alone. */
  readonly primaryDecelerationShare: number;
  /** Third standardised moment of speed over time, onset to stop: 0 for a symmetrical bell, positive for a long tail. */
  readonly speedSkew?: number;
  /** Largest fall of speed after the peak, unit/s^2, positive. Absent below 20 samples from onset to stop: their differences are too coarse. */
  readonly peakDeceleration?: number;
  /** Seconds from there to the stop. */
  readonly stoppingTime?: number;
  /** Distance from there to the stop. */
  readonly stoppingDistance?: number;
  /** Farthest beyond the target's centre along the axis, 0 when it was not passed. Absent without an axis. */
  readonly overshoot?: number;
  /** Seconds from the end of the primary until the pointer stayed within W/4 (at least two quanta) of where it was at the press. */
  readonly settlingTime: number;
  /** Damping ratio from successive swings about the end point, where there are two or more beyond W/8. */
  readonly damping?: number;
}

/** The first press, and what it did to the pointer. */
export interface Pressing {
  /** First press minus the end of the last submovement, found without regard to the press, seconds; negative when it came before. Absent without a movement. */
  readonly afterStop?: number;
  /** Mean speed over the 0.02 s before the press, unit/s. Absent where no profile covers it. */
  readonly speed?: number;
  /** From press to release, seconds. Absent when no release came within 0.2 s of the deciding press. */
  readonly duration?: number;
  /** Seconds from the press to the departure for the next target, when that came within 0.2 s of the deciding press. */
  readonly departure?: number;
  /** Displacement from press to release, or to the departure when that comes first. Absent without a release, and when pressed in motion. */
  readonly slip?: Displacement;
  /** For a press on the target: whether the pointer still was on it at the end of the slip. Absent with `slip`. */
  readonly releasedInside?: boolean;
  /** Largest distance from where the pointer was 0.02 s before the press, up to 0.08 s after it or the departure. Absent when pressed in motion. */
  readonly disturbance?: number;
}

/** Path beyond need by phase: the length of its path less its advance along the axis. */
export interface PathExcess {
  readonly primary: number;
  readonly correction: number;
  /** Drift while waiting to press. */
  readonly verification: number;
  readonly recovery: number;
}

/** What the movement cost in path, from onset to end; positions filtered, at 100 Hz, steps within a quantum left out. */
export interface Economy {
  /** Relative to a moving target. */
  readonly pathLength: number;
  /** Straight distance from start to end over `pathLength`, in [0, 1]. */
  readonly efficiency?: number;
  /** Adds up to `pathLength` less the whole advance along the axis. Absent without an axis. */
  readonly excess?: PathExcess;
  /** Largest and mean distance from the axis, in the space's unit. Absent without an axis. */
  readonly largestDeviation?: number;
  readonly meanDeviation?: number;
  /** Changes of direction along the axis of more than two quanta and 0.5 % of the path. Absent without an axis. */
  readonly reversals?: number;
  /** Times the pointer came onto the target, counted on the line between samples. */
  readonly entries: number;
  /** Smoothness of the speed from onset to stop, see `spectralArcLength`; more negative is less smooth. Absent below 20 samples or 0.1 s, and beyond 60 s. */
  readonly spectralArcLength?: number;
  /** The same by jerk, see `logDimensionlessJerk`. */
  readonly logDimensionlessJerk?: number;
}

/** What could be told apart in this row. */
export interface Resolution {
  readonly sampleRateHz: number;
  /** Step of the position readings. */
  readonly quantum: number;
  /** Standard deviation that rounding alone leaves in a filtered position, per axis, and in a velocity component. */
  readonly positionNoise: number;
  readonly speedNoise: number;
}
