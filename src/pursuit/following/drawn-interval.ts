import { normalQuantile } from "../../math/normal-quantile.js";
import { quantile } from "../../math/quantile.js";
import type { Random } from "../../math/random.js";
import { studentQuantile } from "../../math/student-quantile.js";

/** How intervals from draws are made. */
export interface DrawSettings {
  readonly level: number;
  readonly seed: number;
  readonly resamples: number;
}

/** Draws as many units as there are, with replacement: writes how often each was drawn into `counts`. */
export function drawCounts(counts: Float64Array, random: Random): void {
  counts.fill(0);
  for (let k = 0; k < counts.length; k++) counts[Math.floor(random.uniform(0, counts.length))]! += 1;
}

/**
 * Interval about `value` from its values in resamples of `n` units: their percentiles, moved outward by t sqrt(n/(n - 1))/z, because few units spread less
 * when drawn again than they do in truth. It always holds the value.
 */
export function drawnInterval(draws: ArrayLike<number>, value: number, n: number, level: number): readonly [number, number] {
  const tail = (1 - level) / 2;
  const widen = (studentQuantile(tail, n - 1) * Math.sqrt(n / (n - 1))) / normalQuantile(tail);
  const sorted = Float64Array.from(draws).sort();
  const end = (p: number): number => value + widen * (quantile(sorted, p) - value);
  return [Math.min(value, end(tail)), Math.max(value, end(1 - tail))];
}
