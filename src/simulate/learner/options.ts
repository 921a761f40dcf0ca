/** A law of practice with its truths: y at practice N, the number of the session counted from 1 (or of the trial, see `per`). */
export interface LearnerCurve {
  /**
   * `exponential` a + b exp(-c (N - 1)); `power` a + b (N + e)^-c; `combined` a + b (N + e)^-c exp(-d N); `delayedExponential`
   * a + b (d + 1)/(d + exp(c (N - 1))); `linear` a + b (N - 1); `step` a + b before session (trial) `at` and a from there on; `flat` a.
   * Default "exponential".
   */
  readonly law: "exponential" | "power" | "combined" | "delayedExponential" | "linear" | "step" | "flat";
  /** Asymptote, or the level at N = 1 of `linear`, in the unit of the measure. Default 0.6. */
  readonly a: number;
  /** What is to be learned, in the same unit; below 0 for a measure that rises. `linear`: change per session. Default 0.4. */
  readonly b: number;
  /** Rate per session (trial), at least 0; `power`: exponent. Default 0.15. */
  readonly c: number;
  /** `combined`: rate of the exponential part; `delayedExponential`: raised, the fall begins later. At least 0, default 0. */
  readonly d: number;
  /** Earlier practice, in sessions (trials), at least 0, default 0. */
  readonly e: number;
  /** Session (trial) from which `step` holds its new level. Default 10. */
  readonly at: number;
  /** What N counts. "trial": the level moves within a session, too. Default "session". */
  readonly per: "session" | "trial";
}

/** Log-normal factor with mean 1 on everything done in a session. */
export interface SessionNoise {
  /** Its standard deviation: exactly that of the session means as a share of their level, when `trialNoise` is 0. Default 0.02. */
  readonly sd: number;
  /** Correlation of the logarithms from one session to the next, AR(1) in its stationary state, in (-1, 1). `sd` stays as it is. Default 0. */
  readonly autocorrelation: number;
}

/** What the first trials of a session are off by. */
export interface LearnerWarmUp {
  /** Excess on the first trial as a share of the level: 0.08 starts 8 % above, -0.08 below (worse, for a measure that rises). Default 0. */
  readonly size: number;
  /** The excess falls as exp(-rate (k - 1)) with trial k of the session. Above 0, default 0.15: 20 trials to a twentieth. */
  readonly rate: number;
  /** Standard deviation of the size from session to session, a share of the level too. Default 0. */
  readonly sizeSd: number;
}

/** What a break costs. */
export interface LearnerForgetting {
  /** Share of the level that each day without practice adds (below 0: takes away), before the next session. Default 0. */
  readonly loss: number;
  /** Share of what is lost that each session wins back for the next, from 0 to 1. Default 0.5. */
  readonly recovery: number;
}

/** Options of `simulateLearner`; a group may be given in part. */
export interface SimulateLearnerOptions {
  /** Whole number of 32 bits, default 1. The same seed gives the same draws within a major version. */
  readonly seed?: number;
  /** Number of sessions, default 20. */
  readonly sessions?: number;
  /** Day of each session, never falling; two sessions within one day share its whole part. Default: 0, 1, 2, ... */
  readonly days?: readonly number[];
  /** Trials of every session, or of each. Default 40. */
  readonly trialsPerSession?: number | readonly number[];
  /** Law of practice that the level follows; what is not given has the defaults of `LearnerCurve`: an exponential from 1 to 0.6. */
  readonly curve?: Partial<LearnerCurve>;
  /** Scatter from session to session, default 2 % without autocorrelation. Raised, everything takes more sessions to see. */
  readonly sessionNoise?: Partial<SessionNoise>;
  /** Standard deviation of a trial as a share of its level: a log-normal factor with mean 1, independent from trial to trial. Default 0.08. */
  readonly trialNoise?: number;
  /** Excess of the first trials of each session, default none. */
  readonly warmUp?: Partial<LearnerWarmUp>;
  /** Share of the level that each trial of a session adds and that is gone by the next session. Default 0. */
  readonly fatigue?: number;
  /** Change of the level with each night between two sessions on different days, as a share; it stays. A longer break counts once. Default 0. */
  readonly overnight?: number;
  /** What days without practice cost, default nothing. */
  readonly forgetting?: Partial<LearnerForgetting>;
  /** From this session on (counted from 1) all values are multiplied by `factor`: another device, not another skill. Default none. */
  readonly equipmentChange?: { readonly session: number; readonly factor: number } | null;
}

/** The options with every default filled in. */
export interface LearnerSettings {
  readonly seed: number;
  readonly sessions: number;
  readonly days: readonly number[];
  readonly trialsPerSession: readonly number[];
  readonly curve: LearnerCurve;
  readonly sessionNoise: SessionNoise;
  readonly trialNoise: number;
  readonly warmUp: LearnerWarmUp;
  readonly fatigue: number;
  readonly overnight: number;
  readonly forgetting: LearnerForgetting;
  readonly equipmentChange: { readonly session: number; readonly factor: number } | null;
}
