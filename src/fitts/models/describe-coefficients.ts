import type { Estimate } from "../../math/estimate.js";
import { studentQuantile } from "../../math/student-quantile.js";
import type { TermsFit } from "./fit-terms.js";
import type { ModelTerms } from "./model-terms.js";
import type { CoefficientName } from "./movement-time.js";

/** A coefficient with its Student interval; `standardError` in the same unit, `null` where there is no value. */
export type Coefficient = Estimate & { readonly standardError: number | null };

/** `fit` may be the reason why there is none. The intercept of a logarithmic law is given as the factor that it stands for. */
export function describeCoefficients(
  terms: ModelTerms,
  fit: TermsFit | "tooFew" | "notIdentified",
  n: number,
  level: number,
): Partial<Record<CoefficientName, Coefficient>> {
  const t = typeof fit === "string" ? 0 : studentQuantile(0.5 + level / 2, fit.regression.df);
  const entries = terms.coefficients.map(([name, unit], j): [CoefficientName, Coefficient] => {
    if (typeof fit === "string") return [name, { ok: false, why: fit, unit, n, standardError: null }];
    const centre = fit.regression.coefficients[j]! + 0;
    const error = fit.regression.standardErrors[j]!;
    const back = j === 0 ? terms.toTime : (value: number): number => value;
    const interval: [number, number] = [back(centre - t * error), back(centre + t * error)];
    const value = back(centre);
    const isFactor = j === 0 && terms.logarithmic;
    // to first order the error of a factor is the factor times the error of its logarithm
    const standardError = isFactor ? value * error : error;
    // a factor that overflows or vanishes comes from sizes too much alike to tell it
    const lost = isFactor && !(value > 0 && Number.isFinite(interval[1] + standardError));
    if (lost) return [name, { ok: false, why: "notIdentified", unit, n, standardError: null }];
    return [name, { ok: true, value, unit, n, interval, level, standardError }];
  });
  return Object.fromEntries(entries);
}
