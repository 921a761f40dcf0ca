import { MEMORY_PERIODS } from "../../trace/condition/butterworth.js";
import type { Chunk, Mark, Press, Space, Target } from "../../trace/types.js";
import { QUANTA_MOVED } from "../bell/find-submovements.js";
import type { Acquisition } from "../types.js";
import { type Attempt, type Decision, nextAttempt, type TrialProgress } from "./attempts.js";
import { givesEntries, latestIn } from "./chunk-news.js";
import { describeAttempt } from "./describe-attempt.js";
import { createDeviceGauge, type DeviceGauge } from "./device-gauge.js";
import { addEndless, addMarks, addPresses, addTargets, addTrials, forgetTargets, markEnd, type TrialQueue } from "./held-entries.js";
import { shrinkAt } from "./local-frame.js";
import { positionAt } from "./position-at.js";
import { requireChunk } from "./require-chunk.js";
import {
  borrowSamples,
  createSampleBuffer,
  forgetSamples,
  keepSamples,
  newestTime,
  type SampleBuffer,
  samplesBetween,
} from "./sample-buffer.js";
import { type DescribeSettings, HORIZON, LOOK_BACK, leavesItsPlace } from "./view-attempt.js";

/** Options of an analysis, what was left out filled in; without a rate or a quantum they are told from the first samples. */
export interface AnalysisOptions extends Pick<DescribeSettings, "cutoffHz" | "maxGap" | "prominenceShare" | "minSpacing"> {
  readonly sampleRateHz?: number;
  readonly quantum?: number;
}

/** What an analyzer knows. Data for functions that stand alone: the code of closures made for each analyzer would be compiled for each. */
export interface Analysis {
  readonly space: Space;
  readonly options: AnalysisOptions;
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

/** An analysis to which nothing has been given yet. */
export function createAnalysis(space: Space, options: AnalysisOptions): Analysis {
  const { sampleRateHz, quantum, cutoffHz } = options;
  return {
    ...{ space, options, samples: createSampleBuffer(), gauge: createDeviceGauge({ sampleRateHz, quantum, cutoffHz }) },
    ...{ targets: new Map(), queue: { trials: [], ids: new Set(), endless: new Set() }, presses: [], nextPress: 0, marks: [] },
    ...{ clock: Number.NEGATIVE_INFINITY, busyUntil: Number.NEGATIVE_INFINITY, lastHit: undefined },
    ...{ waitsFor: Number.NEGATIVE_INFINITY, forgottenTo: Number.NEGATIVE_INFINITY },
  };
}

/** Takes the next chunk and gives the acquisitions that it makes final. */
export function takeChunk(analysis: Analysis, chunk: Chunk): Acquisition[] {
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
export function advance(analysis: Analysis, last: boolean): Acquisition[] {
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
function keptBeforeGo({ cutoffHz }: AnalysisOptions): number {
  return LOOK_BACK + MEMORY_PERIODS / cutoffHz;
}

/** Nothing later than the horizon may count, or a row would depend on where the recording was cut, seconds. */
function reachOf({ maxGap }: AnalysisOptions): number {
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
