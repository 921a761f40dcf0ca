import { lengthOf, orthonormalize, takeOut } from "../../math/orthonormal-columns.js";
import type { ErrorSeries } from "./learner-deviance.js";

/** Columns that keep less than this share of their length say nothing new; errors that do are on a line. */
const OWN_SHARE = 1e-10;

/** Errors made ready for the likelihood. */
export interface PreparedErrors {
  /** Beside a mean, and beside a mean and a line from -1 to 1 over the trials. */
  readonly aboutMean: ErrorSeries;
  readonly aboutLine: ErrorSeries;
  /** What the errors were divided by, so that no square of theirs overflows. */
  readonly size: number;
}

/** Shifts and scales errors (0 where `known` is 0) and adds the columns of mean and line. */
export function prepareErrors(values: Float64Array, known: Uint8Array): PreparedErrors {
  const n = values.length;
  const first = values[known.indexOf(1)]!;
  let largest = 0;
  for (let i = 0; i < n; i++) if (known[i]) largest = Math.max(largest, Math.abs(values[i]! - first));
  const size = largest > 0 ? largest : 1;
  const errors = values.map((value, i) => (known[i] ? (value - first) / size : 0));
  const ones = new Float64Array(n).fill(1);
  const line = ones.map((_, i) => (2 * i) / (n - 1) - 1);
  return { aboutMean: { errors, known, regressors: [ones] }, aboutLine: { errors, known, regressors: [ones, line] }, size };
}

/** The regressors made orthonormal, and what they leave of the errors, over the known entries; `undefined` when they leave nothing. */
export function takeOutRegressors({ errors, known, regressors }: ErrorSeries): { basis: Float64Array[]; rest: Float64Array } | undefined {
  const only = (column: Float64Array): Float64Array => column.map((value, i) => (known[i] ? value : 0));
  const basis = regressors.map(only);
  orthonormalize(basis, new Float64Array(basis.length ** 2), OWN_SHARE);
  const rest = only(errors);
  const whole = lengthOf(rest);
  for (let pass = 0; pass < 2; pass++) for (const column of basis) takeOut(rest, column);
  return lengthOf(rest) > OWN_SHARE * whole ? { basis, rest } : undefined;
}
