/** Times a series turns back by more than `band` from the farthest it had come. With a band of 0: sign changes of its steps, zeros skipped. O(n). */
export function countReversals(values: Float64Array, band: number): number {
  let low = values[0] ?? 0;
  let high = low;
  let direction = 0;
  let count = 0;
  for (let i = 1; i < values.length; i++) {
    const v = values[i]!;
    if (v < low) low = v;
    if (v > high) high = v;
    if (direction !== 1 && v - low > band) {
      if (direction === -1) count++;
      direction = 1;
      high = v;
    } else if (direction !== -1 && high - v > band) {
      if (direction === 1) count++;
      direction = -1;
      low = v;
    }
  }
  return count;
}

/** Times a series goes from beyond `band` on one side of zero to beyond it on the other. With a band of 0: sign changes, zeros skipped. O(n). */
export function countCrossings(values: Float64Array, band: number): number {
  let side = 0;
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const v = values[i]!;
    const now = v > band ? 1 : v < -band ? -1 : side;
    if (now === -side && side !== 0) count++;
    side = now;
  }
  return count;
}
