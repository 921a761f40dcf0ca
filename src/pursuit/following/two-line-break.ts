/** A level that turns into a slope. */
export interface TwoLineBreak {
  /** Where the two lines meet. */
  readonly time: number;
  readonly level: number;
  /** Of the second line, per second. */
  readonly slope: number;
}

/**
 * Least squares of a constant up to a break and a straight line from there on that begins at the constant, the break anywhere between the second time and the last but
 * one. Times ascend. Between two samples the best break is where the two separately fitted lines meet, if they meet there; else it lies on a sample.
 * Samples count `weights` times, by default once. `undefined` with fewer than four samples, or when no break lowers the error. Cost O(n).
 */
export function twoLineBreak(t: ArrayLike<number>, v: ArrayLike<number>, weights?: ArrayLike<number>): TwoLineBreak | undefined {
  const n = t.length;
  if (n < 4) return undefined;
  const t0 = t[0]!;
  // sums over the samples from the k-th on
  const room = (): Float64Array => new Float64Array(n + 1);
  const sums = { n: room(), t: room(), tt: room(), v: room(), tv: room() };
  const centre = v[0]!;
  for (let k = n - 1; k >= 0; k--) {
    const time = t[k]! - t0;
    const value = v[k]! - centre;
    const weight = weights === undefined ? 1 : weights[k]!;
    sums.n[k] = sums.n[k + 1]! + weight;
    sums.t[k] = sums.t[k + 1]! + weight * time;
    sums.tt[k] = sums.tt[k + 1]! + weight * time * time;
    sums.v[k] = sums.v[k + 1]! + weight * value;
    sums.tv[k] = sums.tv[k + 1]! + weight * time * value;
  }
  const whole = sums.n[0]!;
  let best: (TwoLineBreak & { gain: number }) | undefined;
  // the break at `b`, with `k` the first sample after it: y = level + slope max(0, time - b)
  const take = (b: number, k: number): void => {
    const h = sums.t[k]! - sums.n[k]! * b;
    const hh = sums.tt[k]! - 2 * b * sums.t[k]! + sums.n[k]! * b * b;
    const hv = sums.tv[k]! - b * sums.v[k]!;
    const spread = hh - (h * h) / whole;
    if (!(spread > 0)) return;
    const slope = (hv - (h * sums.v[0]!) / whole) / spread;
    const gain = slope * slope * spread;
    if (best === undefined || gain > best.gain) best = { time: t0 + b, level: centre + (sums.v[0]! - slope * h) / whole, slope, gain };
  };
  for (let k = 1; k < n - 1; k++) {
    const here = t[k]! - t0;
    // samples at one time belong together
    if (t[k + 1]! - t0 === here) continue;
    take(here, k + 1);
    // a single sample has no line of its own
    if (k === n - 2) break;
    const after = sums.n[k + 1]!;
    const before = whole - after;
    const spread = sums.tt[k + 1]! - sums.t[k + 1]! ** 2 / after;
    if (!(before > 0 && spread > 0)) continue;
    const level = (sums.v[0]! - sums.v[k + 1]!) / before;
    const slope = (sums.tv[k + 1]! - (sums.t[k + 1]! * sums.v[k + 1]!) / after) / spread;
    const meet = (level - (sums.v[k + 1]! - slope * sums.t[k + 1]!) / after) / slope;
    if (meet > here && meet < t[k + 1]! - t0) take(meet, k + 1);
  }
  return best === undefined || best.gain === 0 ? undefined : { time: best.time, level: best.level, slope: best.slope };
}
