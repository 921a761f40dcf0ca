import type { Estimate, Reason } from "../math/estimate.js";
import { requireLevel, requireNumber, requireObject, requireOneOf } from "../math/require.js";
import { type FitSpeedAccuracyOptions, fitSpeedAccuracy, type SpeedAccuracyFit } from "./fit-speed-accuracy.js";
import { probitTime } from "./hits/hit-probit.js";
import { firstTime, lastTime } from "./pace/first-time.js";
import { fittedLaw } from "./pace/fitted-law.js";
import { type Aim, lawShare, shareError, toScale } from "./pace/landing.js";
import { productiveTime } from "./pace/productive-time.js";
import { lawOf } from "./scatter/law-of.js";
import { requireLaw } from "./scatter/require-law.js";
import type { PaceTarget, PaceTrials, SpeedAccuracyLaw } from "./types.js";

const WHERE = "recommendPace";
/** Movement times that are looked at, seconds. */
const SHORTEST = 1e-3;
const LONGEST = 1e3;
/** Farther outside the movement times seen than this share a pace is a guess, and an interval has no end there. */
const BEYOND = 0.2;
/** Two tenable laws that differ by more than this share do not give one pace. */
const APART = 0.15;
/** An interval whose upper end is more than this many times its lower one does not tell a pace. */
const WIDE = 1.5;
/** Laws whose AICc is within this of the least are tenable. */
const TENABLE = 4;
/** Points of the search for the ends of the interval. */
const LOOKS = 60;

/** Options of `recommendPace`. */
export interface RecommendPaceOptions extends Pick<FitSpeedAccuracyOptions, "speed" | "law" | "lapse" | "unit" | "level"> {
  /** Share of presses that should hit, above 0 and below 1, default 0.85; 0.95 for drills that are to stay clean. Raised, the pace is slower. */
  readonly wanted?: number;
  /** Distance to the target, above 0. Default: the median of the trials; has to be given with a stated law. Raised, the pace is slower. */
  readonly amplitude?: number;
  /** Width of the target, above 0. Default: the median of the trials; has to be given with a stated law. Raised, the pace is faster. */
  readonly width?: number;
  /** Outline of the target, as in `fitSpeedAccuracy`. Default: that of the fit; `"circle"` for a stated law with both axes, else `"strip"`. */
  readonly shape?: PaceTarget;
  /** Seconds of every acquisition that are no movement (latency, verification, press), at least 0, default 0.25: for hits per second. Raised, the most productive pace is slower. */
  readonly overhead?: number;
}

/** A pace with what it brings. */
export interface PaceOutcome {
  /** Movement time, seconds. */
  readonly movementTime: Estimate;
  /** Share of presses that hit and hits per second at it; `null` where the time is not ok. */
  readonly hitShare: number | null;
  readonly hitsPerSecond: number | null;
}

/** Why a reader should be careful. */
export type PaceWarning =
  /** The pace lies more than a fifth outside the movement times seen: a guess. */
  | "extrapolated"
  /** The pace with the most hits per second lies so far outside. */
  | "productiveExtrapolated"
  /** The amplitude lies more than a fifth outside those seen, or only one was seen and it differs. */
  | "otherAmplitude"
  /** The interval has no end within a fifth beyond the movement times seen: slower, or faster, cannot be ruled out. */
  | "openEnded"
  /** Linear and power law are both tenable (AICc within 4) and give paces more than 15 % apart. */
  | "lawMatters"
  /** Counted hits differ from what the scatter gives: look at `byHits`. */
  | "preferObserved"
  /** More than a twentieth of the trials ended without a press; the pace is for presses. */
  | "timeouts"
  /** Movement times carry no labels of paces. */
  | "pacesUnlabelled";

