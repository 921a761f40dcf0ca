// Endpoint scatter: plain endpoints in; errors, ellipses, radii, hit probabilities, tests of bias and shape, and comparisons out.

export { type AnisotropyTest, type AnisotropyTestOptions, anisotropyTest } from "./anisotropy-test.js";
export type { AxisErrors } from "./axis-errors.js";
export { type BiasTest, type BiasTestOptions, biasTest } from "./bias-test.js";
export {
  type CircularErrorProbable,
  type CircularErrorProbableOptions,
  circularErrorProbable,
  type RadiusEstimator,
} from "./circular-error-probable.js";
export { type CompareScattersOptions, compareScatters, type ScatterComparison, type ScatterFigures } from "./compare-scatters.js";
export { type EndpointScatter, type EndpointScatterOptions, endpointScatter, type RadialScatter } from "./endpoint-scatter.js";
export { type HitProbability, type HitProbabilityOptions, hitProbability } from "./hit-probability.js";
export type { AccuracyChange } from "./inference/accuracy-change.js";
export type { BiasChange } from "./inference/bias-change.js";
export type {
  AmplitudeEffect,
  BiasDependence,
  DirectionEffect,
  DirectionHarmonic,
  GrowthEffect,
  SpreadDependence,
} from "./inference/dependence-fit.js";
export type { PitmanMorgan } from "./inference/pitman-morgan.js";
export type { SpreadChange } from "./inference/spread-change.js";
export type { NormalWarning } from "./normal/normal-warnings.js";
export type { CovarianceFactors } from "./outliers/robust-scatter.js";
export type { RobustFigures } from "./scatter/robust-figures.js";
export type { ScatterEllipse } from "./scatter/scatter-ellipse.js";
export {
  type MovementPredictors,
  type ScatterDependence,
  type ScatterDependenceOptions,
  scatterDependence,
} from "./scatter-dependence.js";
export { type ScatterExtent, type ScatterExtentOptions, scatterExtent } from "./scatter-extent.js";
export {
  type CentreCovariance,
  type RobustSearch,
  type ScatterOutliers,
  type ScatterOutliersOptions,
  scatterOutliers,
} from "./scatter-outliers.js";
export type { Endpoints, NormalScatter } from "./types.js";
export { type WidthForHitRate, type WidthForHitRateOptions, widthForHitRate } from "./width-for-hit-rate.js";
