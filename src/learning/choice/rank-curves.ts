import type { LearningLawName } from "../types.js";
import type { ComparedLearningCurve } from "./compared-curve.js";

/** Laws that become the named one for certain values of their parameters, or come as near to it as one likes. */
const RICHER: Readonly<Record<LearningLawName | "own", readonly LearningLawName[]>> = {
  constant: ["linear", "power2", "power3", "power4", "exponential2", "exponential3", "combined", "delayedExponential"],
  linear: ["power4", "exponential3", "combined", "delayedExponential"],
  power2: ["power3", "power4", "combined"],
  power3: ["power4", "combined"],
  power4: [],
  exponential2: ["power4", "exponential3", "combined", "delayedExponential"],
  exponential3: ["power4", "combined", "delayedExponential"],
  combined: [],
  delayedExponential: [],
  own: [],
};

/** In order of preference: laws that are not worse by their number of parameters and then BIC, then the worse ones by BIC, then those without a fit. */
export function rankCurves(curves: readonly ComparedLearningCurve[]): ComparedLearningCurve[] {
  const group = ({ fit, worse }: ComparedLearningCurve): number => (fit.quality === null ? 2 : worse ? 1 : 0);
  return curves.slice().sort((one, other) => {
    const apart = group(one) - group(other);
    if (apart !== 0) return apart;
    const fewer = group(one) === 0 ? one.parameterCount - other.parameterCount : 0;
    return fewer || (one.bicDifference ?? 0) - (other.bicDifference ?? 0);
  });
}

/** Whether some other law is as good as the first of a ranked list and is no richer form of it, which would have to earn its further parameters. */
export function hasRival(ranked: readonly ComparedLearningCurve[]): boolean {
  const [first, ...others] = ranked;
  if (first === undefined || first.fit.quality === null) return false;
  const richer: readonly string[] = RICHER[first.fit.law];
  return others.some(({ fit, worse }) => fit.quality !== null && !worse && !richer.includes(fit.law));
}
