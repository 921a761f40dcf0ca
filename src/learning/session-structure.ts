import type { Estimate, Reason } from "../math/estimate.js";
import { requireInteger, requireLevel, requireNumber, requireOneOf } from "../math/require.js";
import { studentQuantile } from "../math/student-quantile.js";
import { uncertainMean } from "../math/welch.js";
import { describeEffect, type EffectScale, shareOf } from "./days/describe-effect.js";
import { describeSessions } from "./days/describe-sessions.js";
import { describeSteps } from "./days/describe-steps.js";
import { endToBest } from "./days/end-to-best.js";
import { warmUpLength } from "./days/fit-session-shape.js";
import { fitSessions, type SessionFit } from "./days/fit-sessions.js";
import { groupTrials, type PracticeTrials, type TrialRange } from "./days/group-trials.js";
import { meanOf, stepsBetween } from "./days/steps-between.js";
import type { SessionStructure } from "./days/structure.js";
import { structureWarnings } from "./days/structure-warnings.js";

/** Options of `sessionStructure`. */
export interface SessionStructureOptions {
  /** Label of the measure's unit, default "s". */
  readonly unit?: string;
  /** Which way is improvement, default "lower", as for times and errors. */
  readonly better?: "lower" | "higher";
  /** "lognormal" works on logarithms, so that effects are shares of the level, and needs values above 0; "normal" on the values. Default "lognormal". */
  readonly errors?: "normal" | "lognormal";
  /** How the slope left after the warm-up is taken: gone by the next session, learned, or (default "judge") learned only when it is shown to improve. */
  readonly slope?: "judge" | "fatigue" | "gain";
  /** A step of more than this many days counts as a break and not as a night. Above 0, default 3: a weekend off is ordinary practice. */
  readonly breakDays?: number;
  /** Trials in the first and the last block of the raw comparison, at least 1, default 5; cut to half a session. Raised, warm-up and fatigue weigh less and are blurred. */
  readonly block?: number;
  /** Confidence level of every interval, above 0 and below 1, default 0.95. */
  readonly level?: number;
}

/**
 * How performance runs within sessions and between them: warm-up, fatigue or gain, and what nights and breaks do.
 *
 * Least squares of y = level of the session + w exp(-g k) + f k, trial k from 0 within its session; w, g and f shared, by default on
 * logarithms. Warm-up length is ln(20)/g trials. Intervals of w, g and f take sessions as the independent units. The overnight change is the
 * trend over nights of the fitted levels: start of the next day less end of this one, with the warm-up and (when the slope is fatigue) the
 * slope removed; the raw first-block less last-block difference stands beside it. Cost O(trials).
 *
 * @param trials - columns of one person and one measure, in order; at least three sessions of six trials or more, the longest of at least ten
 * @param options - see `SessionStructureOptions`
 * @returns effects with intervals, levels per session, steps between them, and warnings; effects are not ok with too few sessions or no spread
 * @throws TypeError or RangeError if a column or an option is not as described
 * @see warm-up decrement after Adams, its form beside slow learning after Newell, Liu and Mayer-Kress 2001 (recalled); jackknife: textbook
 * @example
 * ```ts
 * const value = [0.9, 0.84, 0.82, 0.8, 0.81, 0.79, 0.8, 0.8, 0.81, 0.8];
 * const days = [0, 1, 2, 3].flatMap((day) => value.map((v, k) => ({ day, v: v * 0.98 ** day * (1 + (((k * 7 + day * 3) % 5) - 2) / 200) })));
 * const columns = { session: days.map((d) => d.day), day: days.map((d) => d.day), value: days.map((d) => d.v) };
 * const { overnight, warmUp } = sessionStructure(columns);
 * overnight.corrected.share; // => { ok: true, value: -0.02, unit: "1", n: 4, … }
 * warmUp.length.ok && Math.round(warmUp.length.value); // => 4
 * ```
 */
