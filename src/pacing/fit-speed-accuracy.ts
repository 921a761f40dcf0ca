import type { Estimate, Reason } from "../math/estimate.js";
import { medianInPlace } from "../math/median.js";
import { quantile } from "../math/quantile.js";
import { requireLevel, requireNumber, requireOneOf } from "../math/require.js";
import { type AccuracyOverTime, accuracyOverTime, risingShare } from "./hits/accuracy-over-time.js";
import { type HitProbit, hitProbit, probitShare } from "./hits/hit-probit.js";
import { lawShare } from "./pace/landing.js";
import { type PaceFigures, paceFigures } from "./pace/pace-figures.js";
import { paceTimes } from "./pace/pace-times.js";
import { type AxisFit, fitLaw } from "./scatter/fit-law.js";
import { lawOf } from "./scatter/law-of.js";
import { type ReadTrials, readTrials, withPress } from "./scatter/read-trials.js";
import type { PaceTarget, PaceTrials, SpeedAccuracyLaw } from "./types.js";

const WHERE = "fitSpeedAccuracy";
/** Trials in all, paces, presses at each of them, and how many times as long the slowest pace must take as the fastest, before a pace may be set from a fit. */
const TRIALS = 60;
const PACES = 3;
const PRESSES = 10;
const SPAN = 1.5;
/** Laws whose AICc differ by less than this are both tenable. */
const TENABLE = 2;
/** More trials without a press than this share make the hits at a press a poor guide. */
const MANY_TIMEOUTS = 0.05;
/** Points of the curve. */
const POINTS = 41;

/** Options of `fitSpeedAccuracy`. */
export interface FitSpeedAccuracyOptions {
  /** Outline of the targets: `"circle"` (default) with the width as diameter, `"square"` with its sides along and across the movement, or `"strip"` without end across it (default where `across` is absent). */
  readonly shape?: PaceTarget;
  /** Which movement time counts: that of the `"pace"` (default where labels are given), so that slow and fast trials of one instruction do not count as paces, or of the `"trial"` itself. */
  readonly speed?: "pace" | "trial";
  /** Which law is chosen: `"aicc"` (default) the likelier one, `"linear"` or `"power"` that one whatever the data say. */
  readonly law?: "aicc" | "linear" | "power";
  /** Highest share of presses that the probit may take to miss at any pace, 0 to 0.05, default 0.05. Raised, late misses bend the curve less. */
  readonly lapse?: number;
  /** Label of the length unit, default "px". */
  readonly unit?: string;
  /** Confidence level, above 0 and below 1, default 0.95. Raised, intervals grow. */
  readonly level?: number;
}

/** One law on both axes. */
export interface LawFit {
  readonly form: "linear" | "power";
  /** Absent where the search did not settle, as is `aicc`. */
  readonly along?: AxisFit;
  /** Absent without a column `across`, too. */
  readonly across?: AxisFit;
  /** Sum over both axes of -2 log likelihood + 2 k + 2 k (k + 1)/(n - k - 1); `null` where a fit is missing. Smaller is better. */
  readonly aicc: number | null;
}

/** Hits at one movement time, for the middle amplitude and width; `null` where that function was not fitted. */
export interface SpeedAccuracyPoint {
  readonly movementTime: number;
  readonly scatter: number | null;
  readonly probit: number | null;
  readonly overTime: number | null;
}

/** Why a reader should be careful. */
export type SpeedAccuracyWarning =
  /** Movement times carry no labels of paces: deliberate changes and chance cannot be told apart. */
  | "pacesUnlabelled"
  /** Both laws are about as likely (AICc within 2). */
  | "lawUnclear"
  /** Scatter falls with speed, or does not change with it: pace is not what decides here. */
  | "noTradeOff"
  /** More than a twentieth of the trials ended without a press; shares are of presses. */
  | "timeouts"
  /** At some pace hits differ from what the scatter gives, beyond chance: endpoints are not normal, or the law is another. Prefer the shares that were counted. */
  | "preferObserved";

