// Recordings: events or files in; samples, their quality, and smooth positions, velocities and speeds out.
export type { Estimate, IntervalCoverage, Reason } from "../math/estimate.js";
export { type AssessSamplingOptions, assessSampling } from "./assess-sampling.js";
export type { NoiseFloor } from "./condition/noise-floor.js";
export { type DifferentiateOptions, differentiate } from "./differentiate.js";
export type { MergedEventLike, PointerCoordinates, PointerEventLike } from "./event/pointer-event-like.js";
export type { PointerFilter } from "./event/select-pointer-events.js";
export type { CsvTables } from "./form/csv-tables.js";
export type { ReadCount, ReadNote, ReadReason, ReadReport } from "./form/read-report.js";
export { type FormatRecordingOptions, formatRecording } from "./format-recording.js";
export { type FromPointerEventsOptions, fromPointerEvents, type PointerEventsReport } from "./from-pointer-events.js";
export {
  type FromRelativeMotionOptions,
  fromRelativeMotion,
  type RelativeMotionEvent,
  type RelativeMotionReport,
} from "./from-relative-motion.js";
export { type Kinematics, type KinematicsOptions, kinematics } from "./kinematics.js";
export { type LowpassOptions, lowpass } from "./lowpass.js";
export { type ParsedRecording, type ParseRecordingOptions, parseRecording } from "./parse-recording.js";
export type { MissingCode } from "./quality/missing-code.js";
export type { IntervalSpread, SamplingReport, SamplingWarning, SamplingWarningCode, Support } from "./quality/sampling-report.js";
export { type ResampledTrace, type ResampleOptions, resample } from "./resample.js";
export { type SavitzkyGolayOptions, savitzkyGolay } from "./savitzky-golay.js";
export type { Chunk, Equipment, Mark, Press, Recording, Session, Shape, Space, Target, Trace, Track, Trial } from "./types.js";
export type { Gap, KinematicSegment, UniformSegment } from "./uniform.js";
