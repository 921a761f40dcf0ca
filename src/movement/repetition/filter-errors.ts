import { type Learner, planVariance } from "./learner-model.js";

/** The variance of the plan is taken to be steady once it changes by no more than this share. */
const STEADY = 1e-15;

/** What the filter finds: with one column, the log-likelihood is -(n log(2 pi) + logDeterminant + products[0]) / 2. */
export interface FilteredErrors {
  /** Logarithm of the determinant of the covariance of the errors. */
  readonly logDeterminant: number;
  /** c_i' S^-1 c_j for each pair of columns, row by row, S that covariance. */
  readonly products: Float64Array;
  /** Errors that are known. */
  readonly count: number;
}

/**
 * Kalman filter of a learner's errors from a stationary start: whitens each column alike, so that means and trends can be solved for beside the errors. Where
 * `known` is 0 a movement was made whose error nobody knows; the entries of the columns there are not read. Cost O(n) per pair of columns.
 */
export function filterErrors(columns: readonly Float64Array[], known: Uint8Array, learner: Learner): FilteredErrors {
  const n = known.length;
  const width = columns.length;
  const execution = learner.executionSd * learner.executionSd;
  const planning = learner.planningSd * learner.planningSd;
  const keep = 1 - learner.rate;
  const plan = new Float64Array(width);
  const surprise = new Float64Array(width);
  const products = new Float64Array(width * width);
  let variance = planVariance(learner);
  let total = variance + execution;
  let steady = false;
  let logDeterminant = 0;
  let count = 0;
  let logTotal = Math.log(total);
  for (let i = 0; i < n; i++) {
    if (known[i] === 0) {
      // the person saw and corrected the error all the same
      for (let c = 0; c < width; c++) plan[c]! *= keep;
      steady = false;
      variance = keep * keep * variance + learner.rate * learner.rate * execution + planning;
    } else {
      const share = variance / total;
      count++;
      logDeterminant += logTotal;
      for (let c = 0; c < width; c++) {
        const off = columns[c]![i]! - plan[c]!;
        plan[c] = keep * plan[c]! + (share - learner.rate) * off;
        surprise[c] = off;
        for (let d = 0; d <= c; d++) products[c * width + d]! += (off * surprise[d]!) / total;
      }
      if (steady) continue;
      const next = (variance * execution) / total + planning;
      steady = Math.abs(next - variance) <= STEADY * variance;
      variance = next;
    }
    total = variance + execution;
    logTotal = Math.log(total);
  }
  for (let c = 0; c < width; c++) for (let d = c + 1; d < width; d++) products[c * width + d] = products[d * width + c]!;
  return { logDeterminant, products, count };
}
