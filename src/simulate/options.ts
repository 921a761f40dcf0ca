import type { Bell } from "./compose-movement.js";

/** A box around the middle of the field: full extents in simulated units. */
export interface Box {
  readonly width: number;
  readonly height: number;
}

/** Where the targets appear and how large they are. Lengths in simulated units. */
export interface TargetModel {
  /**
   * Lowest and highest distance from the resting hand (in a sequence: from the target before) to where the target appears, drawn uniformly.
   * Default [150, 800].
   */
  readonly amplitude: readonly [number, number];
  /** Diameters, each equally likely. Default [16, 24, 40, 64, 100]. */
  readonly widths: readonly number[];
  /**
   * Box that holds the centres of the targets when they appear. A direction that leads outside is mirrored, so that directions stay uniform
   * overall; a target that fits in no mirror image is drawn again, which favours short distances in a box under twice the highest amplitude.
   * Default 2000 by 2000.
   */
  readonly bounds: Box;
  /** Lowest and highest speed of targets that move in a straight line of any direction, units/s; [0, 0] lets them stand. Default [0, 0]. */
  readonly speed: readonly [number, number];
}

/** Response latency: a normal part plus an exponential part (ex-Gaussian), seconds, never below 0. */
export interface LatencyModel {
  /** Mean of the normal part. Default 0.2. */
  readonly mu: number;
  /** Standard deviation of the normal part. Default 0.03. */
  readonly sigma: number;
  /** Mean of the exponential part: raised, more responses come late. Default 0.06. */
  readonly tau: number;
}

/** The primary submovement. A is the distance from the hand to the target's centre, W the diameter. */
export interface PrimaryModel {
  /** Speed profiles, each equally likely; a profile named twice comes twice as often. Default all three. */
  readonly bells: readonly Bell[];
  /** Mean error along the axis as a share of A; negative lands short. Default -0.03. */
  readonly alongBias: number;
  /** Standard deviation of the error along the axis as a share of A. Default 0.05. */
  readonly alongSd: number;
  /** Standard deviation of the error across the axis as a share of A. Default 0.025. */
  readonly acrossSd: number;
  /** Duration is (timeIntercept + timeSlope log2(A/W + 1)) exp(N(0, timeSd)), seconds. Default 0.12. */
  readonly timeIntercept: number;
  /** Seconds per bit of difficulty. Default 0.05. */
  readonly timeSlope: number;
  /** Standard deviation of the logarithm of the duration. Default 0.08. */
  readonly timeSd: number;
}

/** Corrective submovements: minimum-jerk strokes that remove the error left by the component before. */
export interface CorrectionModel {
  /** Share of movements that never correct, in [0, 1]. Default 0.2. */
  readonly pureShare: number;
  /** A correction follows while the error exceeds this share of W; lowered, there are more corrections. Default 0.4. */
  readonly toleranceShare: number;
  /** Most corrections of one movement. Default 4. */
  readonly most: number;
  /** Shares of the error that a correction removes, each equally likely. Default [0.7, 1, 1.25]. */
  readonly gains: readonly number[];
  /** Standard deviation of the logarithm of the gain about those values. Default 0.08. */
  readonly gainSd: number;
  /** Standard deviation of the sideways part of a correction as a share of the error. Default 0.06. */
  readonly directionSd: number;
  /** Shortest and longest duration, seconds, drawn uniformly. Default [0.1, 0.2]. */
  readonly duration: readonly [number, number];
  /** Earliest and latest onset after the end of the component before, seconds; negative overlaps it. Default [-0.1, 0.2]. */
  readonly onset: readonly [number, number];
}

/** The press that ends the acquisition. */
export interface PressModel {
  /** Mean time from the stop to the press (verification), seconds. Default 0.07. */
  readonly delay: number;
  /** Standard deviation of that time; draws below 0 become 0. Default 0.03. */
  readonly delaySd: number;
  /** Share of presses given before the stop, while the pointer still moves, in [0, 1]. Default 0.03. */
  readonly earlyShare: number;
  /** How long before the stop those are given, seconds. Default 0.03. */
  readonly earlyLead: number;
  /** Mean time from press to release, seconds; draws below 0.02 become 0.02. Default 0.085. */
  readonly duration: number;
  /** Standard deviation of that time. Default 0.015. */
  readonly durationSd: number;
  /** Standard deviation, per axis, of the displacement during the press, units. Default 0.6. */
  readonly slipSd: number;
}

