import type { Estimate } from "../../math/estimate.js";
import { normalCdf } from "../../math/normal.js";
import { studentQuantile } from "../../math/student-quantile.js";
import type { Moments } from "../inference/moments.js";
import { insideCircle } from "../normal/inside-circle.js";
import { type PrincipalNormal, principalNormal } from "../normal/principal-normal.js";

/** Ends of the interval are found to this share of the range searched. */
const SETTLED = 1e-9;
const MOST_STEPS = 100;
/** Scatter rounder than this looks alike from every direction. */
const ROUND = 0.95;
/** Shifts of the mean along both axes, standard errors, whose directions are tried. */
const DIRECTIONS = [
  [0, 0],
  [1, 0],
  [-1, 0],
  [0, 1],
  [0, -1],
];

/**
 * Distance of the mean from zero, with the interval of the true distance. Scatter alone makes a length larger than it is; the interval undoes
 * that by asking from which true distance on a mean as near as this one is unlikely, and up to which one as far (normal scatter of the mean,
 * probabilities as Student's t has them with n - 1 degrees of freedom). With a long scatter the answer depends on the true direction: the widest
 * one from five that are within a standard error of the mean's own. A true distance of 0 is left out half as often as `level` says, for no
 * mean lies nearer than 0. Fewer than two endpoints: `tooFew`; no interval with two, or without spread.
 */
export function meanLengthEstimate({ n, mean, scale, xx, xy, yy }: Moments, unit: string, level: number): Estimate {
  if (n < 2) return { ok: false, why: "tooFew", unit, n };
  const value = Math.hypot(mean[0], mean[1]);
  const ofMean = principalNormal(mean, xx / n, xy / n, yy / n, scale);
  const { long, short, along, across } = ofMean;
  const far = -studentQuantile((1 - level) / 2, n - 1);
  if (n < 3 || !(long > 0) || !Number.isFinite(value + far * long)) return { ok: true, value, unit, n };
  const tail = normalCdf(-far);
  // a mean even nearer than half of those without bias must not make the interval vanish
  const usual = Math.max(0.6745 * long, 0.5887 * (long + short));
  let low = value;
  let high = 0;
  for (const [i, j] of short < ROUND * long ? DIRECTIONS : DIRECTIONS.slice(0, 1)) {
    const [u, v] = [along + i! * long, across + j! * short];
    const length = Math.hypot(u, v);
    const towards = length > 0 ? { ...ofMean, along: u / length, across: v / length } : { ...ofMean, along: 1, across: 0 };
    low = Math.min(low, lengthAt(towards, value, 1 - tail, low));
    const radius = Math.max(value, usual);
    high = Math.max(high, lengthAt(towards, radius, tail, radius + far * long));
  }
  return { ok: true, value, unit, n, interval: [low, high], level };
}

/**
 * The true distance towards (`along`, `across`), from 0 to `top`, from which on the mean lies within `radius` with less than `p`; 0 when it always
 * does. False position with Illinois' remedy (Dowell and Jarratt 1971, recalled): the end that stays counts half.
 */
function lengthAt(towards: PrincipalNormal, radius: number, p: number, top: number): number {
  const excess = (length: number): number => {
    return insideCircle({ ...towards, along: length * towards.along, across: length * towards.across }, radius).lower - p;
  };
  let [low, high] = [0, top];
  let [above, below] = [excess(low), excess(high)];
  if (!(above > 0)) return 0;
  if (!(below < 0)) return top;
  for (let step = 0; step < MOST_STEPS && high - low > SETTLED * top; step++) {
    const at = low + ((high - low) * above) / (above - below);
    const value = excess(at);
    if (Math.abs(value) <= SETTLED * p) return at;
    if (value > 0) {
      low = at;
      above = value;
      below /= 2;
    } else {
      high = at;
      below = value;
      above /= 2;
    }
  }
  return (low + high) / 2;
}
