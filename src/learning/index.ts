// Practice over sessions: what the curve says, whether it goes on, whether a change is real, what stays and what carries over.
export type { IccForm } from "./agreement/intraclass.js";
export type { OwnScatter } from "./agreement/own-scatter.js";
export type { ReliabilityWarning } from "./agreement/reliability-warnings.js";
export type { VarianceLine, VarianceTable } from "./agreement/score-table.js";
export type { SessionPair } from "./agreement/session-pair.js";
export type {
  ChangeChances,
  ChangeKind,
  ChangeSize,
  ComparisonVerdict,
  ComparisonWarning,
  Dependence,
  Equivalence,
  PeriodFigures,
  RearrangementTest,
} from "./change/comparison.js";
export type { JudgedChange } from "./change/judge-change.js";
export type { Period } from "./change/read-periods.js";
export type { ComparedLearningCurve, LearningComparisonWarning } from "./choice/compared-curve.js";
export type { CompareOptions, Comparison } from "./compare.js";
export { compare } from "./compare.js";
export type { CompareLearningCurvesOptions, LearningCurveComparison } from "./compare-learning-curves.js";
export { compareLearningCurves } from "./compare-learning-curves.js";
export type { CurveBandPoint, CurveParameter, CurveQuality, LearningCurveFit, LearningCurveWarning } from "./curve/curve-types.js";
export type { CurveErrors } from "./curve/error-law.js";
export type { PracticeTrials } from "./days/group-trials.js";
export type { BeforeAfter, KnownImprovement } from "./days/improvement.js";
export type { Savings, SavingsData } from "./days/savings.js";
export type { RawStep } from "./days/steps-between.js";
export type { Effect, SessionLevels, SessionStep, SessionStructure, SessionStructureWarning } from "./days/structure.js";
export { detectPlateau } from "./detect-plateau.js";
export type { FitLearningCurveOptions } from "./fit-learning-curve.js";
export { fitLearningCurve } from "./fit-learning-curve.js";
export type {
  AlongsideEvidence,
  AlongsideMeasure,
  AsymptoteEvidence,
  DetectPlateauOptions,
  OrderEvidence,
  PlateauReason,
  PlateauReport,
  PlateauSeries,
  PlateauWarning,
  RecordEvidence,
  SegmentEvidence,
  Speaks,
  TrendEvidence,
} from "./plateau/types.js";
export type { PracticeRetention, PracticeRetentionOptions, RetentionScores, RetentionWarning } from "./practice-retention.js";
export { practiceRetention } from "./practice-retention.js";
export type { PracticeTransfer, PracticeTransferOptions, TransferScores, TransferWarning } from "./practice-transfer.js";
export { practiceTransfer } from "./practice-transfer.js";
export type { Reliability, ReliabilityOptions } from "./reliability.js";
export { reliability } from "./reliability.js";
export type { SessionStructureOptions } from "./session-structure.js";
export { sessionStructure } from "./session-structure.js";
export type { LearningLaw, LearningLawName, PracticeSeries } from "./types.js";
