import { linearRegression } from "../../math/linear-regression.js";
import { type ArSlope, arSlope } from "../trend/ar-slope.js";
import { equivalence } from "../trend/equivalence.js";
import type { ImprovementScale } from "./scale.js";
import type { TrendEvidence } from "./types.js";

/**
 * A plateau is called when the chance of a worthwhile gain is at most the first and that of a worthwhile loss at most the second. Taking a learner who still
 * gains for one who has stopped costs more than the reverse. Set by simulation (docs/metrics/detect-plateau.md): with 3.5 % a learner who gains exactly the worthwhile
 * size is called a plateau in at most 5 % of the series, whatever the scatter and the autocorrelation.
 */
export const MOST_GAIN = 0.035;
export const MOST_LOSS = 0.2;
/** A trend is certain beyond this chance: two-sided 5 %. */
export const CERTAIN = 0.975;
/** Tails of the interval shown: two one-sided tests at 5 %. */
const TAIL = 0.05;

/** The trend of a stretch; `slope` is `undefined` without scatter. */
export interface Trend {
  readonly evidence: TrendEvidence;
  readonly slope: ArSlope | undefined;
}

/** Slope of the values (on the scale, larger when better) per day, carried over the horizon. */
export function trendEvidence(day: Float64Array, value: Float64Array, horizon: number, scale: ImprovementScale): Trend {
  const n = value.length;
  const slope = n >= 4 && day[n - 1]! > day[0]! ? arSlope(day, value) : undefined;
  if (slope === undefined) {
    const why = n >= 4 ? "noSpread" : "tooFew";
    const chances = { worthwhileGain: 0, gain: 0, loss: 0, worthwhileLoss: 0 };
    const improvement = { ok: false, why, unit: scale.unit, n } as const;
    return { slope, evidence: { speaks: "silent", improvement, chances, autocorrelation: null, sessionSd: null, independent: null } };
  }
  const gain = slope.above(0);
  const chances = {
    worthwhileGain: slope.above(scale.gain / horizon),
    gain,
    loss: 1 - gain,
    worthwhileLoss: 1 - slope.above(-scale.loss / horizon),
  };
  const flat = chances.worthwhileGain <= MOST_GAIN && chances.worthwhileLoss <= MOST_LOSS;
  const moves = chances.gain >= CERTAIN || chances.loss >= CERTAIN;
  const over = (perDay: number): number => scale.improvement(perDay * horizon);
  const evidence: TrendEvidence = {
    speaks: flat ? "for" : moves ? "against" : "silent",
    improvement: {
      ok: true,
      value: over(slope.slope),
      unit: scale.unit,
      n,
      interval: [over(slope.quantile(TAIL)), over(slope.quantile(1 - TAIL))],
      level: 1 - 2 * TAIL,
    },
    chances,
    autocorrelation: slope.autocorrelation,
    sessionSd: scale.improvement(slope.sd),
    independent: independentErrors(day, value, horizon, scale),
  };
  return { evidence, slope };
}

// the textbook's test, about the middle of the margins: on logarithms they lie not quite evenly about 0
function independentErrors(day: Float64Array, value: Float64Array, horizon: number, scale: ImprovementScale): TrendEvidence["independent"] {
  const fit = linearRegression([day], value);
  if (fit === undefined) return null;
  const change = fit.coefficients[1]! * horizon;
  const middle = (scale.gain - scale.loss) / 2;
  const p = equivalence(change - middle, fit.standardErrors[1]! * horizon, fit.df, (scale.gain + scale.loss) / 2);
  return { improvement: scale.improvement(change), p };
}
