import { requireNumber, requireOneOf, show } from "../math/require.js";
import { DEFAULT_CUTOFF, MEMORY_PERIODS } from "../trace/condition/butterworth.js";
import type { Chunk, Mark, Press, Space, Target } from "../trace/types.js";
import { type Attempt, type Decision, nextAttempt, type TrialProgress } from "./acquisition/attempts.js";
import { givesEntries, latestIn } from "./acquisition/chunk-news.js";
import { describeAttempt } from "./acquisition/describe-attempt.js";
import { createDeviceGauge, type DeviceGauge } from "./acquisition/device-gauge.js";
import {
  addEndless,
  addMarks,
  addPresses,
  addTargets,
  addTrials,
  forgetTargets,
  markEnd,
  type TrialQueue,
} from "./acquisition/held-entries.js";
import { shrinkAt } from "./acquisition/local-frame.js";
import { positionAt } from "./acquisition/position-at.js";
import { requireChunk } from "./acquisition/require-chunk.js";
import {
  borrowSamples,
  createSampleBuffer,
  forgetSamples,
  keepSamples,
  newestTime,
  type SampleBuffer,
  samplesBetween,
} from "./acquisition/sample-buffer.js";
import { HORIZON, LOOK_BACK, leavesItsPlace } from "./acquisition/view-attempt.js";
import { QUANTA_MOVED } from "./bell/find-submovements.js";
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
  const resolved = resolve(options);
  const { sampleRateHz, quantum, cutoffHz } = resolved;
  const analysis: Analysis = {
    ...{ space, options: resolved, samples: createSampleBuffer(), gauge: createDeviceGauge({ sampleRateHz, quantum, cutoffHz }) },
    ...{ targets: new Map(), queue: { trials: [], ids: new Set(), endless: new Set() }, presses: [], nextPress: 0, marks: [] },
    ...{ clock: Number.NEGATIVE_INFINITY, busyUntil: Number.NEGATIVE_INFINITY, lastHit: undefined },
    ...{ waitsFor: Number.NEGATIVE_INFINITY, forgottenTo: Number.NEGATIVE_INFINITY },
  };
  return { push: (chunk) => take(analysis, chunk), flush: () => advance(analysis, true) };
}

/** What an analyzer knows. Data for functions that stand alone: the code of closures made for each analyzer would be compiled for each. */
interface Analysis {
  readonly space: Space;
  readonly options: ResolvedOptions;
  readonly samples: SampleBuffer;
  readonly gauge: DeviceGauge;
  readonly targets: Map<string, Target>;
  readonly queue: TrialQueue;
  presses: Press[];
  nextPress: number;
  marks: Mark[];
  /** Everything up to here is known. */
  clock: number;
  /** End of the latest acquisition. */
  busyUntil: number;
  lastHit: { readonly target: Target; readonly t: number } | undefined;
  /** Nothing can be decided before all is known up to here, unless more is given. */
  waitsFor: number;
  forgottenTo: number;
}

function take(analysis: Analysis, chunk: Chunk): Acquisition[] {
  const { samples, gauge, targets, queue, presses, marks, clock } = analysis;
  requireChunk(chunk, clock, newestTime(samples));
  borrowSamples(samples, chunk.trace);
  gauge.append(chunk.trace);
  addTargets(targets, chunk.targets ?? []);
  addTrials(queue, chunk.trials ?? [], clock);
  addPresses(presses, chunk.presses ?? [], clock);
  addMarks(marks, chunk.marks ?? []);
  if (givesEntries(chunk)) analysis.waitsFor = Number.NEGATIVE_INFINITY;
  analysis.clock = chunk.until ?? latestIn(chunk, clock);
  const rows = isKnown(analysis, analysis.waitsFor) ? advance(analysis, false) : [];
  const from = neededFrom(analysis);
  if (from !== analysis.forgottenTo) forget(analysis, from);
  keepSamples(samples);
  return rows;
}

