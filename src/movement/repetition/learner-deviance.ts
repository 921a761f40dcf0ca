import { filterErrors } from "./filter-errors.js";
import { learnerOf } from "./learner-model.js";

/** A series of errors with what is to be taken out of it. */
export interface ErrorSeries {
  readonly errors: Float64Array;
  /** 0 where the error is not known. */
  readonly known: Uint8Array;
  /** Columns fitted beside the learner: a mean, a line. */
  readonly regressors: readonly Float64Array[];
}

/** How well a learner fits. */
export interface LearnerDeviance {
  /** Minus twice the log-likelihood, least over the size of the noises. */
  readonly deviance: number;
  /** That size: the variance of what of an error could not be foretold. */
  readonly scale: number;
  /** Coefficient of the last regressor, and its standard error. */
  readonly last: number;
  readonly lastError: number;
}

/**
 * Exact likelihood of a learner of rate B whose best rate would be K: with an innovation variance of 1 that is r^2 = 1 - K and q = K. With regressors it is the restricted
 * likelihood, of what they leave of the errors.
 */
export function learnerDeviance({ errors, known, regressors }: ErrorSeries, rate: number, best: number): LearnerDeviance {
  const width = regressors.length;
  const size = width + 1;
  const { logDeterminant, products, count } = filterErrors([...regressors, errors], known, learnerOf(rate, best));
  // elimination of the regressors one after another: what is left of the errors is their residual sum
  let logRegressors = 0;
  for (let c = 0; c < width; c++) {
    const pivot = products[c * size + c]!;
    logRegressors += Math.log(pivot);
    for (let i = c + 1; i < size; i++) {
      const factor = products[i * size + c]! / pivot;
      for (let j = c + 1; j < size; j++) products[i * size + j]! -= factor * products[c * size + j]!;
    }
  }
  const df = count - width;
  const scale = products[size * size - 1]! / df;
  const pivot = width > 0 ? products[(width - 1) * size + width - 1]! : 1;
  return {
    deviance: logDeterminant + logRegressors + df * (Math.log(2 * Math.PI * scale) + 1),
    scale,
    last: width > 0 ? products[size * size - 2]! / pivot : 0,
    lastError: Math.sqrt(scale / pivot),
  };
}
