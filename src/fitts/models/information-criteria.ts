/** Gaussian information criteria on the scale of movement time; smaller is better, and only differences on the same cells mean something. */
export interface InformationCriteria {
  readonly aic: number;
  /** Corrected for few cells; `null` with no more cells than fitted numbers and one. */
  readonly aicc: number | null;
  readonly bic: number;
}

/**
 * From the residual sum and the number of coefficients (the residual variance counts as one more fitted number). A law fitted to logarithms of time
 * passes them as `logTimes`: the density of a time is that of its logarithm over the time, which puts both kinds on one scale.
 */
export function informationCriteria(
  residualSum: number,
  n: number,
  coefficients: number,
  logTimes: readonly number[] = [],
): InformationCriteria {
  const fitted = coefficients + 1;
  const jacobian = logTimes.reduce((sum, value) => sum + value, 0);
  const deviance = n * (Math.log((2 * Math.PI * residualSum) / n) + 1) + 2 * jacobian;
  const aic = deviance + 2 * fitted;
  const spare = n - fitted - 1;
  return { aic, aicc: spare > 0 ? aic + (2 * fitted * (fitted + 1)) / spare : null, bic: deviance + fitted * Math.log(n) };
}
