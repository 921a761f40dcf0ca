/** The frame of a recording. One frame, one length unit per recording. */
export type Space =
  /** The pointer moves and the scene stands; x points right, y points down. */
  | { readonly kind: "plane"; readonly unit: "px" | "mm" | "count" }
  /** The view turns and the pointer stands; x is azimuth (unwrapped), y is elevation (down positive). */
  | { readonly kind: "view"; readonly unit: "deg" };

/** Pointer samples as equally long columns, in time order; repeated times are allowed, backward steps are not. */
export interface Trace {
  /** Time of each sample, seconds since `Session.startedAt`. */
  readonly t: Float64Array;
  /** Position to the right (plane) or azimuth (view), in the space's unit. */
  readonly x: Float64Array;
  /** Position downward (plane) or elevation, down positive (view), in the space's unit. */
  readonly y: Float64Array;
}

/** The path of a moving, resizing target. Between its samples the target moves in a straight line. */
export interface Track extends Trace {
  /** Factor on the target's size at each sample; absent means 1 throughout. */
  readonly scale?: Float64Array;
}

/** One press of a button, key, wheel, finger, or a dwell that counts as one. */
export interface Press {
  /** Time the press went down, seconds. */
  readonly t: number;
  /** Time it was released, seconds; absent when no release was recorded (yet). */
  readonly tUp?: number;
  readonly by: "button" | "key" | "wheel" | "dwell" | "touch";
  /** Which button or key, in the recorder's own words. */
  readonly code?: string;
  /** Pointer position at the press, in the space's unit; absent means the trace tells. */
  readonly x?: number;
  readonly y?: number;
  /** Id of the target that the recording tool itself counted as hit, `null` when it counted a miss; absent when it did not say. */
  readonly credited?: string | null;
}

/** The outline of a target around its centre, in the space's unit; `angle` turns a rectangle, degrees, clockwise on a y-down screen. */
export type Shape =
  | { readonly kind: "circle"; readonly diameter: number }
  | { readonly kind: "rect"; readonly width: number; readonly height: number; readonly angle?: number };

/** Something to press, or to stay away from. */
export interface Target {
  readonly id: string;
  /** Time it appeared, seconds. */
  readonly tShown: number;
  /** Time it went away, seconds; absent when it stayed. */
  readonly tGone?: number;
  readonly shape: Shape;
  /** Centre of a standing target, or the track of a moving one. */
  readonly at: { readonly x: number; readonly y: number } | Track;
  /** Default `"goal"`. */
  readonly role?: "goal" | "distractor";
}

/** A stretch or instant in which the samples do not mean what they seem to mean. Without `tEnd` a `gap` or `hidden` lasts until it is ended, anything else is an instant. */
export interface Mark {
  readonly t: number;
  readonly tEnd?: number;
  /** `gap`: samples lost; `lift`: device lifted and put down; `edge`: pointer held by the screen's edge; `hidden`: page or pointer hidden; `gain`: control-display gain changed. */
  readonly kind: "gap" | "lift" | "edge" | "hidden" | "gain";
}

/** One task given to the person. */
export interface Trial {
  readonly id: string;
  readonly kind: "acquire" | "sequence" | "pursue";
  readonly tStart: number;
  /** Absent while the trial runs; a trial given again with the same id and a `tEnd` closes it. */
  readonly tEnd?: number;
  /** Ids of the targets to acquire, in order when the order was given. */
  readonly goals: readonly string[];
  readonly block: string;
  readonly condition: Readonly<Record<string, string | number>>;
}

/** One unbroken stretch of recording in one frame with one device. */
export interface Recording {
  readonly schema: 1;
  readonly space: Space;
  readonly device: string;
  readonly trace: Trace;
  readonly presses: readonly Press[];
  readonly targets: readonly Target[];
  readonly trials: readonly Trial[];
  readonly marks: readonly Mark[];
  /** Times at which frames were shown, seconds. */
  readonly frames?: Float64Array;
}

/** What the person worked with; every field that is not known is absent. */
export interface Equipment {
  readonly id: string;
  readonly refreshHz?: number;
  readonly frameCapHz?: number;
  /** End-to-end delay from device motion to light, seconds. */
  readonly latency?: number;
  readonly reportHz?: number;
  readonly countsPerInch?: number;
  readonly mmPerPx?: number;
  readonly viewDistanceMm?: number;
  readonly degPerCount?: number;
  readonly fieldOfViewDeg?: number;
}

/** One sitting of one person with one set of equipment. */
export interface Session {
  readonly person: string;
  /** ISO 8601 with offset; the zero of every time in the session. */
  readonly startedAt: string;
  readonly equipment: Equipment;
  readonly recordings: readonly Recording[];
}

/** A piece of a recording as it is made: everything that happened since the chunk before. */
export interface Chunk {
  readonly trace: Trace;
  /** A press given again with the same `t`, `by` and `code` replaces the earlier one (its `tUp`). */
  readonly presses?: readonly Press[];
  /** A target given again with the same id replaces the earlier one (its `tGone`, more of its track). */
  readonly targets?: readonly Target[];
  /** A trial given again with the same id replaces the earlier one (its `tEnd`). */
  readonly trials?: readonly Trial[];
  /** A mark given again with the same `t` and `kind` replaces the earlier one (its `tEnd`). */
  readonly marks?: readonly Mark[];
  readonly frames?: Float64Array;
  /** Everything up to this time has been given, seconds; what the chunk holds may reach beyond. Default: the latest time in the chunk. */
  readonly until?: number;
}
