import type { Estimate } from "../math/estimate.js";
import { meanAndSd } from "../math/mean-and-sd.js";
import { medianInPlace } from "../math/median.js";
import { pooledSdEstimate } from "../math/pooled-sd-estimate.js";
import { requireInteger, requireNumber, requireOneOf, requireSeed } from "../math/require.js";
import { carried, carriedPair, changeScale } from "./change/change-scale.js";
import { changeWarnings } from "./change/change-warnings.js";
import type { ChangeKind, ComparisonWarning, Dependence, PeriodFigures, RearrangementTest } from "./change/comparison.js";
import { dependenceOf } from "./change/dependence.js";
import { type Effect, meanEffect, type Sessions } from "./change/effect.js";
import { type JudgedChange, judgeChange } from "./change/judge-change.js";
import { medianEffect } from "./change/median-effect.js";
import { pairedMedianEffect } from "./change/paired-median-effect.js";
import { periodFigures } from "./change/period-figures.js";
import { type Period, readPeriod } from "./change/read-periods.js";
import { rearrangeSessions } from "./change/rearrange-sessions.js";
import { sensitivityOf } from "./change/sensitivity.js";
import { trendWithin } from "./change/trend-within.js";

const WHERE = "compare";
/** Share of the level that matters to nobody, unless the caller knows better. */
const WORTHWHILE_PERCENT = 2;

/** Options of `compare`. */
export interface CompareOptions {
  /** The change as a share of the level before, on logarithms (values above 0), or as a plain difference. Default "percent". */
  readonly kind?: ChangeKind;
  /** Which way is improvement, default "lower", as for times and errors. */
  readonly better?: "lower" | "higher";
  /** Smallest change that matters, above 0, in percent (at most 99) or in the unit of the measure. Default 2 %, or 2 % of the level before. Raised, more is `equivalent`. */
  readonly worthwhile?: number;
  /** Whether both conditions were met in the same sessions: entry i of both lists belongs to session i. Default false. */
  readonly paired?: boolean;
  /** What stands for a period, and for the trials of a session. Default "mean"; "median" bears single odd sessions, but sees less and is slower. */
  readonly centre?: "mean" | "median";
  /** Confidence level, 0.6 to 0.9999, default 0.95. Raised, changes are called real less often. */
  readonly level?: number;
  /** Correlation of neighbouring sessions, 0 to 0.95, where a longer record tells it; 0 takes sessions as independent. Default: measured within the periods. */
  readonly autocorrelation?: number;
  /** Start of the random numbers (rearrangements beyond 20000, resamples of medians), a 32-bit integer, default 1. */
  readonly seed?: number;
  /** Random rearrangements where there are more than 20000, 99 to 100000, default 1999. More give a finer p-value and take longer. */
  readonly permutations?: number;
  /** Label of the measure's unit, default "". */
  readonly unit?: string;
}

/** Two periods, conditions or people compared, sessions being the units. */
export interface Comparison extends JudgedChange {
  readonly kind: ChangeKind;
  readonly centre: "mean" | "median";
  readonly paired: boolean;
  readonly better: "lower" | "higher";
  readonly level: number;
  readonly seed: number;
  /** Smallest change that matters, in the unit of `change`. */
  readonly worthwhile: number;
  readonly before: PeriodFigures;
  readonly after: PeriodFigures;
  /** `null` where the sessions have no spread, or are fewer than two a period. */
  readonly permutation: RearrangementTest | null;
  /** The person's own standard deviation from session to session: pooled over both periods; paired, that of the differences over the root of 2. */
  readonly sessionSd: Estimate;
  /** A fall and a rise: a change between them is within what these two periods show where nothing changed. */
  readonly minimalDetectable: readonly [number, number] | null;
  /** A fall and a rise that two such periods show to be real in four of five repetitions. */
  readonly detectable: readonly [number, number] | null;
  /** Sessions in each period that show an improvement by just `worthwhile` to be real in four of five cases; the interval is that of `sessionSd`. */
  readonly sessionsNeeded: Estimate;
  readonly autocorrelation: Dependence;
  readonly warnings: readonly ComparisonWarning[];
}

/**
 * Did a measure change between two periods, conditions or people, and is the change worth anything?
 *
 * The session is the unit: give one value per session, or the trials of each, in order of time. Change of the mean (on logarithms for `percent`) with
 * Welch's interval, paired Student's; of the median by bootstrap (BCa, 2000 resamples of sessions), paired by order statistics. All allow for sessions that
 * resemble their neighbours. Verdict: `better` or `worse` when the interval excludes no change, else `equivalent` when the interval at 2 level - 1 lies
 * within +-worthwhile, else `cannotTell`. `minimalDetectable` is t s sqrt(1/k1 + 1/k2), s the session SD. Cost O(sessions permutations).
 *
 * @param before - one value per session, or a list of trials per session
 * @param after - the same of the other period
 * @param options - see `CompareOptions`
 * @returns the change with its interval, tests, chances, what such periods can show, verdict and warnings; not ok with fewer than two sessions in a period
 * @throws TypeError or RangeError if a value or an option is not as described
 * @see Welch 1947; Schuirmann 1987 (equivalence); Efron 1987 (BCa); Weir 2005 (minimal detectable change) (all recalled)
 * @example
 * ```ts
 * const result = compare([0.71, 0.74, 0.69, 0.72, 0.7], [0.66, 0.64, 0.67, 0.63, 0.66], { unit: "s" });
 * result.verdict; // => "better"
 * result.change; // => { ok: true, value: -8.424, unit: "%", n: 10, … }
 * ```
 */
