import { independentSegments } from "../math/coherence.js";
import type { Estimate } from "../math/estimate.js";
import { requireColumn, requireLevel, requireNumber, requireObject, requireOneOf } from "../math/require.js";
import { bandOf } from "./response/band.js";
import { bandwidth } from "./response/bandwidth.js";
import { describeLines, type ResponseAtFrequency } from "./response/describe-line.js";
import { drivenLines, wholePeriods } from "./response/driven-lines.js";
import { lagByPhase } from "./response/lag-by-phase.js";
import { requireDriven } from "./response/require-driven.js";
import type { ResponseLines } from "./response/response-line.js";
import { restCrossing } from "./response/rest-crossing.js";
import { segmentLines } from "./response/segment-lines.js";
import { withinRange } from "./response/within-range.js";

const FN = "frequencyResponse";
const DEFAULT_SEGMENT = 5;
/** Slow following is blurred in shorter segments. */
const ENOUGH_SECONDS = 4;
const DEFAULT_MAX_HZ = 5;
const FEWEST_SEGMENTS = 8;
/** Eight half-overlapping segments reach over this many; more overlap does not make up for a shorter record. */
const LEAST_REACH = 4.5;
/** Seconds kept free in a short record. */
const LONGEST_DELAY = 1;

/** Options of `frequencyResponse`. */
export interface FrequencyResponseOptions {
  /** Samples per second of both columns, Hz; above 0. */
  readonly sampleRateHz: number;
  /** Seconds per segment, at least 1; default 5, or down to 4 in a record too short for eight of 5 s. Longer: finer frequencies, wider intervals. Below 4 s slow following is blurred, which is warned of. */
  readonly segment?: number;
  /** Share of a segment that the next one uses again, 0 to 0.75, default 0.5. Less wastes data; more adds work and hardly any knowledge. */
  readonly overlap?: number;
  /** How a segment fades in and out: `"hann"` (default), or `"boxcar"`, not at all, for a target that repeats after exactly one segment. */
  readonly window?: "hann" | "boxcar";
  /** Highest frequency reported, Hz, above 0 and at most half the sampling rate; default 5, or half the sampling rate where that is less. */
  readonly maxHz?: number;
  /** Whether the pointer is moved back by its delay before it is cut, default true. Without, gain and coherence come out low: with `"hann"` the gain by a share of about 6.6 (delay / segment)^2. */
  readonly align?: boolean;
  /** Frequencies that a multisine target consists of, Hz, ascending, below half the sampling rate. Then only these are read, over whole periods at the end of the record, and `segment` to `align` are not used. */
  readonly drivenHz?: readonly number[];
  /** Confidence level of the intervals and of the chance level of coherence, above 0 and below 1, default 0.95. */
  readonly level?: number;
}

/** What to know before the figures are used. */
export type ResponseWarning =
  /** Segments below 4 s: slow following is blurred. */
  | "shortSegments"
  /** No frequency has a coherence above chance. */
  | "nothingAboveChance"
  /** Another delay between -0.5 and 1 s fits about as well, as where the target repeats itself; of these the one nearest to 0 is given. */
  | "ambiguousDelay"
  /** The highest frequency measured is still in the band: the bandwidth is at least this. */
  | "bandwidthAtEnd";

/** How a moving target is followed along one axis, frequency by frequency. */
export interface FrequencyResponse {
  readonly frequencies: readonly ResponseAtFrequency[];
  /** Segments averaged, or whole periods of the pattern. */
  readonly segments: number;
  /** Independent segments that those are worth. */
  readonly independentSegments: number;
  /** Seconds per segment, or per period of the pattern. */
  readonly segment: number;
  /** The largest chance level of coherence among the frequencies; `null` when there are none. */
  readonly chanceLevel: number | null;
  /** Mean over all frequencies of the answer in step with the delayed target, over the target's motion; those known better weigh more. */
  readonly gain: Estimate;
  /** The delay that the phases above chance have in common, seconds, positive = late; those known better weigh more. */
  readonly delay: Estimate;
  /** Highest frequency with a coherence of at least 0.5 and a gain between 0.707 and 1.414, Hz. `belowResolution`: none has. */
  readonly bandwidth: Estimate;
  /** Lowest frequency at which gain and phase leave an error as large as that of resting, RMS 0.707 of the amplitude, Hz; the remnant comes on top. `outOfReach`: none above chance does; `belowResolution`: the lowest does already. */
  readonly rmsCrossing: Estimate;
  readonly warnings: readonly ResponseWarning[];
}

