import { backSubstitute, triangularize } from "../../math/linear-solve.js";
import { sumOfSquares } from "../../math/sum-of-squares.js";

/** A group that holds all but this share of some direction of the predictors cannot be left out: the rest does not tell that direction. */
const UNTOLD = 1e-9;

/**
 * What a least-squares line (with intercept) through the rows of all other groups misses each row by: from the residuals of the one fit to all
 * rows, without fitting again. With Q an orthonormal basis of the predictors, e the residuals and g the rows of a group, the errors are
 * e_g + Q_g (I - Q_g' Q_g)^-1 Q_g' e_g. `undefined` when the fit would not be determined without some group. Cost O(rows).
 */
export function leaveGroupOut(
  columns: readonly (readonly number[])[],
  residuals: ArrayLike<number>,
  groups: readonly string[],
): number[] | undefined {
  const basis = orthonormal([groups.map(() => 1), ...columns]);
  const rows = new Map<string, number[]>();
  for (const [i, group] of groups.entries()) {
    const own = rows.get(group);
    if (own === undefined) rows.set(group, [i]);
    else own.push(i);
  }
  const errors = new Array<number>(residuals.length).fill(0);
  const size = basis.length;
  for (const own of rows.values()) {
    const left = Float64Array.from({ length: size * size }, (_, k) => {
      const [p, q] = [basis[k % size]!, basis[Math.floor(k / size)]!];
      return own.reduce((sum, i) => sum - p[i]! * q[i]!, p === q ? 1 : 0);
    });
    const pull = Float64Array.from(basis, (q) => own.reduce((sum, i) => sum + q[i]! * residuals[i]!, 0));
    triangularize(left, size, size, pull);
    if (basis.some((_, k) => Math.abs(left[k * size + k]!) < UNTOLD)) return undefined;
    const shift = new Float64Array(size);
    backSubstitute(left, size, size, pull, shift);
    for (const i of own) errors[i] = basis.reduce((sum, q, k) => sum + q[i]! * shift[k]!, residuals[i]!);
  }
  return errors;
}

// Gram and Schmidt, each column cleared of the ones before it twice, which leaves it orthogonal to the last digit
function orthonormal(columns: readonly (readonly number[])[]): number[][] {
  const basis: number[][] = [];
  for (const column of columns) {
    let rest = column.slice();
    for (const q of [...basis, ...basis]) {
      const share = q.reduce((sum, value, i) => sum + value * rest[i]!, 0);
      rest = rest.map((value, i) => value - share * q[i]!);
    }
    const length = Math.sqrt(sumOfSquares(rest));
    basis.push(rest.map((value) => value / length));
  }
  return basis;
}
