import type { Estimate } from "../../math/estimate.js";
import { quantile } from "../../math/quantile.js";
import { createRandom } from "../../math/random.js";
import type { SizeEffect } from "../types.js";
import { type DrawSettings, drawCounts, drawnInterval } from "./drawn-interval.js";
import { countOf, type Piece, type Stretch } from "./stretch.js";
import { ratioOverUnits, sumUp } from "./units.js";

/** Below this ratio of the largest to the smallest third's width there is nothing to learn from. */
const DIFFERENT = 1.15;
/** Units needed for a slope. */
const ENOUGH = 5;

/** Spread of the error per third of the target's widths, and its slope over them. `x` and `y` are the errors, `has` where they are known. */
export function sizeEffect(
  stretch: Stretch,
  units: readonly Piece[],
  { x, y, has }: { readonly x: Float64Array; readonly y: Float64Array; readonly has: Uint8Array },
  unit: string,
  { level, seed, resamples }: DrawSettings,
): SizeEffect {
  const { width, pieces } = stretch;
  const n = units.length;
  if (countOf(stretch) === 0) return { thirds: [], slope: { ok: false, why: "tooFew", unit: "1", n } };
  const widths: number[] = [];
  for (const { start, end } of pieces) for (let i = start; i < end; i++) widths.push(width[i]!);
  const sorted = Float64Array.from(widths).sort();
  const cuts = [quantile(sorted, 1 / 3), quantile(sorted, 2 / 3)] as const;
  const thirdOf = (i: number): number => (width[i]! <= cuts[0] ? 0 : width[i]! <= cuts[1] ? 1 : 2);
  const known = (third: number) => (i: number) => has[i] === 1 && thirdOf(i) === third;
  const parts = [0, 1, 2].map((third) => {
    const sizes = sumUp(stretch, units, (i) => width[i]!, known(third));
    const first = { x: sumUp(stretch, units, (i) => x[i]!, known(third)), y: sumUp(stretch, units, (i) => y[i]!, known(third)) };
    const centre = { x: first.x.total / Math.max(1, first.x.n), y: first.y.total / Math.max(1, first.y.n) };
    // per axis, both together
    const square = sumUp(stretch, units, (i) => ((x[i]! - centre.x) ** 2 + (y[i]! - centre.y) ** 2) / 2, known(third));
    return { width: sizes.total / Math.max(1, sizes.n), square };
  });
  if (!(parts[2]!.width > DIFFERENT * parts[0]!.width)) return { thirds: [], slope: { ok: false, why: "noSpread", unit: "1", n } };
  const thirds = parts.map((part) => ({ width: part.width, sd: ratioOverUnits(part.square, undefined, "root", unit, level) }));
  const logWidths = parts.map((part) => Math.log(part.width));
  const slopeOf = (weights: ArrayLike<number> | undefined): number => {
    const logs = parts.map(({ square }) => {
      if (weights === undefined) return Math.log(square.total / square.n) / 2;
      let sum = 0;
      let count = 0;
      square.units.forEach((one, k) => {
        sum += weights[k]! * one.sum;
        count += weights[k]! * one.n;
      });
      return Math.log(sum / count) / 2;
    });
    return slope(logWidths, logs);
  };
  return { thirds, slope: slopeEstimate(slopeOf, n, level, seed, resamples) };
}

function slopeEstimate(
  slopeOf: (weights: ArrayLike<number> | undefined) => number,
  n: number,
  level: number,
  seed: number,
  resamples: number,
): Estimate {
  const value = slopeOf(undefined);
  if (n < ENOUGH || !Number.isFinite(value)) return { ok: false, why: "tooFew", unit: "1", n };
  const random = createRandom(seed, 2);
  const weights = new Float64Array(n);
  const draws: number[] = [];
  for (let b = 0; b < resamples; b++) {
    drawCounts(weights, random);
    const drawn = slopeOf(weights);
    if (Number.isFinite(drawn)) draws.push(drawn);
  }
  if (draws.length < resamples / 2) return { ok: true, value, unit: "1", n };
  return { ok: true, value, unit: "1", n, interval: drawnInterval(draws, value, n, level), level };
}

function slope(x: readonly number[], y: readonly number[]): number {
  const mx = x.reduce((sum, value) => sum + value, 0) / x.length;
  const my = y.reduce((sum, value) => sum + value, 0) / y.length;
  const spread = x.reduce((sum, value) => sum + (value - mx) ** 2, 0);
  return x.reduce((sum, value, k) => sum + (value - mx) * (y[k]! - my), 0) / spread;
}
