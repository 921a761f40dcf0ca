/** Correlation of errors with the ones before them, and what it would be if there were none. */
export interface LagOne {
  /** The plain ratio: sum of d[i] d[i + 1] over sum of d^2, d the errors less mean (and line). */
  readonly value: number;
  /** Pairs of neighbours of which both are known. */
  readonly pairs: number;
  /** Mean and standard deviation of `value` for independent normal errors: -1/n and near 1/sqrt(n) when only the mean was taken out. */
  readonly expectedIfIndependent: number;
  readonly standardErrorIfIndependent: number;
}

/**
 * Lag-one autocorrelation of `rest`, what the orthonormal columns `basis` left of a series; all of them 0 where `known` is. Of gaps the pairs that remain are taken,
 * weighted so that a whole series gives the plain ratio. The moments are exact: with M the projection past the basis and A the neighbourhood (1/2 for each pair either way),
 * E r = tr(MA)/v and E r^2 = (tr(MA)^2 + 2 tr(MAMA))/(v (v + 2)), v the degrees of freedom left, since r does not depend on the sum of squares. Cost O(n).
 */
export function lagOne(rest: Float64Array, basis: readonly Float64Array[], known: Uint8Array): LagOne {
  let pairs = 0;
  let count = 0;
  let products = 0;
  for (let i = 0; i < rest.length; i++) {
    count += known[i]!;
    if (i > 0 && known[i] && known[i - 1]) {
      pairs++;
      products += rest[i]! * rest[i - 1]!;
    }
  }
  const beside = basis.map((column) => neighbours(column, known));
  let trace = 0;
  let squares = pairs / 2;
  for (const [a, column] of beside.entries()) {
    trace -= dot(column, basis[a]!);
    squares -= 2 * dot(column, column);
    for (const other of basis) squares += dot(column, other) ** 2;
  }
  const df = count - basis.length;
  const mean = trace / df;
  const factor = (count - 1) / pairs;
  return {
    value: (factor * products) / dot(rest, rest),
    pairs,
    expectedIfIndependent: factor * mean,
    standardErrorIfIndependent: factor * Math.sqrt((trace * trace + 2 * squares) / (df * (df + 2)) - mean * mean),
  };
}

/** A times the column: half of the known neighbours of each known entry. */
function neighbours(column: Float64Array, known: Uint8Array): Float64Array {
  return column.map((_, i) => (known[i] ? ((column[i - 1] ?? 0) + (column[i + 1] ?? 0)) / 2 : 0));
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
