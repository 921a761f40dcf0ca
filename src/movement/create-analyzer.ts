import { requireNumber, show } from "../math/require.js";
import { nominalRate } from "../trace/nominal-rate.js";
import { noiseFloor } from "../trace/noise-floor.js";
import { positionQuantum } from "../trace/position-quantum.js";
import { requireTrace } from "../trace/require-trace.js";
import type { Chunk, Mark, Press, Space, Target, Trial } from "../trace/types.js";
import { nextAttempt, type TrialProgress } from "./attempts.js";
import { describeAttempt } from "./describe-attempt.js";
import { shrinkAt } from "./local-frame.js";
import { positionAt } from "./position-at.js";
import { createSampleBuffer } from "./sample-buffer.js";
import { firstAfter } from "./target-position.js";
import type { Acquisition } from "./types.js";
import { HORIZON, LOOK_BACK } from "./view-attempt.js";

/** The rate and the quantum of the device are taken from this many samples at the most, the first ones. */
const SAMPLES_TO_TELL = 2048;
/** The filter has settled after this many periods of its cutoff. */
const FILTER_PERIODS = 3;

/** Options of `createAnalyzer` and `analyze`. */
export interface AnalyzeOptions {
  /** Rate of the even grid, Hz, above 0 and at most 1000. Default: the device's own rate, told from its first samples in motion. */
  readonly sampleRateHz?: number;
  /** Step of the position readings, in the space's unit, above 0. Default: told from the first samples. Raising it hides smaller corrections. */
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
 * A row is final 0.2 s after its deciding press (a missed or unpressed one when its trial is over) and depends only on what happened up to then, so it does
 * not matter where the recording was cut; `analyze` is one push and a flush. Conditioning, submovements and boundaries: see `kinematics`,
 * `detectSubmovements` and `Times`; go is the latest of target shown, trial started and the end of the acquisition before. Memory grows with
 * the longest acquisition, not with the recording; cost is linear in the samples.
 * A press hits by its own `credited` where given, else by geometry. Trials of kind `pursue` give no rows.
 *
 * @param space - the frame of the recording
 * @param options - see `AnalyzeOptions`
 * @returns an analyzer with `push` and `flush`; `push` throws RangeError or TypeError, naming the field, when a chunk contradicts itself or what came before
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
  const resolved = resolve(options);
  const samples = createSampleBuffer();
  const opening = createSampleBuffer();
  const targets = new Map<string, Target>();
  const queue: TrialProgress[] = [];
  const endless = new Set<string>();
  // what a movement that begins before its go may need: the look-back, and real samples for the filter to settle on
  const keptBeforeGo = LOOK_BACK + FILTER_PERIODS / resolved.cutoffHz;
  let presses: Press[] = [];
  let marks: Mark[] = [];
  let clock = Number.NEGATIVE_INFINITY;
  let busyUntil = Number.NEGATIVE_INFINITY;
  let device: { known: number; rate: number | undefined; quantum: number; noise: number } | undefined;

  const tellDevice = (known: number): NonNullable<typeof device> => {
    // once the opening is full and past, nothing can change the answer
    if (device !== undefined && opening.size() >= SAMPLES_TO_TELL && device.known >= opening.newest()) return device;
    const seen = opening.between(Number.NEGATIVE_INFINITY, known);
    const rate = resolved.sampleRateHz ?? nominalRate(seen);
    const quantum = resolved.quantum ?? positionQuantum(seen) ?? 0;
    const capped = rate === undefined ? undefined : Math.min(rate, 1000);
    if (device?.rate !== capped || device?.quantum !== quantum) {
      const noise = capped === undefined ? 0 : noiseFloor(quantum, capped, Math.min(resolved.cutoffHz, 0.45 * capped)).speed;
      device = { known, rate: capped, quantum, noise };
    }
    device = { ...device!, known };
    return device;
  };

  const advance = (known: number, last: boolean): Acquisition[] => {
    const rows: Acquisition[] = [];
    while (queue.length > 0) {
      const progress = queue[0]!;
      const decision = progress.trial.kind === "pursue" ? "over" : nextAttempt(progress, {
        targets,
        presses,
        pointerAt: (t) => positionAt(samples.between(t, t + resolved.maxGap), t, resolved.maxGap),
        shrink: (y) => shrinkAt(space, y),
        busyUntil,
        known,
        close: progress.trial.tEnd ?? queue[1]?.trial.tStart ?? (last ? clock : undefined),
      });
      if (decision === "wait") break;
      if (decision === "over") {
        queue.shift();
        if (progress.trial.tEnd === undefined) endless.add(progress.trial.id);
        continue;
      }
      const { attempt, used, next } = decision;
      presses = presses.slice(used);
      queue[0] = next;
      busyUntil = attempt.end;
      const told = tellDevice(attempt.end + HORIZON);
      const near = samples.between(attempt.go - keptBeforeGo, attempt.end + HORIZON, true);
      rows.push(describeAttempt(attempt, near, marks, { ...resolved, space, sampleRateHz: told.rate, quantum: told.quantum, noise: told.noise }));
    }
    forget(known);
    return rows;
  };

