// A learner who aims by a plan p: each error is e = p + xi (execution noise, SD r), and the next plan is p - B e + eta (planning noise, SD q). B, the learning rate, lies
// between 0 (no correction) and 2; in the long run plan and error have a fixed spread (van Beers 2009, recalled; the formulas below follow from the two lines).

/** How a learner learns and scatters. */
export interface Learner {
  /** Share of an error that the next plan takes back. */
  readonly rate: number;
  /** Standard deviation of planning noise, which the next plans keep. */
  readonly planningSd: number;
  /** Standard deviation of execution noise, which ends with the movement. */
  readonly executionSd: number;
}

/** A learner whose best rate is given, with noises that let an error be foretold with variance 1 in the long run. */
export function learnerOf(rate: number, best: number): Learner {
  return { rate, planningSd: best, executionSd: Math.sqrt(1 - best) };
}

/** Variance of the plans in the long run. */
export function planVariance({ rate, planningSd, executionSd }: Learner): number {
  return (rate * rate * executionSd * executionSd + planningSd * planningSd) / (rate * (2 - rate));
}

/** Variance of the errors in the long run. */
export function errorVariance(learner: Learner): number {
  return planVariance(learner) + learner.executionSd * learner.executionSd;
}

/** Correlation of an error with the one `lag` trials later, `lag` 1 or more: that of neighbours times (1 - B)^(lag - 1). */
export function errorAutocorrelation(learner: Learner, lag: number): number {
  return (planVariance(learner) / errorVariance(learner) - learner.rate) * (1 - learner.rate) ** (lag - 1);
}

/** The rate that leaves the smallest errors: the gain of the Kalman filter in its steady state. Errors are then uncorrelated. 1 without execution noise. */
export function bestRate({ planningSd, executionSd }: Omit<Learner, "rate">): number {
  if (planningSd === 0) return 0;
  // with k = r/q: (-1 + sqrt(1 + 4 k^2)) / (2 k^2), in the form that keeps its digits for small k
  const k = executionSd / planningSd;
  return 2 / (1 + Math.sqrt(1 + 4 * k * k));
}
