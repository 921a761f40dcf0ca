import type { Estimate } from "../math/estimate.js";
import { requireInteger, requireNumber } from "../math/require.js";
import { type Break, findGaps, SHORTEST_GAP } from "./condition/gaps.js";
import { nominalRate } from "./condition/nominal-rate.js";
import { positionQuantum } from "./condition/position-quantum.js";
import { framePaced } from "./quality/frame-paced.js";
import { implausibleJumps } from "./quality/implausible-jumps.js";
import { intervalFigures } from "./quality/interval-figures.js";
import { lostReports } from "./quality/lost-reports.js";
import { isMissingCode, type MissingCode } from "./quality/missing-code.js";
import { polledSteps } from "./quality/polled-steps.js";
import { samplingBouts } from "./quality/sampling-bouts.js";
import type { SamplingReport } from "./quality/sampling-report.js";
import { type SamplingSteps, samplingSteps } from "./quality/sampling-steps.js";
import { samplingSupport } from "./quality/sampling-support.js";
import { samplingWarnings } from "./quality/sampling-warnings.js";
import { timeQuantum } from "./quality/time-quantum.js";
import { requireTrace } from "./require-trace.js";
import type { Trace } from "./types.js";

/** Intervals below which a quantum or a share lost is no more than a guess. */
const LEAST_INTERVALS = 50;
const LENGTH = "space unit";

/** Jitter beyond this share of an interval hides which reports are absent. */
const MOST_SCATTER = 0.25;
/** A step of less than this share of an interval comes in a burst. */
const BURST = 0.25;

export interface AssessSamplingOptions {
  /** What the device writes where it has no position, in the space's unit: a number for either coordinate, or a pair. Such samples are counted and left out. */
  readonly missing?: MissingCode;
  /** Report rate that the device is said to have, Hz; a recording slower than three quarters of it draws a warning. */
  readonly nominalHz?: number;
  /** Refresh rate of the display, Hz. Default: common rates are tried where samples may have been merged once per frame. */
  readonly refreshHz?: number;
  /** Smallest target, in the space's unit; positions coarser than a tenth of it draw a warning. */
  readonly targetWidth?: number;
  /** Duration of the movements in question, seconds, default 0.2, a fast one. Longer movements span more reports and are easier to support. */
  readonly movementTime?: number;
  /** Standard deviation of the time that is to be studied, seconds, default 0.025. A smaller one asks for a finer timing. */
  readonly timingSd?: number;
  /** Most gaps and jumps to list, default 100. The totals count all. */
  readonly listed?: number;
}

/**
 * How a recording was sampled, and which measures it can carry: rate in motion, spread of the intervals, duplicates, gaps, bursts, lost
 * reports, time and position quanta, impossible jumps. Pointing devices report on motion only, so silence at one position is a rest and
 * only intervals in motion (position changes, under 1 s) speak for the device. Every field is defined in `SamplingReport`. O(n log n).
 * Rules for `supports`: 12, 20, 30 reports in a movement for peak speed, peak deceleration, jerk; 60 Hz for tremor; for times, an
 * uncertainty dt/sqrt(12) below a fifth of the spread studied.
 * @param trace - as recorded: neither resampled nor filtered, which would hide what is looked for
 * @param options - code for a missing position, nominal rates, target width, and the movement and spread that `supports` is judged for
 * @returns plain data; a measure that is not supported says `belowResolution`, one that cannot be judged `tooFew`
 * @throws TypeError or RangeError for unequal columns, entries that are not finite, time that runs backward, options out of range
 * @see sampling errors of first and central differences of a minimum-jerk movement, worked out for the rules above; 1.4826: textbook
 * @example
 * ```ts
 * const t = Float64Array.from({ length: 500 }, (_, i) => i / 125);
 * const report = assessSampling({ t, x: t.map((s) => Math.round(400 * s)), y: t.map(() => 0) });
 * report.supports.peakSpeed.ok // => true
 * report.supports.jerk.ok // => false
 * ```
 */
