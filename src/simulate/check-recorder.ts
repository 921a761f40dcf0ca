import { requireNumber, show } from "../math/require.js";
import type { Box, RecorderModel } from "./options.js";

/** Throws unless every setting of the recorder is in range. */
export function checkRecorder(where: string, recorder: RecorderModel): void {
  requireNumber(where, "options.recorder.timeJitterSd", recorder.timeJitterSd, 0);
  requireNumber(where, "options.recorder.timeQuantum", recorder.timeQuantum, 0);
  requireNumber(where, "options.recorder.quantum", recorder.quantum, 0);
  if (typeof recorder.eventsOnly !== "boolean") {
    throw new TypeError(`${where}: options.recorder.eventsOnly must be true or false, got ${show(recorder.eventsOnly)}`);
  }
  requireNumber(where, "options.recorder.dropShare", recorder.dropShare, 0, 0.99);
  requireNumber(where, "options.recorder.mergeShare", recorder.mergeShare, 0, 1);
  if (recorder.edges !== null) requireBox(where, "options.recorder.edges", recorder.edges);
}

/** Throws unless `box` has a width and a height above 0. */
export function requireBox(where: string, name: string, box: Box): void {
  if (box === null || typeof box !== "object") throw new TypeError(`${where}: ${name} must be a box, got ${show(box)}`);
  requireNumber(where, `${name}.width`, box.width, 0, undefined, true);
  requireNumber(where, `${name}.height`, box.height, 0, undefined, true);
}