/** How accuracy falls with speed. */
export interface SpeedAccuracyFit {
  /** Trials, and those of them without a press. */
  readonly n: number;
  readonly timeouts: number;
  readonly unit: string;
  readonly level: number;
  readonly shape: PaceTarget;
  readonly speed: "pace" | "trial";
  /** The chosen law, with the movement times seen; `null` where neither could be fitted. */
  readonly law: SpeedAccuracyLaw | null;
  readonly chosen: "linear" | "power" | null;
  readonly laws: { readonly linear: LawFit; readonly power: LawFit };
  /** What is missing for setting a pace: 60 trials (`tooFew`); three paces with 10 presses each, the slowest at least 1.5 times the fastest (`notIdentified`); a fit (`notConverged`). `null`: nothing. */
  readonly lacking: Reason | null;
  readonly paces: readonly PaceFigures[];
  readonly probit: HitProbit;
  readonly overTime: AccuracyOverTime;
  /** Whether counted hits are what the chosen law lets expect, at every pace (Holm's rule at 1 - level); `null` without a law. */
  readonly agrees: boolean | null;
  /** Medians of the presses: what `recommendPace` aims at unless told otherwise. */
  readonly amplitude: Estimate;
  readonly width: Estimate;
  /** Smallest and largest amplitude seen. */
  readonly amplitudes: readonly [number, number] | null;
  /** Hits over movement time between the fastest and the slowest, 41 points; empty without presses. */
  readonly curve: readonly SpeedAccuracyPoint[];
  readonly warnings: readonly SpeedAccuracyWarning[];
}

/**
 * How accuracy depends on movement time: the scatter of endpoints, their bias and the share of hits as functions of pace.
 *
 * Normal endpoints, along and across apart: s = a + b A/T (linear) or s = k A^alpha T^-beta (power), bias a line in T; maximum likelihood, freed of its bias by
 * sqrt(n/(n - 2)); one law for both axes by AICc. Hits from scatter, bias and target by the integral over its outline. Beside it two fits of hits alone: a probit of log T
 * with a lapse, and L (1 - exp(-r (T - d))). Misses count, and timeouts: in the figures of the paces, as misses, never as fast. Cost O(n) and some 20 ms.
 *
 * @param trials - trials of one person at three or more deliberate paces, the slowest 1.5 times the fastest, in equally long columns; seconds and one length unit
 * @param options - see `FitSpeedAccuracyOptions`
 * @returns the laws with their parameters, the figures of each pace, the fits of the hits, and what is lacking for setting a pace
 * @throws TypeError or RangeError if a column or an option is not as described
 * @see Schmidt, Zelaznik, Hawkins, Frank and Quinn 1979 (linear law of timed movements; read in part); Wickelgren 1977 (hits over time), Burnham and Anderson (AICc): from memory
 * @example
 * ```ts
 * const movementTime = Float64Array.from({ length: 90 }, (_, i) => [0.4, 0.55, 0.75][i % 3]!);
 * const wave = (i: number, f: number) => Math.sin(f * (i + 1) ** 2) * Math.SQRT2;
 * const along = movementTime.map((t, i) => (2 + 4.8 / t) * wave(i, 1.3));
 * const across = movementTime.map((t, i) => (2 + 4.8 / t) * wave(i, 2.1));
 * const column = (value: number) => new Float64Array(90).fill(value);
 * const pace = Array.from(movementTime, String);
 * const fit = fitSpeedAccuracy({ movementTime, amplitude: column(400), width: column(40), along, across, pace });
 * fit.lacking; // => null
 * fit.paces.map((line) => line.n); // => [30, 30, 30]
 * ```
 */