export function assessSampling(trace: Trace, options: AssessSamplingOptions = {}): SamplingReport {
  requireTrace("assessSampling", "trace", trace);
  requireOptions(options);
  const { missing, movementTime = 0.2, timingSd = 0.025, listed = 100 } = options;
  const kept = missing === undefined ? undefined : samplesWithout(trace, missing);
  const read = kept === undefined ? trace : pick(trace, kept);
  const n = read.t.length;
  const steps = samplingSteps(read);
  const rate = nominalRate(read);
  const quantum = positionQuantum(read);
  const gaps = rate === undefined ? [] : findGaps(read, rate, SHORTEST_GAP, quantum ?? 0);
  const holds = gaps.filter((gap) => gap.kind === "hold").length;
  const bursts = { count: rate === undefined ? 0 : countBelow(steps.moving, BURST / rate), of: steps.moving.length };
  const tick = steps.moving.length < LEAST_INTERVALS ? undefined : timeQuantum(steps.dt, read.t[n - 1] ?? 0);
  const polled = rate === undefined || quantum === undefined ? undefined : polledSteps(read, rate, quantum);
  const jumps = quantum === undefined ? [] : implausibleJumps(read, steps, quantum);
  const figures = intervalFigures(steps, rate);
  const found: Omit<SamplingReport, "warnings"> = {
    n,
    duration: n === 0 ? 0 : read.t[n - 1]! - read.t[0]!,
    missing: trace.t.length - n,
    ...figures,
    rate: estimate(rate, "Hz", steps.moving.length, "tooFew"),
    duplicates: { count: steps.withMovement + steps.samePosition, withMovement: steps.withMovement, samePosition: steps.samePosition },
    bursts,
    gaps: {
      count: gaps.length,
      holds,
      missing: gaps.length - holds,
      longest: gaps.reduce((longest, gap) => Math.max(longest, gap.to - gap.from), 0),
      list: longestGaps(gaps, listed),
    },
    bouts: samplingBouts(steps, gaps),
    lostReports: lostShare(steps, rate, quantum, figures.jitter),
    framePaced: rate === undefined ? { suspected: false } : framePaced(steps, 1 / rate, options.refreshHz),
    timeQuantum: estimate(tick, "s", steps.moving.length, steps.moving.length < LEAST_INTERVALS ? "tooFew" : "notIdentified"),
    positionQuantum: estimate(quantum, LENGTH, steps.moving.length, "tooFew"),
    jumps: { count: jumps.length, indices: jumps.slice(0, listed).map((i) => kept?.[i] ?? i) },
    supports: samplingSupport(rate, tick, movementTime, timingSd),
    options: { movementTime, timingSd, listed },
  };
  return { ...found, warnings: samplingWarnings(found, polled, options) };
}

function requireOptions(options: AssessSamplingOptions): void {
  const where = "assessSampling";
  const { missing } = options;
  if (typeof missing === "object" && missing !== null) {
    requireNumber(where, "options.missing.x", missing.x);
    requireNumber(where, "options.missing.y", missing.y);
  } else if (missing !== undefined) requireNumber(where, "options.missing", missing);
  for (const name of ["nominalHz", "refreshHz", "targetWidth", "movementTime", "timingSd"] as const) {
    const value = options[name];
    if (value !== undefined) requireNumber(where, `options.${name}`, value, 0, Number.POSITIVE_INFINITY, true);
  }
  if (options.listed !== undefined) requireInteger(where, "options.listed", options.listed, 0);
}

function samplesWithout(trace: Trace, missing: MissingCode): number[] {
  const kept: number[] = [];
  for (let i = 0; i < trace.t.length; i++) if (!isMissingCode(missing, trace.x[i]!, trace.y[i]!)) kept.push(i);
  return kept;
}

function pick(trace: Trace, kept: readonly number[]): Trace {
  const column = (from: Float64Array): Float64Array => Float64Array.from(kept, (i) => from[i]!);
  return { t: column(trace.t), x: column(trace.x), y: column(trace.y) };
}

/** Entries of an ascending column below `limit`. */
function countBelow(column: Float64Array, limit: number): number {
  let count = 0;
  while (count < column.length && column[count]! < limit) count++;
  return count;
}

function estimate(value: number | undefined, unit: string, n: number, why: "tooFew" | "notIdentified"): Estimate {
  return value === undefined ? { ok: false, why, unit, n } : { ok: true, value, unit, n };
}

function lostShare(steps: SamplingSteps, rate: number | undefined, quantum: number | undefined, jitter: Estimate): Estimate {
  if (rate === undefined || quantum === undefined) return estimate(undefined, "", 0, "tooFew");
  const { lost, due, intervals } = lostReports(steps, 1 / rate, quantum);
  if (intervals < LEAST_INTERVALS) return estimate(undefined, "", intervals, "tooFew");
  // stamps that scatter by a large part of an interval cannot tell a late report from a lost one
  const scattered = jitter.ok && jitter.value * rate > MOST_SCATTER;
  return estimate(scattered ? undefined : lost / due, "", intervals, "notIdentified");
}

function longestGaps(gaps: readonly Break[], listed: number): SamplingReport["gaps"]["list"] {
  const chosen = gaps.length <= listed ? [...gaps] : [...gaps].sort((a, b) => b.to - b.from - (a.to - a.from)).slice(0, listed);
  return chosen.sort((a, b) => a.from - b.from).map(({ from, to, kind, jump }) => ({ from, to, kind, jump }));
}
