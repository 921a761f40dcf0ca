import { autocorrelatedMean } from "../../math/autocorrelated-mean.js";
import { lagOneAutocorrelation } from "../../math/lag-one-autocorrelation.js";
import type { Dependence } from "./comparison.js";

/**
 * A measured autocorrelation is allowed for when independent sessions would show as much in fewer than so many cases. A stricter test would seldom see
 * it in short periods: with 7 sessions each and r = 0.3 it is 12 % false alarms at 0.05 and 9 % at 0.2, against 14 % without (simulated).
 */
const ALLOW_BELOW = 0.2;
/** A series needs two neighbours and one value more. */
const LEAST = 3;

/** Autocorrelation within the series (the periods, or the paired differences), measured or `given`; `lengths` are the sessions of the two periods. */
export function dependenceOf(series: readonly Float64Array[], lengths: readonly [number, number], given: number | undefined): Dependence {
  const n = series.reduce((sum, values) => sum + values.length, 0);
  const found = lagOneAutocorrelation(series);
  const why = series.some((values) => values.length >= LEAST) ? "noSpread" : "tooFew";
  const measured = found !== undefined && found.p < ALLOW_BELOW ? Math.max(0, found.r) : 0;
  const allowedFor = given ?? measured;
  const effective = (k: number): number => (k === 0 ? 0 : 1 / autocorrelatedMean(k, allowedFor).variance);
  return {
    r: found ? { ok: true, value: found.r, unit: "1", n } : { ok: false, why, unit: "1", n },
    p: found && given === undefined ? found.p : null,
    allowedFor,
    effectiveSessions: [effective(lengths[0]), effective(lengths[1])],
  };
}
