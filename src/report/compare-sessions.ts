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
  const { comparison: equipment, mixed } = periodEquipment(first, second, waitsOf([...first, ...second]));
  const sameEquipment = equipment.verdict === "same";
  const measures = SESSION_MEASURES.map((measure) => {
    const values = sessionValues(
      [...first, ...second].map(({ rows }) => rows),
      measure,
    );
    const effect = mixed ? undefined : effectOn(measure.name, equipment);
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

/** How often an acquisition waits to see: for its corrections, and for its target where that appears at go. In a sequence the next one has been in view. */
function waitsOf(sessions: readonly SessionSummary[]): { readonly loops: number; readonly responses: number } {
  const rows = sessions.flatMap((session) =>
    session.rows.map(({ trial, corrections }, i) => ({
      loops: corrections.length,
      responses: trial === session.rows[i - 1]?.trial ? 0 : 1,
    })),
  );
  const mean = (of: "loops" | "responses", none: number): number =>
    rows.length === 0 ? none : rows.reduce((sum, row) => sum + row[of], 0) / rows.length;
  return { loops: mean("loops", 0), responses: mean("responses", 1) };
}

function effectOn(measure: string, equipment: EquipmentComparison): Estimate | undefined {
  return equipment.effects.find((effect) => effect.measure === measure)?.change;
}
