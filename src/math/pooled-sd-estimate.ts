import { chiSquareQuantile } from "./chi-square-quantile.js";
import type { Estimate } from "./estimate.js";

/**
 * A standard deviation `sd` whose square rests on `df` degrees of freedom (residuals of a table, several lists pooled), with its chi-squared
 * interval sd sqrt(df/chi2), exact for normal residuals; `n` values stand behind it. No degrees of freedom: `tooFew`; 0: `noSpread`.
 */
export function pooledSdEstimate(sd: number, df: number, n: number, unit: string, level = 0.95): Estimate {
  if (!(df > 0)) return { ok: false, why: "tooFew", unit, n };
  if (sd === 0) return { ok: false, why: "noSpread", unit, n };
  const upper = chiSquareQuantile(0.5 + level / 2, df);
  const lower = chiSquareQuantile(0.5 - level / 2, df);
  return { ok: true, value: sd, unit, n, interval: [sd * Math.sqrt(df / upper), sd * Math.sqrt(df / lower)], level };
}
