import { studentTail } from "../../math/student-tail.js";

/** Autocorrelations that are weighed: all that a stationary series can have, 49 even steps. */
const STEPS = 49;
const STEP = 0.04;
/** An autocorrelation this much less likely than the likeliest adds nothing to a tail. */
const NEGLIGIBLE = 1e-6;
/** A line that leaves this share of the squared spread has no scatter: the rest is rounding. */
const ROUNDING = 1e-24;
/** A quantile counts as found when its chance is met so closely. */
const QUANTILE_TOLERANCE = 1e-7;

/** What a series says of its slope: Student distributions about one slope per autocorrelation, each with its weight. */
export interface ArSlope {
  /** Chance that the slope is above `value`. */
  readonly above: (value: number) => number;
  /** The slope that is exceeded with chance 1 - `p`; `p` between 0 and 1. */
  readonly quantile: (p: number) => number;
  /** Mean of the slopes, by weight. */
  readonly slope: number;
  /** Mean autocorrelation of neighbouring values about the line, by weight. */
  readonly autocorrelation: number;
  /** Standard deviation of the values about the line, by weight. */
  readonly sd: number;
  /** Values less the two of the line. */
  readonly df: number;
}

/**
 * Slope of a line through values whose neighbours need not be independent: residuals follow e_i = phi e_(i-1) + noise. Phi is not known, and a short
 * series hardly tells it; so every phi between -1 and 1 counts, by its restricted likelihood, and the slope is the mixture over them
 * (uniform in phi, and in the logarithm of the scale). `x` in order, not all equal, at least four values; `undefined` when the line leaves no scatter.
 * All sums are quadratic in phi: O(n) once, then O(1) for each.
 */
export function arSlope(x: ArrayLike<number>, y: ArrayLike<number>): ArSlope | undefined {
  const n = x.length;
  const df = n - 2;
  const line = takeOutLine(x, y);
  if (line === undefined) return undefined;
  const { centred, rest, slope: plain } = line;
  const ones = centred.map(() => 1);
  const [oo, ox, xx] = [bilinear(ones, ones), bilinear(ones, centred), bilinear(centred, centred)];
  const [oe, xe, ee] = [bilinear(ones, rest), bilinear(centred, rest), bilinear(rest, rest)];
  const logs = new Float64Array(STEPS);
  const slopes = new Float64Array(STEPS);
  const errors = new Float64Array(STEPS);
  const spreads = new Float64Array(STEPS);
  for (let k = 0; k < STEPS; k++) {
    const phi = phiAt(k);
    const [a, b, c] = [at(oo, phi), at(ox, phi), at(xx, phi)];
    const [p, q, r] = [at(oe, phi), at(xe, phi), at(ee, phi)];
    const determinant = a * c - b * b;
    const tilt = (a * q - b * p) / determinant;
    const residual = r - ((c * p - b * q) / determinant) * p - tilt * q;
    slopes[k] = plain + tilt;
    errors[k] = Math.sqrt(((a / determinant) * residual) / df);
    spreads[k] = Math.sqrt(residual / df / (1 - phi * phi));
    logs[k] = 0.5 * Math.log((1 - phi * phi) / determinant) - 0.5 * df * Math.log(residual);
  }
  const weights = normalize(logs);
  const mean = (value: (k: number) => number): number => weights.reduce((sum, weight, k) => sum + weight * value(k), 0);
  const above = (value: number): number => {
    let chance = 0;
    for (let k = 0; k < STEPS; k++) if (weights[k]! > 0) chance += weights[k]! * upperTail((value - slopes[k]!) / errors[k]!, df);
    // the weights sum to 1 but for rounding
    return Math.min(1, chance);
  };
  const slope = mean((k) => slopes[k]!);
  const reach = mean((k) => errors[k]!);
  return {
    above,
    quantile: (p) => findQuantile(above, p, slope, reach),
    slope,
    autocorrelation: mean(phiAt),
    sd: mean((k) => spreads[k]!),
    df,
  };
}

// x less its mean, what the plain least-squares line leaves of y, and its slope
function takeOutLine(x: ArrayLike<number>, y: ArrayLike<number>): { centred: Float64Array; rest: Float64Array; slope: number } | undefined {
  const n = x.length;
  let middle = 0;
  let level = 0;
  for (let i = 0; i < n; i++) {
    middle += (x[i]! - x[0]!) / n;
    level += (y[i]! - y[0]!) / n;
  }
  const centred = Float64Array.from({ length: n }, (_, i) => x[i]! - x[0]! - middle);
  const rest = Float64Array.from({ length: n }, (_, i) => y[i]! - y[0]! - level);
  let square = 0;
  let product = 0;
  let size = y[0]! * y[0]! * n;
  for (let i = 0; i < n; i++) {
    square += centred[i]! * centred[i]!;
    product += centred[i]! * rest[i]!;
    size += rest[i]! * rest[i]!;
  }
  const slope = product / square;
  let left = 0;
  for (let i = 0; i < n; i++) {
    rest[i]! -= slope * centred[i]!;
    left += rest[i]! * rest[i]!;
  }
  return left > ROUNDING * size ? { centred, rest, slope } : undefined;
}

/** u' V^-1 v for neighbours correlated by phi, in units of the innovations: whole - phi cross + phi^2 inner. */
type Bilinear = readonly [whole: number, cross: number, inner: number];

function bilinear(u: Float64Array, v: Float64Array): Bilinear {
  const n = u.length;
  let inner = 0;
  let cross = 0;
  for (let i = 1; i < n; i++) {
    cross += u[i]! * v[i - 1]! + u[i - 1]! * v[i]!;
    if (i < n - 1) inner += u[i]! * v[i]!;
  }
  return [inner + u[0]! * v[0]! + u[n - 1]! * v[n - 1]!, cross, inner];
}

function at([whole, cross, inner]: Bilinear, phi: number): number {
  return whole - phi * (cross - phi * inner);
}

function phiAt(k: number): number {
  return STEP * (k - (STEPS - 1) / 2);
}

function normalize(logs: Float64Array): Float64Array {
  const most = logs.reduce((a, b) => Math.max(a, b));
  const weights = logs.map((value) => {
    const weight = Math.exp(value - most);
    return weight > NEGLIGIBLE ? weight : 0;
  });
  const sum = weights.reduce((a, b) => a + b);
  return weights.map((weight) => weight / sum);
}

function upperTail(t: number, df: number): number {
  const half = studentTail(t, df) / 2;
  return t > 0 ? half : 1 - half;
}

// brackets the quantile about the mean slope, then closes in by false position with halving (the Illinois rule, recalled)
function findQuantile(above: (value: number) => number, p: number, centre: number, reach: number): number {
  const short = (value: number): number => 1 - above(value) - p;
  let low = centre - reach;
  let high = centre + reach;
  for (let step = reach; short(low) > 0; step *= 2) low -= step;
  for (let step = reach; short(high) < 0; step *= 2) high += step;
  let atLow = short(low);
  let atHigh = short(high);
  const tolerance = QUANTILE_TOLERANCE * (high - low);
  let side = 0;
  while (high - low > tolerance) {
    const value = (low * atHigh - high * atLow) / (atHigh - atLow);
    const off = short(value);
    if (off === 0 || value <= low || value >= high) return value;
    if (off < 0) {
      low = value;
      atLow = off;
      if (side === -1) atHigh /= 2;
      side = -1;
    } else {
      high = value;
      atHigh = off;
      if (side === 1) atLow /= 2;
      side = 1;
    }
    if (Math.abs(off) < QUANTILE_TOLERANCE) return value;
  }
  return (low + high) / 2;
}
