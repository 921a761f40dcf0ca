/** A position relative to a target, in the space's unit. */
export interface Offset {
  /** Along the movement axis from start to target centre; positive beyond the centre. Absent without an axis. */
  readonly along?: number;
  /** Across the axis; positive to the left of travel as seen on the screen. Absent without an axis. */
  readonly across?: number;
  /** Distance from the target's centre. */
  readonly radial: number;
  /** Whether the position lies on the target, edge included. */
  readonly inside: boolean;
}

/** A displacement, in the space's unit. */
export interface Displacement {
  /** Along the movement axis, positive away from the start; across it, positive to the left. Absent without an axis. */
  readonly along?: number;
  readonly across?: number;
  readonly length: number;
}

/** One bell of speed between two minima (or rests). */
export interface Submovement {
  /** Seconds; the minimum of speed before the peak, or the time it left rest. */
  readonly start: number;
  /** Time of the largest speed. */
  readonly peak: number;
  /** Seconds; the minimum of speed after the peak, or the time it came to rest. */
  readonly end: number;
  /** Largest speed, unit per second. */
  readonly peakSpeed: number;
  /** Displacement from start to end, to the right and downward. */
  readonly dx: number;
  readonly dy: number;
}

/** A submovement after the end of the primary one, with the error it found and the error it left. */
export interface Correction extends Submovement {
  /** Pointer relative to the target when the correction started. */
  readonly errorBefore: Offset;
  /** Pointer relative to the target when it ended. */
  readonly errorAfter: Offset;
  /** Seconds from the end of the primary submovement to the start of this one. */
  readonly latency: number;
  /** Seconds at rest since the submovement before it; 0 where they touch or overlap. */
  readonly pause: number;
  /** Length of its displacement relative to the target, in the space's unit. */
  readonly amplitude: number;
  /** Share of the error it removed along the error's own line: 1 all of it, below 1 too little, negative the wrong way. Absent for an error under two quanta. */
  readonly gain?: number;
  /** Angle from the direction that leads to the centre to the one taken, degrees in (-180, 180], positive to the left. Absent with `gain`, and without displacement. */
  readonly directionErrorDeg?: number;
  /** It moved back along the axis, after an overshoot, instead of on. Absent without an axis. */
  readonly reversal?: boolean;
  /** It began on the target, more than a quantum from its edge: nothing needed correcting. */
  readonly unnecessary: boolean;
  /** It left a larger error than it found, by more than a quantum. */
  readonly counterProductive: boolean;
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
  /** Changes of direction along the axis of more than two quanta. Absent without an axis. */
  readonly reversals?: number;
  /** Times the pointer came onto the target, counted on the line between samples. */
  readonly entries: number;
  /** Smoothness of the speed from onset to stop, see `spectralArcLength`; more negative is less smooth. Absent below 20 samples or 0.1 s. */
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

/** The instants of an acquisition, seconds; an absent one did not happen. */
export interface Times {
  /** The target was shown, or the press before it in a sequence was made. */
  readonly go: number;
  /** The pointer left rest. */
  readonly onset?: number;
  /** The speed was largest. */
  readonly peak?: number;
  /** The primary submovement ended: first minimum of speed after the peak, or rest. */
  readonly primaryEnd?: number;
  /** The last submovement that began before the press ended, whether or not the press waited for it. */
  readonly stop?: number;
  /** The first press. */
  readonly press?: number;
  /** The deciding press was released, when that came within 0.2 s of it. */
  readonly up?: number;
  /** The deciding press, or the time the attempt was over without one. */
  readonly end: number;
}

/** Where the time from `go` to `end` went, seconds; the parts add up to `end - go`. */
export interface Budget {
  /** From go to onset; negative when the movement began before go. */
  readonly latency: number;
  /** From onset to the end of the primary submovement. */
  readonly primary: number;
  /** From the end of the primary to the last stop before the press, pauses included. */
  readonly correction: number;
  /** Spent with the device lifted and put down again on the way. */
  readonly clutch: number;
  /** From the last stop to the first press, at rest. */
  readonly verification: number;
  /** From the first press, when it missed, to the deciding one. */
  readonly recovery: number;
}

/** What a reader of a row must know before using it. */
export type Flag =
  /** No movement was found: the pointer was on the target already, or never left. */
  | "noMovement"
  /** The start lies on the target: there is no direction to aim in. */
  | "noAxis"
  /** The movement began before go. */
  | "beforeGo"
  /** The primary submovement covered less than half of the distance. */
  | "shortPrimary"
  /** The device was lifted and put down again on the way. */
  | "clutch"
  /** Samples are missing between go and the end. */
  | "missingData"
  /** The pointer was held by an edge of the screen. */
  | "edge"
  /** The page or the pointer was hidden. */
  | "hidden"
  /** The control-display gain changed. */
  | "gainChanged"
  /** The target moved. */
  | "movingTarget"
  /** The sampling rate is too low for boundaries: the whole time is given as latency, correction or verification by what little is known. */
  | "belowResolution"
  /** The press had not been released 0.2 s after it. */
  | "longPress";

/** One target acquired, missed or given up: one row. */
export interface Acquisition {
  readonly trial: string;
  readonly target: string;
  readonly block: string;
  /** `recovered`: a first press missed and a later one hit. `timeout`: the target went away unpressed. `abandoned`: the trial ended with the target still there. */
  readonly outcome: "hit" | "miss" | "recovered" | "timeout" | "abandoned";
  /** The first press came before the pointer had stopped. */
  readonly pressedInMotion: boolean;
  readonly times: Times;
  readonly budget: Budget;
  /** Distance from the start of the movement to the target's centre, in the space's unit; absent when nobody knows where it began. */
  readonly amplitude?: number;
  /** Extent of the target along the approach, in the space's unit. */
  readonly width: number;
  /** Largest speed, unit per second; absent without a movement. */
  readonly peakSpeed?: number;
  readonly submovements: readonly Submovement[];
  readonly corrections: readonly Correction[];
  /** Absent without a movement, as are `stop` and `economy`. */
  readonly correctionPhase?: CorrectionPhase;
  readonly stop?: Stop;
  /** Absent without a press. */
  readonly pressing?: Pressing;
  readonly economy?: Economy;
  /** Absent when the sampling was too slow or too sparse to tell. */
  readonly resolution?: Resolution;
  readonly errors: { readonly primary?: Offset; readonly stop?: Offset; readonly press?: Offset };
  readonly flags: readonly Flag[];
}
