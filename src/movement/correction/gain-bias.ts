// A correction's gain is the slope of what it removed on the error it found. The position where it began enters both, so that noise in that position pulls the slope
// toward 1: slope = lambda g + (1 - lambda), lambda = var(true error) / (var(true error) + noise variance). The noise adds to the error seen and, in the same amount,
// to the displacement that seems to remove it.

/** Share of the variance of the errors seen that is true: 1 less the noise variance over the variance seen, at least 0. */
export function reliabilityOfErrors(varianceSeen: number, noiseVariance: number): number {
  return varianceSeen > 0 ? Math.max(0, 1 - noiseVariance / varianceSeen) : 0;
}

/** Slope that a true gain shows through noise of reliability `lambda`, in [0, 1]. */
export function observedGain(gain: number, lambda: number): number {
  return lambda * gain + (1 - lambda);
}

/** The gain behind a slope seen through noise of reliability `lambda`, above 0. */
export function unbiasedGain(slope: number, lambda: number): number {
  return (slope - (1 - lambda)) / lambda;
}
