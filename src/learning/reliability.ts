import type { Estimate } from "../math/estimate.js";
import { meanAndSd } from "../math/mean-and-sd.js";
import { normalQuantile } from "../math/normal-quantile.js";
import { pooledSdEstimate } from "../math/pooled-sd-estimate.js";
import { requireLevel, show } from "../math/require.js";
import { requireList } from "../math/require-list.js";
import { type IccForm, intraclass } from "./agreement/intraclass.js";
import { type OwnScatter, ownScatter } from "./agreement/own-scatter.js";
import { type ReliabilityWarning, reliabilityWarnings } from "./agreement/reliability-warnings.js";
import { type ScoreTable, scoreTable, type VarianceTable } from "./agreement/score-table.js";
import { asPercent, type SessionPair, sessionPair } from "./agreement/session-pair.js";
import { varianceTable } from "./agreement/variance-table.js";

const WHERE = "reliability";
/** Squares of larger scores would not fit into a double. */
const LARGEST = 1e100;
/** Share of the spread between people that counts as a small effect (Hopkins 2000, recalled). */
const SMALL_EFFECT = 0.2;

/** Options of `reliability`. */
export interface ReliabilityOptions {
  /** Label of the scores' unit, default "". */
  readonly unit?: string;
  /** Confidence level of every interval, above 0 and below 1, default 0.95. Higher makes them wider; the limits of agreement themselves stay. */
  readonly level?: number;
}

/** How well scores of the same people agree from session to session. */
export interface Reliability {
  readonly unit: string;
  readonly level: number;
  readonly people: number;
  readonly sessions: number;
  /** Mean and standard deviation of all scores; `null` of none or one. */
  readonly mean: number | null;
  readonly sd: number | null;
  /** `null` with fewer than two people or sessions. */
  readonly variances: VarianceTable | null;
  /** Intraclass correlations by form. */
  readonly icc: Readonly<Record<IccForm, Estimate>>;
  /** Standard error of measurement, or typical error: the scatter of one person's score about the own level, differences common to all sessions taken out. */
  readonly typicalError: Estimate;
  /** The same from logarithms, in percent (a coefficient of variation); `null` where a score is not above 0. */
  readonly typicalErrorPercent: Estimate | null;
  /** Scatter within people with the differences between sessions left in. With one person the only figure of the kind. */
  readonly withinError: Estimate;
  /** Standard error of measurement as SD sqrt(1 - ICC(2,1)), for comparison with reports; `null` where it cannot be had. */
  readonly errorFromIcc: number | null;
  /** Change of one person between two single sessions that errors alone exceed in 5 or 10 % of cases: 2.772 and 2.326 typical errors. For means of k sessions divide by sqrt k. */
  readonly minimalDetectable: { readonly at95: Estimate; readonly at90: Estimate };
  /** Standard deviation between people: root of the mean variance of a session; `pure` without the typical error. `null` with fewer than two people. */
  readonly betweenSd: number | null;
  readonly pureBetweenSd: number | null;
  /** Smallest worthwhile change for comparing people: 0.2 between-person SDs, as observed and pure. */
  readonly worthwhile: { readonly observed: number; readonly pure: number } | null;
  /** Neighbouring sessions two by two. */
  readonly pairs: readonly SessionPair[];
  /** Each person's own figures, in the order given. */
  readonly own: readonly OwnScatter[];
  readonly warnings: readonly ReliabilityWarning[];
}

/**
 * How far scores of the same people, repeated in several sessions, can be trusted: to tell people apart, and to show a change of one.
 *
 * Two-way analysis of variance without repeats. Typical error: root of the error mean square, chi-squared interval with (n - 1)(k - 1) degrees of freedom.
 * Intraclass correlations of Shrout and Fleiss with the F intervals of McGraw and Wong, form 2 with Satterthwaite's degrees of freedom. Pairs of neighbouring
 * sessions: change of the mean, typical error, limits of agreement. With one person: `withinError` and `own` only. Cost O(people sessions).
 *
 * @param scores - a row per person, a column per session in order, all rows of one length; leave out people with a missing session
 * @param options - see `ReliabilityOptions`
 * @returns errors, correlations, limits and warnings; estimates are not ok with fewer than two people or sessions, or without spread
 * @throws TypeError or RangeError if a row is missing, unlike in length or holds something else than numbers
 * @see Shrout and Fleiss 1979, McGraw and Wong 1996, Bland and Altman 1986, Hopkins 2000 (all recalled)
 * @example
 * ```ts
 * const { icc, typicalError } = reliability([[62, 67], [78, 76], [81, 87], [55, 55], [66, 63]]);
 * typicalError; // => { ok: true, value: 2.8896, unit: "", n: 10, … }
 * icc["3,1"]; // => { ok: true, value: 0.9384, unit: "1", n: 5, … }
 * ```
 */
