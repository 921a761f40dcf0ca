import type { Estimate, Reason } from "../../math/estimate.js";
import type { ErrorSeries } from "./learner-deviance.js";
import { type LearnerFit, traitInterval } from "./learner-fit.js";
import { noiseIntervals } from "./noise-intervals.js";

/** What is said of a learner beside the autocorrelation. */
export interface LearnerEstimates {
  readonly rate: Estimate;
  readonly bestRate: Estimate;
  readonly planningSd: Estimate;
  readonly executionSd: Estimate;
}

/** How the numbers are labelled: `size` is what the errors were divided by. */
export interface LearnerLabels {
  readonly unit: string;
  readonly n: number;
  readonly level: number;
  readonly size: number;
}

/** Rates and noises with the values they have where the deviance stays up to `limit`. */
export function learnerEstimates(series: ErrorSeries, fit: LearnerFit, limit: number, labels: LearnerLabels): LearnerEstimates {
  const { n, unit, level, size } = labels;
  const give = (value: number, of: string, factor: number, [low, high]: readonly [number, number]): Estimate => {
    return { ok: true, value: value * factor, unit: of, n, interval: [low * factor, high * factor], level };
  };
  const best = traitInterval(series, "bestRate", fit.bestRate, limit);
  const noise = noiseIntervals(series, best, n - series.regressors.length, limit);
  const innovation = Math.sqrt(fit.scale);
  return {
    rate: give(fit.rate, "1", 1, traitInterval(series, "rate", fit.rate, limit)),
    bestRate: give(fit.bestRate, "1", 1, best),
    planningSd: give(innovation * fit.bestRate, unit, size, noise.planningSd),
    executionSd: give(innovation * Math.sqrt(1 - fit.bestRate), unit, size, noise.executionSd),
  };
}

/** The same fields without numbers. */
export function noLearner(why: Reason, { n, unit }: LearnerLabels): LearnerEstimates {
  const none = (of: string): Estimate => ({ ok: false, why, unit: of, n });
  return { rate: none("1"), bestRate: none("1"), planningSd: none(unit), executionSd: none(unit) };
}
