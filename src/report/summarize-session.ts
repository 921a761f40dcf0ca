import { displayTiming } from "../equipment/index.js";
import { requireLevel, requireObject } from "../math/require.js";
import { VERSION } from "../math/version.js";
import { analyze } from "../movement/analyze.js";
import { summarize } from "../movement/summarize.js";
import { analyzePursuit } from "../pursuit/analyze-pursuit.js";
import { analyzeSequence } from "../sequence/analyze-sequence.js";
import { assessSampling } from "../trace/assess-sampling.js";
import { requireSession } from "../trace/form/require-session.js";
import type { Recording, Session } from "../trace/types.js";
import { oneSpace } from "./session/one-space.js";
import { sessionWarnings } from "./session/session-warnings.js";
import type { SessionSummary } from "./types.js";

const WHERE = "summarizeSession";

/** Options of `summarizeSession`. */
export interface SummarizeSessionOptions {
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. Higher makes them wider. */
  readonly level?: number;
}

/**
 * One sitting in figures: its acquisitions, where their time and accuracy went, how it was sampled and shown, its sequences and pursuits.
 *
 * Everything that later steps need (`compareSessions`, `reviewPractice`) is in the result, so that the samples can be let go: a study of any size needs
 * the memory of its largest session. Cost O(samples).
 *
 * @param session - one sitting of one person: recordings in one space, each with its trials and targets
 * @param options - see `SummarizeSessionOptions`
 * @returns rows, `summarize` of them, sampling per recording, display timing where frames were recorded, sequences, pursuits, warnings; plain data
 * @throws RangeError or TypeError if the session contradicts itself, its recordings have two spaces or units, or the level is out of range
 * @see the pages of `analyze`, `summarize`, `assessSampling`, `displayTiming`, `analyzeSequence` and `analyzePursuit`, from which it is put together
 * @example
 * ```ts
 * const { recording } = simulateRecording({ seed: 7, movements: 30 });
 * const session = { person: "Ada", startedAt: "2026-03-02T18:00:00+01:00", equipment: { id: "desk" }, recordings: [recording] };
 * const { rows, warnings } = summarizeSession(session);
 * rows.length; // => 30
 * warnings; // => ["equipmentUnknown"]
 * ```
 */
export function summarizeSession(session: Session, options: SummarizeSessionOptions = {}): SessionSummary {
  requireObject(WHERE, "options", options);
  const { level = 0.95 } = options;
  requireLevel(WHERE, level);
  requireSession(WHERE, session, false);
  const space = oneSpace(WHERE, session);
  const { person, startedAt, equipment, recordings } = session;
  const analysed = recordings.map((recording) => ({ recording, rows: analyze(recording) }));
  const rows = analysed.flatMap((one) => one.rows).sort((a, b) => a.times.go - b.times.go);
  const sampling = recordings.map(({ trace }) => assessSampling(trace));
  const display = timingOf(recordings, equipment.refreshHz, equipment.frameCapHz);
  const summary = summarize(rows, { unit: space.unit, level });
  return {
    header: { library: "aimed-movement", version: VERSION, schema: 1, options: { level } },
    person,
    startedAt,
    equipment,
    space,
    devices: [...new Set(recordings.map(({ device }) => device))],
    minutes: summary.time.wall / 60,
    rows,
    sampling,
    ...(display && { display }),
    summary,
    sequences: analysed.flatMap((one) =>
      hasTrials(one.recording, "sequence") ? [analyzeSequence(one.recording, one.rows, { level })] : [],
    ),
    pursuits: recordings.flatMap((recording) => (hasTrials(recording, "pursue") ? analyzePursuit(recording, { level }) : [])),
    warnings: sessionWarnings(rows, sampling, display, equipment),
  };
}

function hasTrials(recording: Recording, kind: "sequence" | "pursue"): boolean {
  return recording.trials.some((trial) => trial.kind === kind);
}

/** Timing of the longest run of frames: gaps between recordings are no stalls. */
function timingOf(recordings: readonly Recording[], nominalHz: number | undefined, capHz: number | undefined): SessionSummary["display"] {
  const [longest] = recordings.flatMap(({ frames }) => frames ?? []).sort((a, b) => b.length - a.length);
  if (longest === undefined || longest.length === 0) return undefined;
  return displayTiming(longest, { ...(nominalHz !== undefined && { nominalHz }), ...(capHz !== undefined && { capHz }) });
}
