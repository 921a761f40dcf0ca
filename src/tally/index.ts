// Summaries that merge: the same figures from one movement in a page and from a hundred thousand recordings on many machines.

export type { NumericColumn } from "./measures/columns.js";
export type { SessionMean, TallyMeasure } from "./measures/measures.js";
export { mergeTallies } from "./merge-tallies.js";
export { type ReadTallyOptions, readTally } from "./read-tally.js";
export { tally } from "./tally.js";
export type {
  ExactSum,
  GroupReading,
  JointReading,
  JointTally,
  Labels,
  MeasureReading,
  MeasureTally,
  QuantileReading,
  Tally,
  TallyGroup,
  TallyOptions,
  TallyReading,
} from "./types.js";