export function reliability(scores: readonly ArrayLike<number>[], options: ReliabilityOptions = {}): Reliability {
  const { unit = "", level = 0.95 } = options;
  requireScores(scores);
  requireLevel(WHERE, level);
  const table = scoreTable(scores);
  const { people, sessions } = table;
  const several = people >= 2 && sessions >= 2;
  const variances = several ? varianceTable(table) : null;
  const icc = intraclass(variances ?? "tooFew", people, level);
  const typicalError = errorOf(variances, people * sessions, unit, level);
  const agreement = icc["2,1"];
  const betweenSd = people < 2 || sessions < 1 ? null : rootMeanVariance(scores, sessions);
  const pureBetweenSd = variances && Math.sqrt(Math.max(0, betweenSd! ** 2 - variances.error.meanSquare));
  return {
    unit,
    level,
    people,
    sessions,
    mean: people * sessions > 0 ? table.mean : null,
    sd: people * sessions > 1 ? table.sd : null,
    variances,
    icc,
    typicalError,
    typicalErrorPercent: percentError(scores, several, people * sessions, level),
    withinError: withinError(scores, table, unit, level),
    errorFromIcc: agreement.ok ? table.sd * Math.sqrt(Math.max(0, 1 - agreement.value)) : null,
    minimalDetectable: { at95: timesError(typicalError, 0.95), at90: timesError(typicalError, 0.9) },
    betweenSd,
    pureBetweenSd,
    worthwhile: pureBetweenSd === null ? null : { observed: SMALL_EFFECT * betweenSd!, pure: SMALL_EFFECT * pureBetweenSd },
    pairs: several ? pairsOf(scores, sessions, unit, level) : [],
    own: scores.map((row) => ownScatter(row, unit, level)),
    warnings: reliabilityWarnings(table, variances, level),
  };
}

function requireScores(scores: readonly ArrayLike<number>[]): void {
  if (!Array.isArray(scores)) throw new TypeError(`${WHERE}: scores must be an array of rows, got ${show(scores)}`);
  for (const [i, row] of scores.entries()) {
    requireList(WHERE, `scores[${i}]`, row);
    if (row.length === 0) throw new RangeError(`${WHERE}: scores[${i}] must hold at least one session, got none`);
    const far = Float64Array.from(row).findIndex((score) => Math.abs(score) > LARGEST);
    if (far !== -1) throw new RangeError(`${WHERE}: scores[${i}][${far}] must lie within -1e100 and 1e100, got ${row[far]}`);
    if (row.length === scores[0]!.length) continue;
    throw new RangeError(`${WHERE}: scores[${i}] must have ${scores[0]!.length} sessions like the first row, got ${row.length}`);
  }
}

function errorOf(variances: VarianceTable | null, n: number, unit: string, level: number): Estimate {
  if (variances === null) return { ok: false, why: "tooFew", unit, n };
  return pooledSdEstimate(Math.sqrt(variances.error.meanSquare), variances.error.df, n, unit, level);
}

function percentError(scores: readonly ArrayLike<number>[], several: boolean, n: number, level: number): Estimate | null {
  const logs = scores.map((row) => Float64Array.from(row, Math.log));
  if (!logs.every((row) => row.every(Number.isFinite))) return null;
  return asPercent(errorOf(several ? varianceTable(scoreTable(logs)) : null, n, "%", level));
}

function withinError(scores: readonly ArrayLike<number>[], { people, sessions }: ScoreTable, unit: string, level: number): Estimate {
  const squares = scores.reduce((sum, row) => sum + meanAndSd(row).sd ** 2, 0);
  return pooledSdEstimate(Math.sqrt(squares / Math.max(1, people)), people * Math.max(0, sessions - 1), people * sessions, unit, level);
}

/** Errors of two sessions together, `share` of them within. */
function timesError(error: Estimate, share: number): Estimate {
  if (!error.ok || error.interval === undefined) return error;
  const times = normalQuantile((1 + share) / 2) * Math.SQRT2;
  return { ...error, value: times * error.value, interval: [times * error.interval[0], times * error.interval[1]] };
}

function rootMeanVariance(scores: readonly ArrayLike<number>[], sessions: number): number {
  let sum = 0;
  for (let j = 0; j < sessions; j++) sum += meanAndSd(Float64Array.from(scores, (row) => row[j]!)).sd ** 2;
  return Math.sqrt(sum / sessions);
}

function pairsOf(scores: readonly ArrayLike<number>[], sessions: number, unit: string, level: number): SessionPair[] {
  const column = (j: number): Float64Array => Float64Array.from(scores, (row) => row[j]!);
  return Array.from({ length: sessions - 1 }, (_, j) => sessionPair(column(j), column(j + 1), j, unit, level));
}
