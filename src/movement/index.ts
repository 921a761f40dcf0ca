// Movements: pointer samples, presses and targets in; submovements, acquisition rows with their time budget, and summaries out.

export type { LeastSquaresReason } from "../math/least-squares.js";
export type { Landmark } from "./align-movements.js";
export { analyze } from "./analyze.js";
export type { BellKind } from "./bell/bell-columns.js";
export type { SubmovementComponent } from "./bell/describe-bells.js";
export type { VelocityProfile } from "./bell/weigh-profile.js";
export { type AnalyzeOptions, type Analyzer, createAnalyzer } from "./create-analyzer.js";
export {
  type DecomposeOptions,
  type Decomposition,
  type DecompositionAlternative,
  decomposeSubmovements,
} from "./decompose-submovements.js";
export { type DetectedSubmovements, type DetectSubmovementsOptions, detectSubmovements } from "./detect-submovements.js";
export type { AxisErrors, ErrorSummary } from "./error-summary.js";
export { type HoldTremor, type HoldTremorOptions, holdTremor } from "./hold-tremor.js";
export { type IdleMovement, type IdleMovementOptions, type IdleStretch, idleMovement } from "./idle-movement.js";
export { type JerkForm, type LogDimensionlessJerkOptions, logDimensionlessJerk } from "./log-dimensionless-jerk.js";
export { type PointingTrialsOfRows, type PointingTrialsOptions, pointingTrials } from "./pointing-trials.js";
export type { LagOne } from "./repetition/lag-one.js";
export type { CorrectionPhase, Displacement, Economy, PathExcess, Pressing, Resolution, Stop } from "./row-parts.js";
export { type Movement, type Segmentation, type SegmentMovementsOptions, segmentMovements } from "./segment-movements.js";
export { type SpectralArcLengthOptions, spectralArcLength } from "./spectral-arc-length.js";
export { type AlignedStops, type StopProfile, type StopProfileOptions, stopProfile } from "./stop-profile.js";
export { type SummarizeOptions, type Summary, summarize } from "./summarize.js";
export type { Consistency, RelativeConsistency } from "./summary/consistency.js";
export type { CorrectionSummary } from "./summary/correction-summary.js";
export type { CorrectionTime, CorrectionTimeLaw } from "./summary/correction-time.js";
export type { CorrectiveGain } from "./summary/corrective-gain.js";
export type { FlagCounts, OutcomeCounts } from "./summary/counts.js";
export type { EconomySummary } from "./summary/economy-summary.js";
export type { HitsByStop, SlipSummary, StopSummary } from "./summary/stop-summary.js";
export type { PartTime, PartTimes } from "./summary/time-summary.js";
export { type TableRow, toTable } from "./to-table.js";
export { type TrialToTrialLearning, type TrialToTrialOptions, trialToTrialLearning } from "./trial-to-trial-learning.js";
export type { Acquisition, Budget, Correction, Flag, Offset, Submovement, Times } from "./types.js";
export {
  type VariabilityPoint,
  type VariabilityProfile,
  type VariabilityProfileOptions,
  variabilityProfile,
} from "./variability-profile.js";
