// Movements: pointer samples, presses and targets in; submovements, acquisition rows with their time budget, and summaries out.
export { analyze } from "./analyze.js";
export { type AnalyzeOptions, type Analyzer, createAnalyzer } from "./create-analyzer.js";
export { type DetectedSubmovements, type DetectSubmovementsOptions, detectSubmovements } from "./detect-submovements.js";
export { type Movement, type Segmentation, type SegmentMovementsOptions, segmentMovements } from "./segment-movements.js";
export type { AxisErrors, ErrorSummary } from "./error-summary.js";
export { type PartTime, type Summary, type SummarizeOptions, summarize } from "./summarize.js";
export { type TableRow, toTable } from "./to-table.js";
export type { Acquisition, Budget, Correction, Flag, Offset, Submovement, Times } from "./types.js";
export { type VariabilityPoint, type VariabilityProfile, type VariabilityProfileOptions, variabilityProfile } from "./variability-profile.js";
