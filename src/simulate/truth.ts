import type { Bell } from "./compose-movement.js";
import type { SimulationSettings } from "./options.js";

/** A point or a displacement. */
export interface Vector {
  readonly x: number;
  readonly y: number;
}

/** An error seen from the target's centre: `along` positive beyond it, `across` positive to the left of travel on a y-down screen. */
export interface TrueError {
  readonly along: number;
  readonly across: number;
}

/** One component of a movement as it was drawn. */
export interface TrueComponent {
  /** `reach`: the part of a primary after a lift; `recovery`: the stroke between a missed press and the second one. */
  readonly role: "primary" | "reach" | "correction" | "recovery";
  /** Seconds. */
  readonly onset: number;
  readonly duration: number;
  /** Displacement in the space's unit (in a view: in the tangent plane at the target). */
  readonly dx: number;
  readonly dy: number;
  readonly bell: Bell;
  /** Corrections and recoveries: share of the error removed along its own line. */
  readonly gain?: number;
}

/** How much later than it happened something was seen, where that was waited for: latency of the display and wait for the frame, seconds. */
export interface TrueDelays {
  /** The target's appearance, as far as it lies after go; absent when the hand left without waiting for it. */
  readonly target?: number;
  /** What each correction answered, in their order, a recovery last. */
  readonly corrections: readonly number[];
  /** The stop, by the deciding press; absent when nothing was pressed, the press came before the stop, or nothing moved. */
  readonly stop?: number;
}

/** One acquisition as it was drawn. Times in seconds, lengths in the space's unit; a time is absent when it did not happen. */
export interface TrueMovement {
  readonly trial: string;
  readonly target: string;
  /** Target shown, or in a sequence from the second target on the press that ended the one before. */
  readonly go: number;
  /** Start of the primary's bell. */
  readonly onset?: number;
  /** End of the primary's own bell, whether or not a correction has begun by then; with a lift, the end of the part before it. */
  readonly primaryEnd?: number;
  /** End of the last component before the (first) press. A press in motion comes before it. */
  readonly stop?: number;
  /** The first press. */
  readonly press?: number;
  /** Release of the deciding press. */
  readonly tUp?: number;
  /** The deciding press, or the timeout. */
  readonly end: number;
  readonly outcome: "hit" | "miss" | "recovered" | "timeout";
  /** Drawn as one that never corrects. Others may have no correction too, when the primary ended within tolerance. */
  readonly pure: boolean;
  /** Distance from `start` to the target's centre at onset. */
  readonly amplitude: number;
  /** The target's diameter. */
  readonly width: number;
  /** Direction from `start` to the centre, degrees in (-180, 180], clockwise on a y-down screen from the x axis. */
  readonly directionDeg: number;
  /** Where the hand rests before the primary, tremor left out, any slip completed. */
  readonly start: Vector;
  /** The target's centre: at onset, when it moves. */
  readonly centre: Vector;
  /** Velocity of a moving target in the space's coordinates, unit/s. */
  readonly velocity?: Vector;
  /** Profile of the primary. */
  readonly bell?: Bell;
  /** Displacements by component; on a moving target the following (half of its velocity during the primary, all of it afterwards) comes on top. */
  readonly components: readonly TrueComponent[];
  /** Error of the end points summed up to and including the primary. */
  readonly primaryError?: TrueError;
  /** Error of the end points summed over all components before the (first) press. */
  readonly stopError?: TrueError;
  /** Error of the hand at the first press, tremor and rounding left out. Hit or miss is decided on the recorded position. */
  readonly pressError?: TrueError;
  /** Displacement during the deciding press. */
  readonly slip?: Vector;
  /** `onset - go`; negative when the hand left early. */
  readonly latency?: number;
  /** Id of the target that the primary's aim was pulled toward, by `planning.pull` of the way from this one; absent when it was not. */
  readonly pulledToward?: string;
  /** Seconds that the latency was lengthened by a planted hesitation; absent when it was not. */
  readonly hesitation?: number;
  /** What the display cost this movement; absent without a display. */
  readonly delays?: TrueDelays;
  /** `beforeGo`: the hand left early. `edge`: the recorded pointer was held at the border at some time between onset and end. */
  readonly flags: readonly ("beforeGo" | "noMovement" | "clutch" | "pressedInMotion" | "edge")[];
}

/** How one sequence of targets was meant to be taken. */
export interface TrueSequence {
  readonly trial: string;
  /** How the order was chosen; a random one may be the shortest, too. */
  readonly policy: "given" | "shortest" | "nearest" | "random";
  /** Ids of all its targets in that order; a timeout leaves the last of them untried. */
  readonly order: readonly string[];
  /** Number of the layout from 0, when there are layouts. */
  readonly layout?: number;
}

/** Everything that was drawn for a simulated recording; plain data. */
export interface Truth {
  readonly seed: number;
  /** The options with every default filled in. */
  readonly options: SimulationSettings;
  readonly movements: readonly TrueMovement[];
  /** One for each trial of a sequence; empty when every target is a trial of its own. */
  readonly sequences: readonly TrueSequence[];
}
