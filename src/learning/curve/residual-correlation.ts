import type { Estimate } from "../../math/estimate.js";
import { normalQuantile } from "../../math/normal-quantile.js";
import { unbiasedLagOne } from "../trend/unbiased-lag-one.js";

/** Standard normal value that chance exceeds once in twenty. */
const ONE_SIDED = 1.6448536269514722;

export interface ResidualCorrelation {
  readonly estimate: Estimate;
  /** Whether it lies above 0 by more than chance (one-sided, 5 %). */
  readonly shown: boolean;
}

/** Lag-one correlation of errors, from the weighted residuals in order after fitting `p` parameters. */
export function residualCorrelation(
  residuals: ArrayLike<number>,
  weight: ArrayLike<number>,
  p: number,
  level: number,
  exact: boolean,
): ResidualCorrelation {
  const n = residuals.length;
  if (n < p + 4) return { estimate: { ok: false, why: "tooFew", unit: "1", n }, shown: false };
  let products = 0;
  let squares = 0;
  let before = 0;
  for (let i = 0; i < n; i++) {
    const here = Math.sqrt(weight[i]!) * residuals[i]!;
    products += before * here;
    squares += here * here;
    before = here;
  }
  if (exact || !(squares > 0)) return { estimate: { ok: false, why: "noSpread", unit: "1", n }, shown: false };
  const found = products / squares;
  const value = unbiasedLagOne(found, n, p) + 0;
  const half = normalQuantile(0.5 + level / 2) * Math.sqrt((1 - value * value) / n);
  const interval: [number, number] = [Math.max(-1, value - half), Math.min(1, value + half)];
  return { estimate: { ok: true, value, unit: "1", n, interval, level }, shown: (found + p / n) * Math.sqrt(n) > ONE_SIDED };
}