/** The pace at which a wanted share of presses hits. */
export interface PaceRecommendation extends PaceOutcome {
  /** `clear`: both ends of the interval are known and within a factor of 1.5, no extrapolation, no two laws that disagree. `cannotTell`: a value, but not to lean on. `none`: there is no value, see `movementTime.why`. */
  readonly verdict: "clear" | "cannotTell" | "none";
  readonly wanted: number;
  readonly amplitude: number | null;
  readonly width: number | null;
  readonly shape: PaceTarget;
  readonly overhead: number;
  readonly level: number;
  /** Ends of the interval, seconds; `null` where one is open, and for a stated law. */
  readonly bounds: { readonly low: number | null; readonly high: number | null };
  /** The same by each law; they differ where the data do not tell the law. */
  readonly byLaw: { readonly linear: Estimate; readonly power: Estimate };
  /** The same by the probit of hits, which assumes no scatter and sees less. */
  readonly byHits: Estimate;
  /** The pace with the most hits per second, and how many of its presses hit: usually not a clean one. */
  readonly mostProductive: PaceOutcome;
  readonly warnings: readonly PaceWarning[];
}

/**
 * The smallest movement time at which a wanted share of presses hits, and the one with the most hits per second.
 *
 * P(T) from scatter, bias and target (`fitSpeedAccuracy`); the first T with P(T) >= wanted. Round scatter without bias, linear law: T = b A/(s - a),
 * s = (W/2)/sqrt(-2 ln(1 - wanted)); `outOfReach` where s <= a. Interval: the times at which `wanted` is within t standard errors of P(T) on the scale ln(-ln(1 - P)),
 * looked for up to a fifth beyond the times seen. Hits per second: P(T)/(T + overhead). Cost some 10 ms.
 *
 * @param source - a fit, trials to fit, or a stated law taken as true
 * @param options - see `RecommendPaceOptions`; those of the fit count for trials only
 * @returns the pace with its interval, by each law and by hits alone, the most productive pace, and warnings; not ok with the fit's `lacking`, or `outOfReach`
 * @throws TypeError or RangeError if the source or an option is not as described
 * @see textbook (Rayleigh distribution, delta method, inversion of a test); the linear law: see `fitSpeedAccuracy`
 * @example
 * ```ts
 * const axis = { scatter: { form: "linear", floor: 2, slope: 0.012 } } as const;
 * const pace = recommendPace({ along: axis, across: axis }, { wanted: 0.85, amplitude: 400, width: 40 });
 * pace.movementTime.ok && pace.movementTime.value.toFixed(4); // => "0.5806"
 * pace.mostProductive.hitShare!.toFixed(3); // => "0.794"
 * ```
 */
export function recommendPace(
  source: SpeedAccuracyFit | PaceTrials | SpeedAccuracyLaw,
  options: RecommendPaceOptions = {},
): PaceRecommendation {
  const { wanted = 0.85, overhead = 0.25 } = options;
  requireObject(WHERE, "source", source);
  requireNumber(WHERE, "options.wanted", wanted, 0, 1, true);
  if (wanted === 1) throw new RangeError(`${WHERE}: options.wanted must be below 1, got 1`);
  requireNumber(WHERE, "options.overhead", overhead, 0);
  for (const name of ["amplitude", "width"] as const) {
    const value = options[name];
    if (value !== undefined) requireNumber(WHERE, `options.${name}`, value, 0, Number.POSITIVE_INFINITY, true);
  }
  if ("movementTime" in source) {
    const { speed, law, lapse, unit, level, shape } = options;
    const given = { speed, law, lapse, unit, level, shape };
    const chosen = Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined));
    return fromFit(fitSpeedAccuracy(source, chosen), options, wanted, overhead);
  }
  return "laws" in source ? fromFit(source, options, wanted, overhead) : fromLaw(source, options, wanted, overhead);
}

