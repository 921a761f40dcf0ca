// Following a moving target: errors, lag, gain, catch-up submovements and answers to changes of a recording; the frequency response of plain columns.

export { type AnalyzePursuitOptions, analyzePursuit } from "./analyze-pursuit.js";
export {
  type FrequencyResponse,
  type FrequencyResponseOptions,
  frequencyResponse,
  type ResponseWarning,
} from "./frequency-response.js";
export type { ResponseAtFrequency } from "./response/describe-line.js";
export type {
  CatchUp,
  CatchUpSummary,
  ChangeResponse,
  ChangeSummary,
  Pursuit,
  PursuitError,
  PursuitErrorIn,
  PursuitLag,
  PursuitSamples,
  PursuitWarning,
  SizeEffect,
  TargetMotion,
  TimeOnTarget,
} from "./types.js";
