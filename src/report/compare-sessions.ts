import type { EquipmentComparison } from "../equipment/index.js";
import type { Estimate } from "../math/estimate.js";
import { requireLevel, requireObject } from "../math/require.js";
import { VERSION } from "../math/version.js";
import { compareMeasure } from "./comparison/compare-measure.js";
import { periodEquipment } from "./comparison/period-equipment.js";
import { periodSummary } from "./comparison/period-summary.js";
import { periodsWarnings } from "./comparison/periods-warnings.js";
import { inOrder, requireSummaries } from "./comparison/require-summaries.js";
import { SESSION_MEASURES } from "./measures/session-measures.js";
import { sessionValues } from "./measures/session-values.js";
import type { SessionSummary, SessionsComparison } from "./types.js";

const WHERE = "compareSessions";

/** Options of `compareSessions`. */
export interface CompareSessionsOptions {
  /** Confidence level of the intervals, 0.6 to 0.9999, default 0.95. Raised, changes are called real less often. */
  readonly level?: number;
}

/**
 * What changed between two periods, in the whole and in each part, and whether it can be a change of skill.
 *
 * One figure per session and measure, taken at the same difficulty (analysis of covariance on log2(A/W + 1), slope pooled within sessions), then `compare`
 * with the session as unit. Equipment first: on other equipment a verdict on skill stands only where the known effect of the difference (`compareEquipment`),
 * taken off at either end of its interval, leaves the verdict as it is; else it is `cannotTell`. Cost O(rows).
 *
 * @param before - results of `summarizeSession`, one person, one task
 * @param after - the same of the later period
 * @param options - see `CompareSessionsOptions`
 * @returns both periods, the equipment's comparison, per measure the comparison, the equipment's effect and the verdict on skill, warnings; plain data
 * @throws TypeError or RangeError if a period is empty, an entry is no session summary, spaces or units differ, or the level is out of range
 * @see analysis of covariance: textbook (recalled); the measures and their worthwhile changes are choices of this library, given with each result
 * @example
 * ```ts
 * const session = (seed: number, mu: number, day: string) => {
 *   const { recording } = simulateRecording({ seed, movements: 40, latency: { mu } });
 *   return summarizeSession({ person: "Ada", startedAt: `2026-03-${day}T18:00:00Z`, equipment: { id: "desk" }, recordings: [recording] });
 * };
 * const march = [1, 2, 3, 4, 5].map((seed) => session(seed, 0.25, `0${seed}`));
 * const later = [1, 2, 3, 4, 5].map((seed) => session(seed + 5, 0.2, `1${seed}`));
 * compareSessions(march, later).measures.find(({ measure }) => measure === "latency")!.skill; // => "better"
 * ```
 */
export function compareSessions(
  before: readonly SessionSummary[],
  after: readonly SessionSummary[],
  options: CompareSessionsOptions = {},
): SessionsComparison {
  requireObject(WHERE, "options", options);
  const { level = 0.95 } = options;
  requireLevel(WHERE, level);
  requireSummaries(WHERE, "before", before, 1);
  requireSummaries(WHERE, "after", after, 1);
  requireSummaries(WHERE, "before and after", [...before, ...after], 2);
  const first = inOrder(before);
  const second = inOrder(after);
  const { comparison: equipment, mixed } = periodEquipment(first, second, correctionsPerRow([...first, ...second]));
  const sameEquipment = equipment.verdict === "same";
  const waiting = shareWaiting([...first, ...second]);
  const measures = SESSION_MEASURES.map((measure) => {
    const values = sessionValues(
      [...first, ...second].map(({ rows }) => rows),
      measure,
    );
    const effect = mixed ? undefined : effectOn(measure.name, equipment, waiting);
    return compareMeasure(measure, values.slice(0, first.length), values.slice(first.length), { level, sameEquipment, effect });
  });
  return {
    header: { library: "aimed-movement", version: VERSION, schema: 1, options: { level } },
    before: periodSummary(first),
    after: periodSummary(second),
    equipment,
    measures,
    warnings: periodsWarnings(first, second, measures, sameEquipment),
  };
}

/** Visual loops of an acquisition that a delay is paid for, beside the response. */
function correctionsPerRow(sessions: readonly SessionSummary[]): number {
  const rows = sessions.flatMap((session) => session.rows);
  return rows.length === 0 ? 0 : rows.reduce((sum, row) => sum + row.corrections.length, 0) / rows.length;
}

/** Share of acquisitions whose target appears at go: in a sequence the next one has been in view since before the press, and nothing of it is waited for. */
function shareWaiting(sessions: readonly SessionSummary[]): number {
  const rows = sessions.flatMap((session) => session.rows.map((row, i) => i === 0 || session.rows[i - 1]!.trial !== row.trial));
  return rows.length === 0 ? 1 : rows.filter((first) => first).length / rows.length;
}

/** What the other equipment adds to a measure; of the latency, only where it is waited for. */
function effectOn(measure: string, equipment: EquipmentComparison, waiting: number): Estimate | undefined {
  const find = (name: string): Estimate | undefined => equipment.effects.find((effect) => effect.measure === name)?.change;
  const [effect, latency] = [find(measure), find("latency")];
  if (measure === "latency") return weighted(effect, waiting, latency, 0);
  return measure === "acquisitionTime" ? weighted(effect, 1, latency, waiting - 1) : effect;
}

/** `a` times one effect plus `b` times another that errs alike. */
function weighted(one: Estimate | undefined, a: number, other: Estimate | undefined, b: number): Estimate | undefined {
  if (!one?.ok || !other?.ok) return one;
  const sum = (x: number, y: number): number => a * x + b * y;
  const ends = [0, 1].map((end) => sum(one.interval?.[end] ?? one.value, other.interval?.[end] ?? other.value));
  return { ...one, value: sum(one.value, other.value), interval: [Math.min(...ends), Math.max(...ends)] };
}
