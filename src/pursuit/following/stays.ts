/** How long something was so, and how long it was not in between; seconds. */
export interface Stays {
  readonly stays: number[];
  /** Only those between two stays. */
  readonly absences: number[];
}

/** Runs of ones among `[start, end)` of a column; every sample stands for one period. A run that an end cuts off counts as it is. */
export function staysOf(inside: ArrayLike<number>, start: number, end: number, rate: number): Stays {
  const stays: number[] = [];
  const absences: number[] = [];
  let left = -1;
  for (let i = start; i < end; i++) {
    if (inside[i] !== 1) continue;
    const from = i;
    while (i < end && inside[i] === 1) i++;
    stays.push((i - from) / rate);
    if (left >= 0) absences.push((from - left) / rate);
    left = i;
  }
  return { stays, absences };
}
