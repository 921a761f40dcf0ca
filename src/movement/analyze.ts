import type { Recording } from "../trace/types.js";
import { type AnalyzeOptions, createAnalyzer } from "./create-analyzer.js";
import type { Acquisition } from "./types.js";

/**
 * Acquisition rows of a whole recording: per target acquired, missed or given up, its outcome, times, time budget, submovements, corrections and errors.
 *
 * It is `createAnalyzer(...).push(recording)` and `flush()`, so batch and live agree. Targets and trials must be in the recording; without them use
 * `segmentMovements`. The parts of each budget add up to `end - go`.
 *
 * @param recording - one recording; the input is not changed
 * @param options - see `AnalyzeOptions`
 * @returns one row per acquisition in order of go; rows of doubtful quality carry flags and are not left out
 * @throws RangeError or TypeError if the recording contradicts itself or an option is out of range
 * @see phases of an aimed movement: Walker, Meyer and Smelcer 1993 (abstract read)
 * @example
 * ```ts
 * const { recording, truth } = simulateRecording({ seed: 7, movements: 5 });
 * const rows = analyze(recording);
 * rows.every((row, i) => row.target === truth.movements[i]!.target); // => true
 * ```
 */
export function analyze(recording: Recording, options: AnalyzeOptions = {}): Acquisition[] {
  const analyzer = createAnalyzer(recording.space, options);
  return [...analyzer.push(recording), ...analyzer.flush()];
}
