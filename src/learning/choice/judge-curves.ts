import type { LearningCurveFit } from "../fit-learning-curve.js";

/**
 * Fewest independent values that a series counts for: a quarter of them, the worth of neighbours that correlate at 0.6, and six. An estimate of the
 * correlation from so few values is rough, and a count near 1 would leave no law better than another.
 */
const LEAST_SHARE = 0.25;
const LEAST_COUNT = 6;

/** The criteria of one fit; an exact fit has BIC -Infinity and no AICc, one that failed has neither. */
export interface CurveCriteria {
  readonly bic: number | null;
  readonly aicc: number | null;
}

/**
 * Criteria of fits to the same series. Where the errors of the law with the least BIC are autocorrelated, the log-likelihood is that of as many
 * independent values as the series is worth, as quasi-likelihood criteria do for counts that scatter too much.
 */
export function judgeCurves(
  fits: readonly LearningCurveFit[],
  n: number,
): { readonly criteria: readonly CurveCriteria[]; readonly effectiveN: number } {
  const first = fits.reduce((best, fit) => (plainBic(fit) < plainBic(best) ? fit : best));
  // the residuals of an exact law are rounding
  const shown = first.warnings.includes("autocorrelated") && typeof first.quality?.logLikelihood === "number";
  const effectiveN = shown ? Math.min(n, Math.max(first.effectiveN!, LEAST_SHARE * n, LEAST_COUNT)) : n;
  const criteria = fits.map(({ quality, errors, parameters }): CurveCriteria => {
    if (quality === null) return { bic: null, aicc: null };
    if (quality.logLikelihood === null) return { bic: Number.NEGATIVE_INFINITY, aicc: null };
    const k = Object.keys(parameters).length + (errors === "binomial" ? 0 : 1);
    const deviance = (-2 * quality.logLikelihood * effectiveN) / n;
    const spare = n - k - 1;
    return { bic: deviance + k * Math.log(effectiveN), aicc: spare > 0 ? deviance + 2 * k + (2 * k * (k + 1)) / spare : null };
  });
  return { criteria, effectiveN };
}

function plainBic({ quality }: LearningCurveFit): number {
  if (quality === null) return Number.POSITIVE_INFINITY;
  return quality.bic ?? Number.NEGATIVE_INFINITY;
}