function fromLaw(law: SpeedAccuracyLaw, options: RecommendPaceOptions, wanted: number, overhead: number): PaceRecommendation {
  requireLaw(WHERE, law);
  if (options.level !== undefined) requireLevel(WHERE, options.level);
  const { amplitude, width } = options;
  if (amplitude === undefined || width === undefined) {
    throw new TypeError(
      `${WHERE}: options.${amplitude === undefined ? "amplitude" : "width"} must be given with a stated law, got undefined`,
    );
  }
  const aim = { amplitude, width, shape: requireShapeFor(options.shape ?? (law.across === undefined ? "strip" : "circle"), law) };
  const given = (t: number | undefined): Estimate => timeEstimate(t, "outOfReach", 0);
  const movementTime = given(cleanTime(law, aim, wanted));
  const none: Estimate = { ok: false, why: "tooFew", unit: "s", n: 0 };
  const form = law.along.scatter.form;
  return {
    verdict: movementTime.ok ? "clear" : "none",
    ...outcome(movementTime, law, aim, overhead),
    wanted,
    ...aim,
    overhead,
    level: options.level ?? 0.95,
    bounds: { low: null, high: null },
    byLaw: { linear: form === "linear" ? movementTime : none, power: form === "power" ? movementTime : none },
    byHits: none,
    mostProductive: outcome(given(productiveTime(law, aim, overhead, [SHORTEST, LONGEST])), law, aim, overhead),
    warnings: law.times !== undefined && movementTime.ok && isBeyond(movementTime.value, law.times) ? ["extrapolated"] : [],
  };
}

function fromFit(fit: SpeedAccuracyFit, options: RecommendPaceOptions, wanted: number, overhead: number): PaceRecommendation {
  const { law, lacking, n, level } = fit;
  const amplitude = options.amplitude ?? (fit.amplitude.ok ? fit.amplitude.value : null);
  const width = options.width ?? (fit.width.ok ? fit.width.value : null);
  const shape = options.shape ?? fit.shape;
  requireOneOf(WHERE, "options.shape", shape, ["circle", "square", "strip"]);
  const basic = { wanted, amplitude, width, shape, overhead, level };
  if (lacking !== null || law === null || fit.chosen === null || amplitude === null || width === null) {
    const none: Estimate = { ok: false, why: lacking ?? "notConverged", unit: "s", n };
    const nothing: PaceOutcome = { movementTime: none, hitShare: null, hitsPerSecond: null };
    const warnings = fit.warnings.filter((warning) => warning === "timeouts" || warning === "pacesUnlabelled");
    return {
      verdict: "none",
      ...nothing,
      ...basic,
      bounds: { low: null, high: null },
      byLaw: { linear: none, power: none },
      byHits: none,
      mostProductive: nothing,
      warnings,
    };
  }
  const aim: Aim = { amplitude, width, shape: requireShapeFor(shape, law) };
  const times = law.times!;
  const t = cleanTime(law, aim, wanted);
  const bounds = t === undefined ? { low: null, high: null } : boundsOf(fit, aim, wanted);
  const ends = bounds.low !== null && bounds.high !== null ? { interval: [bounds.low, bounds.high] as const, level } : {};
  const movementTime = timeEstimate(t, "outOfReach", n, ends);
  const byLaw = { linear: byOne(fit, "linear", aim, wanted, times), power: byOne(fit, "power", aim, wanted, times) };
  const lawMatters = differ(fit, byLaw);
  const warnings: PaceWarning[] = [];
  if (t !== undefined && isBeyond(t, times)) warnings.push("extrapolated");
  const productive = productiveTime(law, aim, overhead, [SHORTEST, LONGEST]);
  if (productive !== undefined && isBeyond(productive, times)) warnings.push("productiveExtrapolated");
  if (isOtherAmplitude(amplitude, fit.amplitudes!)) warnings.push("otherAmplitude");
  if (t !== undefined && (bounds.low === null || bounds.high === null)) warnings.push("openEnded");
  if (lawMatters) warnings.push("lawMatters");
  for (const warning of ["preferObserved", "timeouts", "pacesUnlabelled"] as const)
    if (fit.warnings.includes(warning)) warnings.push(warning);
  const hitTime = probitTime(fit.probit, wanted, amplitude / width);
  const clear =
    bounds.low !== null && bounds.high !== null && bounds.high <= WIDE * bounds.low && !lawMatters && !warnings.includes("extrapolated");
  return {
    verdict: t === undefined ? "none" : clear ? "clear" : "cannotTell",
    ...outcome(movementTime, law, aim, overhead),
    ...basic,
    bounds,
    byLaw,
    byHits: timeEstimate(hitTime, fit.probit.slope.ok ? "outOfReach" : fit.probit.slope.why, n - fit.timeouts),
    mostProductive: outcome(timeEstimate(productive, "outOfReach", n), law, aim, overhead),
    warnings,
  };
}

