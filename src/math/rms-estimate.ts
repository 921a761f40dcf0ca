import type { Estimate } from "./estimate.js";
import { type CoverageTable, withCoverage } from "./interval-coverage.js";
import { meanAndSd } from "./mean-and-sd.js";
import { studentQuantile } from "./student-quantile.js";

/** Simulated, 8000 sets each, about a bias of 0.3 SD. */
const COVERAGE: CoverageTable = [
  [5, 0.913, 0.795, 0.781],
  [10, 0.911, 0.783, 0.744],
  [20, 0.927, 0.827, 0.742],
  [50, 0.938, 0.888, 0.733],
];

/**
 * Root mean square (total error) of independent values: sqrt(mean v^2), with the Student interval of the squares taken on the logarithm of
 * their mean: rms exp(+-h/2), h = t SD(v^2)/(sqrt(n) mean v^2), t at (1 + level)/2 with n - 1 degrees of freedom.
 * It needs no normal distribution and stays above 0, but squares are skewed: named 95 %, it covers (simulated) about 91 % of normal values
 * without bias at n = 5 and 10, 92 % at 20, 93 % at 50, and 84 to 90 % for heavier (Laplace) tails; with a bias of three SD it is 95 %
 * throughout.
 * When all sizes are equal the interval shrinks to that value. Fewer than two values: `tooFew`.
 */
export function rmsEstimate(values: ArrayLike<number>, unit: string, level = 0.95): Estimate {
  const n = values.length;
  if (n < 2) return { ok: false, why: "tooFew", unit, n };
  let largest = 0;
  for (let i = 0; i < n; i++) largest = Math.max(largest, Math.abs(values[i]!));
  if (largest === 0) return { ok: true, value: 0, unit, n, interval: [0, 0], level };
  // in shares of the largest, so that the squares cannot overflow or vanish
  const squares = new Float64Array(n);
  for (let i = 0; i < n; i++) squares[i] = (values[i]! / largest) * (values[i]! / largest);
  const { mean, sd } = meanAndSd(squares);
  const value = largest * Math.sqrt(mean);
  const stretch = Math.exp((-studentQuantile((1 - level) / 2, n - 1) * sd) / (2 * Math.sqrt(n) * mean));
  // two values and a level next to 1 leave nothing to say about the upper end
  if (!Number.isFinite(value * stretch)) return { ok: true, value, unit, n };
  return withCoverage({ ok: true, value, unit, n, interval: [value / stretch, value * stretch], level }, COVERAGE);
}
