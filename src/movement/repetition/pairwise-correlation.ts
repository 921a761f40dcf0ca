import type { Estimate } from "../../math/estimate.js";
import { jackknifeVariance } from "../../math/jackknife-variance.js";
import { studentQuantile } from "../../math/student-quantile.js";

/** All pairs of more profiles than this would cost more than they tell: evenly spread ones stand for all. */
const MOST = 200;
/** A correlation nearer to 1 than this is 1 but for rounding, where Fisher's z has no end. */
const HAIR = 1e-9;
/** A profile whose spread is below this share of its size is flat. */
const FLAT = 1e-9;

/**
 * Mean correlation of all pairs of profiles, averaged as Fisher's z. Interval by the jackknife over profiles on that scale, since pairs that share one are not independent.
 * Flat profiles correlate with nothing and are left out. O(n^2) up to 200 profiles, no more beyond.
 */
export function pairwiseCorrelation(profiles: readonly Float64Array[], least: number, level: number): Estimate {
  const shapes = profiles.flatMap(toShape);
  const n = Math.min(shapes.length, MOST);
  if (n < least) return { ok: false, why: shapes.length < profiles.length ? "noSpread" : "tooFew", unit: "1", n };
  const used = Array.from({ length: n }, (_, k) => shapes[Math.floor((k * shapes.length) / n)]!);
  const sums = new Float64Array(n);
  let total = 0;
  for (let a = 0; a < n; a++) {
    for (let b = 0; b < a; b++) {
      const z = Math.atanh(Math.max(HAIR - 1, Math.min(1 - HAIR, dot(used[a]!, used[b]!))));
      sums[a]! += z;
      sums[b]! += z;
      total += z;
    }
  }
  const mean = total / ((n * (n - 1)) / 2);
  const variance = jackknifeVariance(n, mean, (i) => (total - sums[i]!) / (((n - 1) * (n - 2)) / 2));
  const half = -studentQuantile((1 - level) / 2, n - 1) * Math.sqrt(variance);
  return { ok: true, value: Math.tanh(mean), unit: "1", n, interval: [Math.tanh(mean - half), Math.tanh(mean + half)], level };
}

/** The profile less its mean, of length 1. */
function toShape(profile: Float64Array): Float64Array[] {
  const mean = profile.reduce((sum, value) => sum + value, 0) / profile.length;
  const rest = profile.map((value) => value - mean);
  const length = Math.sqrt(dot(rest, rest));
  return length > FLAT * Math.sqrt(dot(profile, profile)) ? [rest.map((value) => value / length)] : [];
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
