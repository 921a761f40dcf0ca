/** A stretch in which a speed stays above its levels: sample range and interpolated times. */
export interface Bout {
  /** First sample at or above the enter level. */
  readonly start: number;
  /** One past the last sample at or above the leave level. */
  readonly end: number;
  /** Time the speed rises through the enter level, seconds; the first sample's time when it starts above. */
  readonly from: number;
  /** Time the speed falls through the leave level, seconds; the last sample's time when it ends above. */
  readonly to: number;
}

/**
 * Bouts of movement by hysteresis: a bout begins when speed rises to `enter` and ends when it falls below `leave`; bouts less than
 * `mergeGap` seconds apart are one. Crossings are interpolated along the straight line between the two straddling samples. O(n).
 */
export function findBouts(speed: Float64Array, t0: number, rate: number, enter: number, leave: number, mergeGap: number): Bout[] {
  const bouts: Bout[] = [];
  const n = speed.length;
  for (let i = 0; i < n; i++) {
    if (speed[i]! < enter) continue;
    const start = i;
    while (i < n && speed[i]! >= leave) i++;
    const from = start === 0 ? t0 : t0 + crossing(speed, start - 1, enter) / rate;
    const to = i === n ? t0 + (n - 1) / rate : t0 + crossing(speed, i - 1, leave) / rate;
    const before = bouts[bouts.length - 1];
    if (before !== undefined && from - before.to < mergeGap) bouts[bouts.length - 1] = { ...before, end: i, to };
    else bouts.push({ start, end: i, from, to });
  }
  return bouts;
}

/** Where the line from sample `i` to sample `i + 1` meets `level`, in samples. */
export function crossing(series: Float64Array, i: number, level: number): number {
  const step = series[i + 1]! - series[i]!;
  return step === 0 ? i : i + (level - series[i]!) / step;
}
