import { studentQuantile } from "../../math/student-quantile.js";
import type { TermsFit } from "./fit-terms.js";
import type { ModelTerms } from "./model-terms.js";

/** A time that a law foretells, seconds. */
export interface PredictedTime {
  readonly value: number;
  /** Where the law itself lies. */
  readonly confidence: readonly [number, number];
  /** Where one more cell like those fitted would lie. */
  readonly prediction: readonly [number, number];
}

/** Foretells the time at given values of the terms, by Student limits on the scale on which the law is linear. */
export function timePredictor(terms: ModelTerms, { regression }: TermsFit, level: number): (values: readonly number[]) => PredictedTime {
  const { coefficients, covariance, residualSum, df } = regression;
  const t = studentQuantile(0.5 + level / 2, df);
  return (values) => {
    const row = [1, ...values];
    const dot = (list: readonly number[]): number => row.reduce((sum, value, j) => sum + value * list[j]!, 0);
    const centre = dot(coefficients);
    const variance = Math.max(0, dot(covariance.map(dot)));
    const within = (spread: number): [number, number] => [terms.toTime(centre - t * spread), terms.toTime(centre + t * spread)];
    return {
      value: terms.toTime(centre),
      confidence: within(Math.sqrt(variance)),
      prediction: within(Math.sqrt(variance + residualSum / df)),
    };
  };
}
