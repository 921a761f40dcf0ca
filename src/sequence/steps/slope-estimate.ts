import type { Estimate } from "../../math/estimate.js";
import type { LinearRegression } from "../../math/linear-regression.js";
import { studentQuantile } from "../../math/student-quantile.js";

/** Coefficient `j` of a fit with its Student interval; `tooFew` without a fit. */
export function slopeEstimate(fit: LinearRegression | undefined, j: number, n: number, unit: string, level: number): Estimate {
  if (fit === undefined) return { ok: false, why: "tooFew", unit, n };
  const value = fit.coefficients[j]!;
  const half = -studentQuantile((1 - level) / 2, fit.df) * fit.standardErrors[j]!;
  return { ok: true, value, unit, n, interval: [value - half, value + half], level };
}
