import type { CurveColumns } from "./columns.js";
import type { ErrorLaw } from "./error-law.js";
import { bisquareSlope, type RobustFit } from "./robust-fit.js";

/** A value that fixes a parameter alone leaves no residual to judge it by. */
const MOST_LEVERAGE = 0.9;

/** Covariance of the free parameters of a robust fit: the inverse information, `bread`, on either side of the pulls that the values really have. */
export function sandwich(
  { n, value, weight }: CurveColumns,
  errors: ErrorLaw,
  fitted: Float64Array,
  tilts: Float64Array,
  bread: readonly (readonly number[])[],
  free: readonly number[],
  { scale, weights }: RobustFit,
): number[][] {
  const k = free.length;
  const filling = free.map(() => new Float64Array(k));
  let slope = 0;
  for (let i = 0; i < n; i++) {
    const residual = errors.residual(value[i]!, fitted[i]!, weight[i]!);
    slope += bisquareSlope(scale > 0 ? residual / scale : 0) / n;
    const information = errors.information(fitted[i]!, weight[i]!);
    let leverage = 0;
    for (let a = 0; a < k; a++) {
      for (let b = 0; b < k; b++) leverage += information * bread[a]![b]! * tilts[free[a]! * n + i]! * tilts[free[b]! * n + i]!;
    }
    const square = information * ((weights[i]! * residual) / (1 - Math.min(leverage, MOST_LEVERAGE))) ** 2;
    for (let a = 0; a < k; a++) {
      for (let b = 0; b < k; b++) filling[a]![b]! += square * tilts[free[a]! * n + i]! * tilts[free[b]! * n + i]!;
    }
  }
  const factor = 1 / (slope * slope);
  return times(times(bread, filling), bread).map((line) => line.map((entry) => entry * factor));
}

function times(left: readonly ArrayLike<number>[], right: readonly ArrayLike<number>[]): number[][] {
  return left.map((row) => right.map((_, j) => right.reduce((sum, line, m) => sum + row[m]! * line[j]!, 0)));
}
