import { autocorrelatedMean } from "../../math/autocorrelated-mean.js";
import { type LagOneAutocorrelation, lagOneAutocorrelation } from "../../math/lag-one-autocorrelation.js";
import { linearRegression } from "../../math/linear-regression.js";
import { normalCdf } from "../../math/normal.js";
import { lagOne } from "../trend/lag-one.js";
import { unbiasedLagOne } from "../trend/unbiased-lag-one.js";
import type { Dependence } from "./comparison.js";

/**
 * A measured autocorrelation is allowed for when independent sessions would show as much in fewer than so many cases. A stricter test would seldom see
 * it in short periods: with 7 sessions each and r = 0.3 it is 12 % false alarms at 0.05 and 9 % at 0.2, against 14 % without (simulated).
 */
const ALLOW_BELOW = 0.2;
/** A series needs two neighbours and one value more. */
const LEAST = 3;

/** Autocorrelation within the series (the periods, or the paired differences), measured or `given`; `lengths` are the sessions of the two periods, `trended` whether one has a trend. */
export function dependenceOf(
  series: readonly Float64Array[],
  lengths: readonly [number, number],
  given: number | undefined,
  trended: boolean,
): Dependence {
  const n = series.reduce((sum, values) => sum + values.length, 0);
  const found = trended ? aboutLines(series) : lagOneAutocorrelation(series);
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

/**
 * A steady gain within the periods makes neighbours alike about the mean, though each session is independent of the one before: about the own line of each
 * period it does not.
 */
function aboutLines(series: readonly Float64Array[]): LagOneAutocorrelation | undefined {
  const rests = series.map((values) => linearRegression([values.map((_, i) => i)], values)?.residuals).filter((rest) => rest !== undefined);
  const n = rests.reduce((sum, rest) => sum + rest.length, 0);
  if (n === 0) return undefined;
  const found = rests.map((rest) => [rest.length, lagOne(rest) ?? 0] as const).reduce((sum, [m, r]) => sum + (m * r) / n, 0);
  const each = n / rests.length;
  return { r: unbiasedLagOne(found, each, 2), p: normalCdf(-(found + 2 / each) * Math.sqrt(n)) };
}
