import { logGamma } from "../../math/gamma.js";
import type { CurveQuality } from "./curve-types.js";
import { ERROR_LAWS, logLikelihood } from "./error-law.js";
import type { FittedCurve } from "./fitted-curve.js";

/** `scale` is that of a robust fit. */
export function curveQuality({ columns, errors, solution, moving, df, exact }: FittedCurve, scale: number | undefined): CurveQuality {
  const { n } = columns;
  const { residualSum } = solution;
  const robust = scale !== undefined;
  const likelihood = exact || robust ? null : logLikelihood(errors, columns, residualSum, logChoose);
  const k = moving.length + (errors === "binomial" ? 0 : 1);
  const aic = likelihood === null ? null : 2 * k - 2 * likelihood;
  const spare = n - k - 1;
  const total = totalSum(columns, errors);
  return {
    df,
    residualSum,
    residualSd: scale ?? Math.sqrt(residualSum / df),
    logLikelihood: likelihood,
    aic,
    aicc: aic === null || spare <= 0 ? null : aic + (2 * k * (k + 1)) / spare,
    bic: likelihood === null ? null : k * Math.log(n) - 2 * likelihood,
    r2: robust ? null : total > 0 ? 1 - residualSum / total : 0,
  };
}

function logChoose(n: number, k: number): number {
  return logGamma(n + 1) - logGamma(k + 1) - logGamma(n - k + 1);
}

// residual sum of the best constant
function totalSum({ n, value, weight }: FittedCurve["columns"], errors: FittedCurve["errors"]): number {
  const scaled = errors === "lognormal" ? value.map(Math.log) : value;
  let weightSum = 0;
  for (let i = 0; i < n; i++) weightSum += weight[i]!;
  const share = 1 / weightSum;
  let mean = 0;
  for (let i = 0; i < n; i++) mean += weight[i]! * share * scaled[i]!;
  let sum = 0;
  if (errors === "binomial") {
    for (let i = 0; i < n; i++) sum += ERROR_LAWS.binomial.residual(value[i]!, mean, weight[i]!) ** 2;
    return sum;
  }
  for (let i = 0; i < n; i++) sum += weight[i]! * (scaled[i]! - mean) ** 2;
  return sum;
}
