import type { Estimate } from "./estimate.js";
import { studentQuantile } from "./student-quantile.js";

/** The mean of `n` independent values with Student's interval, from the mean and the sample standard deviation (n - 1) themselves; see `meanEstimate`. */
export function meanFromMoments(n: number, mean: number, sd: number, unit: string, level: number): Estimate {
  if (n < 2) return { ok: false, why: "tooFew", unit, n };
  const half = (-studentQuantile((1 - level) / 2, n - 1) * sd) / Math.sqrt(n);
  return { ok: true, value: mean, unit, n, interval: [mean - half, mean + half], level };
}
