import { clamp } from "./local-model.js";

/** Data and a model with parameters that enter in any smooth way. */
export interface FitProblem {
  readonly data: ArrayLike<number>;
  /** What each squared residual counts, at least 0; default 1. Inverse variances, up to a factor. */
  readonly weights?: ArrayLike<number>;
  /** One or more points at which a search begins, each with a value per parameter; the first is the most trusted. */
  readonly starts: readonly ArrayLike<number>[];
  /** Smallest value allowed for each parameter; absent means no bound. */
  readonly lower?: ArrayLike<number>;
  /** Largest value allowed for each parameter; absent means no bound. */
  readonly upper?: ArrayLike<number>;
  /** Fills `values` with the model at `parameters`. Values that are not finite are allowed: the search keeps away from there. */
  readonly evaluate: (parameters: Float64Array, values: Float64Array) => void;
  /** Fills `jacobian`, one column after another: d value i / d parameter j at j * length + i. */
  readonly differentiate: (parameters: Float64Array, jacobian: Float64Array) => void;
}

/** The problem as weighted residuals within bounds, every call of the model counted. */
export interface CountedProblem {
  readonly size: number;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** The given starts, put within the bounds. */
  readonly starts: readonly Float64Array[];
  readonly residuals: (parameters: Float64Array, out: Float64Array) => void;
  readonly jacobian: (parameters: Float64Array, out: Float64Array) => void;
  /** Weighted sum of the squared data: the scale on which a residual sum is rounding. */
  readonly dataSum: number;
  /** Data that count. */
  readonly counting: number;
  readonly calls: { values: number; derivatives: number };
}

export function countProblem(problem: FitProblem): CountedProblem {
  const { data, weights } = problem;
  const size = data.length;
  const p = problem.starts[0]!.length;
  const lower = Float64Array.from({ length: p }, (_, j) => problem.lower?.[j] ?? Number.NEGATIVE_INFINITY);
  const upper = Float64Array.from({ length: p }, (_, j) => problem.upper?.[j] ?? Number.POSITIVE_INFINITY);
  const root = Float64Array.from({ length: size }, (_, i) => Math.sqrt(weights?.[i] ?? 1));
  const calls = { values: 0, derivatives: 0 };
  let dataSum = 0;
  let counting = 0;
  for (let i = 0; i < size; i++) {
    dataSum += (root[i]! * data[i]!) ** 2;
    if (root[i]! > 0) counting++;
  }
  return {
    size,
    lower,
    upper,
    starts: problem.starts.map((start) => Float64Array.from(start, (value, j) => clamp(value, lower[j]!, upper[j]!))),
    residuals: (parameters, out) => {
      calls.values++;
      problem.evaluate(parameters, out);
      // a datum that does not count may be anything, the model there too
      for (let i = 0; i < size; i++) out[i] = root[i]! > 0 ? root[i]! * (out[i]! - data[i]!) : 0;
    },
    jacobian: (parameters, out) => {
      calls.derivatives++;
      problem.differentiate(parameters, out);
      for (let at = 0; at < size * p; at++) out[at] = root[at % size]! > 0 ? root[at % size]! * out[at]! : 0;
    },
    dataSum,
    counting,
    calls,
  };
}
