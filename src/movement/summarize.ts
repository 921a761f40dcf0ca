import type { Estimate } from "../math/estimate.js";
import { meanEstimate } from "../math/mean-estimate.js";
import { proportionEstimate } from "../math/proportion-estimate.js";
import { requireLevel, requireNumber, requireObject, show } from "../math/require.js";
import { VERSION } from "../math/version.js";
import { type ErrorSummary, summarizeErrors } from "./error-summary.js";
import { type CorrectionSummary, summarizeCorrections } from "./summary/correction-summary.js";
import type { CorrectionTimeLaw } from "./summary/correction-time.js";
import { countFlags, countOutcomes, type FlagCounts, type OutcomeCounts } from "./summary/counts.js";
import { type EconomySummary, summarizeEconomy } from "./summary/economy-summary.js";
import { type StopSummary, summarizeStops } from "./summary/stop-summary.js";
import { type PartTimes, partTimes, waitingTime } from "./summary/time-summary.js";
import type { Acquisition, Offset } from "./types.js";
import { hasBoundaries, hasMovement, hasPrimaryEnd } from "./unsound-rows.js";

/** Options of `summarize`. */
export interface SummarizeOptions {
  /** Name of the length unit of the rows, default `"px"`; it only labels the results. */
  readonly unit?: string;
  /** Confidence level of the intervals, above 0 and below 1, default 0.95. Higher makes them wider. */
  readonly level?: number;
  /** Stretch of wall time to account for, seconds, covering all rows. Default: from the first go to the last end. Longer adds waiting. */
  readonly span?: readonly [number, number];
  /**
   * Correction time expected of an error, from an earlier period or a reference group (`corrections.time` of its summary). With it, the time
   * beyond what the size of the error explains is given as `corrections.time.excess`; without it, not.
   */
  readonly correctionTimeLaw?: CorrectionTimeLaw;
}

/** A set of acquisitions in figures. */
export interface Summary {
  /** What made the figures: enough to make them again. */
  readonly header: {
    readonly library: "aimed-movement";
    readonly version: string;
    readonly schema: 1;
    readonly options: {
      readonly unit: string;
      readonly level: number;
      readonly span: readonly [number, number];
      readonly correctionTimeLaw?: CorrectionTimeLaw;
    };
  };
  readonly n: number;
  readonly outcomes: OutcomeCounts;
  /** How many rows carry each flag; flags nobody carries are absent. */
  readonly flags: FlagCounts;
  readonly pressedInMotion: Estimate;
  /** Share of rows whose first press hit; timeouts and misses count against it. */
  readonly hitAtFirstPress: Estimate;
  /** The wall time, tiled: parts and waiting add up to it. */
  readonly time: {
    readonly wall: number;
    /** Time that belongs to no acquisition, seconds; `null` when rows overlap in time, as those of several people do. */
    readonly waiting: number | null;
    readonly parts: PartTimes;
    /** From go to end. */
    readonly perAcquisition: Estimate;
  };
  /** Where the primary submovement ended, before any correction. */
  readonly primaryError: ErrorSummary;
  /** Where the pointer stopped. */
  readonly stopError: ErrorSummary;
  /** Where the first press was made. */
  readonly pressError: ErrorSummary;
  readonly corrections: CorrectionSummary;
  /** How movements came to rest and were pressed. */
  readonly stopping: StopSummary;
  /** What they cost in path, and how smooth they were. */
  readonly economy: EconomySummary;
  readonly peakSpeed: Estimate;
}

