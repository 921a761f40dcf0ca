import { requireNumber, requireOneOf, show } from "../math/require.js";
import { DEFAULT_CUTOFF, MEMORY_PERIODS } from "../trace/condition/butterworth.js";
import type { Chunk, Mark, Press, Space, Target } from "../trace/types.js";
import { nextAttempt } from "./acquisition/attempts.js";
import { givesEntries, latestIn } from "./acquisition/chunk-news.js";
import { describeAttempt } from "./acquisition/describe-attempt.js";
import { createDeviceGauge } from "./acquisition/device-gauge.js";
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
import { createSampleBuffer } from "./acquisition/sample-buffer.js";
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
  const { sampleRateHz, quantum, cutoffHz, maxGap } = resolved;
  const samples = createSampleBuffer();
  const gauge = createDeviceGauge({ sampleRateHz, quantum, cutoffHz });
  const targets = new Map<string, Target>();
  const queue: TrialQueue = { trials: [], ids: new Set(), endless: new Set() };
  // what a movement that begins before its go may need: the look-back, and real samples for the filter to settle on
  const keptBeforeGo = LOOK_BACK + MEMORY_PERIODS / cutoffHz;
  // nothing later than the horizon may count, or a row would depend on where the recording was cut
  const reach = Math.min(maxGap, HORIZON);
  let presses: Press[] = [];
  let nextPress = 0;
  let marks: Mark[] = [];
  let clock = Number.NEGATIVE_INFINITY;
  let busyUntil = Number.NEGATIVE_INFINITY;
  let lastHit: { target: Target; t: number } | undefined;
  // nothing can be decided before all is known up to here, unless more is given
  let waitsFor = Number.NEGATIVE_INFINITY;
  let forgottenTo = Number.NEGATIVE_INFINITY;

  const isKnown = (t: number): boolean => t + HORIZON <= clock;

  const closeOf = (last: boolean): number | undefined => {
    const [open, next] = queue.trials;
    const close = Math.min(open?.trial.tEnd ?? Number.POSITIVE_INFINITY, next?.trial.tStart ?? Number.POSITIVE_INFINITY);
    if (close < Number.POSITIVE_INFINITY) return close;
    return last ? clock : undefined;
  };

  const advance = (last: boolean): Acquisition[] => {
    const rows: Acquisition[] = [];
    for (let progress = queue.trials[0]; progress !== undefined; progress = queue.trials[0]) {
      const world = {
        targets,
        presses,
        nextPress,
        pointerAt: (t: number) => positionAt(samples.between(t, t + reach), t, reach),
        shrink: (y: number) => shrinkAt(space, y),
        busyUntil,
        lastHit,
        isKnown: (t: number) => last || isKnown(t),
        close: closeOf(last),
      };
      const decision = progress.trial.kind === "pursue" ? "over" : nextAttempt(progress, world);
      if (decision !== "over" && "waitsFor" in decision) {
        waitsFor = decision.waitsFor;
        break;
      }
      if (decision === "over") {
        queue.trials.shift();
        queue.ids.delete(progress.trial.id);
        if (progress.trial.tEnd === undefined) addEndless(queue, progress.trial.id);
        continue;
      }
      const { attempt } = decision;
      queue.trials[0] = decision.next;
      nextPress = decision.nextPress;
      const since = busyUntil;
      busyUntil = attempt.end;
      if (attempt.outcome === "hit" || attempt.outcome === "recovered") lastHit = { target: attempt.target, t: attempt.end };
      const device = gauge.tell(attempt.end + HORIZON);
      // where the pointer rested before go, as it mostly did, the filter needs no more than its own room
      const rested = !leavesItsPlace(
        samples.between(attempt.go - LOOK_BACK, attempt.go),
        attempt.go - LOOK_BACK,
        attempt.go,
        QUANTA_MOVED * device.quantum,
      );
      const room = rested ? MEMORY_PERIODS / cutoffHz : keptBeforeGo;
      const near = samples.between(attempt.go - room, attempt.end + HORIZON, true);
      const { rate, ...known } = device;
      const settings = { ...resolved, ...known, space, sampleRateHz: rate };
      rows.push(describeAttempt(attempt, since, near, marks, settings));
    }
    return rows;
  };

  /** From here on, later rows may need what was given; it stays where it is while an acquisition lasts. */
  const neededFrom = (): number => {
    const known = clock - HORIZON;
    const open = queue.trials[0];
    return open === undefined ? known : Math.min(known, Math.max(busyUntil, open.trial.tStart));
  };

  const forget = (from: number): void => {
    forgottenTo = from;
    samples.forget(from - keptBeforeGo);
    presses = presses.slice(nextPress).filter((press) => press.t >= from);
    nextPress = 0;
    marks = marks.filter((mark) => markEnd(mark) >= from - keptBeforeGo);
    forgetTargets(targets, queue, from);
  };

  return {
    push: (chunk) => {
      requireChunk(chunk, clock, samples.newest());
      samples.borrow(chunk.trace);
      gauge.append(chunk.trace);
      addTargets(targets, chunk.targets ?? []);
      addTrials(queue, chunk.trials ?? [], clock);
      addPresses(presses, chunk.presses ?? [], clock);
      addMarks(marks, chunk.marks ?? []);
      if (givesEntries(chunk)) waitsFor = Number.NEGATIVE_INFINITY;
      clock = chunk.until ?? latestIn(chunk, clock);
      const rows = isKnown(waitsFor) ? advance(false) : [];
      const from = neededFrom();
      if (from !== forgottenTo) forget(from);
      samples.keep();
      return rows;
    },
    flush: () => advance(true),
  };
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