/** The first time at which the wanted share is reached. */
function cleanTime(law: SpeedAccuracyLaw, aim: Aim, wanted: number): number | undefined {
  return firstTime((t) => lawShare(law, aim, t) >= wanted, SHORTEST, LONGEST);
}

/** Times at which the wanted share cannot be told from the fitted one; an end at the edge of what is looked at is open. */
function boundsOf(fit: SpeedAccuracyFit, aim: Aim, wanted: number): PaceRecommendation["bounds"] {
  const { law, errors, limit } = fittedLaw(fit, aim.shape)!;
  const goal = toScale(wanted);
  const holds = (t: number): boolean => {
    const error = shareError(law, errors, aim, t);
    // without scatter the target is hit for sure, or missed for sure: not the wanted share
    return error !== undefined && Math.abs(toScale(lawShare(law, aim, t)) - goal) <= limit * error;
  };
  const [low, high] = [law.times![0] * (1 - BEYOND), law.times![1] * (1 + BEYOND)];
  // an end at the edge of what is looked at is no end
  const first = holds(low) ? undefined : firstTime(holds, low, high, LOOKS);
  const last = holds(high) ? undefined : lastTime(holds, low, high, LOOKS);
  return { low: first ?? null, high: last ?? null };
}

function byOne(fit: SpeedAccuracyFit, form: "linear" | "power", aim: Aim, wanted: number, times: readonly [number, number]): Estimate {
  const one = fit.laws[form];
  if (one.aicc === null) return { ok: false, why: "notConverged", unit: "s", n: fit.n };
  return timeEstimate(cleanTime(lawOf(one, times), aim, wanted), "outOfReach", fit.n);
}

function differ(fit: SpeedAccuracyFit, byLaw: PaceRecommendation["byLaw"]): boolean {
  const { linear, power } = fit.laws;
  if (linear.aicc === null || power.aicc === null || Math.abs(linear.aicc - power.aicc) > TENABLE) return false;
  if (!byLaw.linear.ok || !byLaw.power.ok) return byLaw.linear.ok !== byLaw.power.ok;
  return Math.abs(Math.log(byLaw.linear.value / byLaw.power.value)) > Math.log1p(APART);
}

function outcome(movementTime: Estimate, law: SpeedAccuracyLaw, aim: Aim, overhead: number): PaceOutcome {
  if (!movementTime.ok) return { movementTime, hitShare: null, hitsPerSecond: null };
  const hitShare = lawShare(law, aim, movementTime.value);
  return { movementTime, hitShare, hitsPerSecond: hitShare / (movementTime.value + overhead) };
}

function timeEstimate(t: number | undefined, why: Reason, n: number, more: object = {}): Estimate {
  return t === undefined ? { ok: false, why, unit: "s", n } : { ok: true, value: t, unit: "s", n, ...more };
}

function isBeyond(t: number, times: readonly [number, number]): boolean {
  return t < times[0] * (1 - BEYOND) || t > times[1] * (1 + BEYOND);
}

function isOtherAmplitude(amplitude: number, [low, high]: readonly [number, number]): boolean {
  return amplitude < low * (1 - BEYOND) || amplitude > high * (1 + BEYOND);
}

function requireShapeFor(shape: PaceTarget, law: SpeedAccuracyLaw): PaceTarget {
  requireOneOf(WHERE, "options.shape", shape, law.across === undefined ? ["strip"] : ["circle", "square", "strip"]);
  return shape;
}
