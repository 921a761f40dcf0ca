// At what pace: how accuracy falls with speed, the pace that a wanted share of hits asks for, and whether to change it.
export type { AdvisePaceOptions, PaceBlock } from "./advise-pace.js";
export { advisePace } from "./advise-pace.js";
export type { ConditionalAccuracyOptions, ConditionalBin, ConditionalCurve } from "./conditional-accuracy.js";
export { conditionalAccuracy } from "./conditional-accuracy.js";
export type { CreateStaircaseOptions } from "./create-staircase.js";
export { createStaircase } from "./create-staircase.js";
export type { FitPsychometricOptions, PsychometricFit } from "./fit-psychometric.js";
export { fitPsychometric } from "./fit-psychometric.js";
export type { FitSpeedAccuracyOptions, LawFit, SpeedAccuracyFit, SpeedAccuracyPoint, SpeedAccuracyWarning } from "./fit-speed-accuracy.js";
export { fitSpeedAccuracy } from "./fit-speed-accuracy.js";
export type { AccuracyOverTime } from "./hits/accuracy-over-time.js";
export type { HitProbit } from "./hits/hit-probit.js";
export type { PaceFigures } from "./pace/pace-figures.js";
export type { PaceTrialsOfRows, PaceTrialsOptions } from "./pace-trials.js";
export { paceTrials } from "./pace-trials.js";
export type { PsychometricData } from "./psychometric/level-counts.js";
export type { PsychometricShape } from "./psychometric/shapes.js";
export type {
  PsychometricGoodness,
  PsychometricLevel,
  PsychometricPoint,
  PsychometricThreshold,
  PsychometricValue,
  PsychometricWarning,
} from "./psychometric/types.js";
export type { PaceOutcome, PaceRecommendation, PaceWarning, RecommendPaceOptions } from "./recommend-pace.js";
export { recommendPace } from "./recommend-pace.js";
export type { AxisFit } from "./scatter/fit-law.js";
export type { StaircaseReversal, StaircaseSettings, StaircaseState } from "./staircase/staircase-state.js";
export type { StaircaseThreshold, StaircaseThresholdOptions, StaircaseWarning } from "./staircase-threshold.js";
export { staircaseThreshold } from "./staircase-threshold.js";
export { stepStaircase } from "./step-staircase.js";
export type {
  AxisLaw,
  BiasLine,
  LinearScatter,
  PaceAdvice,
  PaceTarget,
  PaceTrials,
  PowerScatter,
  ScatterLaw,
  SpeedAccuracyLaw,
} from "./types.js";
