// In: pointer events of one element of a page. Out: chunks for the analyzer, or for a recording. An entry of its own, and nothing but types from the rest.
export type { Recorder, RecorderOptions } from "./create-recorder.js";
export { createRecorder } from "./create-recorder.js";
