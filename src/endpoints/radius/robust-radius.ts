import type { Estimate } from "../../math/estimate.js";
import { medianInPlace } from "../../math/median.js";
import { createRandom } from "../../math/random.js";
import { intervalOfDraws } from "../normal/interval-of-draws.js";
import { withoutBias } from "../normal/principal-normal.js";
import { radiusHolding } from "../normal/radius-holding.js";
import type { Endpoints } from "../types.js";
import { type Room, robustNormal } from "./robust-normal.js";

/** What a robust radius is asked for. */
export interface RobustRadiusOptions {
  readonly share: number;
  readonly about: "target" | "mean";
  readonly unit: string;
  readonly level: number;
  readonly seed: number;
  readonly resamples: number;
}

const LEAST = 4;
/** Resamples hold no more endpoints than this: they tell the spread of the radius, which falls with the root of their number. */
const LARGEST_RESAMPLE = 2000;

/**
 * Median distance times the ratio of the radii that hold `share` and one half of a normal scatter with robust centre and covariance: the median
 * gives the size, which half of the endpoints may leave without effect, and the normal shape only the way from there to the share.
 * Interval by the percentile bootstrap on the logarithm; cost O(n) and the resamples with at most 2000 endpoints each.
 */
export function robustRadius({ x, y }: Endpoints, options: RobustRadiusOptions): Estimate {
  const { share, about, unit, level, seed, resamples } = options;
  const n = x.length;
  if (n < LEAST) return { ok: false, why: "tooFew", unit, n };
  const value = radiusOf(x, y, roomFor(n), share, about);
  if (!(value > 0)) return { ok: false, why: "noSpread", unit, n };
  const size = Math.min(n, LARGEST_RESAMPLE);
  const shrink = Math.sqrt(size / n);
  const random = createRandom(seed);
  const room = roomFor(size);
  const xs = new Float64Array(size);
  const ys = new Float64Array(size);
  const drawn = new Float64Array(resamples);
  let found = 0;
  for (let k = 0; k < resamples; k++) {
    for (let i = 0; i < size; i++) {
      const from = Math.floor(random.uniform() * n);
      xs[i] = x[from]!;
      ys[i] = y[from]!;
    }
    const radius = radiusOf(xs, ys, room, share, about);
    // a resample of few different endpoints may have no spread left
    if (radius > 0) drawn[found++] = value * Math.exp(shrink * Math.log(radius / value));
  }
  if (found < 0.9 * resamples) return { ok: true, value, unit, n };
  return { ok: true, value, unit, n, interval: intervalOfDraws(drawn.subarray(0, found), value, level), level };
}

function roomFor(n: number): Room {
  return { a: new Float64Array(n), b: new Float64Array(n), c: new Float64Array(n) };
}

/** The radius, 0 without spread. */
function radiusOf(x: Float64Array, y: Float64Array, room: Room, share: number, about: "target" | "mean"): number {
  const normal = robustNormal(x, y, room);
  if (normal.long === 0) return 0;
  const cx = about === "target" ? 0 : normal.along * normal.cos - normal.across * normal.sin;
  const cy = about === "target" ? 0 : normal.along * normal.sin + normal.across * normal.cos;
  const distances = room.a;
  for (let i = 0; i < x.length; i++) {
    // in units of the scatter, so that squares neither overflow nor vanish
    const dx = (x[i]! - cx) / normal.long;
    const dy = (y[i]! - cy) / normal.long;
    distances[i] = Math.sqrt(dx * dx + dy * dy);
  }
  const median = normal.long * medianInPlace(distances);
  if (share === 0.5) return median;
  const shape = about === "target" ? normal : withoutBias(normal);
  return median * (radiusHolding(shape, share) / radiusHolding(shape, 0.5));
}
