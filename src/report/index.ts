// From sessions to a decision: one sitting in figures, two periods compared, one person reviewed, and the report, its charts and its methods in words.
export type { ChartData } from "./chart-specs.js";
export { chartSpecs } from "./chart-specs.js";
export type { ChartSpec } from "./charts/theme.js";
export type { TimeBudgetSet } from "./charts/time-budget.js";
export type { CompareSessionsOptions } from "./compare-sessions.js";
export { compareSessions } from "./compare-sessions.js";
export { methods } from "./methods.js";
export type { ReportPicture } from "./render/html-form.js";
export type { RenderReportOptions } from "./render-report.js";
export { renderReport } from "./render-report.js";
export { reviewCharts } from "./review-charts.js";
export type { ReviewPracticeOptions } from "./review-practice.js";
export { reviewPractice } from "./review-practice.js";
export type { SummarizeSessionOptions } from "./summarize-session.js";
export { summarizeSession } from "./summarize-session.js";
export type {
  EquipmentSpell,
  MeasureComparison,
  MeasureCourse,
  PeriodSummary,
  PeriodsWarning,
  PracticeAnswers,
  PracticeReview,
  SessionSummary,
  SessionsComparison,
  SessionWarning,
  SkillVerdict,
} from "./types.js";
