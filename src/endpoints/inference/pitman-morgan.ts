import { studentQuantile } from "../../math/student-quantile.js";
import { studentTail } from "../../math/student-tail.js";
import type { Moments } from "./moments.js";

/** Comparison of the spreads of two variables measured on the same endpoints. */
export interface PitmanMorgan {
  /** Correlation of x + y with x - y: 0 exactly when both spreads are equal. */
  readonly correlation: number;
  readonly t: number;
  readonly df: number;
  /** Two-sided; exact for normal scatter only. */
  readonly p: number;
  /** Ratio of the SDs, x over y; exact for normal scatter only. */
  readonly interval: readonly [number, number];
}

/**
 * Test of Pitman and of Morgan (both 1939, recalled): (xx - yy)/sqrt((xx + yy)^2 - 4 xy^2) is the correlation of sum and difference, tested
 * like every correlation. The ratios that it does not reject lie between w (K -+ sqrt(K^2 - 1)) of the variances, w = xx/yy and
 * K = 1 + 2 (1 - r^2) t^2/(n - 2), r the correlation of x and y, t the Student quantile with n - 2 degrees of freedom.
 */
export function pitmanMorgan({ n, xx, xy, yy }: Moments, level: number): PitmanMorgan {
  const df = n - 2;
  const determinant = xx * yy - xy * xy;
  const whole = (xx + yy) * (xx + yy) - 4 * xy * xy;
  const correlation = (xx - yy) / Math.sqrt(whole);
  // 1 - correlation^2, written without the difference
  const t = correlation * Math.sqrt((df * whole) / (4 * determinant));
  const quantile = studentQuantile((1 - level) / 2, df);
  // K - 1, and the larger root as 1 + it + sqrt(it (it + 2)): the smaller one is its reciprocal
  const excess = (2 * determinant * quantile * quantile) / (xx * yy * df);
  const root = Math.sqrt(1 + excess + Math.sqrt(excess * (excess + 2)));
  const ratio = Math.sqrt(xx / yy);
  return { correlation, t, df, p: studentTail(t, df), interval: [ratio / root, ratio * root] };
}
