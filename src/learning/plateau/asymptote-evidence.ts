import { normalQuantile } from "../../math/normal-quantile.js";
import { fitLearningCurve, type LearningCurveFit } from "../fit-learning-curve.js";
import type { ImprovementScale } from "./scale.js";
import type { AsymptoteEvidence } from "./types.js";

/** Near the asymptote: at most this share of the gain is still to come. */
const LEFT_OVER = 0.1;
const LEVEL = 0.9;

/** The exponential curve through all sessions, and what it foretells. */
export interface Asymptote {
  readonly evidence: AsymptoteEvidence;
  /** What the curve leaves of the values on the scale, squares summed; absent without a fit. */
  readonly residualSum: number | undefined;
}

/** Values on the scale, larger when better: their curve rises to its asymptote. */
export function asymptoteEvidence(day: Float64Array, value: Float64Array, horizon: number, scale: ImprovementScale): Asymptote {
  const first = day[0] ?? 0;
  const practice = day.map((at) => at - first + 1);
  const n = value.length;
  const fit = fitLearningCurve(
    { practice, value },
    {
      law: "exponential3",
      direction: "rising",
      bounds: { a: [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] },
      intervals: "wald",
      level: LEVEL,
      band: 0,
    },
  );
  const projected = projectedGain(fit, practice[n - 1] ?? 1, horizon, scale);
  const { remaining } = fit;
  const near = remaining.ok && remaining.interval !== undefined && remaining.interval[1] <= LEFT_OVER;
  const little = projected.ok && projected.interval![1] < scale.improvement(scale.gain);
  const much = projected.ok && projected.interval![0] > scale.improvement(scale.gain);
  return {
    evidence: { speaks: near && little ? "for" : much ? "against" : "silent", remaining, projected },
    residualSum: fit.quality?.residualSum,
  };
}

// -b exp(-c (N - 1)) (1 - exp(-c h)) from N on, b below 0 for a curve that rises; its error to first order
function projectedGain(fit: LearningCurveFit, last: number, horizon: number, scale: ImprovementScale): AsymptoteEvidence["projected"] {
  const { b, c } = fit.parameters;
  const { n, covariance } = fit;
  if (b === undefined || c === undefined || !b.ok || !c.ok || covariance === null) {
    const why = b !== undefined && !b.ok ? b.why : c !== undefined && !c.ok ? c.why : "notIdentified";
    return { ok: false, why, unit: scale.unit, n };
  }
  const now = Math.exp(-c.value * (last - 1));
  const then = Math.exp(-c.value * (last - 1 + horizon));
  const gain = -b.value * (now - then);
  const byB = then - now;
  const byC = b.value * ((last - 1) * now - (last - 1 + horizon) * then);
  // rows and columns of the covariance: a, b, c
  const variance = byB * byB * covariance[1]![1]! + 2 * byB * byC * covariance[1]![2]! + byC * byC * covariance[2]![2]!;
  const half = normalQuantile(0.5 + LEVEL / 2) * Math.sqrt(Math.max(0, variance));
  const interval = [scale.improvement(gain - half), scale.improvement(gain + half)] as const;
  return { ok: true, value: scale.improvement(gain), unit: scale.unit, n, interval, level: LEVEL };
}