/** The acquisitions that can be decided; with `last` all, for nothing more will come. */
function advance(analysis: Analysis, last: boolean): Acquisition[] {
  const { queue } = analysis;
  const rows: Acquisition[] = [];
  for (let progress = queue.trials[0]; progress !== undefined; progress = queue.trials[0]) {
    const decision = progress.trial.kind === "pursue" ? "over" : decide(analysis, progress, last);
    if (decision === "over") {
      queue.trials.shift();
      queue.ids.delete(progress.trial.id);
      if (progress.trial.tEnd === undefined) addEndless(queue, progress.trial.id);
    } else if ("waitsFor" in decision) {
      analysis.waitsFor = decision.waitsFor;
      break;
    } else {
      queue.trials[0] = decision.next;
      analysis.nextPress = decision.nextPress;
      rows.push(describeNext(analysis, decision.attempt));
    }
  }
  return rows;
}

function decide(analysis: Analysis, progress: TrialProgress, last: boolean): Decision {
  const { space, options, samples, targets, presses, nextPress, busyUntil, lastHit } = analysis;
  const reach = reachOf(options);
  return nextAttempt(progress, {
    ...{ targets, presses, nextPress, busyUntil, lastHit },
    pointerAt: (t: number) => positionAt(samplesBetween(samples, t, t + reach), t, reach),
    shrink: (y: number) => shrinkAt(space, y),
    isKnown: (t: number) => last || isKnown(analysis, t),
    close: closeOf(analysis, last),
  });
}

/** The row of the attempt that has been decided next. */
function describeNext(analysis: Analysis, attempt: Attempt): Acquisition {
  const { space, options, samples, gauge, marks, busyUntil: since } = analysis;
  const { target, go, end, outcome } = attempt;
  analysis.busyUntil = end;
  if (outcome === "hit" || outcome === "recovered") analysis.lastHit = { target, t: end };
  const { rate, ...device } = gauge.tell(end + HORIZON);
  // where the pointer rested before go, as it mostly did, the filter needs no more than its own room
  const rested = !leavesItsPlace(samplesBetween(samples, go - LOOK_BACK, go), go - LOOK_BACK, go, QUANTA_MOVED * device.quantum);
  const room = rested ? MEMORY_PERIODS / options.cutoffHz : keptBeforeGo(options);
  const near = samplesBetween(samples, go - room, end + HORIZON, true);
  return describeAttempt(attempt, since, near, marks, { ...options, ...device, space, sampleRateHz: rate });
}

function isKnown({ clock }: Analysis, t: number): boolean {
  return t + HORIZON <= clock;
}

/** When the open trial ends, if that is known. */
function closeOf({ queue, clock }: Analysis, last: boolean): number | undefined {
  const [open, next] = queue.trials;
  const close = Math.min(open?.trial.tEnd ?? Number.POSITIVE_INFINITY, next?.trial.tStart ?? Number.POSITIVE_INFINITY);
  if (close < Number.POSITIVE_INFINITY) return close;
  return last ? clock : undefined;
}

/** What a movement that begins before its go may need: the look-back, and real samples for the filter to settle on, seconds. */
function keptBeforeGo({ cutoffHz }: ResolvedOptions): number {
  return LOOK_BACK + MEMORY_PERIODS / cutoffHz;
}

/** Nothing later than the horizon may count, or a row would depend on where the recording was cut, seconds. */
function reachOf({ maxGap }: ResolvedOptions): number {
  return Math.min(maxGap, HORIZON);
}

/** From here on, later rows may need what was given; it stays where it is while an acquisition lasts. */
function neededFrom({ clock, queue, busyUntil }: Analysis): number {
  const known = clock - HORIZON;
  const open = queue.trials[0];
  return open === undefined ? known : Math.min(known, Math.max(busyUntil, open.trial.tStart));
}

function forget(analysis: Analysis, from: number): void {
  const { options, samples, presses, nextPress, marks, targets, queue } = analysis;
  analysis.forgottenTo = from;
  forgetSamples(samples, from - keptBeforeGo(options));
  analysis.presses = presses.slice(nextPress).filter((press) => press.t >= from);
  analysis.nextPress = 0;
  analysis.marks = marks.filter((mark) => markEnd(mark) >= from - keptBeforeGo(options));
  forgetTargets(targets, queue, from);
}

type ResolvedOptions = Required<Omit<AnalyzeOptions, "sampleRateHz" | "quantum">> & Pick<AnalyzeOptions, "sampleRateHz" | "quantum">;

function resolve(options: AnalyzeOptions): ResolvedOptions {
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
