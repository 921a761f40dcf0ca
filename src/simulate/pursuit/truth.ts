import type { Vector } from "../truth.js";
import type { PursuitSettings } from "./options.js";
import type { TargetLine } from "./target-path.js";

/** An unannounced change of the target's direction; velocities in the space's unit (in a view: in the tangent plane at the target) per second. */
export interface TrueReversal {
  /** Seconds. */
  readonly t: number;
  readonly before: Vector;
  readonly after: Vector;
}

/** One catch-up movement as it was drawn. */
export interface TrueCatchUp {
  /** Seconds. */
  readonly onset: number;
  readonly duration: number;
  /** Displacement in the space's unit (in a view: in the tangent plane at the target). */
  readonly dx: number;
  readonly dy: number;
  /** Distance from the target at the onset. */
  readonly error: number;
}

/** One trial as it was drawn. Times in seconds, lengths in the space's unit. */
export interface TruePursuit {
  readonly trial: string;
  readonly target: string;
  readonly tStart: number;
  readonly tEnd: number;
  /** Start and end of the first reach; following begins with it. */
  readonly reachStart: number;
  readonly reachEnd: number;
  /** Sinusoids of the target's path; amplitude in the space's unit, phase in radians at `tStart`. Empty for other paths. */
  readonly lines: readonly TargetLine[];
  /** Empty for a multisine. */
  readonly reversals: readonly TrueReversal[];
  readonly catchUps: readonly TrueCatchUp[];
  /** Standard deviation of the noise as it came out after the reach, over both axes. */
  readonly noiseSd: number;
}

/** Everything that was drawn for a simulated pursuit; plain data. */
export interface PursuitTruth {
  readonly seed: number;
  /** The options with every default filled in. */
  readonly options: PursuitSettings;
  /** Seconds from where the track has the target to the answer: the follower's delay, the display's latency, and half a frame where frames are held. */
  readonly delay: number;
  /** What of that is half a frame. */
  readonly frameLag: number;
  readonly trials: readonly TruePursuit[];
}
