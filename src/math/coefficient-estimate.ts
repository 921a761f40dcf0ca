import type { Estimate } from "./estimate.js";
import type { LinearRegression } from "./linear-regression.js";
import { studentQuantile } from "./student-quantile.js";

/** Coefficient `j` of a fit to `n` rows, 0 the intercept, with its Student interval. */
export function coefficientEstimate(fit: LinearRegression, j: number, n: number, unit: string, level: number): Estimate {
  const value = fit.coefficients[j]!;
  const half = -studentQuantile((1 - level) / 2, fit.df) * fit.standardErrors[j]!;
  return { ok: true, value, unit, n, interval: [value - half, value + half], level };
}
