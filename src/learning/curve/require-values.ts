import type { CurveErrors } from "./error-law.js";

/** Throws unless values can scatter in this way: log-normal ones are above 0, hit shares lie within 0 and 1 and have their trials. */
export function requireValues(where: string, value: Float64Array, errors: CurveErrors, hasTrials: boolean): void {
  if (errors === "normal") return;
  if (errors === "binomial" && !hasTrials) throw new TypeError(`${where}: series.trials must be given with binomial errors, got undefined`);
  for (let i = 0; i < value.length; i++) {
    const at = value[i]!;
    const name = `series.value[${i}]`;
    if (errors === "lognormal" && !(at > 0)) throw new RangeError(`${where}: ${name} must be above 0 with lognormal errors, got ${at}`);
    if (errors === "binomial" && !(at >= 0 && at <= 1)) {
      throw new RangeError(`${where}: ${name} must be within 0 and 1 with binomial errors, got ${at}`);
    }
  }
}
