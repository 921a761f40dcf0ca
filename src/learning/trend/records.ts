/** Records among the last values of a series. */
export interface LateRecords {
  /** Values among the last that are better than every value before them. */
  readonly count: number;
  /** Chance of that many or more, were all orders of the values alike. For one record among the last k of n it is k/n. */
  readonly chance: number;
}

/**
 * Counts the records among the last `last` values (fewer than all). In a random order the value at place j is the best so far with chance
 * 1/j, whatever happened elsewhere (textbook), so that the chances of all counts follow place by place. A value that equals the best is no
 * record. Cost O(n + last^2).
 */
export function lateRecords(values: Float64Array, last: number, better: "lower" | "higher"): LateRecords {
  const n = values.length;
  const sign = better === "lower" ? 1 : -1;
  let best = Number.POSITIVE_INFINITY;
  let count = 0;
  // chances of exactly 0, 1, 2, ... records among the places so far
  const chances = new Float64Array(last + 1);
  chances[0] = 1;
  for (let i = 0; i < n; i++) {
    const value = sign * values[i]!;
    const record = value < best;
    if (record) best = value;
    if (i < n - last) continue;
    if (record) count++;
    const chance = 1 / (i + 1);
    for (let k = last; k > 0; k--) chances[k]! += chance * (chances[k - 1]! - chances[k]!);
    chances[0]! *= 1 - chance;
  }
  let chance = 0;
  for (let k = last; k >= count; k--) chance += chances[k]!;
  return { count, chance: count === 0 ? 1 : chance };
}
