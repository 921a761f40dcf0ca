import type { Estimate } from "./estimate.js";
import { studentQuantile } from "./student-quantile.js";

/** One unit's share of each sum; the whole is above 0. */
export interface PartOfWhole {
  readonly part: number;
  readonly whole: number;
}

/**
 * Share of a whole that is summed over independent units, sum(part) / sum(whole), so that a large unit counts by its size. Interval by the delta method: standard
 * error sqrt(n / (n - 1) sum(e^2)) / sum(whole) with e = part - share whole, Student's t with n - 1 degrees of freedom, cut to [0, 1].
 * Named 95 % it holds 92, 93, 94 and 95 % at n = 5, 10, 20 and 50 where sizes are Gamma(4), and 81, 83, 87 and 90 % where they are log-normal with a sigma of 1.2
 * (simulated). Fewer than two units: `tooFew`.
 */
export function ratioEstimate(units: readonly PartOfWhole[], level: number): Estimate {
  const n = units.length;
  if (n < 2) return { ok: false, why: "tooFew", unit: "1", n };
  const whole = units.reduce((sum, one) => sum + one.whole, 0);
  const value = units.reduce((sum, one) => sum + one.part, 0) / whole;
  const squares = units.reduce((sum, one) => sum + (one.part - value * one.whole) ** 2, 0);
  const half = (-studentQuantile((1 - level) / 2, n - 1) * Math.sqrt((squares * n) / (n - 1))) / whole;
  return { ok: true, value, unit: "1", n, interval: [Math.max(0, value - half), Math.min(1, value + half)], level };
}
