/** How far and when a movement passed the target's centre. */
export interface Overshoot {
  /** Largest position beyond the centre, 0 when it was never passed. */
  readonly farthest: number;
  /** Where the centre was reached for the first time, in samples from the start of the column, on the straight line between samples; absent when it was not. */
  readonly crossing?: number;
}

/** Overshoot of `along`, the signed position about the target's centre, over the samples `[start, end)`. One that starts at the centre or beyond has crossed it at `start`. */
export function overshoot(along: Float64Array, start: number, end: number): Overshoot {
  let i = start;
  while (i < end && !(along[i]! >= 0)) i++;
  if (i >= end) return { farthest: 0 };
  const before = i > start ? along[i - 1]! : 0;
  const crossing = i > start ? i - along[i]! / (along[i]! - before) : start;
  let farthest = 0;
  for (; i < end; i++) farthest = Math.max(farthest, along[i]!);
  return { farthest, crossing };
}
