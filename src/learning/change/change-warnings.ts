import { fTail } from "../../math/f-distribution.js";
import { meanAndSd } from "../../math/mean-and-sd.js";
import type { ComparisonWarning, Dependence, RearrangementTest } from "./comparison.js";
import type { Sessions } from "./effect.js";

const ENOUGH_SESSIONS = 5;
/** Error rate of the checks that make a warning. */
const ALPHA = 0.05;

export function changeWarnings(
  sessions: Sessions,
  fewest: number,
  level: number,
  dependence: Dependence,
  rearranged: RearrangementTest | null,
  trended: boolean,
): ComparisonWarning[] {
  const series = "differences" in sessions ? [sessions.differences] : [sessions.before, sessions.after];
  const warnings: ComparisonWarning[] = [];
  if (fewest < ENOUGH_SESSIONS) warnings.push("fewSessions");
  if (rearranged !== null && rearranged.smallestP > 1 - level) warnings.push("smallestPTooLarge");
  if (dependence.p !== null && dependence.p < ALPHA) warnings.push("autocorrelated");
  if (trended) warnings.push("trendWithin");
  if (series.length === 2 && fewest >= ENOUGH_SESSIONS && spreadP(series[0]!, series[1]!) < ALPHA) warnings.push("unequalSpread");
  return warnings;
}

/** p-value of unequal variances, by their ratio: for values that are far from normal it is small too often. */
function spreadP(one: Float64Array, other: Float64Array): number {
  const [a, b] = [meanAndSd(one).sd, meanAndSd(other).sd];
  if (a === 0 || b === 0) return a === b ? 1 : 0;
  const ratio = (a / b) ** 2;
  const above = fTail(ratio, one.length - 1, other.length - 1);
  return 2 * Math.min(above, 1 - above);
}
