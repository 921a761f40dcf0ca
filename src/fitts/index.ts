// Fitts' law and throughput: plain trials, cells and paths in; difficulty, effective width, throughput, movement-time models and path measures out.

export { type AngularDifficulty, type AngularDifficultyOptions, angularDifficulty } from "./angular-difficulty.js";
export type { ThroughputAlternatives } from "./cells/throughput-alternatives.js";
export type { ThroughputWarning } from "./cells/throughput-warnings.js";
export type { TradeOff } from "./cells/trade-off.js";
export {
  type ComparedModel,
  type CompareMovementTimeModelsOptions,
  compareMovementTimeModels,
  type ModelComparison,
} from "./compare-movement-time-models.js";
export { type EffectiveWidthOptions, effectiveWidth } from "./effective-width.js";
export {
  type EffectiveWidthFromErrorRate,
  type EffectiveWidthFromErrorRateOptions,
  effectiveWidthFromErrorRate,
} from "./effective-width-from-error-rate.js";
export { type ExcludedTrials, type ExclusionRule, excludeTrials } from "./exclude-trials.js";
export { type FitMovementTimeOptions, fitMovementTime, type MovementTimeFit } from "./fit-movement-time.js";
export { type IndexOfDifficultyOptions, indexOfDifficulty } from "./index-of-difficulty.js";
export type { Coefficient } from "./models/describe-coefficients.js";
export type { FitQuality } from "./models/fit-quality.js";
export type {
  CoefficientName,
  MovementTimeCell,
  MovementTimeForm,
  MovementTimeModel,
  MovementTimeWarning,
} from "./models/movement-time.js";
export type { PredictedTime } from "./models/time-predictor.js";
export type { PointColumns } from "./path/require-points.js";
export { type PathAccuracy, type PathAccuracyOptions, pathAccuracy } from "./path-accuracy.js";
export { type ProjectedEndpoints, projectEndpoints } from "./project-endpoints.js";
export { type ReviewThroughputOptions, reviewThroughput, type ThroughputReview } from "./review-throughput.js";
export { steeringDifficulty } from "./steering-difficulty.js";
export { type TargetWidthOptions, targetWidth } from "./target-width.js";
export { type Throughput, type ThroughputOptions, throughput } from "./throughput.js";
export type { PointingCell, PointingTrials } from "./types.js";