export function fitSpeedAccuracy(trials: PaceTrials, options: FitSpeedAccuracyOptions = {}): SpeedAccuracyFit {
  const { law: wantedLaw = "aicc", lapse = 0.05, unit = "px", level = 0.95 } = options;
  const all = readTrials(WHERE, trials, options.shape);
  const { speed = all.pace === undefined ? "trial" : "pace" } = options;
  requireOneOf(WHERE, "options.speed", speed, ["pace", "trial"]);
  requireOneOf(WHERE, "options.law", wantedLaw, ["aicc", "linear", "power"]);
  requireNumber(WHERE, "options.lapse", lapse, 0, 0.05);
  requireLevel(WHERE, level);
  if (speed === "pace" && all.pace === undefined) {
    throw new RangeError(`${WHERE}: options.speed must be "trial" where trials.pace is absent, got "pace"`);
  }
  const presses = withPress(all);
  const times = speed === "pace" ? paceTimes(presses, presses.pace!) : presses.movementTime;
  const laws = { linear: lawFit("linear", presses, times, unit, level), power: lawFit("power", presses, times, unit, level) };
  const chosen = choose(laws, wantedLaw);
  const ends = times.length === 0 ? null : ([min(times), max(times)] as const);
  const law = chosen === null ? null : lawOf(laws[chosen], ends!);
  const labels = all.pace ?? thirds(all.movementTime);
  const expected = law === null ? undefined : expectedShares(law, presses, times, all);
  const paces = paceFigures(all, labels, expected, level);
  const ratio = presses.amplitude.map((a, i) => a / presses.width[i]!);
  const probit = hitProbit(times, ratio, presses.hit, lapse, level);
  const { found, ...overTime } = accuracyOverTime(times, presses.hit, probit.conditions === "one", level);
  const agrees = law === null ? null : agree(paces, level);
  const middle = (values: Float64Array): number => medianInPlace(values.slice());
  const aim = presses.n === 0 ? null : { amplitude: middle(presses.amplitude), width: middle(presses.width), shape: all.shape };
  const typical = (value: number | undefined): Estimate =>
    value === undefined ? { ok: false, why: "tooFew", unit, n: 0 } : { ok: true, value, unit, n: presses.n };
  return {
    n: all.n,
    timeouts: all.n - presses.n,
    unit,
    level,
    shape: all.shape,
    speed,
    law,
    chosen,
    laws,
    lacking: lackingOf(all, presses, paces, law),
    paces,
    probit,
    overTime,
    agrees,
    amplitude: typical(aim?.amplitude),
    width: typical(aim?.width),
    amplitudes: aim === null ? null : [min(presses.amplitude), max(presses.amplitude)],
    curve:
      ends === null || aim === null
        ? []
        : Array.from({ length: POINTS }, (_, k) => {
            const t = ends[0] * (ends[1] / ends[0]) ** (k / (POINTS - 1));
            return {
              movementTime: t,
              scatter: law === null ? null : lawShare(law, aim, t),
              probit: probitShare(probit, t, aim.amplitude / aim.width) ?? null,
              overTime: found === null ? null : risingShare(found, t),
            };
          }),
    warnings: warningsOf(all, presses, laws, chosen, agrees),
  };
}

function lawFit(form: "linear" | "power", presses: ReadTrials, times: Float64Array, unit: string, level: number): LawFit {
  const axis = (errors: Float64Array): AxisFit | undefined => fitLaw(form, { errors, amplitude: presses.amplitude, times, unit, level });
  const along = axis(presses.along);
  const across = presses.across === undefined || presses.shape === "strip" ? undefined : axis(presses.across);
  const both = [along, ...(presses.shape === "strip" ? [] : [across])];
  const n = presses.n;
  const aicc = both.reduce<number | null>((sum, fit) => {
    if (sum === null || fit === undefined) return null;
    const k = fit.parameters;
    return n - k - 1 < 1 ? null : sum - 2 * fit.logLikelihood + 2 * k + (2 * k * (k + 1)) / (n - k - 1);
  }, 0);
  return { form, ...(along && { along }), ...(across && { across }), aicc };
}

