// Several targets in sequence: what passes between them, the order in which they are taken, and ends between two of them.

export type { PointColumns } from "../fitts/path/require-points.js";
export { type AnalyzeSequenceOptions, analyzeSequence } from "./analyze-sequence.js";
export type { OrderConsistency } from "./choice/consistency.js";
export type { SetSizeEffect, SetSizeLevel } from "./choice/set-size.js";
export type { TimeLaw } from "./choice/time-law.js";
export { type ShortestTour, type ShortestTourOptions, shortestTour } from "./shortest-tour.js";
export type { Overlap } from "./steps/overlap-outcomes.js";
export type { TourKind } from "./tour/visiting-order.js";
export type {
  BestOrders,
  BetweenLanding,
  BetweenTest,
  OrderChoice,
  OrderSummary,
  Sequence,
  SequenceAnalysis,
  SequenceFlag,
  SequenceStep,
  SequenceWarning,
} from "./types.js";
