import { normalCdf } from "../../math/normal.js";
import { effectiveCount } from "../trend/effective-count.js";
import { mannKendall } from "../trend/mann-kendall.js";
import { theilSen } from "../trend/theil-sen.js";
import type { ImprovementScale } from "./scale.js";
import type { OrderEvidence } from "./types.js";

const LEVEL = 0.95;
const SIGNIFICANT = 0.05;

/**
 * Mann-Kendall and Theil-Sen on values that are larger when better. The test's z shrinks with the root of the share of values that count as independent, so
 * that alike neighbours do not make a trend.
 */
export function orderEvidence(
  day: Float64Array,
  value: Float64Array,
  autocorrelation: number,
  horizon: number,
  scale: ImprovementScale,
): OrderEvidence {
  const n = value.length;
  const { z, tau } = mannKendall(day, value);
  const p = n > 0 ? 2 * normalCdf(-Math.abs(z) * Math.sqrt(effectiveCount(n, autocorrelation) / n)) : 1;
  const line = n > 1 ? theilSen(day, value, LEVEL) : undefined;
  const over = (perDay: number): number => scale.improvement(perDay * horizon);
  const medianSlope =
    line === undefined ? null : { improvement: over(line.slope), interval: [over(line.interval[0]), over(line.interval[1])] as const };
  const inside = line !== undefined && line.slope * horizon < scale.gain && line.slope * horizon > -scale.loss;
  return { speaks: p <= SIGNIFICANT ? "against" : inside ? "for" : "silent", medianSlope, tau: tau + 0, p };
}
