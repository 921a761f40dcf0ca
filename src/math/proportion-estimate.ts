import type { Estimate } from "./estimate.js";
import { normalQuantile } from "./normal-quantile.js";

/**
 * Share `k` of `n` independent trials with its Wilson interval (E. B. Wilson 1927, recalled): the shares p for which k/n lies within z
 * standard errors sqrt(p (1 - p)/n). It stays inside 0..1 and keeps a sensible width at 0 and n successes. No trials: `tooFew`.
 */
export function proportionEstimate(k: number, n: number, level = 0.95): Estimate {
  if (n === 0) return { ok: false, why: "tooFew", unit: "1", n };
  const z = normalQuantile(0.5 + level / 2);
  const square = z * z;
  const centre = (k + square / 2) / (n + square);
  const half = (z / (n + square)) * Math.sqrt((k / n) * (n - k) + square / 4);
  // the ends at no and at full success are 0 and 1 exactly, which rounding would miss by a hair
  return { ok: true, value: k / n, unit: "1", n, interval: [k === 0 ? 0 : centre - half, k === n ? 1 : centre + half], level };
}
