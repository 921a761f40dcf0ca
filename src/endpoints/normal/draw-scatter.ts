import { drawChiSquare } from "../../math/draw-chi-square.js";
import { normalCdf, normalDensity } from "../../math/normal.js";
import { createRandom, type Random } from "../../math/random.js";
import { type PrincipalNormal, principalNormal } from "./principal-normal.js";

/** A standard normal variable stays within this, for our purposes always. */
const SURE = 7;
/** A mean seen nearer to the centre than half its standard error says no more than one at that distance; its interval would vanish. */
const NEAREST = 0.5;

/**
 * Normal scatters that could have given the mean and the covariance (n - 1) seen in `n` endpoints, at least three: what follows from each of
 * them shows what the data allow. Cost does not depend on `n`.
 *
 * The variances along the true axes have chi-squared intervals with n - 1 degrees of freedom, given the turn of these axes against those seen;
 * the turn has the density that the likelihood gives when no direction and no size of either variance is preferred (the prior
 * 1/(variance variance) of Yang and Berger 1994, recalled). So drawn axes are not further apart than the true ones, as they are with an inverse
 * Wishart distribution. The true mean follows from "mean seen = true mean + noise" by its length: the mean seen is longer than the true one by
 * chance, and draws about it would be longer still. The length drawn has its non-central interval instead, 0 where the noise explains all.
 */
export function drawScatters(normal: PrincipalNormal, n: number, count: number, seed: number): PrincipalNormal[] {
  const random = createRandom(seed);
  return Array.from({ length: count }, () => drawScatter(normal, n, random));
}

function drawScatter(normal: PrincipalNormal, n: number, random: Random): PrincipalNormal {
  const { along, across, long, short } = normal;
  // lengths in units of the longer SD, so that squares can neither overflow nor vanish
  const ratio = (short / long) ** 2;
  const [c, s] = drawTurn(ratio, n - 1, random);
  // the sum of both variances has (1 + ratio)^2/(1 + ratio^2) times n - 1 degrees of freedom, more than either: to first order in 1/n
  const total = n - 1 - (2 * ratio) / (1 + ratio * ratio);
  const first = (total * (c * c + ratio * s * s)) / drawChiSquare(random, n - 1);
  const second = (total * (s * s + ratio * c * c)) / drawChiSquare(random, n - 1);
  const xx = first * c * c + second * s * s;
  const xy = (first - second) * c * s;
  const yy = first * s * s + second * c * c;
  const mean = drawMean(along / long, across / long, xx, xy, yy, n, random);
  const drawn = principalNormal(mean, xx, xy, yy, long);
  return {
    ...drawn,
    along: drawn.along * long,
    across: drawn.across * long,
    cos: drawn.cos * normal.cos - drawn.sin * normal.sin,
    sin: drawn.cos * normal.sin + drawn.sin * normal.cos,
  };
}

/** Cosine and sine of the angle between the true axes and those seen: density (1 + k sin^2 2 angle)^(-df/2), k from the ratio of the variances seen. */
function drawTurn(ratio: number, df: number, random: Random): readonly [number, number] {
  if (ratio === 0) return [1, 0];
  const k = (1 - ratio) ** 2 / (4 * ratio);
  // (1 + k s)^(df/2) >= 1 + k s df/2: the tangent of a Cauchy variable, thinned out
  const b = (k * df) / 2;
  for (;;) {
    const angle = Math.PI * (random.uniform() - 0.5);
    const double = Math.atan2(Math.sin(angle), Math.sqrt(1 + b) * Math.cos(angle));
    const square = Math.sin(double) ** 2;
    if (random.uniform() * (1 + k * square) ** (df / 2) < 1 + b * square) {
      // both quarter turns give the same sine of twice the angle
      const turn = (random.uniform() < 0.5 ? double : double + Math.PI) / 2;
      return [Math.cos(turn), Math.sin(turn)];
    }
  }
}

/** A true mean for the mean seen (x, y) and the true covariance [[xx, xy], [xy, yy]]. */
function drawMean(x: number, y: number, xx: number, xy: number, yy: number, n: number, random: Random): readonly [number, number] {
  const root = Math.sqrt(n);
  const l11 = Math.sqrt(xx);
  const l21 = xy / l11;
  const l22 = Math.sqrt(Math.max(0, yy - l21 * l21));
  // the mean seen, in standard errors
  const w1 = (root * x) / l11;
  if (l22 === 0) return [((w1 < 0 ? -1 : 1) * drawLength(Math.max(NEAREST, Math.abs(w1)), random) * l11) / root, y];
  const w2 = (root * y - l21 * w1) / l22;
  const size = Math.sqrt(w1 * w1 + w2 * w2);
  const seen = Math.max(NEAREST, size);
  const aside = random.normal();
  // what is left of the length seen when the noise across the true mean is taken out
  const along = Math.sqrt(Math.max(0, (seen - aside) * (seen + aside)));
  const length = drawLength(along, random);
  if (along === 0 || length === 0) return [0, 0];
  const e1 = size === 0 ? 1 : w1 / size;
  const e2 = size === 0 ? 0 : w2 / size;
  const u1 = (e1 * along + e2 * aside) / seen;
  const u2 = (e2 * along - e1 * aside) / seen;
  return [(length * l11 * u1) / root, (length * (l21 * u1 + l22 * u2)) / root];
}

/** A true length for the length |true + noise| seen, standard normal noise: P(drawn > l) is the probability that l would have been seen shorter than this. */
function drawLength(seen: number, random: Random): number {
  const z = random.normal();
  if (seen > SURE) return Math.max(0, seen - z);
  const p = normalCdf(z);
  if (p >= normalCdf(seen) - normalCdf(-seen)) return 0;
  let low = 0;
  let high = seen + SURE;
  let length = Math.max(0.1, seen - z);
  // Newton's steps, halved back into the bracket; six digits are more than a draw needs
  for (let step = 0; step < 60; step++) {
    const excess = normalCdf(length + seen) - normalCdf(length - seen) - p;
    if (excess > 0) low = length;
    else high = length;
    const next = length + excess / (normalDensity(length - seen) - normalDensity(length + seen));
    const moved = next > low && next < high ? next : (low + high) / 2;
    if (Math.abs(moved - length) <= 1e-6) return moved;
    length = moved;
  }
  return length;
}
