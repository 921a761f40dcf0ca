/** A smaller spread, in squared samples, is rounding: all speed at one sample. */
const ROUNDING = 1e-9;

/**
 * Third standardised moment of speed over time, among the samples `[start, end)`: the speed is read as a density of time. 0 for a symmetrical bell such as minimum jerk,
 * positive for a long tail of braking. `undefined` where nothing moves, or at one sample only.
 */
export function speedSkew(speed: Float64Array, start: number, end: number): number | undefined {
  let sum = 0;
  let first = 0;
  for (let i = start; i < end; i++) {
    sum += speed[i]!;
    first += speed[i]! * (i - start);
  }
  if (!(sum > 0)) return undefined;
  const mean = first / sum;
  let second = 0;
  let third = 0;
  for (let i = start; i < end; i++) {
    const off = i - start - mean;
    second += speed[i]! * off * off;
    third += speed[i]! * off * off * off;
  }
  const spread = second / sum;
  return spread > ROUNDING ? third / sum / (spread * Math.sqrt(spread)) : undefined;
}