export function compare(before: Period, after: Period, options: CompareOptions = {}): Comparison {
  const { kind = "percent", better = "lower", paired = false, centre = "mean", level = 0.95, seed = 1, unit = "" } = options;
  requireOptions({ kind, better, paired, centre, level, seed }, options);
  const values = [readPeriod(WHERE, "before", before, centre, kind), readPeriod(WHERE, "after", after, centre, kind)] as const;
  const lengths = [values[0].length, values[1].length] as const;
  if (paired && lengths[0] !== lengths[1]) {
    throw new RangeError(`${WHERE}: after must have ${lengths[0]} sessions like before where options.paired is true, got ${lengths[1]}`);
  }
  const { worthwhile = kind === "percent" ? WORTHWHILE_PERCENT : (WORTHWHILE_PERCENT / 100) * levelOf(values[0], centre) } = options;
  const scale = changeScale(kind, unit);
  const [one, other] = [values[0].map(scale.value), values[1].map(scale.value)];
  const sessions: Sessions = paired ? { differences: other.map((value, i) => value - one[i]!) } : { before: one, after: other };
  const series = "differences" in sessions ? [sessions.differences] : [one, other];
  const trended = trendWithin(series);
  const autocorrelation = dependenceOf(series, lengths, options.autocorrelation, trended);
  const r = autocorrelation.allowedFor;
  const n = paired ? lengths[0] : lengths[0] + lengths[1];
  const fewest = Math.min(...lengths);
  const effect = fewest < 2 ? undefined : effectOf(sessions, centre, r, seed);
  const permutation = fewest < 2 ? null : rearrangeSessions(sessions, centre, { permutations: options.permutations ?? 1999, seed });
  const sd = sessionSdOf(sessions, fewest, level);
  const size = Math.abs(scale.onScale(better === "lower" ? -worthwhile : worthwhile));
  const found = sd.ok ? sensitivityOf(sd, lengths, size, { paired, centre, level, r }) : null;
  const range = (change: number): readonly [number, number] | null => carriedPair([-change, change], scale.change) ?? null;
  const why = fewest < 2 ? "tooFew" : "noSpread";
  return {
    kind,
    centre,
    paired,
    better,
    level,
    seed,
    worthwhile,
    before: periodFigures(one, scale, { centre, level, r, unit }),
    after: periodFigures(other, scale, { centre, level, r, unit }),
    ...(effect === undefined ? unjudged(why, scale.unit, n) : judgeChange(effect, scale, n, { worthwhile, better, level })),
    permutation,
    sessionSd: carried(sd, scale.spread, scale.unit),
    minimalDetectable: found && range(found.minimalDetectable),
    detectable: found && range(found.detectable),
    sessionsNeeded: found?.sessionsNeeded ?? { ok: false, why, unit: "session", n },
    autocorrelation,
    warnings: changeWarnings(sessions, fewest, level, autocorrelation, permutation, trended),
  };
}

function requireOptions(
  given: Required<Pick<CompareOptions, "kind" | "better" | "paired" | "centre" | "level" | "seed">>,
  { worthwhile, autocorrelation, permutations }: CompareOptions,
): void {
  requireOneOf(WHERE, "options.kind", given.kind, ["difference", "percent"]);
  requireOneOf(WHERE, "options.better", given.better, ["lower", "higher"]);
  requireOneOf(WHERE, "options.centre", given.centre, ["mean", "median"]);
  if (typeof given.paired !== "boolean") throw new TypeError(`${WHERE}: options.paired must be true or false, got ${given.paired}`);
  requireNumber(WHERE, "options.level", given.level, 0.6, 0.9999);
  requireSeed(WHERE, given.seed);
  if (worthwhile !== undefined) requireNumber(WHERE, "options.worthwhile", worthwhile, 0, given.kind === "percent" ? 99 : undefined, true);
  if (autocorrelation !== undefined) requireNumber(WHERE, "options.autocorrelation", autocorrelation, 0, 0.95);
  if (permutations !== undefined) requireInteger(WHERE, "options.permutations", permutations, 99, 100000);
}

function effectOf(sessions: Sessions, centre: "mean" | "median", r: number, seed: number): Effect | undefined {
  if (centre === "mean") return meanEffect(sessions, r);
  if ("differences" in sessions) return pairedMedianEffect(sessions.differences, r);
  return medianEffect(sessions.before, sessions.after, r, seed);
}

/** Size of the level before, 0 of no sessions. */
function levelOf(values: Float64Array, centre: "mean" | "median"): number {
  if (values.length === 0) return 0;
  return Math.abs(centre === "mean" ? meanAndSd(values).mean : medianInPlace(values.slice()));
}

function sessionSdOf(sessions: Sessions, fewest: number, level: number): Estimate {
  if ("differences" in sessions) {
    const n = sessions.differences.length;
    return pooledSdEstimate(fewest < 2 ? 0 : meanAndSd(sessions.differences).sd / Math.SQRT2, fewest < 2 ? 0 : n - 1, n, "", level);
  }
  const { before, after } = sessions;
  const n = before.length + after.length;
  if (fewest < 2) return pooledSdEstimate(0, 0, n, "", level);
  const squares = (values: Float64Array): number => (values.length - 1) * meanAndSd(values).sd ** 2;
  return pooledSdEstimate(Math.sqrt((squares(before) + squares(after)) / (n - 2)), n - 2, n, "", level);
}

function unjudged(why: "tooFew" | "noSpread", unit: string, n: number): JudgedChange {
  return { change: { ok: false, why, unit, n }, equivalence: null, chances: null, verdict: "cannotTell", size: "unclear" };
}
