import { selectInPlace } from "./select-in-place.js";

/**
 * The value below which the share `p` (0 to 1) of an ascending list lies: position (n - 1) p counted from 0, straight line between
 * neighbours (rule 7 of Hyndman and Fan, recalled; the default of NumPy and R). NaN when the list is empty.
 */
export function quantile(sorted: ArrayLike<number>, p: number): number {
  const n = sorted.length;
  if (n === 0) return Number.NaN;
  const position = (n - 1) * p;
  const index = Math.min(Math.floor(position), n - 1);
  return between(sorted[index]!, sorted[Math.min(index + 1, n - 1)]!, position - index);
}

/** The same of a column in any order, which is lost; nothing is copied. O(n). */
export function quantileInPlace(values: Float64Array, p: number): number {
  const n = values.length;
  if (n === 0) return Number.NaN;
  const position = (n - 1) * p;
  const index = Math.min(Math.floor(position), n - 1);
  const below = selectInPlace(values, index);
  let above = Number.POSITIVE_INFINITY;
  for (let i = index + 1; i < n; i++) if (values[i]! < above) above = values[i]!;
  return between(below, index + 1 < n ? above : below, position - index);
}

// taken from the nearer neighbour, so that both ends are met exactly
function between(below: number, above: number, share: number): number {
  return share < 0.5 ? below + (above - below) * share : above - (above - below) * (1 - share);
}