/**
 * How a moving target is followed at each frequency of its motion: how much of it (gain), how late (phase, delay), and how much of the
 * pointer's motion answers to it at all (coherence).
 *
 * One axis at a time. Both columns are taken on one even time grid, without the first second or so in which the pointer gets to the target. Random
 * targets: densities averaged over windowed segments, response = cross density / density of the target, coherence = |cross|^2 / (product
 * of both densities). Multisine targets (`drivenHz`): transform over whole periods, response = pointer / target at the driven lines, coherence from
 * the pointer's power at the lines beside them. The error of the gain is sqrt((1 - c) / (2 (L - 1) c)) of it over L independent segments.
 *
 * @param target - position of the target along the axis, any length unit
 * @param pointer - position of the pointer along it at the same times, same unit
 * @param options - see `FrequencyResponseOptions`; `sampleRateHz` is required
 * @returns a response per frequency above 0 up to `maxHz`, figures over all of them, and warnings. No frequencies and `tooFew` where the record does not
 *   hold eight segments; `noSpread` where the target does not move
 * @throws TypeError or RangeError if a column is not finite or not as long as the other, an option is out of range, or the record holds no stretch in which every
 *   driven line has whole periods
 * @see Welch 1967 (segments), Bluestein 1970, textbooks of spectral analysis (chance level, standard errors, effect of delay): recalled
 * @example
 * ```ts
 * const t = Float64Array.from({ length: 6000 }, (_, k) => k / 100);
 * const motion = (s: number) => 100 * Math.sin(2 * Math.PI * 0.35 * s) + 40 * Math.sin(2 * Math.PI * 1.15 * s);
 * const target = t.map(motion);
 * const pointer = t.map((s) => 0.9 * motion(s - 0.15));
 * const { delay, gain } = frequencyResponse(target, pointer, { sampleRateHz: 100, drivenHz: [0.35, 1.15] });
 * delay.ok && delay.value.toFixed(3); // => "0.150"
 * gain.ok && gain.value.toFixed(3); // => "0.900"
 * ```
 */
export function frequencyResponse(target: Float64Array, pointer: Float64Array, options: FrequencyResponseOptions): FrequencyResponse {
  requireObject(FN, "options", options);
  const { sampleRateHz, overlap = 0.5, window = "hann", align = true, drivenHz, level = 0.95 } = options;
  requireColumn(FN, "target", target);
  requireColumn(FN, "pointer", pointer, target.length);
  requireNumber(FN, "options.sampleRateHz", sampleRateHz, 0, Number.POSITIVE_INFINITY, true);
  if (options.segment !== undefined) requireNumber(FN, "options.segment", options.segment, 1);
  requireNumber(FN, "options.overlap", overlap, 0, 0.75);
  requireOneOf(FN, "options.window", window, ["hann", "boxcar"]);
  const maxHz = options.maxHz ?? Math.min(DEFAULT_MAX_HZ, sampleRateHz / 2);
  requireNumber(FN, "options.maxHz", maxHz, 0, sampleRateHz / 2, true);
  requireLevel(FN, level);
  const [q, p] = withinRange([target, pointer]);
  if (drivenHz !== undefined) return ofMultisine(q, p, sampleRateHz, drivenHz, level);

  const n = target.length;
  const segment = Math.round((options.segment ?? defaultSegment(n / sampleRateHz, overlap)) * sampleRateHz);
  const shared = Math.floor(segment * overlap);
  const count = Math.max(0, Math.floor((n - shared) / (segment - shared)));
  if (count < FEWEST_SEGMENTS || n < LEAST_REACH * segment || isStill(target)) {
    const independent = independentSegments(count, window, segment, segment - shared);
    return withoutLines(isStill(target) ? "noSpread" : "tooFew", count, independent, segment / sampleRateHz);
  }
  const measured = segmentLines(q, p, { sampleRateHz, segment, overlap: shared, window, maxHz, level, align });
  // what the pointer is late by is missing at the end
  if (measured.segments < FEWEST_SEGMENTS) return withoutLines("tooFew", measured.segments, measured.independent, measured.segment);
  return describe(measured, segment < ENOUGH_SECONDS * sampleRateHz ? ["shortSegments"] : [], level);
}

