import { requireNumber, requireOneOf, show } from "../math/require.js";
import { DEFAULT_CUTOFF } from "../trace/condition/butterworth.js";
import type { Chunk, Space } from "../trace/types.js";
import { type AnalysisOptions, advance, createAnalysis, takeChunk } from "./acquisition/analysis.js";
import type { Acquisition } from "./types.js";

/** Options of `createAnalyzer` and `analyze`. */
export interface AnalyzeOptions {
  /** Rate of the even grid, Hz, above 0 and at most 1000. Default: the device's own rate, told from its first samples in motion. */
  readonly sampleRateHz?: number;
  /** Step of the position readings, in the space's unit, above 0. Default: told from the first samples. Raised, small corrections hide. */
  readonly quantum?: number;
  /** Half-power frequency of the zero-lag low-pass filter, Hz, default 20. Lower smooths more and blunts fast movements. */
  readonly cutoffHz?: number;
  /** Longest stretch without samples that is bridged when the pointer has moved meanwhile, seconds, default 0.05. */
  readonly maxGap?: number;
  /** Share of the peak speed by which a bell must stand out before the end of the primary submovement, in (0, 1), default 0.05. */
  readonly prominenceShare?: number;
  /** Speed peaks closer than this are one, seconds, default 0.06. */
  readonly minSpacing?: number;
}

/** Acquisitions as they become final. */
export interface Analyzer {
  /** Takes the next chunk and returns the acquisitions that it made final, at most 0.2 s after their press. */
  readonly push: (chunk: Chunk) => Acquisition[];
  /** Returns the rest: nothing more will come. */
  readonly flush: () => Acquisition[];
}

/**
 * A live analyzer: chunks of a recording in, acquisitions out as they become final.
 *
 * A row is final 0.2 s after its deciding press (a missed or unpressed one: after its target or trial is over) and depends only on what
 * happened up to then, so it does not matter where the recording was cut; `analyze` is one push and a flush. Conditioning, submovements and
 * boundaries: see `kinematics`, `detectSubmovements` and `Times`; go is the latest of target shown, trial started and the end of the
 * acquisition before. Memory grows with the longest acquisition, not with the recording; cost is linear in the samples.
 * A press hits by its own `credited` where given, else by geometry; one at go, or repeated within 0.5 s on the target just hit, answers
 * nothing. Trials of kind `pursue` give no rows. A trial ends where the next begins, if not before.
 *
 * @param space - the frame of the recording
 * @param options - see `AnalyzeOptions`
 * @returns an analyzer with `push` and `flush`; `push` throws RangeError or TypeError, naming the field, when a chunk contradicts itself or
 *   what came before
 * @throws RangeError if an option is out of range
 * @see the time budget of an acquisition: docs/metrics/analyze.md
 * @example
 * ```ts
 * const { recording } = simulateRecording({ seed: 7, movements: 5 });
 * const analyzer = createAnalyzer(recording.space);
 * const rows = [...analyzer.push(recording), ...analyzer.flush()];
 * rows.length; // => 5
 * ```
 */
export function createAnalyzer(space: Space, options: AnalyzeOptions = {}): Analyzer {
  if (space === null || typeof space !== "object")
    throw new TypeError(`createAnalyzer: space must be an object with a kind, got ${show(space)}`);
  requireOneOf("createAnalyzer", "space.kind", space.kind, ["plane", "view"]);
  const analysis = createAnalysis(space, resolve(options));
  return { push: (chunk) => takeChunk(analysis, chunk), flush: () => advance(analysis, true) };
}

function resolve(options: AnalyzeOptions): AnalysisOptions {
  const { sampleRateHz, quantum, cutoffHz = DEFAULT_CUTOFF, maxGap = 0.05, prominenceShare = 0.05, minSpacing = 0.06 } = options;
  if (sampleRateHz !== undefined) requireNumber("createAnalyzer", "options.sampleRateHz", sampleRateHz, 0, 1000, true);
  if (quantum !== undefined) requireNumber("createAnalyzer", "options.quantum", quantum, 0, Number.POSITIVE_INFINITY, true);
  requireNumber("createAnalyzer", "options.cutoffHz", cutoffHz, 4, 400);
  requireNumber("createAnalyzer", "options.maxGap", maxGap, 0, 10);
  requireNumber("createAnalyzer", "options.prominenceShare", prominenceShare, 0, 1, true);
  requireNumber("createAnalyzer", "options.minSpacing", minSpacing, 0, 1);
  return {
    ...(sampleRateHz !== undefined && { sampleRateHz }),
    ...(quantum !== undefined && { quantum }),
    cutoffHz,
    maxGap,
    prominenceShare,
    minSpacing,
  };
}