/**
 * Where time and accuracy went over a set of acquisitions.
 *
 * Time: totals and shares over all rows, misses and timeouts included, so that parts and waiting tile the wall time; means and medians per part over the
 * rows whose boundaries were found. Errors: constant (mean), variable (SD with 1/n), absolute (mean size) and total (root mean square) error along
 * and across the movement axis, total^2 = constant^2 + variable^2; radial forms; shares on, before and beyond the target.
 * Lower is better for every error and time. A spread from fewer than 20 rows is known only to within a factor of about 1.5.
 *
 * @param rows - rows of `analyze` or of an analyzer, in any order
 * @param options - see `SummarizeOptions`
 * @returns the figures, each an `Estimate` with n and interval or the reason why there is none; intervals take rows as independent
 * @throws TypeError if `rows` is not an array; RangeError if an option is out of range
 * @see constant, variable, absolute and total error: textbook forms (from memory); Student, Bonett, Wilson and order-statistic intervals (recalled)
 * @example
 * ```ts
 * summarize([]).primaryError.along.constant; // => { ok: false, why: "tooFew", unit: "px", n: 0 }
 * ```
 */
export function summarize(rows: readonly Acquisition[], options: SummarizeOptions = {}): Summary {
  if (!Array.isArray(rows)) throw new TypeError(`summarize: rows must be an array of acquisitions, got ${show(rows)}`);
  const all: readonly Acquisition[] = rows;
  const { unit = "px", level = 0.95, correctionTimeLaw } = options;
  requireLevel("summarize", level);
  if (correctionTimeLaw !== undefined) {
    requireObject("summarize", "options.correctionTimeLaw", correctionTimeLaw);
    requireNumber("summarize", "options.correctionTimeLaw.intercept", correctionTimeLaw.intercept);
    requireNumber("summarize", "options.correctionTimeLaw.slope", correctionTimeLaw.slope);
  }
  const span = resolveSpan(all, options.span);
  const wall = span[1] - span[0];
  const clean = all.filter(hasBoundaries);
  const moved = all.filter(hasMovement);
  const error = (key: keyof Acquisition["errors"], counts: (row: Acquisition) => boolean): ErrorSummary =>
    summarizeErrors(all, (row): Offset | undefined => (counts(row) ? row.errors[key] : undefined), unit, level);
  return {
    header: {
      library: "aimed-movement",
      version: VERSION,
      schema: 1,
      options: { unit, level, span, ...(correctionTimeLaw && { correctionTimeLaw }) },
    },
    n: all.length,
    outcomes: countOutcomes(all),
    flags: countFlags(all),
    pressedInMotion: proportionEstimate(all.filter((row) => row.pressedInMotion).length, all.length, level),
    hitAtFirstPress: proportionEstimate(all.filter((row) => row.outcome === "hit").length, all.length, level),
    time: {
      wall,
      waiting: waitingTime(all, wall),
      parts: partTimes(all, clean, wall, level),
      perAcquisition: meanEstimate(
        all.map((row) => row.times.end - row.times.go),
        "s",
        level,
      ),
    },
    primaryError: error("primary", hasPrimaryEnd),
    stopError: error("stop", hasBoundaries),
    pressError: error("press", () => true),
    corrections: summarizeCorrections(moved, unit, level, correctionTimeLaw),
    stopping: summarizeStops(moved, unit, level),
    economy: summarizeEconomy(moved, unit, level),
    peakSpeed: meanEstimate(
      moved.flatMap((row) => row.peakSpeed ?? []),
      `${unit}/s`,
      level,
    ),
  };
}

function resolveSpan(rows: readonly Acquisition[], given: readonly [number, number] | undefined): readonly [number, number] {
  const from = rows.reduce((least, row) => Math.min(least, row.times.go), Number.POSITIVE_INFINITY);
  const to = rows.reduce((most, row) => Math.max(most, row.times.end), Number.NEGATIVE_INFINITY);
  if (given === undefined) return rows.length === 0 ? [0, 0] : [from, to];
  requireNumber("summarize", "options.span[0]", given[0]);
  requireNumber("summarize", "options.span[1]", given[1], given[0]);
  if (given[0] > from || given[1] < to) {
    throw new RangeError(`summarize: options.span must cover all rows, from ${from} to ${to}, got ${given[0]} to ${given[1]}`);
  }
  return given;
}
