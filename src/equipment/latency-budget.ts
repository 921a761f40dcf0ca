import type { Estimate } from "../math/estimate.js";
import { normalQuantile } from "../math/normal-quantile.js";
import { requireLevel, requireNumber, requireObject } from "../math/require.js";
import { delayPayments } from "./delay/delay-payments.js";
import { durationSpread, requireDuration } from "./delay/duration.js";
import { workStages } from "./delay/stages.js";
import type { DelayPayment, Duration, LatencyStage, LatencyStages } from "./types.js";

const WHERE = "latencyBudget";

/** Options of `latencyBudget`. */
export interface LatencyBudgetOptions {
  /** Corrections per acquisition, at least 0, default 1: each pays the delay once. Raised, `pays` asks more of correction and acquisition time. */
  readonly loops?: number;
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. Raised, they widen. */
  readonly level?: number;
}

/** The way from hand to eye, added up. Seconds. */
export interface LatencyBudget {
  readonly stages: readonly LatencyStage[];
  /** Stages that nothing is known of: they are in no sum, and are not taken for 0. */
  readonly unknown: readonly LatencyStage["stage"][];
  /** Mean delay, the measured one or the sum of all stages; `missingData` while a stage is unknown. Without interval where a single number was measured. */
  readonly mean: Estimate;
  /** Mean of the known stages together: the whole is at least so long. `missingData` without any. */
  readonly known: Estimate;
  /** What was measured less the known stages: what is left for the unknown ones. `missingData` without a measured value or stages. */
  readonly rest: Estimate;
  /** Between which ends the delay of a single event lies in a share `level` of cases, known stages only where nothing was measured; `null` without stages. */
  readonly single: readonly [number, number] | null;
  /** Standard deviation from event to event, of the known waits. */
  readonly sd: number;
  /** Age of what is seen when it begins to be shown: the wait for a frame, and the queued frames; `null` without a refresh rate. */
  readonly frameAge: { readonly mean: number; readonly sd: number } | null;
  readonly source: "measured" | "stages" | "none";
  /** What a delay does to the measures: how often each pays it. */
  readonly pays: readonly DelayPayment[];
  readonly options: { readonly loops: number; readonly level: number };
}

/**
 * From the movement of the hand to the light on the screen: the stages of the delay, their sum, and how sure it is.
 *
 * Waits for a clock (device report, program frame, scan-out) last T/2 on average and vary evenly over T: standard deviation T/sqrt(12). A queued frame adds T.
 * Means add up, and variances of independent stages (root sum of squares, normal, cut where the ends of all stages lie). What is known only to lie between
 * two ends makes the mean unsure, not the events uneven. A value measured end to end overrides the sum. Cost O(1).
 *
 * @param given - what is known, see `LatencyStages`
 * @param options - see `LatencyBudgetOptions`
 * @returns stages, those unknown, mean delay with its interval, spread from event to event, and which measures pay the delay
 * @throws TypeError or RangeError if a rate is not above 0, a duration below 0, its ends are the wrong way round, or an option is out of range
 * @see arithmetic of waiting for a clock (uniform distribution); which stages there are: common practice, no source
 * @example
 * ```ts
 * const { mean, known, unknown, frameAge } = latencyBudget({ reportHz: 1000, refreshHz: 144, queuedFrames: 1, render: [0.002, 0.004] });
 * mean; // => { ok: false, why: "missingData", unit: "s", n: 5 }
 * known; // => { ok: true, value: 0.0174, unit: "s", n: 5, interval: [0.0164, 0.0184], level: 0.95 }
 * unknown; // => ["transfer", "operatingSystem", "pixelResponse"]
 * frameAge!.mean; // => 0.0104
 * ```
 */
export function latencyBudget(given: LatencyStages, options: LatencyBudgetOptions = {}): LatencyBudget {
  requireObject(WHERE, "given", given);
  requireStages(given);
  requireObject(WHERE, "options", options);
  const { loops = 1, level = 0.95 } = options;
  requireNumber(WHERE, "options.loops", loops, 0);
  requireLevel(WHERE, level);
  const { known: stages, unknown } = workStages(given);
  const z = normalQuantile((1 + level) / 2);
  const sum = addedUp(stages);
  const known = stages.length === 0 ? missing(0) : estimate(sum.mean, sum.doubt, sum.surely, stages.length, z, level);
  const measured = given.measured === undefined ? undefined : measuredDelay(given.measured, z, level);
  return {
    stages,
    unknown,
    mean: measured ?? (unknown.length === 0 ? known : missing(stages.length)),
    known,
    rest: restOf(given.measured, sum, stages.length, z, level),
    single: singleEvent(given.measured, sum, stages.length, z),
    sd: sum.sd,
    frameAge: frameAgeOf(stages),
    source: measured !== undefined ? "measured" : stages.length > 0 ? "stages" : "none",
    pays: delayPayments(loops),
    options: { loops, level },
  };
}

