import type { TargetModel } from "../../src/simulate/index.js";

/** The stroke that is sent off without looking; A is the distance from the hand to the target's centre, W the diameter. */
export interface BallisticCommand {
  /** Mean error of the executed command along its own line, share of A; negative lands short. */
  readonly alongBias: number;
  readonly alongSd: number;
  readonly acrossSd: number;
  /** The command runs to its end in (rampIntercept + rampSlope log2(A/W + 1)) exp(N(0, rampSd)), seconds; the hand follows later and settles after it. */
  readonly rampIntercept: number;
  readonly rampSlope: number;
  readonly rampSd: number;
}

/** What is done about an error that is seen. */
export interface VisualLoop {
  /** From the light to a correction's command, seconds. */
  readonly delay: number;
  /** Share of the predicted error that a correction is to take off, and the standard deviation of its logarithm in execution. */
  readonly gain: number;
  readonly gainSd: number;
  /** Sideways part in execution, share of the correction. */
  readonly directionSd: number;
  /** A correction is sent off when the predicted error exceeds this share of W. */
  readonly deadZone: number;
  /** Least time from one command to the next, seconds. */
  readonly refractory: number;
  /** Duration of a corrective command, seconds. */
  readonly ramp: number;
}

/** How the movement is ended and the button pressed. */
export interface StopAndPress {
  /** Damping ratio of the hand about where the command puts it; below 1 it rings. */
  readonly damping: number;
  /** From the light to the judgement that the hand rests, seconds. */
  readonly look: number;
  /** The press waits until the seen speed is below this, units/s, ... */
  readonly stillSpeed: number;
  /** ... and the seen error below this share of W, ... */
  readonly errorShare: number;
  /** ... for this long, seconds. */
  readonly dwell: number;
  readonly dwellSd: number;
  /** Standard deviation per axis of the displacement by the press, units. */
  readonly slipSd: number;
  readonly duration: number;
  readonly durationSd: number;
}

/** From the sight of the target to the command: normal plus exponential, seconds. */
export interface Response {
  readonly mu: number;
  readonly sigma: number;
  readonly tau: number;
}

export interface HandNoise {
  /** Largest error of the driving force in each step, share of it, evenly spread; the others are standard deviations. */
  readonly force: number;
  /** Of where the hand is held to be beside the target: share of W, and units. */
  readonly sightShare: number;
  readonly sight: number;
}

export interface FeedbackOptions {
  readonly seed?: number;
  readonly movements?: number;
  readonly sampleRateHz?: number;
  /** Shortest and longest wait from a release to the next target, seconds. */
  readonly pause?: readonly [number, number];
  readonly targets?: Partial<TargetModel>;
  readonly primary?: Partial<BallisticCommand>;
  readonly correction?: Partial<VisualLoop>;
  readonly stopAndPress?: Partial<StopAndPress>;
  readonly nextTarget?: Partial<Response>;
  readonly noise?: Partial<HandNoise>;
  /** Frames per second (`null`: all is seen at once) and the seconds from a frame to its light. */
  readonly display?: { readonly refreshHz?: number | null; readonly latency?: number };
}

export interface FeedbackSettings {
  readonly seed: number;
  readonly movements: number;
  readonly sampleRateHz: number;
  readonly pause: readonly [number, number];
  readonly targets: TargetModel;
  readonly primary: BallisticCommand;
  readonly correction: VisualLoop;
  readonly stopAndPress: StopAndPress;
  readonly nextTarget: Response;
  readonly noise: HandNoise;
  readonly display: { readonly refreshHz: number | null; readonly latency: number };
}

// Round figures of the order that textbooks give: a visual loop of about 0.1 s, a quarter of a second to respond, 5 % of scatter for a quick stroke.
const DEFAULTS: FeedbackSettings = {
  seed: 1,
  movements: 60,
  sampleRateHz: 250,
  pause: [0.4, 0.8],
  targets: { amplitude: [150, 800], widths: [16, 24, 40, 64, 100], bounds: { width: 2000, height: 2000 }, speed: [0, 0] },
  primary: { alongBias: -0.03, alongSd: 0.05, acrossSd: 0.025, rampIntercept: 0.06, rampSlope: 0.045, rampSd: 0.06 },
  correction: { delay: 0.1, gain: 0.95, gainSd: 0.12, directionSd: 0.06, deadZone: 0.36, refractory: 0.16, ramp: 0.05 },
  stopAndPress: {
    damping: 0.95,
    look: 0.1,
    stillSpeed: 60,
    errorShare: 0.48,
    dwell: 0.03,
    dwellSd: 0.015,
    slipSd: 0.6,
    duration: 0.085,
    durationSd: 0.015,
  },
  nextTarget: { mu: 0.17, sigma: 0.03, tau: 0.05 },
  noise: { force: 0.5, sightShare: 0.15, sight: 1 },
  display: { refreshHz: null, latency: 0 },
};

export function resolveFeedback(options: FeedbackOptions): FeedbackSettings {
  return {
    ...DEFAULTS,
    ...options,
    targets: { ...DEFAULTS.targets, ...options.targets },
    primary: { ...DEFAULTS.primary, ...options.primary },
    correction: { ...DEFAULTS.correction, ...options.correction },
    stopAndPress: { ...DEFAULTS.stopAndPress, ...options.stopAndPress },
    nextTarget: { ...DEFAULTS.nextTarget, ...options.nextTarget },
    noise: { ...DEFAULTS.noise, ...options.noise },
    display: { ...DEFAULTS.display, ...options.display },
  };
}
