/** What rounding may leave of a sum of squares from which its only part was taken. */
const NOTHING = 1e-12;

/**
 * Sum of squared deviations `squares` of `n` values about their mean, after leaving out a value whose squared deviation is `square`: the mean
 * moves, too, so that n/(n - 1) of the square goes. NaN when nothing is left.
 */
export function withoutOne(squares: number, square: number, n: number): number {
  const rest = squares - (square * n) / (n - 1);
  return rest > NOTHING * squares ? rest : Number.NaN;
}