type Ends = readonly [number, number];

/** Sums over stages: of means, standard deviations by root sum of squares, and the ends of the mean and of a single event. */
interface Sum {
  readonly mean: number;
  readonly sd: number;
  readonly doubt: number;
  readonly surely: Ends;
  readonly event: Ends;
}

function addedUp(stages: readonly LatencyStage[]): Sum {
  const add = (of: (stage: LatencyStage) => number): number => stages.reduce((sum, stage) => sum + of(stage), 0);
  // a wait has a mean that is known to the end; the other stages are the same at every event
  const end = (stage: LatencyStage, side: "low" | "high"): number => (stage.sd > 0 ? stage.mean : stage[side]);
  return {
    mean: add(({ mean }) => mean),
    sd: Math.sqrt(add(({ sd }) => sd * sd)),
    doubt: Math.sqrt(add(({ doubt }) => doubt * doubt)),
    surely: [add((stage) => end(stage, "low")), add((stage) => end(stage, "high"))],
    event: [add(({ low }) => low), add(({ high }) => high)],
  };
}

function cut(value: number, half: number, [low, high]: Ends): Ends {
  // the value itself lies within its ends, up to rounding
  return [Math.min(value, Math.max(low, value - half)), Math.max(value, Math.min(high, value + half))];
}

function estimate(value: number, sd: number, ends: Ends, n: number, z: number, level: number): Estimate {
  return { ok: true, value, unit: "s", n, interval: cut(value, z * sd, ends), level };
}

function missing(n: number): Estimate {
  return { ok: false, why: "missingData", unit: "s", n };
}

/** How sure a single number is nobody says. */
function measuredDelay(measured: Duration, z: number, level: number): Estimate {
  const { mean, sd, low, high } = durationSpread(measured);
  return typeof measured === "number" ? { ok: true, value: mean, unit: "s", n: 1 } : estimate(mean, sd, [low, high], 1, z, level);
}

function restOf(measured: Duration | undefined, sum: Sum, n: number, z: number, level: number): Estimate {
  if (measured === undefined || n === 0) return missing(n);
  const { mean, sd, low, high } = durationSpread(measured);
  const ends: Ends = [low - sum.surely[1], high - sum.surely[0]];
  return estimate(mean - sum.mean, Math.hypot(sd, sum.doubt), ends, n + 1, z, level);
}

function singleEvent(measured: Duration | undefined, sum: Sum, n: number, z: number): Ends | null {
  if (measured === undefined) return n === 0 ? null : cut(sum.mean, z * Math.hypot(sum.sd, sum.doubt), sum.event);
  const { mean, sd, low, high } = durationSpread(measured);
  const reach: Ends = [Math.max(0, low - (sum.mean - sum.event[0])), high + (sum.event[1] - sum.mean)];
  return cut(mean, z * Math.hypot(sd, sum.sd), reach);
}

function frameAgeOf(stages: readonly LatencyStage[]): LatencyBudget["frameAge"] {
  const [wait, queue] = (["frameWait", "queue"] as const).map((name) => stages.find(({ stage }) => stage === name));
  return wait === undefined ? null : { mean: wait.mean + (queue?.mean ?? 0), sd: wait.sd };
}

function requireStages(given: LatencyStages): void {
  for (const field of ["reportHz", "refreshHz", "frameCapHz"] as const) {
    if (given[field] !== undefined) requireNumber(WHERE, `given.${field}`, given[field], 0, undefined, true);
  }
  if (given.queuedFrames !== undefined) requireNumber(WHERE, "given.queuedFrames", given.queuedFrames, 0);
  for (const field of ["transfer", "operatingSystem", "render", "pixelResponse", "measured"] as const) {
    const value = given[field];
    if (value !== undefined) requireDuration(WHERE, `given.${field}`, value);
  }
}
