/**
 * Changes of direction of a coordinate over `[start, end)`. The first change larger than `deadBand` sets the direction; a retreat by more than it from the furthest
 * value since the last reversal is one.
 */
export function countReversals(along: Float64Array, start: number, end: number, deadBand: number): number {
  let direction = 0;
  let count = 0;
  let furthest = along[start]!;
  for (let i = start + 1; i < end; i++) {
    const step = along[i]! - furthest;
    if (direction === 0) {
      if (Math.abs(step) <= deadBand) continue;
      direction = Math.sign(step);
      furthest = along[i]!;
    } else if (direction * step >= 0) furthest = along[i]!;
    else if (Math.abs(step) > deadBand) {
      count++;
      direction = -direction;
      furthest = along[i]!;
    }
  }
  return count;
}
