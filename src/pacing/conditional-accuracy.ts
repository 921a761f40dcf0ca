import type { Estimate } from "../math/estimate.js";
import { meanAndSd } from "../math/mean-and-sd.js";
import { medianInPlace } from "../math/median.js";
import { normalQuantile } from "../math/normal-quantile.js";
import { proportionEstimate } from "../math/proportion-estimate.js";
import { requireInteger, requireLevel } from "../math/require.js";
import { binaryRegression } from "./hits/binary-regression.js";
import { pick, type ReadTrials, readTrials } from "./scatter/read-trials.js";
import type { PaceTarget, PaceTrials } from "./types.js";

const WHERE = "conditionalAccuracy";
/** Presses that a slope needs. */
const LEAST_FOR_SLOPE = 20;

/** Options of `conditionalAccuracy`. */
export interface ConditionalAccuracyOptions {
  /** Bins of equally many presses, 2 to 20, default 5. More show more of the shape, and each is less sure. */
  readonly bins?: number;
  /** Fewest presses in a bin, at least 5, default 20. Lowered, fewer trials give bins, and their intervals are wide. */
  readonly least?: number;
  /** Outline of the targets where no column `hit` is given, as in `fitSpeedAccuracy`. */
  readonly shape?: PaceTarget;
  /** Confidence level, above 0 and below 1, default 0.95. */
  readonly level?: number;
}

/** Presses of one instruction whose movement times lie between two quantiles. */
export interface ConditionalBin {
  /** Shortest and longest movement time in it, and their median, seconds. */
  readonly from: number;
  readonly to: number;
  readonly movementTime: number;
  readonly n: number;
  /** Share that hit, with its Wilson interval. */
  readonly hitShare: Estimate;
}

/** Hits against movement time within one instruction. */
export interface ConditionalCurve {
  readonly pace: string;
  readonly n: number;
  /** Trials without a press: they have no movement time, and stand in no bin. */
  readonly timeouts: number;
  /** Fastest first; empty with fewer than `bins` times `least` presses. */
  readonly bins: readonly ConditionalBin[];
  /** Growth of ln(P/(1 - P)) with movement time, per second: below 0, the slower trials of this instruction hit less. `tooFew` under 20 presses, `notIdentified` where hits and misses are separated or times equal. */
  readonly slope: Estimate;
}

/**
 * Hits against movement time within one instruction, in bins of equally many presses: never the ground for setting a pace.
 *
 * Slow trials of one instruction are often those in which something went wrong and was mended, so that within an instruction slower can go with fewer hits
 * while a slower instruction brings more (and the reverse). To find a pace, ask for different paces and use `fitSpeedAccuracy`. Each label of `trials.pace` is an
 * instruction of its own, and is never pooled with another. Slope: logistic regression, maximum likelihood, Wald interval. Cost O(n log n).
 *
 * @param trials - trials as for `fitSpeedAccuracy`; without labels all are of one instruction
 * @param options - see `ConditionalAccuracyOptions`
 * @returns for each instruction, in order of appearance, its bins and the slope
 * @throws TypeError or RangeError if a column or an option is not as described
 * @see Heitz 2014 (review of such functions; read in part); Wilson 1927 (from memory)
 * @example
 * ```ts
 * const movementTime = Float64Array.from({ length: 100 }, (_, i) => 0.4 + i / 500);
 * const column = (value: number) => new Float64Array(100).fill(value);
 * const hit = Float64Array.from({ length: 100 }, (_, i) => (i % 10 < 9 - i / 25 ? 1 : 0));
 * const [one] = conditionalAccuracy({ movementTime, amplitude: column(400), width: column(40), along: column(0), hit });
 * one!.bins.map(({ hitShare }) => hitShare.ok && hitShare.value); // => [0.9, 0.8, 0.75, 0.65, 0.6]
 * one!.slope.ok && one!.slope.value < 0; // => true
 * ```
 */
export function conditionalAccuracy(trials: PaceTrials, options: ConditionalAccuracyOptions = {}): ConditionalCurve[] {
  const { bins = 5, least = 20, level = 0.95 } = options;
  const all = readTrials(WHERE, trials, options.shape);
  requireInteger(WHERE, "options.bins", bins, 2, 20);
  requireInteger(WHERE, "options.least", least, 5);
  requireLevel(WHERE, level);
  const labels = [...new Set(all.pace ?? (all.n === 0 ? [] : [""]))];
  return labels.map((label) => {
    const one = pick(all, (i) => all.pace === undefined || all.pace[i] === label);
    const presses = pick(one, (i) => one.pressed[i] === 1);
    return {
      pace: label,
      n: one.n,
      timeouts: one.n - presses.n,
      bins: presses.n < bins * least ? [] : binsOf(presses, bins, level),
      slope: slopeOf(presses, level),
    };
  });
}

function binsOf({ movementTime, hit, n }: ReadTrials, bins: number, level: number): ConditionalBin[] {
  const order = Array.from(movementTime, (_, i) => i).sort((i, j) => movementTime[i]! - movementTime[j]! || i - j);
  return Array.from({ length: bins }, (_, k) => {
    const members = order.slice(Math.round((k * n) / bins), Math.round(((k + 1) * n) / bins));
    const times = Float64Array.from(members, (i) => movementTime[i]!);
    const hits = members.filter((i) => hit[i] === 1).length;
    return {
      from: times[0]!,
      to: times.at(-1)!,
      movementTime: medianInPlace(times.slice()),
      n: members.length,
      hitShare: proportionEstimate(hits, members.length, level),
    };
  });
}

function slopeOf({ movementTime, hit, n }: ReadTrials, level: number): Estimate {
  if (n < LEAST_FOR_SLOPE) return { ok: false, why: "tooFew", unit: "1/s", n };
  const { mean } = meanAndSd(movementTime);
  const fit = binaryRegression([new Float64Array(n).fill(1), movementTime.map((t) => t - mean)], hit, "logit");
  if (fit === undefined) return { ok: false, why: "notIdentified", unit: "1/s", n };
  const value = fit.coefficients[1]!;
  const half = normalQuantile(0.5 + level / 2) * Math.sqrt(fit.covariance[1]![1]!);
  return { ok: true, value, unit: "1/s", n, interval: [value - half, value + half], level };
}
