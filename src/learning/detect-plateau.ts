import { requireNumber, requireOneOf } from "../math/require.js";
import { alongsideEvidence } from "./plateau/alongside-evidence.js";
import { asymptoteEvidence } from "./plateau/asymptote-evidence.js";
import { orderEvidence } from "./plateau/order-evidence.js";
import { plateauWarnings } from "./plateau/plateau-warnings.js";
import { requireSeries } from "./plateau/read-series.js";
import { recentStretch } from "./plateau/recent-stretch.js";
import { type ImprovementScale, improvementScale } from "./plateau/scale.js";
import { segmentEvidence } from "./plateau/segment-evidence.js";
import { detectableGain, sessionsForPlateau } from "./plateau/sessions-needed.js";
import { CERTAIN, type Trend, trendEvidence } from "./plateau/trend-evidence.js";
import type { DetectPlateauOptions, PlateauReason, PlateauReport, PlateauSeries } from "./plateau/types.js";
import { lateRecords } from "./trend/records.js";

const WHERE = "detectPlateau";
/** Fewest sessions and days that a verdict may rest on; no option lowers them. */
const LEAST_SESSIONS = 8;
const LEAST_DAYS = 10;
/** Without scatter known from at least so many sessions nothing is foretold. */
const LEAST_TO_FORETELL = 5;
const WORTHWHILE_PERCENT = 2;
const SIGNIFICANT = 0.05;
/** Chance of a gain that is enough where the curve promises a worthwhile one, too: a fall that bends makes neighbours look alike, and the trend unsure. */
const LIKELY = 0.9;

/**
 * Has a learner stopped improving? Verdict `improving`, `plateau`, `declining` or `cannotTell`, with what speaks for and against.
 *
 * The recent sessions (since the last change of equipment, and since the last break in the course that the Bayesian criterion asks for strongly) are fitted by a
 * line whose errors may resemble their neighbours; every autocorrelation counts by its likelihood. Over `horizon` days, a `plateau` needs a chance of at most
 * 3.5 % that the improvement is worthwhile, and of at most 20 % that a loss is, and no strong evidence against (a step, a curve that promises more, another measure still getting better,
 * a task grown too easy). Else `improving` or `declining` when the trend excludes none (two-sided 5 %), or a gain is likely and the curve promises a worthwhile one. Eight sessions over ten days at least.
 * With sessions that scatter by 2 % of the level expect to wait a month. Cost O(n) for the trend, O(n log n) in all.
 *
 * @param series - one value per session, see `PlateauSeries`
 * @param options - see `DetectPlateauOptions`
 * @returns the verdict, five lines of evidence, what such sessions can show and how many more are needed
 * @throws TypeError or RangeError if a column or an option is not as described
 * @see Schuirmann 1987 (two one-sided tests), Mann 1945, Kendall 1975, Theil 1950, Sen 1968 (all recalled); bounds set by this library's simulations
 * @example
 * ```ts
 * const day = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15];
 * const time = [0.61, 0.615, 0.612, 0.609, 0.611, 0.614, 0.61, 0.612, 0.613, 0.609, 0.612, 0.61, 0.611, 0.613, 0.61, 0.612];
 * detectPlateau({ day, value: time }).verdict; // => "plateau"
 * detectPlateau({ day: day.slice(0, 8), value: time.slice(0, 8) }).verdict; // => "cannotTell"
 * ```
 */
