import type { Box, RecorderModel } from "../options.js";

/** Where the target goes and how large it is. Lengths in simulated units. */
export interface PursuitTargetModel {
  /**
   * `multisine`: a sum of sinusoids about the field's middle. `randomWalk`: straight legs at constant speed with unannounced turns, within the
   * bounds. `straight`: one line at constant speed through the field's middle. Default `"multisine"`.
   */
  readonly path: "multisine" | "randomWalk" | "straight";
  /** Frequencies of the horizontal sinusoids, Hz. Default [0.2, 0.5, 0.9, 1.3]. */
  readonly linesX: readonly number[];
  /** Frequencies of the vertical ones; an empty list keeps the height. Default [0.3, 0.7, 1.1]. */
  readonly linesY: readonly number[];
  /** Largest speed of each sinusoid, units/s: slow ones are wide. Default 150. */
  readonly lineSpeed: number;
  /** Lowest and highest speed of `randomWalk` and `straight`, units/s, drawn once per trial. Default [250, 250]. */
  readonly speed: readonly [number, number];
  /** Shortest and longest time between two turns of `randomWalk`, seconds, drawn uniformly. Default [0.9, 1.6]. */
  readonly leg: readonly [number, number];
  /** Smallest and largest turn to either side, degrees, drawn uniformly; 180 is a full reversal. Default [120, 180]. */
  readonly turnDeg: readonly [number, number];
  /** Box that holds the ends of the legs. Default 1600 by 1000. */
  readonly bounds: Box;
  /** Diameter of the round target. Default 60. */
  readonly diameter: number;
  /** Smallest and largest factor on the diameter, as if the target came nearer and went away; [1, 1] keeps it. Default [1, 1]. */
  readonly scale: readonly [number, number];
  /** How often the size goes to and fro, Hz. Default 0.11. */
  readonly scaleHz: number;
}

/** The steady part of following. */
export interface FollowerModel {
  /** Seconds by which the target is answered late, display aside. Default 0.15. */
  readonly delay: number;
  /** Share of the target's velocity that is answered. Default 1; below 1 the pointer falls behind. */
  readonly gain: number;
  /** Time constant of a first-order lag on top of the delay, seconds. Default 0. */
  readonly timeConstant: number;
}

/** Catch-up movements: minimum-jerk bells that remove the error that is seen. */
export interface CatchUpModel {
  /** A bell starts when the seen error exceeds this, units; `null` means that none ever does. Default 30. */
  readonly deadZone: number | null;
  /** Least time from the start of one bell to the next, seconds. Default 0.17. */
  readonly refractory: number;
  /** Mean share of the seen error that a bell removes. Default 1. */
  readonly gain: number;
  /** Standard deviation of that share. Default 0.1. */
  readonly gainSd: number;
  /** Shortest and longest bell, seconds, drawn uniformly. Default [0.12, 0.25]. */
  readonly duration: readonly [number, number];
}

/** What of the pointer's motion has nothing to do with the target. */
export interface PursuitNoiseModel {
  /** Standard deviation on each axis, units, at scale 1. Default 4. */
  readonly sd: number;
  /** Band of the noise: white noise through two equal first-order filters with this corner, Hz. Default 1. */
  readonly bandHz: number;
  /** Power of the target's scale by which the noise grows: 0 constant, 1 in proportion. Default 0. */
  readonly sizeExponent: number;
}

/** How the target is reached at first. */
export interface PursuitReachModel {
  /** Shortest and longest time from the target's appearance to the reach, seconds, drawn uniformly. Default [0.2, 0.3]. */
  readonly latency: readonly [number, number];
  /** Shortest and longest reach, seconds, drawn uniformly. Default [0.25, 0.45]. */
  readonly duration: readonly [number, number];
}

/** How the target is shown. */
export interface PursuitDisplayModel {
  /** Frames per second; the target's track has one place per frame. Default 120. */
  readonly frameHz: number;
  /** Whether a frame stays until the next, as on a screen: what is seen is then half a frame older on average, which is added to the delay. Default true. */
  readonly hold: boolean;
  /** Seconds from a frame to its light, added to the delay. Default 0. */
  readonly latency: number;
}

/** What to simulate. Everything is optional. */
export interface SimulatePursuitOptions {
  /** 32-bit whole number that fixes every draw; echoed in the truth. Another sampling rate or recorder leaves the motion as it is. Default 1. */
  readonly seed?: number;
  /** Number of trials, 1 or more, each with a target of its own. Default 1. */
  readonly trials?: number;
  /** Length of each trial, seconds, 2 to 3600. Default 60. */
  readonly duration?: number;
  /** Samples per second, above 0. Default 250. */
  readonly sampleRateHz?: number;
  /**
   * The frame. In a plane one simulated unit is a pixel. In a view it is `degreesPerUnit` degrees (default 0.02) in the tangent plane at the target,
   * and the field's middle lies at `elevation` degrees (default 0, down positive).
   */
  readonly space?: { readonly kind: "plane" } | { readonly kind: "view"; readonly degreesPerUnit?: number; readonly elevation?: number };
  /** Shortest and longest wait from the end of a trial to the next, seconds, drawn uniformly. Default [0.5, 1]. */
  readonly pause?: readonly [number, number];
  /** The target's path and size. */
  readonly target?: Partial<PursuitTargetModel>;
  /** Delay, gain and lag of the steady following. */
  readonly follower?: Partial<FollowerModel>;
  /** When and how an error is caught up. */
  readonly catchUp?: Partial<CatchUpModel>;
  /** The noise on the pointer. */
  readonly noise?: Partial<PursuitNoiseModel>;
  /** The movement that first reaches the target. */
  readonly reach?: Partial<PursuitReachModel>;
  /** What the display does to the target. */
  readonly display?: Partial<PursuitDisplayModel>;
  /** What the recorder makes of the path; `edges` must be `null`. */
  readonly recorder?: Partial<RecorderModel>;
}

/** The options with every default filled in. */
export interface PursuitSettings {
  readonly seed: number;
  readonly trials: number;
  readonly duration: number;
  readonly sampleRateHz: number;
  readonly space: { readonly kind: "plane" } | { readonly kind: "view"; readonly degreesPerUnit: number; readonly elevation: number };
  readonly pause: readonly [number, number];
  readonly target: PursuitTargetModel;
  readonly follower: FollowerModel;
  readonly catchUp: CatchUpModel;
  readonly noise: PursuitNoiseModel;
  readonly reach: PursuitReachModel;
  readonly display: PursuitDisplayModel;
  readonly recorder: RecorderModel;
}
