import type { Estimate } from "../../math/estimate.js";
import { normalQuantile } from "../../math/normal-quantile.js";
import type { CurveErrors } from "../curve/error-law.js";
import type { ComparedLearningCurve } from "./compared-curve.js";

/** Least share of the weights that laws with a prediction must have. */
const LEAST_SUPPORT = 0.5;

/**
 * What the laws foretell together at the amount of practice with this place among their predictions. Each law's reach to one side is widened by its
 * distance from the mean, root of the sum of squares, before the reaches are averaged: the unconditional standard error of Buckland, Burnham and Augustin.
 */
export function averagePrediction(
  curves: readonly ComparedLearningCurve[],
  place: number,
  errors: CurveErrors,
  unit: string,
  level: number,
): Estimate {
  const { n } = curves[0]!.fit;
  const log = errors === "lognormal";
  const told: { weight: number; value: number; low: number; high: number }[] = [];
  let support = 0;
  let total = 0;
  for (const { fit, weight } of curves) {
    const prediction = fit.predictions[place]!;
    total += weight ?? 0;
    // a law may foretell a time below 0, which has no logarithm
    if (weight === null || weight === 0 || !prediction.ok || prediction.interval === undefined || (log && !(prediction.interval[0] > 0)))
      continue;
    const [value, low, high] = [prediction.value, ...prediction.interval].map((at) => (log ? Math.log(at) : at)) as [
      number,
      number,
      number,
    ];
    told.push({ weight, value, low, high });
    support += weight;
  }
  // nothing to weigh with: an exact law, or too few values
  if (total === 0) return curves[0]!.fit.predictions[place]!;
  if (support < LEAST_SUPPORT) return { ok: false, why: "notIdentified", unit, n };
  const back = (at: number): number => (log ? Math.exp(at) : at) + 0;
  const across = normalQuantile(0.5 + level / 2);
  const mean = told.reduce((sum, { weight, value }) => sum + (weight / support) * value, 0);
  const half = (reach: (law: (typeof told)[number]) => number): number =>
    told.reduce((sum, law) => sum + (law.weight / support) * Math.sqrt(reach(law) ** 2 + (across * (law.value - mean)) ** 2), 0);
  const low = back(mean - half((law) => law.value - law.low));
  const high = back(mean + half((law) => law.high - law.value));
  const ends: [number, number] = errors === "binomial" ? [Math.max(0, low), Math.min(1, high)] : [low, high];
  if (!Number.isFinite(ends[0]) || !Number.isFinite(ends[1])) return { ok: false, why: "notIdentified", unit, n };
  return { ok: true, value: back(mean), unit, n, interval: ends, level };
}