export function detectPlateau(series: PlateauSeries, options: DetectPlateauOptions = {}): PlateauReport {
  const { better = "lower", kind = "percent", horizon = 14, unit = "s" } = options;
  const worthwhile = requireOptions(options, kind, better, horizon);
  requireSeries(series, kind === "percent");
  const scale = improvementScale(kind, better, worthwhile, unit);
  const day = Float64Array.from(series.day);
  const value = Float64Array.from(series.value, scale.of);
  const n = day.length;

  const since = lastEquipment(series.equipment);
  const stretch = recentStretch(day.subarray(since), value.subarray(since), LEAST_SESSIONS, LEAST_DAYS);
  const from = since + stretch.from;
  const [days, values] = [day.subarray(from), value.subarray(from)];
  const sessions = n - from;
  const span = sessions > 0 ? day[n - 1]! - day[from]! : 0;
  const trend = trendEvidence(days, values, horizon, scale);
  const autocorrelation = trend.slope?.autocorrelation ?? 0;
  const asymptote = asymptoteEvidence(day.subarray(since), value.subarray(since), horizon, scale);
  const records = sessions > 0 && sessions < n ? lateRecords(value, sessions, "higher") : { count: 0, chance: 1 };
  const evidence: PlateauReport["evidence"] = {
    trend: trend.evidence,
    order: orderEvidence(days, values, autocorrelation, horizon, scale),
    asymptote: asymptote.evidence,
    segments: segmentEvidence(
      day.subarray(since),
      value.subarray(since),
      stretch.from,
      since,
      autocorrelation,
      asymptote.residualSum,
      scale,
    ),
    records: { speaks: records.chance <= SIGNIFICANT ? "against" : "silent", ...records },
    alongside: alongsideEvidence(series.alongside, day, from),
  };
  const warnings = plateauWarnings({ series, from, since, trend, broken: stretch.from > 0 });
  const { verdict, why } = judge(evidence, trend, sessions, span, warnings.includes("taskTooEasy"));
  const spacing = sessions > 1 ? span / (sessions - 1) : 0;
  const foretell = trend.slope !== undefined && spacing > 0 && sessions >= LEAST_TO_FORETELL;
  return {
    verdict,
    why,
    better,
    kind,
    worthwhile,
    horizon,
    n,
    recent: { from, sessions, days: span },
    evidence,
    detectable: foretell ? detectableGain(trend.slope, sessions, spacing, horizon, scale) : null,
    sessionsNeeded: foretell && verdict === "cannotTell" ? furtherSessions(trend, scale, horizon, sessions, spacing) : null,
    warnings,
  };
}

function requireOptions(options: DetectPlateauOptions, kind: string, better: string, horizon: number): number {
  requireOneOf(WHERE, "options.kind", kind, ["percent", "difference"]);
  requireOneOf(WHERE, "options.better", better, ["lower", "higher"]);
  requireNumber(WHERE, "options.horizon", horizon, 0, Number.MAX_VALUE, true);
  const { worthwhile } = options;
  if (worthwhile === undefined && kind === "percent") return WORTHWHILE_PERCENT;
  if (worthwhile === undefined)
    throw new RangeError(`${WHERE}: options.worthwhile must be given for options.kind "difference", got undefined`);
  requireNumber(WHERE, "options.worthwhile", worthwhile, 0, kind === "percent" ? 99 : Number.MAX_VALUE, true);
  return worthwhile;
}

// index of the first session on the equipment of the last
function lastEquipment(equipment: readonly string[] | undefined): number {
  if (equipment === undefined || equipment.length === 0) return 0;
  const now = equipment[equipment.length - 1];
  let from = equipment.length;
  while (from > 0 && equipment[from - 1] === now) from--;
  return from;
}

function judge(
  evidence: PlateauReport["evidence"],
  trend: Trend,
  sessions: number,
  span: number,
  tooEasy: boolean,
): { verdict: PlateauReport["verdict"]; why: PlateauReason | null } {
  const cannot = (why: PlateauReason): { verdict: "cannotTell"; why: PlateauReason } => ({ verdict: "cannotTell", why });
  if (sessions < LEAST_SESSIONS) return cannot("tooFewSessions");
  if (span < LEAST_DAYS) return cannot("tooShort");
  if (trend.slope === undefined) return cannot("noScatter");
  const against = [evidence.asymptote, evidence.segments, ...evidence.alongside].some(({ speaks }) => speaks === "against");
  if (evidence.trend.speaks === "for") return against || tooEasy ? cannot("contradicted") : { verdict: "plateau", why: null };
  const { gain, loss } = evidence.trend.chances;
  const promised = evidence.asymptote.speaks === "against" && gain >= LIKELY;
  if (gain >= CERTAIN || promised) return { verdict: "improving", why: null };
  if (loss >= CERTAIN) return { verdict: "declining", why: null };
  return cannot("tooNoisy");
}

function furtherSessions({ slope }: Trend, scale: ImprovementScale, horizon: number, sessions: number, spacing: number): number {
  const least = Math.max(LEAST_SESSIONS, Math.ceil(LEAST_DAYS / spacing) + 1);
  return Math.max(1, sessionsForPlateau(slope!, spacing, horizon, scale, least) - sessions);
}
