import type { Estimate } from "../math/estimate.js";
import { normalQuantile } from "../math/normal-quantile.js";
import { requireLevel, requireNumber, requireObject, show } from "../math/require.js";
import { workStages } from "./delay/stages.js";
import type { LatencyStage, LatencyStages } from "./types.js";

const WHERE = "latencyBudget";

/** Options of `latencyBudget`. */
export interface LatencyBudgetOptions {
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. */
  readonly level?: number;
}

/** The way from hand to eye, added up. Seconds. */
export interface LatencyBudget {
  readonly stages: readonly LatencyStage[];
  /** Stages that nothing is known of: they are in no sum. */
  readonly unknown: readonly LatencyStage["stage"][];
  /** Mean delay: the measured one, else the sum of the stages, `tooFew` without any. A lower bound where stages are unknown (`complete` false). */
  readonly mean: Estimate;
  /** Between which ends a single event's delay lies in a share `level` of cases; `null` without stages. */
  readonly single: readonly [number, number] | null;
  /** Standard deviation from event to event. */
  readonly sd: number;
  readonly source: "measured" | "stages" | "none";
  /** Every stage is known, or the whole was measured. */
  readonly complete: boolean;
  /** What a delay does to the measures: how often each pays it. */
  readonly pays: { readonly latency: 1; readonly perCorrection: 1; readonly primary: 0; readonly pursuitLag: 1 };
  readonly options: { readonly level: number };
}

/**
 * From the movement of the hand to the light on the screen: the stages of the delay, their sum, and how sure it is.
 *
 * Waits for a clock (device report, program frame, scan-out) last half an interval on average and vary evenly over it: standard deviation T/sqrt(12). Queued frames add T each. Means
 * add up, variances of independent stages add up (normal approximation of the sum, cut at the possible ends). What is only known to lie between two ends makes the mean unsure, not the
 * events uneven. A value measured end to end overrides the sum. Cost O(1).
 *
 * @param given - what is known, see `LatencyStages`
 * @param options - see `LatencyBudgetOptions`
 * @returns stages, those unknown, mean delay with its interval, spread from event to event, and which measures pay the delay
 * @throws TypeError or RangeError if a rate is not above 0, a duration below 0, its ends are the wrong way round, or an option is out of range
 * @see arithmetic of waiting for a clock (uniform distribution); which stages there are: common practice, no source
 * @example
 * ```ts
 * const { mean, unknown } = latencyBudget({ reportHz: 1000, refreshHz: 144, queuedFrames: 1, render: [0.002, 0.004] });
 * mean; // => { ok: true, value: 0.0174, unit: "s", n: 5, … }
 * unknown; // => ["transfer", "operatingSystem", "pixelResponse"]
 * ```
 */
export function latencyBudget(given: LatencyStages, options: LatencyBudgetOptions = {}): LatencyBudget {
  requireObject(WHERE, "given", given);
  requireStages(given);
  requireObject(WHERE, "options", options);
  const { level = 0.95 } = options;
  requireLevel(WHERE, level);
  const { known, unknown } = workStages(given);
  const { measured } = given;
  const z = normalQuantile((1 + level) / 2);
  const sd = Math.sqrt(known.reduce((sum, stage) => sum + stage.sd ** 2, 0));
  const common = {
    stages: known,
    unknown,
    sd,
    pays: { latency: 1, perCorrection: 1, primary: 0, pursuitLag: 1 } as const,
    options: { level },
  };
  if (measured !== undefined) {
    const [low, high] = typeof measured === "number" ? [measured, measured] : measured;
    const half = (z * (high - low)) / Math.sqrt(12);
    const value = (low + high) / 2;
    const interval = [Math.max(low, value - half), Math.min(high, value + half)] as const;
    const single = known.length === 0 ? interval : ([Math.max(0, value - z * sd - half), value + z * sd + half] as const);
    return { ...common, mean: { ok: true, value, unit: "s", n: 1, interval, level }, single, source: "measured", complete: true };
  }
  if (known.length === 0) {
    return { ...common, mean: { ok: false, why: "tooFew", unit: "s", n: 0 }, single: null, source: "none", complete: false };
  }
  const value = known.reduce((sum, stage) => sum + stage.mean, 0);
  const doubt = Math.sqrt(known.reduce((sum, stage) => sum + stage.doubt ** 2, 0));
  // an even spread reaches no farther than its ends, sqrt(3) standard deviations from the middle
  const reach = known.reduce((sum, stage) => sum + Math.sqrt(3) * stage.doubt, 0);
  const farthest = known.reduce((sum, stage) => sum + Math.sqrt(3) * (stage.doubt + stage.sd), 0);
  const half = Math.min(z * doubt, reach);
  const wide = Math.min(z * Math.hypot(doubt, sd), farthest);
  return {
    ...common,
    mean: { ok: true, value, unit: "s", n: known.length, interval: [value - half, value + half], level },
    single: [Math.max(0, value - wide), value + wide],
    source: "stages",
    complete: unknown.length === 0,
  };
}

function requireStages(given: LatencyStages): void {
  for (const field of ["reportHz", "refreshHz", "frameCapHz"] as const) {
    if (given[field] !== undefined) requireNumber(WHERE, `given.${field}`, given[field], 0, undefined, true);
  }
  if (given.queuedFrames !== undefined) requireNumber(WHERE, "given.queuedFrames", given.queuedFrames, 0);
  for (const field of ["transfer", "operatingSystem", "render", "pixelResponse", "measured"] as const) {
    const value = given[field];
    if (value === undefined) continue;
    if (typeof value === "number") {
      requireNumber(WHERE, `given.${field}`, value, 0);
    } else if (Array.isArray(value) && value.length === 2) {
      requireNumber(WHERE, `given.${field}[0]`, value[0], 0);
      requireNumber(WHERE, `given.${field}[1]`, value[1], value[0]);
    } else {
      throw new TypeError(`${WHERE}: given.${field} must be a number or two numbers, got ${show(value)}`);
    }
  }
}
