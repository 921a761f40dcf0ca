import type { Estimate } from "../math/estimate.js";
import { meanAbsEstimate } from "../math/mean-abs-estimate.js";
import { meanEstimate } from "../math/mean-estimate.js";
import { rmsEstimate } from "../math/rms-estimate.js";
import { variableErrorEstimate } from "../math/variable-error-estimate.js";

/** Errors along one axis, in the space's unit. Total squared is constant squared plus variable squared, exactly. */
export interface AxisErrors {
  /** Mean signed error: the bias. */
  readonly constant: Estimate;
  /** Standard deviation about the mean with 1/n: the spread. */
  readonly variable: Estimate;
  /** Mean size of the error: a mixture of bias and spread. */
  readonly absolute: Estimate;
  /** Root of the mean squared error about the target's centre. */
  readonly total: Estimate;
}

/** Constant, variable, absolute and total error of signed errors along one axis. */
export function axisErrors(values: ArrayLike<number>, unit: string, level: number): AxisErrors {
  return {
    constant: meanEstimate(values, unit, level),
    variable: variableErrorEstimate(values, unit, level),
    absolute: meanAbsEstimate(values, unit, level),
    total: rmsEstimate(values, unit, level),
  };
}
