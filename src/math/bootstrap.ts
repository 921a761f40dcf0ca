import { normalCdf } from "./normal.js";
import { normalQuantile } from "./normal-quantile.js";
import { quantile } from "./quantile.js";

/** Draws nearer to the value than this share of their range differ from it by rounding alone. */
const SAME = 1e-10;

/** A statistic recomputed from samples drawn with replacement. */
export interface Bootstrap {
  readonly value: number;
  /** One value per resample, ascending. */
  readonly draws: Float64Array;
  /** How much the standard error changes with the truth, by the jackknife; 0 where leaving out one value changes nothing. */
  readonly acceleration: number;
}

/**
 * Draws `resamples` times from each sample, with replacement and to its own length, and computes the statistic each time. `draw(n)` gives a
 * whole number from 0 to n - 1; it is asked once per value, sample after sample and resample after resample. The statistic sees columns that are
 * written again afterwards: it must not keep them. Cost O(resamples * values) and as many calls of the statistic as resamples and values.
 */
export function bootstrap(
  samples: readonly ArrayLike<number>[],
  statistic: (samples: readonly Float64Array[]) => number,
  resamples: number,
  draw: (n: number) => number,
): Bootstrap {
  const columns = samples.map((sample) => Float64Array.from(sample));
  const value = statistic(columns.map((column) => column.slice()));
  const room = columns.map((column) => new Float64Array(column.length));
  const draws = new Float64Array(resamples);
  for (let k = 0; k < resamples; k++) {
    for (const [s, column] of columns.entries()) {
      const n = column.length;
      for (let i = 0; i < n; i++) room[s]![i] = column[draw(n)]!;
    }
    draws[k] = statistic(room);
  }
  return { value, draws: draws.sort(), acceleration: accelerationOf(columns, statistic) };
}

/**
 * Bias-corrected and accelerated interval (Efron 1987, recalled): quantiles of the draws at the levels normal(z0 + (z0 + z)/(1 - a (z0 + z))), z0 from
 * the share of draws below the value, those equal to it counting half. `undefined` when all draws lie on one side of the value.
 */
export function bcaInterval({ value, draws, acceleration }: Bootstrap, level: number): readonly [number, number] | undefined {
  const z0 = normalQuantile(shareBelow(draws, value));
  if (!Number.isFinite(z0)) return undefined;
  const end = (p: number): number => {
    const z = z0 + normalQuantile(p);
    const rest = 1 - acceleration * z;
    // past this point the correction has no meaning: the outermost draw
    return quantile(draws, rest > 0 ? normalCdf(z0 + z / rest) : z > 0 ? 1 : 0);
  };
  return [end((1 - level) / 2), end((1 + level) / 2)];
}

/** Share of ascending draws below `value`, those equal to it (but for rounding) counting half. */
export function shareBelow(draws: Float64Array, value: number): number {
  const hair = SAME * (draws.at(-1)! - draws[0]!);
  let twice = 0;
  for (let k = 0; k < draws.length; k++) twice += draws[k]! < value - hair ? 2 : draws[k]! <= value + hair ? 1 : 0;
  return twice / (2 * draws.length);
}

// Third over second moment of the influences of the values, each sample's in its own size; for one sample sum d^3/(6 (sum d^2)^1.5)
function accelerationOf(columns: readonly Float64Array[], statistic: (samples: readonly Float64Array[]) => number): number {
  let squares = 0;
  let cubes = 0;
  for (const [s, column] of columns.entries()) {
    const n = column.length;
    if (n < 2) continue;
    const without = Float64Array.from(column, (_, i) => {
      const rest = new Float64Array(n - 1);
      rest.set(column.subarray(0, i));
      rest.set(column.subarray(i + 1), i);
      return statistic(columns.map((other, o) => (o === s ? rest : other.slice())));
    });
    const mean = without.reduce((sum, value) => sum + value, 0) / n;
    for (const value of without) {
      const influence = ((n - 1) / n) * (mean - value);
      squares += influence * influence;
      cubes += influence ** 3;
    }
  }
  return squares > 0 ? cubes / (6 * squares ** 1.5) : 0;
}
