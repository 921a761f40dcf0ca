import { clamp } from "./local-model.js";
import { normalQuantile } from "./normal-quantile.js";

/** Where a parameter is tried while the others stay, as multiples of its value; both ways reach an order of magnitude or half of one. */
const ALONG = [0.1, 0.25, 0.4, 0.55, 0.7, 0.85, 1, 1.2, 1.4, 1.7, 2.2, 3, 5];
/** Points spread about the start, per parameter. */
const SPREAD_POINTS = 8;

/** A point to begin a search at, with its residual sum. */
export interface RestartPoint {
  readonly point: Float64Array;
  readonly sum: number;
}

interface Bounds {
  readonly lower: Float64Array;
  readonly upper: Float64Array;
}

/**
 * Dips beside a minimum: each parameter in turn is moved through multiples of its value, and the places where the residual sum has a low of its
 * own, with a rise between it and the minimum, are returned, lowest first. A minimum that is only local often shows a better one that way.
 */
export function dipsBeside(minimum: RestartPoint, sumAt: (point: Float64Array) => number, { lower, upper }: Bounds): RestartPoint[] {
  const { point } = minimum;
  const centre = ALONG.indexOf(1);
  const dips: RestartPoint[] = [];
  for (let j = 0; j < point.length; j++) {
    const row = ALONG.map((factor): RestartPoint => {
      if (factor === 1) return minimum;
      const moved = point.slice();
      moved[j] = clamp(factor * point[j]!, lower[j]!, upper[j]!);
      return { point: moved, sum: sumAt(moved) };
    });
    const at = (i: number): number => row[i]?.sum ?? Number.POSITIVE_INFINITY;
    for (let i = 0; i < row.length; i++) {
      if (i !== centre && at(i) < at(i - 1) && at(i) < at(i + 1)) dips.push(row[i]!);
    }
  }
  return dips.sort((a, b) => a.sum - b.sum);
}

/**
 * Points spread about a start, lowest residual sum first, those that are not finite left out: each parameter times a lognormal factor, so that
 * signs and orders of magnitude stay (a normal value in place of 0). The factors come from an evenly filling sequence (multiples of powers of the root
 * of x^(d + 1) = x + 1, modulo 1; recalled), whose terms from `round` times their number on are taken: nothing is random.
 */
export function spreadAbout(
  start: Float64Array,
  round: number,
  spread: number,
  sumAt: (point: Float64Array) => number,
  { lower, upper }: Bounds,
): RestartPoint[] {
  const d = start.length;
  let root = 2;
  for (let step = 0; step < 60; step++) root = (1 + root) ** (1 / (d + 1));
  const points = Array.from({ length: SPREAD_POINTS * d }, (_, k) => {
    const number = round * SPREAD_POINTS * d + k + 1;
    const point = start.map((value, j) => {
      const z = spread * normalQuantile((0.5 + number / root ** (j + 1)) % 1);
      return clamp(value === 0 ? z : value * Math.exp(z), lower[j]!, upper[j]!);
    });
    return { point, sum: sumAt(point) };
  });
  return points.filter(({ sum }) => sum < Number.POSITIVE_INFINITY).sort((a, b) => a.sum - b.sum);
}