export function sessionStructure(trials: PracticeTrials, options: SessionStructureOptions = {}): SessionStructure {
  const where = "sessionStructure";
  const { unit = "s", better = "lower", errors = "lognormal", slope = "judge", breakDays = 3, block = 5, level = 0.95 } = options;
  requireOneOf(where, "options.better", better, ["lower", "higher"]);
  requireOneOf(where, "options.errors", errors, ["normal", "lognormal"]);
  requireOneOf(where, "options.slope", slope, ["judge", "fatigue", "gain"]);
  requireNumber(where, "options.breakDays", breakDays, 0, undefined, true);
  requireInteger(where, "options.block", block, 1);
  requireLevel(where, level);
  const sessions = groupTrials(where, trials, errors === "lognormal");

  const n = trials.value.length;
  const count = sessions.length;
  const y = Float64Array.from(trials.value, errors === "lognormal" ? Math.log : (value) => value);
  const rawSteps = stepsBetween(y, sessions, block, breakDays);
  const kinds = rawSteps.map(({ kind }) => kind);
  const found = fitSessions(y, sessions, kinds, { slope, better, level });
  const fit = typeof found === "string" ? undefined : found;
  const why = typeof found === "string" ? found : undefined;
  const typical = typicalLevel(y, sessions, fit, errors);
  const scale: EffectScale = { errors, typical, unit, level };

  const rawNights = rawSteps.flatMap(({ kind, raw }) => (kind === "night" ? [raw] : []));
  const overnight = {
    nights: rawNights.length,
    corrected: describeEffect(why ?? fit?.corrected?.night, count, scale),
    warmUpRemoved: describeEffect(why ?? fit?.warmUpRemoved?.night, count, scale),
    raw: describeEffect(rawNights.length < 2 ? "tooFew" : uncertainMean(rawNights), rawNights.length, scale),
  };
  const breaks = kinds.filter((kind) => kind === "break").length;
  const length = lengthOfWarmUp(found, count, level);
  const trend = fit?.corrected;
  const missing: Estimate = { ok: false, why: why ?? "tooFew", unit: "1", n: count };
  // a share of a level that is not above 0 is none
  const plain = (value: number | null | undefined): Estimate => {
    if (value === undefined) return missing;
    return value === null ? { ok: false, why: "notIdentified", unit: "1", n: count } : { ok: true, value, unit: "1", n: count };
  };
  const share = shareOf(scale);
  return {
    unit,
    level,
    better,
    errors,
    n,
    warmUp: { decrement: describeEffect(why ?? fit?.size, count, scale), length },
    slope: describeEffect(why ?? fit?.slope, count, scale, "/trial"),
    slopeTakenAs: fit?.slopeTakenAs ?? null,
    endToBest: fit === undefined ? missing : endToBest(fit.shape, fit.covariance, medianLength(sessions), count, better, scale),
    overnight,
    afterBreak: { breaks, change: describeEffect(why ?? fit?.corrected?.afterBreak, count, scale) },
    sessionSd: plain(trend && share(trend.sd)),
    autocorrelation: plain(trend?.autocorrelation?.r),
    sessions: describeSessions(sessions, {
      value: trials.value,
      y,
      errors,
      shape: fit?.shape,
      warmUpTrials: length.ok ? length.value : null,
    }),
    steps: describeSteps(rawSteps, sessions, fit, better, share),
    warnings: structureWarnings(sessions, fit, overnight, better),
  };
}

// middle of the sessions without their warm-up, averaged over sessions; their plain mean without a fit
function typicalLevel(
  y: Float64Array,
  sessions: readonly TrialRange[],
  fit: SessionFit | undefined,
  errors: "normal" | "lognormal",
): number {
  const levels = sessions.map(({ from, to }, j) =>
    fit === undefined ? meanOf(y, from, to) : fit.shape.levels[j]! + (fit.shape.slope * (to - from - 1)) / 2,
  );
  const mean = levels.length === 0 ? 0 : meanOf(levels, 0, levels.length);
  return errors === "lognormal" ? Math.exp(mean) : mean;
}

// the interval is one of the logarithm of the rate, so that it stays above 0
function lengthOfWarmUp(fit: SessionFit | Reason, n: number, level: number): Estimate {
  const unit = "trial";
  if (typeof fit === "string") return { ok: false, why: fit, unit, n };
  const { shape, covariance, warmUpShown } = fit;
  if (!warmUpShown || !shape.rateInside) return { ok: false, why: "notIdentified", unit, n };
  const error = Math.sqrt(covariance[2]![2]!) / Math.abs(shape.size);
  const factor = Math.exp(-studentQuantile((1 - level) / 2, n - 1) * error);
  if (!Number.isFinite(factor)) return { ok: false, why: "notIdentified", unit, n };
  const value = warmUpLength(shape.rate);
  return { ok: true, value, unit, n, interval: [value / factor, value * factor], level };
}

function medianLength(sessions: readonly TrialRange[]): number {
  const lengths = sessions.map(({ from, to }) => to - from).sort((a, b) => a - b);
  return lengths[lengths.length >> 1]!;
}