  const forget = (known: number): void => {
    const open = queue[0];
    const from = Math.min(known, open === undefined ? known : Math.max(busyUntil, open.trial.tStart));
    samples.forget(from - keptBeforeGo);
    presses = presses.filter((press) => press.t >= from);
    marks = marks.filter((mark) => (mark.tEnd ?? mark.t) >= from - keptBeforeGo);
    if (open !== undefined) return;
    for (const [id, target] of targets) if (target.tGone !== undefined && target.tGone < from) targets.delete(id);
  };

  return {
    push: (chunk) => {
      requireTrace("createAnalyzer", "chunk.trace", chunk.trace);
      const until = chunk.until ?? latest(chunk, clock);
      requireNumber("createAnalyzer", "chunk.until", until, clock);
      const { t } = chunk.trace;
      if (t.length > 0 && t[0]! < samples.newest()) {
        throw new RangeError(`createAnalyzer: chunk.trace.t must not run backward across chunks, got ${t[0]} after ${samples.newest()}`);
      }
      samples.append(chunk.trace);
      const room = SAMPLES_TO_TELL - opening.size();
      if (room > 0) opening.append(firstSamples(chunk.trace, room));
      for (const target of chunk.targets ?? []) targets.set(target.id, target);
      for (const trial of chunk.trials ?? []) queueTrial(queue, endless, trial, clock);
      presses = mergePresses(presses, chunk.presses ?? [], clock);
      marks = [...marks, ...(chunk.marks ?? [])];
      clock = until;
      return advance(clock - HORIZON, false);
    },
    flush: () => advance(Number.POSITIVE_INFINITY, true),
  };
}

type ResolvedOptions = Required<Omit<AnalyzeOptions, "sampleRateHz" | "quantum">> & Pick<AnalyzeOptions, "sampleRateHz" | "quantum">;

function resolve(options: AnalyzeOptions): ResolvedOptions {
  const { sampleRateHz, quantum, cutoffHz = 20, maxGap = 0.05, prominenceShare = 0.05, minSpacing = 0.06 } = options;
  if (sampleRateHz !== undefined) requireNumber("createAnalyzer", "options.sampleRateHz", sampleRateHz, 0, 1000, true);
  if (quantum !== undefined) requireNumber("createAnalyzer", "options.quantum", quantum, 0, Number.POSITIVE_INFINITY, true);
  requireNumber("createAnalyzer", "options.cutoffHz", cutoffHz, 4, 400);
  requireNumber("createAnalyzer", "options.maxGap", maxGap, 0, 10);
  requireNumber("createAnalyzer", "options.prominenceShare", prominenceShare, 0, 1, true);
  requireNumber("createAnalyzer", "options.minSpacing", minSpacing, 0, 1);
  return { ...(sampleRateHz !== undefined && { sampleRateHz }), ...(quantum !== undefined && { quantum }), cutoffHz, maxGap, prominenceShare, minSpacing };
}

/** Latest time that a chunk speaks of, ends that lie ahead not counted. */
function latest(chunk: Chunk, clock: number): number {
  const { t } = chunk.trace;
  const times = [
    ...(chunk.presses ?? []).map((press) => press.t),
    ...(chunk.targets ?? []).map((target) => target.tShown),
    ...(chunk.trials ?? []).map((trial) => trial.tStart),
    ...(chunk.marks ?? []).map((mark) => mark.t),
  ];
  const frame = chunk.frames?.[chunk.frames.length - 1] ?? clock;
  return times.reduce((most, time) => Math.max(most, time), Math.max(clock, t.length > 0 ? t[t.length - 1]! : clock, frame));
}

function firstSamples(trace: Chunk["trace"], count: number): Chunk["trace"] {
  return { t: trace.t.subarray(0, count), x: trace.x.subarray(0, count), y: trace.y.subarray(0, count) };
}

/** Puts a trial in the queue in order of its start, or replaces the same trial there. */
function queueTrial(queue: TrialProgress[], endless: Set<string>, trial: Trial, clock: number): void {
  const known = queue.findIndex((progress) => progress.trial.id === trial.id);
  if (known >= 0) {
    queue[known] = { ...queue[known]!, trial };
    return;
  }
  // the end of a trial whose goals were all acquired before it
  if (endless.delete(trial.id)) return;
  if (trial.tStart < clock) {
    throw new RangeError(`createAnalyzer: trial ${show(trial.id)} must not begin before what was given already (${clock}), got tStart ${trial.tStart}`);
  }
  const at = queue.findIndex((progress) => progress.trial.tStart > trial.tStart);
  queue.splice(at < 0 ? queue.length : at, 0, { trial, remaining: trial.goals });
}

/** Adds new presses in time order; a press given again completes the earlier one. */
function mergePresses(held: readonly Press[], given: readonly Press[], clock: number): Press[] {
  const merged = [...held];
  for (const press of given) {
    const known = merged.findIndex((other) => other.t === press.t && other.by === press.by && other.code === press.code);
    if (known >= 0) merged[known] = press;
    else if (press.t >= clock || press.tUp === undefined || press.tUp >= clock) merged.splice(firstAfter(Float64Array.from(merged, (p) => p.t), press.t), 0, press);
    else throw new RangeError(`createAnalyzer: a press must not come before what was given already (${clock}), got t ${press.t}`);
  }
  return merged;
}
