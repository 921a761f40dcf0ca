/** The middle share `level` of drawn values, widened to the value itself should it lie outside. */
export function intervalOfDraws(draws: Float64Array, value: number, level: number): readonly [number, number] {
  const sorted = draws.slice().sort();
  const low = at(sorted, (1 - level) / 2);
  const high = at(sorted, (1 + level) / 2);
  return [Math.min(low, value) + 0, Math.max(high, value) + 0];
}

/** The value with the share `p` of the next draw below it on average: position (n + 1) p counted from 1, at most the ends. */
function at(sorted: Float64Array, p: number): number {
  const n = sorted.length;
  const position = Math.min(n - 1, Math.max(0, (n + 1) * p - 1));
  const index = Math.floor(position);
  const below = sorted[index]!;
  return below + (position - index) * (sorted[Math.min(index + 1, n - 1)]! - below);
}