/** 5 s, or what a shorter record leaves for each of eight beside a delay, but not below 4 s. */
function defaultSegment(seconds: number, overlap: number): number {
  const fitting = (seconds - LONGEST_DELAY) / Math.max(LEAST_REACH, 1 + (FEWEST_SEGMENTS - 1) * (1 - overlap));
  return Math.min(DEFAULT_SEGMENT, Math.max(ENOUGH_SECONDS, fitting));
}

function ofMultisine(
  target: Float64Array,
  pointer: Float64Array,
  sampleRateHz: number,
  drivenHz: readonly number[],
  level: number,
): FrequencyResponse {
  requireDriven(FN, drivenHz, sampleRateHz);
  const whole = wholePeriods(target.length, sampleRateHz, drivenHz);
  if (whole === undefined) {
    const got = `${target.length / sampleRateHz} s of ${drivenHz.join(", ")} Hz`;
    throw new RangeError(`${FN}: options.drivenHz must have whole periods in one stretch of the record, got ${got}`);
  }
  if (isStill(target)) return withoutLines("noSpread", whole.periods, whole.periods, whole.size / whole.periods / sampleRateHz);
  return describe(drivenLines(target, pointer, sampleRateHz, whole, level), [], level);
}

function isStill(values: Float64Array): boolean {
  return values.every((value) => value === values[0]);
}

function withoutLines(why: "tooFew" | "noSpread", segments: number, independent: number, segment: number): FrequencyResponse {
  const none = (unit: string): Estimate => ({ ok: false, why, unit, n: segments });
  return {
    frequencies: [],
    segments,
    independentSegments: independent,
    segment,
    chanceLevel: null,
    gain: none("1"),
    delay: none("s"),
    bandwidth: none("Hz"),
    rmsCrossing: none("Hz"),
    warnings: [],
  };
}

function describe(measured: ResponseLines, warnings: ResponseWarning[], level: number): FrequencyResponse {
  const { lines, segments, independent, linesPerIndependent, segment } = measured;
  const told = lines.filter((line) => line.aboveChance);
  const lag = lagByPhase(told);
  const width = bandwidth(lines, segments, independent, linesPerIndependent, level);
  if (told.length === 0) warnings.push("nothingAboveChance");
  if (lag?.ambiguous) warnings.push("ambiguousDelay");
  if (width.ok && width.value === lines.at(-1)!.hz) warnings.push("bandwidthAtEnd");
  const driven = lines.filter((line) => line.error < Number.POSITIVE_INFINITY);
  return {
    frequencies: describeLines(lines, lag?.delay ?? 0, segments, level),
    segments,
    independentSegments: independent,
    segment,
    chanceLevel: lines.reduce<number | null>((most, line) => Math.max(most ?? 0, line.chanceLevel), null),
    ...bandOf(driven, lag, linesPerIndependent, segments, level),
    bandwidth: width,
    rmsCrossing: restCrossing(told, segments, level),
    warnings,
  };
}