function choose({ linear, power }: { linear: LawFit; power: LawFit }, wanted: "aicc" | "linear" | "power"): "linear" | "power" | null {
  if (wanted !== "aicc") return { linear, power }[wanted].aicc === null ? null : wanted;
  if (linear.aicc === null) return power.aicc === null ? null : "power";
  return power.aicc !== null && power.aicc < linear.aicc ? "power" : "linear";
}

function expectedShares(law: SpeedAccuracyLaw, presses: ReadTrials, times: Float64Array, all: ReadTrials): (i: number) => number {
  const place = new Map<number, number>();
  for (let i = 0, k = 0; i < all.n; i++) if (all.pressed[i] === 1) place.set(i, k++);
  // trials of one pace, distance and width are many: each is worked out once
  const known = new Map<string, number>();
  return (i) => {
    const k = place.get(i)!;
    const [amplitude, width] = [presses.amplitude[k]!, presses.width[k]!];
    const key = `${times[k]} ${amplitude} ${width}`;
    const value = known.get(key) ?? lawShare(law, { amplitude, width, shape: all.shape }, times[k]!);
    known.set(key, value);
    return value;
  };
}

function agree(paces: readonly PaceFigures[], level: number): boolean {
  const values = paces.flatMap(({ p }) => (p === null ? [] : [p])).sort((one, other) => one - other);
  return values.length === 0 || values[0]! >= (1 - level) / values.length;
}

function lackingOf(all: ReadTrials, presses: ReadTrials, paces: readonly PaceFigures[], law: SpeedAccuracyLaw | null): Reason | null {
  if (all.n < TRIALS) return "tooFew";
  if (all.pace === undefined) {
    const sorted = presses.movementTime.slice().sort();
    if (!(quantile(sorted, 0.9) >= SPAN * quantile(sorted, 0.1))) return "notIdentified";
  } else {
    const used = paces.filter((line) => line.n - line.timeouts >= PRESSES);
    const span = used.length === 0 ? 0 : used.at(-1)!.movementTime / used[0]!.movementTime;
    if (used.length < PACES || !(span >= SPAN)) return "notIdentified";
  }
  return law === null ? "notConverged" : null;
}

function warningsOf(
  all: ReadTrials,
  presses: ReadTrials,
  laws: { linear: LawFit; power: LawFit },
  chosen: "linear" | "power" | null,
  agrees: boolean | null,
): SpeedAccuracyWarning[] {
  const warnings: SpeedAccuracyWarning[] = [];
  if (all.pace === undefined) warnings.push("pacesUnlabelled");
  const { linear, power } = laws;
  if (linear.aicc !== null && power.aicc !== null && Math.abs(linear.aicc - power.aicc) < TENABLE) warnings.push("lawUnclear");
  if (chosen !== null && [laws[chosen].along, laws[chosen].across].some((fit) => fit !== undefined && !rises(fit)))
    warnings.push("noTradeOff");
  if (all.n - presses.n > MANY_TIMEOUTS * all.n) warnings.push("timeouts");
  if (agrees === false) warnings.push("preferObserved");
  return warnings;
}

function rises({ law }: AxisFit): boolean {
  return law.scatter.form === "linear" ? law.scatter.slope > 0 : law.scatter.timeExponent > 0;
}

/** Labels by thirds of movement time, for trials that carry none. */
function thirds(times: Float64Array): string[] {
  const sorted = times.slice().sort();
  const [low, high] = [quantile(sorted, 1 / 3), quantile(sorted, 2 / 3)];
  return Array.from(times, (t) => (t <= low ? "fastest third" : t <= high ? "middle third" : "slowest third"));
}

function min(values: Float64Array): number {
  return values.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY);
}

function max(values: Float64Array): number {
  return values.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);
}