/** Shares of movements that take an unusual course, each in [0, 1]; all but `retry` exclude one another, so together at most 1. Default 0. */
export interface CaseShares {
  /** No press; the trial ends 3 s after go (or 0.3 s after the stop, if that is later). */
  readonly timeout: number;
  /**
   * The target appears under the pointer, no more than W/4 off its centre, and is pressed without moving. Not in sequences, not with moving
   * targets.
   */
  readonly noMovement: number;
  /** The hand leaves 0.02 to 0.15 s before go, though never before the stop of the movement before. */
  readonly anticipation: number;
  /** The device is lifted for 0.12 to 0.3 s between two parts of the primary, of 40 to 60 % each. Not with moving targets. */
  readonly clutch: number;
  /**
   * Share of the misses followed by one more stroke and a second press, which then decides. Counts only misses at rest that lie too far out
   * for rounding and tremor to undo. Not with moving targets, which may meet such a press after all.
   */
  readonly retry: number;
}

/**
 * How the targets of a sequence are taken; without effect when every target is a trial of its own. Its draws come from a source of their own, so
 * that targets, aims and presses are drawn alike whatever is set here. Shares in [0, 1]. Left alone: in the order of `goals`, without any of this.
 */
export interface PlanningModel {
  /** Share of trials whose targets are taken by the shortest open way from where the hand rests; at most 13 targets. Default 0. */
  readonly shortest: number;
  /** Share of trials in which the nearest target left comes next. Default 0. */
  readonly nearest: number;
  /** Share of trials taken in any order, all equally likely; with the two before at most 1, the rest take the order of `goals`. Default 0. */
  readonly random: number;
  /** Share of the movements after the first that leave before the press on the target before. Default 0. */
  readonly overlapShare: number;
  /** Shortest and longest time from such a departure to that press, seconds, drawn uniformly; less where the hand stops later. Default [0.02, 0.08]. */
  readonly overlapLead: readonly [number, number];
  /**
   * Share of movements whose primary is pulled toward another target still open, of those that have one 20 to 90 degrees off their way, seen
   * from the hand. Of several the nearest to the target pulls. Default 0.
   */
  readonly pullShare: number;
  /** How far the primary's aim is pulled, as a share of the way from the target to the other: 0 not at all, 0.5 to the middle. Default 0.5. */
  readonly pull: number;
  /** Seconds that each bit adds to the latency of a trial's first movement, log2(n + 1) bits with n targets shown. Default 0. */
  readonly latencyPerBit: number;
  /** Share of the movements after the first that begin late. Default 0. */
  readonly hesitationShare: number;
  /** Shortest and longest time that this adds to their latency, seconds, drawn uniformly. Default [0.4, 0.8]. */
  readonly hesitation: readonly [number, number];
  /** Number of layouts that the trials go through in turn, the hand returning to the middle of the field after each; 0 draws every trial's own. Default 0. */
  readonly layouts: number;
}

/**
 * What lies between the scene and the eye. A target is answered from when it is seen: the latency grows by the delay. Every correction begins that
 * much later after the component before, and the press waits until the stop is seen. The primary, presses given before the stop, early starts and
 * targets already in view (all but the first of a sequence) pay nothing. Its draws come from a source of their own.
 */
export interface DisplayModel {
  /**
   * Frames per second, 1 to 10000; what happens is seen from the next frame on, half an interval later on average. Raised, less is waited for. The
   * recording then holds the times of the frames. `null` shows everything at once. Default null.
   */
  readonly refreshHz: number | null;
  /**
   * Seconds from a frame to its light, 0 to 10. The wait for the frame comes on top: what an end-to-end measurement would find is on average this and
   * half an interval. Default 0.
   */
  readonly latency: number;
}

