/**
 * The value below which the share `p` (0 to 1) of an ascending list lies: position (n - 1) p counted from 0, straight line between
 * neighbours (rule 7 of Hyndman and Fan, recalled; the default of NumPy and R). NaN when the list is empty.
 */
export function quantile(sorted: ArrayLike<number>, p: number): number {
  const n = sorted.length;
  if (n === 0) return Number.NaN;
  const position = (n - 1) * p;
  const index = Math.min(Math.floor(position), n - 1);
  const share = position - index;
  const below = sorted[index]!;
  const above = sorted[Math.min(index + 1, n - 1)]!;
  // taken from the nearer neighbour, so that both ends are met exactly
  return share < 0.5 ? below + (above - below) * share : above - (above - below) * (1 - share);
}
