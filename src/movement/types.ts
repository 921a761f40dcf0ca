import type { CorrectionPhase, Economy, Pressing, Resolution, Stop } from "./row-parts.js";

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
  /** Seconds from the largest speed of the primary submovement to the start of this one. Where the two touch, `latency` is 0 and this says how late the hand turned to the error. */
  readonly fromPeak: number;
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