/** How the path becomes samples. */
export interface RecorderModel {
  /** Standard deviation of each sample's time about its place on the grid, seconds; times are then kept from running backward. Default 0.0005. */
  readonly timeJitterSd: number;
  /** Time stamps (samples and presses) are rounded to multiples of this, seconds; 0 leaves them. Default 0. */
  readonly timeQuantum: number;
  /** Positions are rounded to multiples of this, units; 0 leaves them. Default 1. */
  readonly quantum: number;
  /** Report a sample only when the rounded position has changed, as pointing devices do. Default true. */
  readonly eventsOnly: boolean;
  /** Share of samples lost at random, in [0, 1). Default 0. */
  readonly dropShare: number;
  /** Share of samples that are swallowed by the next when that follows within two periods, in [0, 1]. Default 0. */
  readonly mergeShare: number;
  /** Box that holds the recorded pointer, as a screen's border does; the hand goes on beyond. `null` means none; plane only. Default null. */
  readonly edges: Box | null;
}

/** What to simulate. Everything is optional; the defaults are the library's fixed recovery study. */
export interface SimulateRecordingOptions {
  /**
   * 32-bit whole number that fixes every draw; echoed in the truth. Another sampling rate or recorder leaves the movements as they are.
   * Default 1.
   */
  readonly seed?: number;
  /** Number of acquisitions, 1 or more. Default 400. */
  readonly movements?: number;
  /** Samples per second, above 0. Default 250. */
  readonly sampleRateHz?: number;
  /**
   * The frame. In a plane one simulated unit is a pixel. In a view it is `degreesPerUnit` degrees (default 0.02) measured in the tangent plane
   * at the target, and the field's middle lies at `elevation` degrees (default 0, down positive, field within +-80).
   */
  readonly space?: { readonly kind: "plane" } | { readonly kind: "view"; readonly degreesPerUnit?: number; readonly elevation?: number };
  /**
   * Targets per trial, all shown at its start and taken in the order of `goals` (but see `planning`), each from the press before; a timeout ends
   * the trial. Of several numbers each is equally likely. 0 makes every target a trial of its own. Default 0.
   */
  readonly sequence?: number | readonly number[];
  /** Shortest and longest wait from the end of a trial to the next, seconds, drawn uniformly. Default [0.4, 0.8]. */
  readonly pause?: readonly [number, number];
  /** Amplitude of the tremor on each axis, units; a sinusoid of 8 to 11 Hz, drawn anew for every trial. Default 0.3. */
  readonly tremorAmplitude?: number;
  /** Where the targets appear, how large they are and whether they move. */
  readonly targets?: Partial<TargetModel>;
  /** Time from go to the onset. */
  readonly latency?: Partial<LatencyModel>;
  /** Aim, scatter, duration and shape of the first stroke. */
  readonly primary?: Partial<PrimaryModel>;
  /** When and how the remaining error is corrected. */
  readonly correction?: Partial<CorrectionModel>;
  /** When the press comes, how long it lasts and what it moves. */
  readonly press?: Partial<PressModel>;
  /** How often something out of the ordinary happens. */
  readonly cases?: Partial<CaseShares>;
  /** In which order the targets of a sequence are taken, and how the next target shows in the movement to this one. */
  readonly planning?: Partial<PlanningModel>;
  /** How late what happens is seen. Left alone, at once. */
  readonly display?: Partial<DisplayModel>;
  /** What the recorder makes of the path. */
  readonly recorder?: Partial<RecorderModel>;
}

/** The options with every default filled in. */
export interface SimulationSettings {
  readonly seed: number;
  readonly movements: number;
  readonly sampleRateHz: number;
  readonly space: { readonly kind: "plane" } | { readonly kind: "view"; readonly degreesPerUnit: number; readonly elevation: number };
  readonly sequence: number | readonly number[];
  readonly pause: readonly [number, number];
  readonly tremorAmplitude: number;
  readonly targets: TargetModel;
  readonly latency: LatencyModel;
  readonly primary: PrimaryModel;
  readonly correction: CorrectionModel;
  readonly press: PressModel;
  readonly cases: CaseShares;
  readonly planning: PlanningModel;
  readonly display: DisplayModel;
  readonly recorder: RecorderModel;
}
