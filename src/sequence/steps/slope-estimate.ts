import { coefficientEstimate } from "../../math/coefficient-estimate.js";
import type { Estimate } from "../../math/estimate.js";
import type { LinearRegression } from "../../math/linear-regression.js";

/** Coefficient `j` of a fit with its Student interval; `tooFew` without a fit. */
export function slopeEstimate(fit: LinearRegression | undefined, j: number, n: number, unit: string, level: number): Estimate {
  return fit === undefined ? { ok: false, why: "tooFew", unit, n } : coefficientEstimate(fit, j, n, unit, level);
}
